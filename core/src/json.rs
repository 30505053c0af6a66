//! JSON by one way in and one way out: text ↔ value ↔ type. A type that is read from a text and from a value would be read by two
//! pieces of code, and each of them would be served to every visitor.

use serde::Serialize;
use serde::de::{DeserializeOwned, Error as _};
use serde_json::{Error, Map, Value};

/// An object: fields by their names.
pub type Object = Map<String, Value>;

/// Reads a value.
///
/// # Errors
/// When the text is no JSON.
pub fn parse(text: &str) -> Result<Value, Error> {
    serde_json::from_str(text)
}

/// Reads what [`write()`] wrote.
///
/// # Errors
/// When the text is no JSON, or says something else than a `T`.
pub fn read<T: DeserializeOwned>(text: &str) -> Result<T, Error> {
    T::deserialize(&parse(text)?)
}

/// Reads an object.
///
/// # Errors
/// When the text is no JSON, or no object.
pub fn read_object(text: &str) -> Result<Object, Error> {
    match parse(text)? {
        Value::Object(object) => Ok(object),
        _ => Err(Error::custom("this is no object")),
    }
}

/// A field that has to be there.
///
/// # Errors
/// When it is not, or is no `T`.
pub fn field<T: DeserializeOwned>(object: &Object, name: &'static str) -> Result<T, Error> {
    match object.get(name) {
        Some(value) => T::deserialize(value),
        None => Err(Error::missing_field(name)),
    }
}

/// Takes an object out of the field that holds it, without copying what it holds.
///
/// # Errors
/// When the field is not there, or holds something else.
pub fn take_object(object: &mut Object, name: &'static str) -> Result<Object, Error> {
    match object.get_mut(name).map(Value::take) {
        Some(Value::Object(inner)) => Ok(inner),
        Some(_) => Err(Error::custom(format_args!("`{name}` is no object"))),
        None => Err(Error::missing_field(name)),
    }
}

/// A field that need not be there: then `place` stays as it is.
///
/// # Errors
/// When it is there and no `T`.
pub fn fill<T: DeserializeOwned>(object: &Object, name: &str, place: &mut T) -> Result<(), Error> {
    if let Some(value) = object.get(name) {
        *place = T::deserialize(value)?;
    }
    Ok(())
}

/// What a value says, where it says a `T`.
#[must_use]
pub fn of<T: DeserializeOwned>(value: &Value) -> Option<T> {
    T::deserialize(value).ok()
}

/// Something as a value.
///
/// # Panics
/// Never for the types of this crate, which all have a JSON form.
#[must_use]
pub fn value<T: Serialize>(of: &T) -> Value {
    serde_json::to_value(of).expect("a JSON form")
}

/// A value as text.
///
/// # Panics
/// Never: a value has a JSON form.
#[must_use]
pub fn text(of: &Value) -> String {
    serde_json::to_string(of).expect("a value is JSON")
}

/// Something as text.
#[must_use]
pub fn write<T: Serialize>(of: &T) -> String {
    text(&value(of))
}

/// An object whose fields stand in an order of their own, which the format fixes. The values are JSON already; the names need no
/// escapes.
#[must_use]
pub fn ordered(fields: &[(&str, String)]) -> String {
    let mut text = String::new();
    for (name, value) in fields {
        text.push(if text.is_empty() { '{' } else { ',' });
        for part in ["\"", name, "\":", value] {
            text.push_str(part);
        }
    }
    text.push('}');
    text
}

/// Reads and writes a choice by its word in files, which is for ever. A word that this version does not know is unreadable. By hand:
/// what the library derives is many times as many bytes.
macro_rules! words {
    ($choice:ident: $($variant:ident $word:literal)*) => {
        impl serde::Serialize for $choice {
            fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
                out.serialize_str(match self {
                    $(Self::$variant => $word,)*
                })
            }
        }

        impl<'de> serde::Deserialize<'de> for $choice {
            fn deserialize<D: serde::Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
                match String::deserialize(input)?.as_str() {
                    $($word => Ok(Self::$variant),)*
                    other => Err(serde::de::Error::custom(format_args!("`{other}` is none of its words"))),
                }
            }
        }
    };
}
pub(crate) use words;

/// Reads a form of texts: every field by its name, and one that is missing as it is in an empty form.
macro_rules! read_form {
    ($form:ident: $($field:ident)*) => {
        impl TryFrom<$crate::json::Object> for $form {
            type Error = serde_json::Error;
            fn try_from(object: $crate::json::Object) -> Result<Self, Self::Error> {
                let mut form = Self::default();
                $($crate::json::fill(&object, stringify!($field), &mut form.$field)?;)*
                Ok(form)
            }
        }
    };
}
pub(crate) use read_form;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_are_read_where_they_are_and_missed_where_they_are_not() {
        let object: Object = read(r#"{"ask":"6","likely":26}"#).unwrap();
        assert_eq!(field::<String>(&object, "ask").unwrap(), "6");
        assert!(field::<String>(&object, "likely").is_err());
        assert!(field::<String>(&object, "low").is_err());
        let mut place = 7;
        fill(&object, "low", &mut place).unwrap();
        assert_eq!(place, 7);
        fill(&object, "likely", &mut place).unwrap();
        assert_eq!(place, 26);
        assert!(fill(&object, "ask", &mut place).is_err());
    }

    #[test]
    fn an_object_is_taken_where_it_is_one() {
        let mut object: Object = read(r#"{"set":{"a":1},"ask":"6"}"#).unwrap();
        assert!(take_object(&mut object, "low").is_err());
        assert!(take_object(&mut object, "ask").is_err());
        let set = take_object(&mut object, "set").unwrap();
        assert_eq!(text(&Value::Object(set)), r#"{"a":1}"#);
    }

    #[test]
    fn ordered_fields_stand_as_given() {
        let fields = [("b", write(&"\"")), ("a", write(&[1, 2]))];
        assert_eq!(ordered(&fields), r#"{"b":"\"","a":[1,2]}"#);
    }
}
