//! Services: `{"name":"Parcel","unit":"oz","zones":["1","2"],"steps":[["8 oz",[450,null]]],...}`; what says nothing is left out.

use serde_json::Value;

use super::{Fields, Object, as_text, choice, chosen, list, pair, plain, text, write_list};
use crate::measure::{Direction, Unit, WeightUnit};
use crate::money::Money;
use crate::postage::{FlatPrice, Limits, Over, Rounding, Service, Step, Surcharge, Volumetric};

pub(super) fn read(value: &Value) -> Option<Service> {
    let mut fields = Fields::of(value)?;
    let service = Service {
        name: fields.must("name", plain)?,
        unit: fields.must("unit", unit)?,
        zones: fields.must("zones", |value| list(value, plain))?,
        steps: fields.list("steps", step),
        limits: Limits {
            longest: fields.may("longest", text),
            length_and_girth: fields.may("length_and_girth", text),
            sum_of_sides: fields.may("sum_of_sides", text),
            heaviest: fields.may("heaviest", text),
        },
        volumetric: fields.may("volumetric", volumetric),
        rounding: fields.may("round", rounding),
        surcharges: fields.list("surcharges", surcharge),
        flat: fields.list("flat", flat),
    };
    fields.end().map(|()| service)
}

pub(super) fn write(service: &Service) -> Value {
    let limits = service.limits;
    Object::default()
        .with("name", as_text(&service.name))
        .with("unit", as_text(service.unit.symbol()))
        .with("zones", write_list(&service.zones, as_text))
        .with_list("steps", &service.steps, write_step)
        .with_some("longest", limits.longest.as_ref().map(as_text))
        .with_some(
            "length_and_girth",
            limits.length_and_girth.as_ref().map(as_text),
        )
        .with_some("sum_of_sides", limits.sum_of_sides.as_ref().map(as_text))
        .with_some("heaviest", limits.heaviest.as_ref().map(as_text))
        .with_some("volumetric", service.volumetric.map(write_volumetric))
        .with_some("round", service.rounding.map(|one| rounded(one).done()))
        .with_list("surcharges", &service.surcharges, write_surcharge)
        .with_list("flat", &service.flat, write_flat)
        .done()
}

fn unit(value: &Value) -> Option<WeightUnit> {
    let symbol = value.as_str()?;
    WeightUnit::ALL
        .iter()
        .copied()
        .find(|unit| unit.symbol() == symbol)
}

/// Prices, with a null where there is none.
fn prices(value: &Value) -> Option<Vec<Option<Money>>> {
    list(value, plain)
}

fn write_prices(prices: &[Option<Money>]) -> Value {
    write_list(prices, |price| {
        price.map_or(Value::Null, |price| price.minor().into())
    })
}

fn step(value: &Value) -> Option<Step> {
    let (up_to, prices) = pair(value)?;
    Some(Step {
        up_to: text(up_to)?,
        prices: self::prices(prices)?,
    })
}

fn write_step(step: &Step) -> Value {
    let prices = write_prices(&step.prices);
    Value::Array(vec![as_text(&step.up_to), prices])
}

/// The step and the direction, which is up unless it is said.
fn rounding_of(fields: &mut Fields<'_>) -> Option<Rounding> {
    let direction = |value: &Value| match value.as_str() {
        Some("up") => Some(Direction::Up),
        Some("nearest") => Some(Direction::Nearest),
        _ => None,
    };
    Some(Rounding {
        step: fields.must("step", text)?,
        direction: fields.may("direction", direction).unwrap_or_default(),
    })
}

fn rounding(value: &Value) -> Option<Rounding> {
    let mut fields = Fields::of(value)?;
    let rounding = rounding_of(&mut fields)?;
    fields.end().map(|()| rounding)
}

fn rounded(rounding: Rounding) -> Object {
    let nearest = match rounding.direction {
        Direction::Up => None,
        Direction::Nearest => Some(as_text("nearest")),
    };
    Object::default()
        .with("step", as_text(&rounding.step))
        .with_some("direction", nearest)
}

fn volumetric(value: &Value) -> Option<Volumetric> {
    let mut fields = Fields::of(value)?;
    let (per, rounding) = (fields.must("per", text)?, rounding_of(&mut fields)?);
    let meant = Volumetric::unit_meant(per, rounding.step.unit());
    let volumetric = Volumetric {
        per,
        each: fields.may("each", unit).unwrap_or(meant),
        rounding,
        over: fields.may("over", text),
    };
    fields
        .end()
        .filter(|()| volumetric.is_of_one_system())
        .map(|()| volumetric)
}

fn write_volumetric(volumetric: Volumetric) -> Value {
    let Volumetric {
        per,
        each,
        rounding,
        ..
    } = volumetric;
    let step = rounding.step.unit();
    // Left out only where every version reads the same without it.
    let is_plain = each == step && each == Volumetric::unit_meant(per, step);
    rounded(rounding)
        .with("per", as_text(&per))
        .with_some("each", (!is_plain).then(|| as_text(each.symbol())))
        .with_some("over", volumetric.over.as_ref().map(as_text))
        .done()
}

fn surcharge(value: &Value) -> Option<Surcharge> {
    let mut fields = Fields::of(value)?;
    let surcharge = Surcharge {
        over: fields.must("over", over)?,
        amount: fields.must("amount", plain)?,
    };
    fields.end().map(|()| surcharge)
}

fn write_surcharge(surcharge: &Surcharge) -> Value {
    Object::default()
        .with("over", write_over(surcharge.over))
        .with("amount", surcharge.amount.minor().into())
        .done()
}

fn over(value: &Value) -> Option<Over> {
    match choice(value)? {
        ("longest", most) => text(most).map(Over::Longest),
        ("length_and_girth", most) => text(most).map(Over::LengthAndGirth),
        ("volume", most) => text(most).map(Over::Volume),
        _ => None,
    }
}

fn write_over(over: Over) -> Value {
    match over {
        Over::Longest(most) => chosen("longest", as_text(&most)),
        Over::LengthAndGirth(most) => chosen("length_and_girth", as_text(&most)),
        Over::Volume(most) => chosen("volume", as_text(&most)),
    }
}

fn flat(value: &Value) -> Option<FlatPrice> {
    let mut fields = Fields::of(value)?;
    let flat = FlatPrice {
        container: fields.must("container", plain)?,
        prices: fields.must("prices", prices)?,
        heaviest: fields.may("heaviest", text),
    };
    fields.end().map(|()| flat)
}

fn write_flat(flat: &FlatPrice) -> Value {
    Object::default()
        .with("container", as_text(&flat.container))
        .with("prices", write_prices(&flat.prices))
        .with_some("heaviest", flat.heaviest.as_ref().map(as_text))
        .done()
}
