//! What all forms have in common, so that one machine of the app serves them.

use super::complaint::Complaint;
use serde_json::Value;

/// A form of texts: typed, kept in this device's notes until it is saved, and read.
pub trait Form: Clone + PartialEq + 'static {
    /// Which field.
    type Input: Copy + PartialEq + 'static;

    /// The text of a field; `None` where the field has none, or isn't there any more.
    fn text(&self, input: Self::Input) -> Option<&String>;

    /// The text of a field, to be changed.
    fn text_mut(&mut self, input: Self::Input) -> Option<&mut String>;

    /// Types into a field; nothing happens where there is none.
    fn set(&mut self, input: Self::Input, typed: String) {
        if let Some(place) = self.text_mut(input) {
            *place = typed;
        }
    }

    /// As it stands in the notes.
    fn to_json(&self) -> Value;

    /// Reads it back; `None` when it is none of this version's.
    fn from_json(value: &Value) -> Option<Self>;
}

/// All that is wrong with a form, field by field.
pub type Faults<F> = Vec<Complaint<<F as Form>::Input>>;

/// The JSON of a form that has one of its own.
macro_rules! form_json {
    () => {
        fn to_json(&self) -> serde_json::Value {
            $crate::json::value(self)
        }

        fn from_json(value: &serde_json::Value) -> Option<Self> {
            $crate::json::of(value)
        }
    };
}
pub(in crate::view) use form_json;
