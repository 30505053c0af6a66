//! The form of a rate card as it stands.

use super::{CardForm, MEASURES, ServiceForm, ServiceText};
use crate::measure::{Direction, Length, Quantity, Unit, Volume};
use crate::money::{Currency, Money, plain};
use crate::postage::{Over, RateCard, Service, Surcharge, Volumetric};
use crate::view::measures::{Units, bare};

impl CardForm {
    /// The form of a card.
    pub fn of(card: &RateCard, currency: Currency) -> Self {
        let mut services = Vec::with_capacity(card.services.len());
        for service in &card.services {
            services.push(ServiceForm::of(service, currency));
        }
        Self {
            name: card.name.clone(),
            rough: card.rough,
            mix: card.mix.iter().map(|share| percent(*share)).collect(),
            services,
        }
    }
}

/// Ten-thousandths as a percentage: 12.5 for 1,250.
fn percent(share: u32) -> String {
    let (whole, part) = (share / 100, share % 100);
    let text = format!("{whole}.{part:02}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn shown<U: Unit>(measure: Option<Quantity<U>>, unit: &str) -> String {
    measure.map_or_else(String::new, |measure| bare(&measure.to_string(), unit))
}

impl ServiceForm {
    fn of(service: &Service, currency: Currency) -> Self {
        let units = Units::of(service.unit);
        let length = |length: Option<Length>| shown(length, units.length);
        let volume = |volume: Option<Volume>| shown(volume, units.volume);
        let mut form = Self {
            unit: service.unit,
            ..Self::default()
        };
        let (limits, rounding) = (service.limits, service.rounding);
        let bulk = service.volumetric;
        let mut put = |text: ServiceText, typed: String| form.texts[text as usize] = typed;
        put(ServiceText::Name, service.name.clone());
        put(ServiceText::Heaviest, shown(limits.heaviest, units.weight));
        put(ServiceText::Longest, length(limits.longest));
        put(ServiceText::Around, length(limits.length_and_girth));
        put(ServiceText::Sum, length(limits.sum_of_sides));
        put(
            ServiceText::Round,
            shown(rounding.map(|rounding| rounding.step), units.weight),
        );
        let divisor = |bulk: Volumetric| {
            let per = volume(Some(bulk.per));
            if bulk.each == bulk.each.heavy() {
                per
            } else {
                format!("{per} per {}", bulk.each.symbol())
            }
        };
        put(ServiceText::Divisor, bulk.map(divisor).unwrap_or_default());
        put(
            ServiceText::BulkStep,
            shown(bulk.map(|bulk| bulk.rounding.step), units.heavy),
        );
        put(
            ServiceText::BulkOver,
            volume(bulk.and_then(|bulk| bulk.over)),
        );
        let is_nearest = |direction| direction == Direction::Nearest;
        form.round_nearest = rounding.is_some_and(|rounding| is_nearest(rounding.direction));
        form.bulk_nearest = bulk.is_some_and(|bulk| is_nearest(bulk.rounding.direction));
        let mut head = vec![String::new()];
        head.extend(service.zones.iter().cloned());
        form.table.push(head);
        for step in &service.steps {
            let row = vec![bare(&step.up_to.to_string(), units.weight)];
            form.table.push(priced(row, &step.prices, currency));
        }
        for flat in &service.flat {
            let row = vec![flat.container.clone(), shown(flat.heaviest, units.weight)];
            form.flat.push(priced(row, &flat.prices, currency));
        }
        for extra in &service.surcharges {
            form.extra.push(surcharge(*extra, units, currency));
        }
        form
    }
}

/// A row with its prices.
pub(super) fn priced(
    mut row: Vec<String>,
    prices: &[Option<Money>],
    currency: Currency,
) -> Vec<String> {
    for price in prices {
        row.push(price.map_or_else(String::new, |price| plain(price, currency)));
    }
    row
}

fn surcharge(extra: Surcharge, units: Units, currency: Currency) -> Vec<String> {
    let (measure, over) = match extra.over {
        Over::Longest(over) => (0, bare(&over.to_string(), units.length)),
        Over::LengthAndGirth(over) => (1, bare(&over.to_string(), units.length)),
        Over::Volume(over) => (2, bare(&over.to_string(), units.volume)),
    };
    let amount = plain(extra.amount, currency);
    vec![MEASURES[measure].0.to_owned(), over, amount]
}
