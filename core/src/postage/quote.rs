//! What a parcel costs to post, in its lines.

use crate::measure::{ParcelSize, Weight};
use crate::money::{Money, weighted_mean};

use super::billable::billing;
use super::card::{Over, RateCard, Service, Surcharge};
use super::hint::{Hint, hint};
use super::refused::Refused;

/// What is to be posted: all of it, container and padding included.
#[derive(Clone, Copy, Debug)]
pub struct Parcel<'a> {
    /// Its weight.
    pub weight: Weight,
    /// Its size. Unknown: what goes by size is left out, and the quote is rough.
    pub size: Option<ParcelSize>,
    /// The name of its container, for those that go at a flat price.
    pub container: Option<&'a str>,
}

/// Where to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum To {
    /// A zone of the card, by its place.
    Zone(usize),
    /// A buyer who is not known yet: the mean over the zone mix.
    Mix,
}

/// A price in its lines, which sum to the total.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quote {
    /// The lines.
    pub lines: Vec<Line>,
    /// What it costs: in the zone, or as expected over the mix.
    pub total: Money,
    /// What it costs as expected over the mix, where there is one and every likely zone is offered.
    pub expected: Option<Money>,
    /// What it costs to the far zone, where that is offered.
    pub far: Option<Money>,
    /// The weight that is billed. At a flat price: the actual one.
    pub billable: Weight,
    /// Whether the volume decided the billable weight.
    pub by_volume: bool,
    /// Whether it rests on a rough card, or on a size that isn't known.
    pub rough: bool,
    /// What a little weight would change.
    pub hint: Option<Hint>,
}

/// One line of a quote.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What it is for.
    pub what: What,
    /// So much.
    pub amount: Money,
}

/// What a line of a quote is for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// The table's price up to a weight.
    UpTo(Weight),
    /// A container at a flat price, by its name.
    Flat(String),
    /// A surcharge for size.
    Surcharge(Over),
}

/// What a service asks for a parcel.
///
/// # Errors
/// [`Refused`]: there is never a price for what the service doesn't take, nor over a mix with a zone that it doesn't serve.
pub fn quote(
    card: &RateCard,
    service: &Service,
    parcel: &Parcel<'_>,
    to: To,
) -> Result<Quote, Refused> {
    let flat = parcel
        .container
        .and_then(|name| service.flat.iter().find(|flat| flat.container == name));
    if let Some(flat) = flat {
        if let Some(most) = flat.heaviest
            && parcel.weight.ticks() > most.ticks()
        {
            return Err(Refused::TooHeavy { most });
        }
        let price = priced(card, service, &flat.prices, to)?;
        let what = What::Flat(flat.container.clone());
        let lines = vec![Line {
            what,
            amount: price,
        }];
        let rough = card.rough;
        let quote = add_up(card, service, &flat.prices, lines, parcel.weight);
        return Ok(Quote { rough, ..quote });
    }
    if let Some(size) = parcel.size {
        within(service, size)?;
    }
    let billing = billing(parcel.weight, parcel.size, service)?;
    let prices = &service.steps[billing.step].prices;
    let price = priced(card, service, prices, to)?;
    let mut lines = vec![Line {
        what: What::UpTo(billing.weight),
        amount: price,
    }];
    for extra in surcharges(service, parcel.size) {
        lines.push(Line {
            what: What::Surcharge(extra.over),
            amount: extra.amount,
        });
    }
    let at = |step: usize| {
        let step = service.steps.get(step)?;
        priced(card, service, &step.prices, to).ok()
    };
    let hint = hint(service, &billing, parcel.weight, &at);
    Ok(Quote {
        by_volume: billing.by_volume,
        rough: card.rough || (parcel.size.is_none() && service.goes_by_size()),
        hint,
        ..add_up(card, service, prices, lines, billing.weight)
    })
}

/// The cheapest service for a parcel, by its place on the card; of equals the first.
///
/// # Errors
/// Why each service refuses it, in the card's order.
pub fn best(card: &RateCard, parcel: &Parcel<'_>, to: To) -> Result<(usize, Quote), Vec<Refused>> {
    let mut cheapest: Option<(usize, Quote)> = None;
    let mut refusals = Vec::new();
    for (at, service) in card.services.iter().enumerate() {
        match quote(card, service, parcel, to) {
            Ok(quote) => {
                if cheapest
                    .as_ref()
                    .is_none_or(|(_, found)| quote.total < found.total)
                {
                    cheapest = Some((at, quote));
                }
            }
            Err(refusal) => refusals.push(refusal),
        }
    }
    cheapest.ok_or(refusals)
}

/// Is a parcel within the limits of size?
fn within(service: &Service, size: ParcelSize) -> Result<(), Refused> {
    let limits = service.limits;
    if let Some(most) = limits.longest
        && size.longest() > most.ticks()
    {
        return Err(Refused::TooLong { most });
    }
    if let Some(most) = limits.length_and_girth
        && size.length_and_girth() > most.ticks()
    {
        return Err(Refused::TooLarge { most });
    }
    if let Some(most) = limits.sum_of_sides
        && size.sum_of_sides() > most.ticks()
    {
        return Err(Refused::TooWide { most });
    }
    Ok(())
}

/// The price out of a line of the table.
fn priced(
    card: &RateCard,
    service: &Service,
    prices: &[Option<Money>],
    to: To,
) -> Result<Money, Refused> {
    let offered = |column: usize| {
        let zone = || service.zones.get(column).cloned().unwrap_or_default();
        let price = prices.get(column).copied().flatten();
        price.ok_or_else(|| Refused::NotOffered { zone: zone() })
    };
    match to {
        To::Zone(zone) => offered(service.column(zone).ok_or(Refused::NoZone)?),
        To::Mix if service.zones.len() == 1 => offered(0),
        To::Mix => {
            if card.mix.len() != service.zones.len() {
                return Err(Refused::NoMix);
            }
            let mut parts = Vec::new();
            for (column, share) in card.mix.iter().enumerate() {
                if *share > 0 {
                    parts.push((offered(column)?, *share));
                }
            }
            weighted_mean(&parts).ok_or(Refused::NoMix)
        }
    }
}

/// The surcharges that a size brings: of those by one measure the one from furthest on.
fn surcharges(service: &Service, size: Option<ParcelSize>) -> Vec<&Surcharge> {
    let mut found: Vec<&Surcharge> = Vec::new();
    let Some(size) = size else {
        return found;
    };
    for extra in &service.surcharges {
        if !extra.over.holds(size) {
            continue;
        }
        let measure = extra.over.measure();
        match found.iter().position(|one| one.over.measure() == measure) {
            Some(at) if found[at].over.ticks() < extra.over.ticks() => found[at] = extra,
            Some(_) => {}
            None => found.push(extra),
        }
    }
    found
}

/// A quote of these lines, with what it would be over the mix and to the far zone.
fn add_up(
    card: &RateCard,
    service: &Service,
    prices: &[Option<Money>],
    lines: Vec<Line>,
    billable: Weight,
) -> Quote {
    let extras: Money = lines.iter().skip(1).map(|line| line.amount).sum();
    let with_extras = |price: Money| price.plus(extras);
    let far = service.zones.len().saturating_sub(1);
    let over = |to| priced(card, service, prices, to).ok().map(with_extras);
    Quote {
        total: lines.iter().map(|line| line.amount).sum(),
        lines,
        expected: over(To::Mix),
        far: over(To::Zone(far)),
        billable,
        by_volume: false,
        rough: false,
        hint: None,
    }
}
