//! The macro behind the table of kinds: from one declaration come a record's struct, its edits, and its JSON both ways.

use crate::change::{Fields, Rule};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// What every kind of record can do.
pub trait Record: Clone + Default + PartialEq {
    /// The kind's name in files, for ever.
    const KIND: &'static str;

    /// Sets a field from a value as it stands in a change. `null`, and a value that this version cannot read, leave the field unset;
    /// the change itself is kept, so a later version reads it.
    fn put(&mut self, field: &str, value: &Value);

    /// The fields that are set.
    fn fields(&self) -> Fields;

    /// What happens to a field's clashing values.
    fn rule(field: &str) -> Rule;

    /// Whether the record was taken away.
    fn is_gone(&self) -> bool;
}

pub(super) fn read<T: DeserializeOwned>(value: &Value) -> Option<T> {
    T::deserialize(value).ok()
}

pub(super) fn write<T: Serialize>(value: &T) -> Value {
    serde_json::to_value(value).expect("field types have a JSON form")
}

/// Declares the kinds. For each: its name in files, its struct, its id, its edits; then each field with its type, the rule for
/// clashing values, and the format version that brought it.
macro_rules! kinds {
    ($(
        $(#[$doc:meta])*
        $kind:literal $table:ident $name:ident $id:ident $edit:ident {$(
            $(#[$field_doc:meta])*
            $field:ident $variant:ident: $type:ty, $rule:ident, since $since:literal;
        )*}
    )*) => {
        $(
            $(#[$doc])*
            #[derive(Clone, Debug, Default, PartialEq)]
            pub struct $name {
                $($(#[$field_doc])* pub $field: Option<$type>,)*
                /// Whether the record was taken away.
                pub gone: bool,
            }

            #[doc = concat!("One edit to a ", $kind, ": a field and its new value, `None` to clear it.")]
            #[derive(Clone, Debug, PartialEq)]
            pub enum $edit {
                $($(#[$field_doc])* $variant(Option<$type>),)*
                /// Takes the record away, or brings it back.
                Gone(bool),
            }

            impl Record for $name {
                const KIND: &'static str = $kind;

                fn put(&mut self, field: &str, value: &Value) {
                    match field {
                        $(stringify!($field) => self.$field = read(value),)*
                        "gone" => self.gone = value == &Value::Bool(true),
                        _ => {}
                    }
                }

                fn fields(&self) -> Fields {
                    let mut fields = Fields::new();
                    $(if let Some(value) = &self.$field {
                        fields.insert(stringify!($field).to_owned(), write(value));
                    })*
                    if self.gone {
                        fields.insert("gone".to_owned(), Value::Bool(true));
                    }
                    fields
                }

                fn rule(field: &str) -> Rule {
                    match field {
                        $(stringify!($field) => Rule::$rule,)*
                        _ => Rule::Dispute,
                    }
                }

                fn is_gone(&self) -> bool {
                    self.gone
                }
            }

            impl From<$edit> for (&'static str, Value) {
                fn from(edit: $edit) -> Self {
                    match edit {
                        $($edit::$variant(value) => (stringify!($field), value.as_ref().map_or(Value::Null, write)),)*
                        $edit::Gone(gone) => ("gone", if gone { Value::Bool(true) } else { Value::Null }),
                    }
                }
            }

            impl crate::id::$id {
                /// Says what changes on this record.
                #[must_use]
                pub fn edit(self, edits: impl IntoIterator<Item = $edit>) -> Edits {
                    let set = edits.into_iter().map(<(&'static str, Value)>::from).map(|(field, value)| (field.to_owned(), value)).collect();
                    Edits { record: RecordKey { kind: $kind.to_owned(), id: self.0 }, set }
                }
            }
        )*

        /// All records of a book that this version knows, by kind.
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct Tables {
            $($(#[$doc])* pub $table: Table<$name>,)*
        }

        impl Tables {
            /// Does something to the table of a kind, when this version knows it.
            pub(super) fn at<V: Visit>(&mut self, kind: &str, visit: V) -> Option<V::Out> {
                match kind {
                    $($kind => Some(visit.visit(&mut self.$table)),)*
                    _ => None,
                }
            }
        }

        /// What happens to clashing values of a field of a kind.
        #[must_use]
        pub fn rule(kind: &str, field: &str) -> Rule {
            match kind {
                $($kind => <$name as Record>::rule(field),)*
                _ => Rule::Dispute,
            }
        }

        /// The declared table as text, for the test that guards the format: kind, field, type, rule, since.
        pub const DECLARED: &[(&str, &str, &str, &str, u32)] = &[
            $($(($kind, stringify!($field), stringify!($type), stringify!($rule), $since),)*)*
        ];
    };
}
pub(super) use kinds;
