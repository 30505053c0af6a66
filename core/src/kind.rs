//! The kinds of record that a book holds: the one list of them. Each is declared in full under `book/kinds`, by stage.
//!
//! A kind's name is how it stands in files, for ever: it is never changed or reused.

use core::cmp::Ordering;
use core::fmt;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Hands the list to a macro: of each kind what it is, its name in files, its table in a book, and the type of its ids. New ones come last.
macro_rules! with_kinds {
    ($then:ident) => {
        $then! {
            /// The book itself: one record.
            Book "book" books BookId;
            /// A device that writes in the book.
            Device "device" devices DeviceId;
            /// House rules and allowances: one record.
            Rules "rules" rules RulesId;
            /// A place where things are sold.
            Venue "venue" venues VenueId;
            /// One dated schedule of a venue's charges. Once used it is never edited: a new one is written.
            Terms "terms" terms TermsId;
            /// Things bought for one price.
            Lot "lot" lots LotId;
            /// One thing.
            Thing "thing" things ThingId;
            /// One dated version of a rate card. Once used it is never edited: a new one is written, which follows it.
            Card "card" cards CardId;
            /// A mailer or carton.
            Container "container" containers ContainerId;
            /// A kind: what things of it weigh, how large they are, and where they are usually sold.
            Kind "kind" kinds KindId;
            /// A thing that was weighed up and left.
            Passed "passed" passed PassedId;
            /// One outing.
            Trip "trip" trips TripId;
            /// One sale or place visited on a trip.
            Stop "stop" stops StopId;
            /// A movement of a trip's purse, or a count of it.
            Cash "cash" cash CashId;
            /// Work put into things: one bill.
            Work "work" works WorkId;
            /// One thing that work was put into.
            Worked "worked" worked WorkedId;
            /// A picture of a thing.
            Photo "photo" photos PhotoId;
        }
    };
}
pub(crate) use with_kinds;

macro_rules! record_kinds {
    ($($(#[$doc:meta])* $kind:ident $name:literal $table:ident $id:ident;)*) => {
        /// What kind of record it is. Two are in the order of their names in files.
        #[derive(Clone, Debug, PartialEq, Eq, Hash)]
        pub enum RecordKind {
            $($(#[$doc])* $kind,)*
            /// One that only a later version knows, by its name in files. Made by [`From`], which knows those above.
            Unknown(String),
        }

        impl RecordKind {
            /// Those that this version knows, in the order of the list.
            pub const ALL: &'static [Self] = &[$(Self::$kind,)*];

            /// Its name in files.
            #[must_use]
            pub const fn name(&self) -> &str {
                match self {
                    $(Self::$kind => $name,)*
                    Self::Unknown(name) => name.as_str(),
                }
            }

            /// The kind that a type of ids, by its name, belongs to: where a field that is a link leads.
            #[must_use]
            pub fn of_ids(name: &str) -> Option<Self> {
                match name {
                    $(stringify!($id) => Some(Self::$kind),)*
                    _ => None,
                }
            }
        }

        impl From<&str> for RecordKind {
            fn from(name: &str) -> Self {
                match name {
                    $($name => Self::$kind,)*
                    name => Self::Unknown(name.to_owned()),
                }
            }
        }
    };
}
with_kinds!(record_kinds);

impl fmt::Display for RecordKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl Ord for RecordKind {
    fn cmp(&self, other: &Self) -> Ordering {
        self.name().cmp(other.name())
    }
}

impl PartialOrd for RecordKind {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Serialize for RecordKind {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.serialize_str(self.name())
    }
}

impl<'de> Deserialize<'de> for RecordKind {
    fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        Ok(Self::from(&*String::deserialize(input)?))
    }
}

#[cfg(test)]
mod tests {
    use super::RecordKind;

    #[test]
    fn every_name_leads_back_to_its_kind() {
        for kind in RecordKind::ALL {
            assert_eq!(RecordKind::from(kind.name()), *kind);
        }
        let unknown = RecordKind::from("sermon");
        assert_eq!(unknown, RecordKind::Unknown("sermon".to_owned()));
        assert_eq!(unknown.name(), "sermon");
    }

    #[test]
    fn a_link_leads_to_the_kind_of_its_ids() {
        assert_eq!(RecordKind::of_ids("ThingId"), Some(RecordKind::Thing));
        assert_eq!(RecordKind::of_ids("Money"), None);
    }

    #[test]
    fn kinds_are_in_the_order_of_their_names() {
        assert!(RecordKind::Book < RecordKind::from("boom"));
        assert!(RecordKind::Kind < RecordKind::Lot);
    }
}
