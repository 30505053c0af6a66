//! The half-typed forms of rate cards, containers and kinds, as this device's notes hold them.

use super::card_form::CardForm;
use super::pack_form::PackForm;
use crate::json::{self, Object};
use serde::Deserialize;
use serde_json::Value;

/// One of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SetupForm {
    /// Of a rate card.
    Card(CardForm),
    /// Of a container or a kind.
    Pack(PackForm),
}

impl SetupForm {
    /// As a value: its name and itself.
    pub fn to_json(&self) -> Value {
        let (name, value) = match self {
            Self::Card(form) => ("card", form.to_json()),
            Self::Pack(form) => ("pack", json::value(form)),
        };
        let mut object = Object::new();
        object.insert(name.to_owned(), value);
        Value::Object(object)
    }

    /// Reads it back; `None` when it is none of this version's.
    pub fn from_json(value: &Value) -> Option<Self> {
        let (name, value) = value.as_object()?.iter().next()?;
        match name.as_str() {
            "card" => CardForm::from_json(value).map(Self::Card),
            "pack" => PackForm::deserialize(value).ok().map(Self::Pack),
            _ => None,
        }
    }
}
