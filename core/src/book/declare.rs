//! How a kind of record is declared: from that come its struct, its edits, its JSON both ways, and the words for it.

use crate::change::Rule;
use crate::kind::RecordKind;

/// What a kind belongs to: whoever follows that hears of its changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// The book, its devices, rules, venues, terms: what verdicts rest on.
    Setup,
    /// Trips, their stops, the entries of their purses.
    Trips,
    /// What was bought or left, and the work put into it.
    Haul,
    /// Pictures.
    Pictures,
}

impl Group {
    /// All of them, in the order in which they are declared.
    pub const ALL: [Self; 4] = [Self::Setup, Self::Trips, Self::Haul, Self::Pictures];
}

/// When a kind is read at the start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Before the first verdict, which rests on it.
    Early,
    /// After it.
    Late,
    /// When all others are read: there are many of them.
    Last,
}

/// Where a record is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// On a page of its own.
    Page,
    /// On none of its own; the reason.
    Elsewhere(&'static str),
}

/// A kind as it is declared.
#[derive(Clone, Copy, Debug)]
pub struct Declared {
    /// What a record of it is called that has no name, as it begins a sentence.
    pub nameless: &'static str,
    /// What one is called, within a sentence.
    pub one: &'static str,
    /// What several are called, within a sentence.
    pub several: &'static str,
    /// Where one is looked at.
    pub look: Look,
    /// Its fields.
    pub fields: &'static [Field],
}

/// A field as it is declared.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// Its name in files, for ever.
    pub name: &'static str,
    /// The type of its values, as text.
    pub of: &'static str,
    /// What happens to clashing values.
    pub rule: Rule,
    /// The version of the format that brought it.
    pub since: u32,
    /// What it is called on screen.
    pub label: &'static str,
}

impl RecordKind {
    /// The field of a kind; none that this version does not know.
    #[must_use]
    pub fn field(&self, name: &str) -> Option<&'static Field> {
        self.fields().iter().find(|field| field.name == name)
    }

    /// The fields of a kind, in their order; none of a kind that this version does not know.
    #[must_use]
    pub fn fields(&self) -> &'static [Field] {
        self.declared().map_or(&[], |declared| declared.fields)
    }
}

/// Another number whenever a kind or a field has come: what is stored was folded without it, and has to be folded again. FNV-1a of 32 bits
/// (Fowler, Noll and Vo; from memory) over all names.
pub const KNOWN: u32 = {
    let (mut hash, mut at) = (0x811c_9dc5, 0);
    while at < RecordKind::ALL.len() {
        hash = mixed(hash, RecordKind::ALL[at].name());
        if let Some(declared) = RecordKind::ALL[at].declared() {
            let mut field = 0;
            while field < declared.fields.len() {
                hash = mixed(hash, declared.fields[field].name);
                field += 1;
            }
        }
        at += 1;
    }
    hash
};

/// The hash with one name more.
const fn mixed(mut hash: u32, name: &str) -> u32 {
    let (bytes, mut at) = (name.as_bytes(), 0);
    while at < bytes.len() {
        hash = (hash ^ bytes[at] as u32).wrapping_mul(0x0100_0193);
        at += 1;
    }
    // A stop, so that no two lists of names run together.
    hash.wrapping_mul(0x0100_0193)
}

/// Declares a kind: its struct, the type of its ids, its edits; the words for it, what it belongs to, when it is read, where it is looked at;
/// then each field with its name in files, its edit, its type, the rule for clashing values, the format version that brought it, and its
/// label. Names and types are the format: they are never changed or reused, only added to.
macro_rules! record {
    (
        $(#[$doc:meta])*
        $name:ident $id:ident $edit:ident;
        words: $nameless:literal, $one:literal, $several:literal;
        group: $group:ident;
        read: $read:ident;
        look: $look:ident $(($why:literal))?;
        $(
            $(#[$field_doc:meta])*
            $field:ident $variant:ident: $type:ty, $rule:ident, since $since:literal, $label:literal;
        )*
    ) => {
        $(#[$doc])*
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct $name {
            $($(#[$field_doc])* pub $field: Option<$type>,)*
            /// Whether the record was taken away.
            pub gone: bool,
        }

        #[doc = concat!("One edit to a ", $one, ": a field and its new value, `None` to clear it.")]
        #[derive(Clone, Debug, PartialEq)]
        pub enum $edit {
            $($(#[$field_doc])* $variant(Option<$type>),)*
            /// Takes the record away, or brings it back.
            Gone(bool),
        }

        impl $name {
            pub(in crate::book) const GROUP: $crate::book::Group = $crate::book::Group::$group;
            pub(in crate::book) const READ: $crate::book::Reading = $crate::book::Reading::$read;
            pub(in crate::book) const DECLARED: $crate::book::Declared = $crate::book::Declared {
                nameless: $nameless,
                one: $one,
                several: $several,
                look: $crate::book::Look::$look $(($why))?,
                fields: &[$($crate::book::DeclaredField {
                    name: stringify!($field),
                    of: stringify!($type),
                    rule: $crate::change::Rule::$rule,
                    since: $since,
                    label: $label,
                },)*],
            };

            /// What happens to clashing values of a field. Apart from what is declared beside it, which most visits do not need.
            pub(in crate::book) fn rule(field: &str) -> $crate::change::Rule {
                match field {
                    $(stringify!($field) => $crate::change::Rule::$rule,)*
                    _ => $crate::change::Rule::Dispute,
                }
            }
        }

        impl $crate::book::Record for $name {
            fn put(&mut self, field: &str, value: &serde_json::Value) {
                match field {
                    $(stringify!($field) => self.$field = $crate::json::of(value),)*
                    $crate::change::GONE => self.gone = value == &serde_json::Value::Bool(true),
                    _ => {}
                }
            }

            fn fields(&self) -> $crate::change::Fields {
                let mut fields = $crate::change::Fields::new();
                $(if let Some(value) = &self.$field {
                    fields.insert(stringify!($field).to_owned(), $crate::json::value(value));
                })*
                if self.gone {
                    fields.insert($crate::change::GONE.to_owned(), serde_json::Value::Bool(true));
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
            fn said(&self) -> (&'static str, serde_json::Value) {
                match self {
                    $(Self::$variant(value) => (stringify!($field), $crate::json::value(value)),)*
                    Self::Gone(true) => ($crate::change::GONE, serde_json::Value::Bool(true)),
                    Self::Gone(false) => ($crate::change::GONE, serde_json::Value::Null),
                }
            }
        }

        impl $crate::id::$id {
            /// The record's key.
            #[must_use]
            pub const fn record(self) -> $crate::change::RecordKey {
                $crate::change::RecordKey { kind: $crate::kind::RecordKind::$name, id: self.0 }
            }

            /// Says what changes on this record.
            #[must_use]
            pub fn edit(self, edits: impl AsRef<[$edit]>) -> $crate::book::Edits {
                let mut set = $crate::change::Fields::new();
                for edit in edits.as_ref() {
                    let (field, value) = edit.said();
                    set.insert(field.to_owned(), value);
                }
                $crate::book::Edits { record: self.record(), set }
            }
        }
    };
}
pub(super) use record;
