//! The kinds of record, each declared in the file of its stage, and all tables of a book. A test holds the declarations against a golden
//! text. The list of kinds is in `kind.rs` of the core.

mod bought;
mod postage;
mod setup;
mod trips;

pub use bought::*;
pub use postage::*;
pub use setup::*;
pub use trips::*;

use super::declare::{Declared, Group, Reading, record};
use super::table::{Record, Rows, Table};
use crate::change::{Disputes, RecordKey, Rule};
use crate::kind::{RecordKind, with_kinds};
use uuid::Uuid;

macro_rules! tables {
    ($($(#[$doc:meta])* $kind:ident $name:literal $table:ident $id:ident;)*) => {
        /// All records of a book that this version knows, by kind.
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct Tables {
            $($(#[$doc])* pub $table: Table<$kind>,)*
        }

        impl Tables {
            /// The table of a kind; none when this version does not know it.
            pub(super) fn rows(&mut self, kind: &RecordKind) -> Option<&mut dyn Rows> {
                Some(match kind {
                    $(RecordKind::$kind => &mut self.$table,)*
                    RecordKind::Unknown(_) => return None,
                })
            }

            /// All tables with their kinds, in the order of the list.
            pub(super) fn all(&self) -> Vec<(RecordKind, &dyn Rows)> {
                vec![$((RecordKind::$kind, &self.$table as &dyn Rows),)*]
            }

            /// A record.
            pub(super) fn find(&self, record: &RecordKey) -> Option<(&dyn Record, &Disputes)> {
                let table: &dyn Rows = match &record.kind {
                    $(RecordKind::$kind => &self.$table,)*
                    RecordKind::Unknown(_) => return None,
                };
                table.find(record.id)
            }
        }

        impl RecordKind {
            /// What it belongs to. What this version does not know may be anything.
            #[must_use]
            pub const fn group(&self) -> Option<Group> {
                Some(match self {
                    $(Self::$kind => $kind::GROUP,)*
                    Self::Unknown(_) => return None,
                })
            }

            /// When it is read at the start. What this version does not know is not read.
            #[must_use]
            pub const fn read(&self) -> Option<Reading> {
                Some(match self {
                    $(Self::$kind => $kind::READ,)*
                    Self::Unknown(_) => return None,
                })
            }

            /// What happens to clashing values of a field of it. What this version does not know is never decided for the trader.
            #[must_use]
            pub fn rule(&self, field: &str) -> Rule {
                match self {
                    $(Self::$kind => $kind::rule(field),)*
                    Self::Unknown(_) => Rule::Dispute,
                }
            }

            /// All that is declared of it; nothing of a kind that this version does not know.
            #[must_use]
            pub const fn declared(&self) -> Option<&'static Declared> {
                Some(match self {
                    $(Self::$kind => &$kind::DECLARED,)*
                    Self::Unknown(_) => return None,
                })
            }
        }
    };
}
with_kinds!(tables);

impl Tables {
    /// A record, made when it is not there yet; none when this version does not know the kind.
    pub(super) fn row(
        &mut self,
        kind: &RecordKind,
        id: Uuid,
    ) -> Option<(&mut dyn Record, &mut Disputes)> {
        self.rows(kind).map(|table| table.row(id))
    }
}
