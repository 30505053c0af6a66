//! The macro behind the table of kinds: from one declaration come a record's struct, its edits, and its JSON both ways.

use crate::change::{Disputes, Fields, RecordKey};
use litemap::LiteMap;
use serde::de::DeserializeOwned;
use serde_json::Value;
use uuid::Uuid;

/// What every kind of record can do.
pub trait Record {
    /// Sets a field from a value as it stands in a change. `null`, and a value that this version cannot read, leave the field unset;
    /// the change itself is kept, so a later version reads it.
    fn put(&mut self, field: &str, value: &Value);

    /// The fields that are set.
    fn fields(&self) -> Fields;

    /// Unsets all fields.
    fn clear(&mut self);

    /// Whether the record was taken away.
    fn is_gone(&self) -> bool;
}

/// A record with what is in dispute about it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entry<T> {
    /// The record.
    pub value: T,
    /// Field → the changes to choose between.
    pub disputes: Disputes,
}

/// All records of a kind by id, those taken away included. Boxed, so that little moves when one comes in between.
pub type Table<T> = LiteMap<Uuid, Box<Entry<T>>>;

/// A table of whichever kind, so that what is done to all kinds alike is one piece of code.
pub(super) trait Rows {
    /// A record, made when it is not there yet.
    fn row(&mut self, id: Uuid) -> (&mut dyn Record, &mut Disputes);
    /// A record.
    fn find(&self, id: Uuid) -> Option<(&dyn Record, &Disputes)>;
    /// All of them, in the order of their ids.
    fn each(&self, told: &mut dyn FnMut(Uuid, &dyn Record, &Disputes));
    /// Lets go of a record, as if it had never been.
    fn forget(&mut self, id: Uuid);
}

impl<T: Record + Default> Rows for Table<T> {
    fn row(&mut self, id: Uuid) -> (&mut dyn Record, &mut Disputes) {
        let entry = self.entry(id).or_default();
        (&mut entry.value, &mut entry.disputes)
    }

    fn find(&self, id: Uuid) -> Option<(&dyn Record, &Disputes)> {
        let entry = self.get(&id)?;
        Some((&entry.value, &entry.disputes))
    }

    fn each(&self, told: &mut dyn FnMut(Uuid, &dyn Record, &Disputes)) {
        for (id, entry) in self.iter() {
            told(*id, &entry.value, &entry.disputes);
        }
    }

    fn forget(&mut self, id: Uuid) {
        self.remove(&id);
    }
}

/// What a command changes on one record, before it is stamped.
#[derive(Clone, Debug, PartialEq)]
pub struct Edits {
    /// Which record.
    pub record: RecordKey,
    /// Its fields.
    pub set: Fields,
}

pub(super) fn read<T: DeserializeOwned>(value: &Value) -> Option<T> {
    T::deserialize(value).ok()
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

            impl $name {
                /// The kind's name in files, for ever.
                pub const KIND: &'static str = $kind;
            }

            impl Record for $name {
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
                        fields.insert(stringify!($field).to_owned(), json::value(value));
                    })*
                    if self.gone {
                        fields.insert("gone".to_owned(), Value::Bool(true));
                    }
                    fields
                }

                fn clear(&mut self) {
                    *self = Self::default();
                }

                fn is_gone(&self) -> bool {
                    self.gone
                }
            }

            impl $edit {
                fn said(&self) -> (&'static str, Value) {
                    match self {
                        $(Self::$variant(value) => (stringify!($field), json::value(value)),)*
                        Self::Gone(gone) => ("gone", if *gone { Value::Bool(true) } else { Value::Null }),
                    }
                }
            }

            impl crate::id::$id {
                /// Says what changes on this record.
                #[must_use]
                pub fn edit(self, edits: impl AsRef<[$edit]>) -> Edits {
                    let mut set = Fields::new();
                    for edit in edits.as_ref() {
                        let (field, value) = edit.said();
                        set.insert(field.to_owned(), value);
                    }
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
            /// A record, made when it is not there yet; none when this version does not know the kind.
            pub(super) fn row(&mut self, kind: &str, id: Uuid) -> Option<(&mut dyn Record, &mut Disputes)> {
                self.rows(kind).map(|table| table.row(id))
            }

            /// The table of a kind; none when this version does not know it.
            pub(super) fn rows(&mut self, kind: &str) -> Option<&mut dyn Rows> {
                let table: &mut dyn Rows = match kind {
                    $($kind => &mut self.$table,)*
                    _ => return None,
                };
                Some(table)
            }

            /// All tables with the kinds' names, in the order in which they are declared.
            pub(super) fn all(&self) -> Vec<(&'static str, &dyn Rows)> {
                vec![$(($kind, &self.$table as &dyn Rows),)*]
            }

            /// A record.
            pub(super) fn find(&self, record: &RecordKey) -> Option<(&dyn Record, &Disputes)> {
                let table: &dyn Rows = match record.kind.as_str() {
                    $($kind => &self.$table,)*
                    _ => return None,
                };
                table.find(record.id)
            }
        }

        /// The declared table as text, for the test that guards the format: kind, field, type, rule, since.
        pub const DECLARED: &[(&str, &str, &str, &str, u32)] = &[
            $($(($kind, stringify!($field), stringify!($type), stringify!($rule), $since),)*)*
        ];
    };
}
pub(super) use kinds;
