//! Rate cards and arrangements in files. The names here are for ever: never changed or reused, only added to. Read and written
//! by hand and not by derived code, which is many times as many bytes in the browser.

use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use serde_json::{Map, Value};

mod arrangement;
mod card;
mod service;

use super::arrangement::Arrangement;
use super::card::RateCard;

/// The fields of an object, taken by name. One that nobody took makes the whole unreadable.
struct Fields<'a> {
    map: &'a Map<String, Value>,
    taken: usize,
    is_bad: bool,
}

impl<'a> Fields<'a> {
    fn of(value: &'a Value) -> Option<Self> {
        let map = value.as_object()?;
        Some(Self {
            map,
            taken: 0,
            is_bad: false,
        })
    }

    /// A field that has to be there.
    fn must<T>(&mut self, name: &str, read: impl Fn(&Value) -> Option<T>) -> Option<T> {
        self.taken += 1;
        read(self.map.get(name)?)
    }

    /// A field that is left out when it says nothing. One that can't be read is told at the end.
    fn may<T>(&mut self, name: &str, read: impl Fn(&Value) -> Option<T>) -> Option<T> {
        if !self.map.contains_key(name) {
            return None;
        }
        let found = self.must(name, read);
        self.is_bad |= found.is_none();
        found
    }

    /// A list that is left out when it is empty.
    fn list<T>(&mut self, name: &str, read: fn(&Value) -> Option<T>) -> Vec<T> {
        self.may(name, |value| list(value, read))
            .unwrap_or_default()
    }

    /// Was every field taken, and read?
    fn end(self) -> Option<()> {
        (!self.is_bad && self.taken == self.map.len()).then_some(())
    }
}

/// The one name and value of an object that stands for a choice.
fn choice(value: &Value) -> Option<(&str, &Value)> {
    let map = value.as_object()?;
    let (name, inner) = map.iter().next()?;
    (map.len() == 1).then_some((name.as_str(), inner))
}

/// A value that is written as its text.
fn text<T: FromStr>(value: &Value) -> Option<T> {
    value.as_str()?.parse().ok()
}

/// A value that has a JSON form of its own.
fn plain<T: for<'de> Deserialize<'de>>(value: &Value) -> Option<T> {
    T::deserialize(value).ok()
}

fn list<T>(value: &Value, read: fn(&Value) -> Option<T>) -> Option<Vec<T>> {
    let values = value.as_array()?;
    let mut found = Vec::with_capacity(values.len());
    for value in values {
        found.push(read(value)?);
    }
    Some(found)
}

/// A pair in square brackets.
fn pair(value: &Value) -> Option<(&Value, &Value)> {
    match value.as_array()?.as_slice() {
        [first, second] => Some((first, second)),
        _ => None,
    }
}

/// An object under way.
#[derive(Default)]
struct Object(Map<String, Value>);

impl Object {
    /// With one more field.
    fn with(mut self, name: &str, value: Value) -> Self {
        self.0.insert(name.to_owned(), value);
        self
    }

    /// With one more field when it says something.
    fn with_some(self, name: &str, value: Option<Value>) -> Self {
        match value {
            Some(value) => self.with(name, value),
            None => self,
        }
    }

    /// With one more list when it isn't empty.
    fn with_list<T>(self, name: &str, all: &[T], write: fn(&T) -> Value) -> Self {
        let is_empty = all.is_empty();
        self.with_some(name, (!is_empty).then(|| write_list(all, write)))
    }

    fn done(self) -> Value {
        Value::Object(self.0)
    }
}

fn write_list<T>(all: &[T], write: fn(&T) -> Value) -> Value {
    Value::Array(all.iter().map(write).collect())
}

/// A choice with something beside it.
fn chosen(name: &str, value: Value) -> Value {
    Object::default().with(name, value).done()
}

/// A value as its text.
fn as_text<T: ToString + ?Sized>(value: &T) -> Value {
    Value::String(value.to_string())
}

impl Serialize for RateCard {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        card::write(self).serialize(to)
    }
}

impl<'de> Deserialize<'de> for RateCard {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let value = Value::deserialize(from)?;
        card::read(&value).ok_or_else(|| de::Error::custom("not a rate card that is known here"))
    }
}

impl Serialize for Arrangement {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        arrangement::write(self).serialize(to)
    }
}

impl<'de> Deserialize<'de> for Arrangement {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let value = Value::deserialize(from)?;
        arrangement::read(&value)
            .ok_or_else(|| de::Error::custom("not an arrangement that is known here"))
    }
}

#[cfg(test)]
#[path = "tests/json.rs"]
mod tests;
