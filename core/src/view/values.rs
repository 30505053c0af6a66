//! Values of fields in the trade's words, by the types of the table of kinds: so a kind that is added later has words at once.

use super::clock::time;
use super::named::named;
use crate::book::{Expected, State};
use crate::change::{GONE, RecordKey};
use crate::json::{self, of};
use crate::kind::RecordKind;
use crate::ledger::{Moved, Paying};
use crate::lot::Method;
use crate::measure::{DistanceUnit, ParcelSize, System, Weight};
use crate::money::{Currency, Money, Rate, plain};
use crate::packing::{Form, Fragility};
use crate::postage::{Arrangement, LabelPrice, RateCard};
use crate::terms::{Amount, Regions, Schedule};
use crate::trip::Manner;
use crate::worth::Sells;
use serde_json::Value;
use uuid::Uuid;

/// A value as text. What has no words of its own, or only words of a later version, is shown as it is written.
pub(super) fn value(state: &State, kind: &RecordKind, field: &str, value: &Value) -> String {
    let Some(currency) = state.currency() else {
        return json::text(value);
    };
    let is_yes_or_no = value.is_null() || value.is_boolean();
    if field == GONE || is_yes_or_no && (kind, field) == (&RecordKind::Thing, "kept") {
        let is_so = *value == Value::Bool(true);
        return if is_so { "yes" } else { "no" }.to_owned();
    }
    if value.is_null() {
        return "empty".to_owned();
    }
    let words = kind
        .field(field)
        .and_then(|field| words(state, currency, field.of, value));
    words.unwrap_or_else(|| match value {
        Value::String(text) => text.clone(),
        other => json::text(other),
    })
}

fn words(state: &State, currency: Currency, of_type: &str, value: &Value) -> Option<String> {
    let money = |money: Money| plain(money, currency);
    Some(match of_type {
        "Money" => money(of(value)?),
        "Rate" => percent(of(value)?),
        "bool" => if of(value)? { "yes" } else { "no" }.to_owned(),
        "At" => time(of(value)?),
        "Weight" => of::<Weight>(value)?.shown(state.units()),
        "ParcelSize" => of::<ParcelSize>(value)?.shown(state.units()),
        "Method" => of::<Method>(value)?.word().to_owned(),
        "Paying" => of::<Paying>(value)?.word().to_owned(),
        "Moved" => moved(of(value)?).to_owned(),
        "Manner" => of::<Manner>(value)?.sentence(),
        "Multiple" => of::<crate::appraise::Multiple>(value)?.to_string(),
        "System" => match of(value)? {
            System::OuncesInches => "ounces and inches".to_owned(),
            System::GramsCentimetres => "grams and centimetres".to_owned(),
        },
        "DistanceUnit" => match of(value)? {
            DistanceUnit::Mile => "miles".to_owned(),
            DistanceUnit::Kilometre => "kilometres".to_owned(),
        },
        "Form" => match of(value)? {
            Form::Mailer => "mailer".to_owned(),
            Form::Carton => "carton".to_owned(),
        },
        "Fragility" => match of(value)? {
            Fragility::Sturdy => "not easily".to_owned(),
            Fragility::Fragile => "it may break".to_owned(),
            Fragility::VeryFragile => "very easily".to_owned(),
        },
        "Sells" => sells(of(value)?, currency),
        "Expected" => {
            let expected: Expected = of(value)?;
            let (ask, keep) = (money(expected.ask), money(expected.keep));
            format!("{} at {ask}, you keep {keep}", expected.verdict.word())
        }
        "Arrangement" => arrangement(&of(value)?, currency),
        "Regions" => regions(&of(value)?),
        "Schedule" => schedule(&of(value)?, currency),
        "RateCard" => card(&of(value)?, currency),
        // A link, by the name of what it leads to; and what says itself, such as a text.
        other => {
            let kind = RecordKind::of_ids(other)?;
            let id = of::<Uuid>(value)?;
            named(state, &RecordKey { kind, id })
        }
    })
}

fn percent(rate: Rate) -> String {
    format!("{rate} %")
}

const fn moved(what: Moved) -> &'static str {
    match what {
        Moved::TookOut => "cash taken along",
        Moved::OtherSpent => "cash spent",
        Moved::Sold => "sold for cash",
        Moved::Counted => "counted",
    }
}

fn sells(sells: Sells, currency: Currency) -> String {
    let prices = [sells.low(), sells.likely(), sells.high()];
    let [low, likely, high] = prices.map(|price| plain(price, currency));
    if low == high {
        likely
    } else {
        format!("{likely} (low {low}, high {high})")
    }
}

fn arrangement(of: &Arrangement, currency: Currency) -> String {
    let money = |money: Money| plain(money, currency);
    match of {
        Arrangement::HandedOver => "handed over".to_owned(),
        Arrangement::BuyerAtCost => "the buyer, at cost".to_owned(),
        Arrangement::SellerPays => "you".to_owned(),
        Arrangement::Stated(sum) => format!("the buyer pays {}", money(*sum)),
        Arrangement::Label { price, .. } => match price {
            LabelPrice::Flat(price) => format!("the venue\u{2019}s label at {}", money(*price)),
            LabelPrice::Bands(bands) => {
                let prices: Vec<String> = bands.iter().map(|(_, price)| money(*price)).collect();
                format!("the venue\u{2019}s label by weight: {}", prices.join(", "))
            }
        },
        Arrangement::FreeFrom { sum, below } => {
            let below = arrangement(below, currency);
            format!("free from {}, under it {below}", money(*sum))
        }
    }
}

fn regions(of: &Regions) -> String {
    let each = of.0.iter().map(|(name, share)| format!("{name} {share} %"));
    each.collect::<Vec<_>>().join(", ")
}

fn schedule(of: &Schedule, currency: Currency) -> String {
    let mut lines = Vec::new();
    for charge in &of.charges {
        let amount = match &charge.amount {
            Amount::Percent(rate) => percent(*rate),
            Amount::Flat(sum) => plain(*sum, currency),
            other => format!("{} steps", other.steps().len()),
        };
        lines.push(format!("{} {amount}", charge.label));
    }
    if lines.is_empty() {
        "nothing".to_owned()
    } else {
        lines.join(", ")
    }
}

fn card(card: &RateCard, currency: Currency) -> String {
    let mut services = Vec::new();
    for service in &card.services {
        let first = service.steps.first().and_then(|step| step.prices.first());
        let from = first.copied().flatten();
        let from = from.map_or_else(String::new, |price| {
            format!(", from {}", plain(price, currency))
        });
        let steps = service.steps.len();
        services.push(format!("{} ({steps} steps{from})", service.name));
    }
    format!("{}: {}", card.name, services.join(", "))
}
