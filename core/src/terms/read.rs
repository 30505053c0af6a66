//! Reading a schedule from its text. Written by hand rather than derived: the derived readers of so many small types would
//! be a good part of what a browser has to load.
//!
//! Whatever isn't known is refused, never skipped: see [`Schedule`].

use serde::de::{DeserializeOwned, Error as _};
use serde::{Deserialize, Deserializer};
use serde_json::{Map, Value};

use super::{Amount, Base, Charge, Group, Period, Positions, Refund, Schedule, Scope, Step, When};

/// What can't be read, in a few words for a log.
type Read<T> = Result<T, &'static str>;

impl<'de> Deserialize<'de> for Schedule {
    fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        schedule(&Value::deserialize(input)?).map_err(D::Error::custom)
    }
}

impl<'de> Deserialize<'de> for Base {
    fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        base(&Value::deserialize(input)?).map_err(D::Error::custom)
    }
}

/// A number, a text, an id: whatever reads itself.
fn plain<T: DeserializeOwned>(value: &Value) -> Read<T> {
    T::deserialize(value).map_err(|_| "a value of the terms can't be read")
}

fn fields(value: &Value) -> Read<&Map<String, Value>> {
    value.as_object().ok_or("a part of the terms has no fields")
}

fn list<T>(value: &Value, one: fn(&Value) -> Read<T>) -> Read<Vec<T>> {
    let values = value.as_array().ok_or("a part of the terms is no list")?;
    let mut list = Vec::with_capacity(values.len());
    for value in values {
        list.push(one(value)?);
    }
    Ok(list)
}

/// A choice: a name alone, or a name with what belongs to it.
fn choice(value: &Value) -> Read<(&str, &Value)> {
    match value {
        Value::String(name) => Ok((name, &Value::Null)),
        Value::Object(map) if map.len() == 1 => map
            .iter()
            .next()
            .map(|(name, value)| (name.as_str(), value))
            .ok_or(UNKNOWN),
        _ => Err(UNKNOWN),
    }
}

const UNKNOWN: &str = "the terms say something that this version doesn't know";
const MISSING: &str = "the terms lack something";

fn schedule(value: &Value) -> Read<Schedule> {
    let (mut charges, mut groups) = (None, Vec::new());
    for (name, value) in fields(value)? {
        match name.as_str() {
            "charges" => charges = Some(list(value, charge)?),
            "groups" => groups = list(value, group)?,
            _ => return Err(UNKNOWN),
        }
    }
    let charges = charges.ok_or(MISSING)?;
    Ok(Schedule { charges, groups })
}

fn charge(value: &Value) -> Read<Charge> {
    let mut read = Charge::new("", Base::Price, Amount::Brackets(Vec::new()));
    let (mut has_label, mut has_amount) = (false, false);
    for (name, value) in fields(value)? {
        match name.as_str() {
            "label" => (read.label, has_label) = (plain(value)?, true),
            "base" => read.base = base(value)?,
            "amount" => (read.amount, has_amount) = (amount(value)?, true),
            "scope" => read.scope = scope(value)?,
            "least" => read.least = Some(plain(value)?),
            "most" => read.most = Some(plain(value)?),
            "when" => read.when = when(value)?,
            "owed_unsold" => read.owed_unsold = plain(value)?,
            "refund" => read.refund = refund(value)?,
            _ => return Err(UNKNOWN),
        }
    }
    if has_label && has_amount {
        Ok(read)
    } else {
        Err(MISSING)
    }
}

fn group(value: &Value) -> Read<Group> {
    let mut read = Group {
        label: String::new(),
        charges: Positions::default(),
        least: None,
        most: None,
    };
    let (mut has_label, mut has_charges) = (false, false);
    for (name, value) in fields(value)? {
        match name.as_str() {
            "label" => (read.label, has_label) = (plain(value)?, true),
            "charges" => (read.charges, has_charges) = (positions(value)?, true),
            "least" => read.least = Some(plain(value)?),
            "most" => read.most = Some(plain(value)?),
            _ => return Err(UNKNOWN),
        }
    }
    if has_label && has_charges {
        Ok(read)
    } else {
        Err(MISSING)
    }
}

fn base(value: &Value) -> Read<Base> {
    match choice(value)? {
        ("price", Value::Null) => Ok(Base::Price),
        ("price_and_post", Value::Null) => Ok(Base::PriceAndPost),
        ("order_total", rate) => plain(rate).map(Base::OrderTotal),
        ("charges", places) => positions(places).map(Base::Charges),
        _ => Err(UNKNOWN),
    }
}

fn positions(value: &Value) -> Read<Positions> {
    let places = list(value, |place| {
        let place = place.as_u64().and_then(|place| usize::try_from(place).ok());
        place.ok_or(UNKNOWN)
    })?;
    Positions::of(&places).ok_or(UNKNOWN)
}

fn amount(value: &Value) -> Read<Amount> {
    match choice(value)? {
        ("percent", rate) => plain(rate).map(Amount::Percent),
        ("flat", flat) => plain(flat).map(Amount::Flat),
        ("brackets", steps) => list(steps, step).map(Amount::Brackets),
        ("slices", steps) => list(steps, step).map(Amount::Slices),
        ("tiers", value) => tiers(value),
        _ => Err(UNKNOWN),
    }
}

fn tiers(value: &Value) -> Read<Amount> {
    let (mut by, mut steps) = (None, None);
    for (name, value) in fields(value)? {
        match (name.as_str(), value.as_str()) {
            ("by", Some("month")) => by = Some(Period::Month),
            ("by", Some("year")) => by = Some(Period::Year),
            ("steps", _) => steps = Some(list(value, step)?),
            _ => return Err(UNKNOWN),
        }
    }
    let by = by.ok_or(MISSING)?;
    let steps = steps.ok_or(MISSING)?;
    Ok(Amount::Tiers { by, steps })
}

fn step(value: &Value) -> Read<Step> {
    let mut read = Step::default();
    for (name, value) in fields(value)? {
        match name.as_str() {
            "from" => read.from = plain(value)?,
            "percent" => read.percent = plain(value)?,
            "flat" => read.flat = plain(value)?,
            _ => return Err(UNKNOWN),
        }
    }
    Ok(read)
}

fn scope(value: &Value) -> Read<Scope> {
    match value.as_str() {
        Some("thing") => Ok(Scope::Thing),
        Some("order") => Ok(Scope::Order),
        Some("parcel") => Ok(Scope::Parcel),
        Some("listing") => Ok(Scope::Listing),
        Some("month") => Ok(Scope::Month),
        _ => Err(UNKNOWN),
    }
}

fn refund(value: &Value) -> Read<Refund> {
    match choice(value)? {
        ("kept", Value::Null) => Ok(Refund::Kept),
        ("returned", Value::Null) => Ok(Refund::Returned),
        ("returned_less", flat) => plain(flat).map(Refund::ReturnedLess),
        _ => Err(UNKNOWN),
    }
}

fn when(value: &Value) -> Read<When> {
    let mut read = When::default();
    for (name, value) in fields(value)? {
        match name.as_str() {
            "from" => read.from = Some(plain(value)?),
            "below" => read.below = Some(plain(value)?),
            "kinds" => read.kinds = list(value, plain)?,
            "promoted" => read.promoted = Some(plain(value)?),
            "regions" => read.regions = list(value, plain)?,
            _ => return Err(UNKNOWN),
        }
    }
    Ok(read)
}
