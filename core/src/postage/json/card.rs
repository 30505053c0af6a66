//! Rate cards: `{"name":"Northmail","rough":true,"mix":[...],"services":[...]}`; what says nothing is left out.

use serde_json::Value;

use super::{Fields, Object, as_text, list, plain, service, write_list};
use crate::postage::RateCard;

pub(super) fn read(value: &Value) -> Option<RateCard> {
    let mut fields = Fields::of(value)?;
    let card = RateCard {
        name: fields.must("name", plain)?,
        rough: fields.may("rough", Value::as_bool).unwrap_or(false),
        mix: fields.list("mix", plain),
        services: fields.must("services", |all| list(all, service::read))?,
    };
    fields.end().map(|()| card)
}

pub(super) fn write(card: &RateCard) -> Value {
    Object::default()
        .with("name", as_text(&card.name))
        .with_some("rough", card.rough.then_some(Value::Bool(true)))
        .with_list("mix", &card.mix, |share| (*share).into())
        .with("services", write_list(&card.services, service::write))
        .done()
}
