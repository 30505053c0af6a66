//! The book that a file is read into: what it has, and whether the two belong together.

use super::ReadError;
use crate::book::{Record as _, State};
use crate::change::Vector;
use crate::exchange::Header;
use crate::id::{BookId, RulesId};
use crate::money::Currency;

/// What a file is held against.
#[derive(Clone, Debug, PartialEq)]
pub struct Against {
    /// The book here and its currency; none before it has begun.
    pub book: Option<(BookId, Currency)>,
    /// Every book that was ever joined into this one, itself included.
    pub joined: Vec<BookId>,
    /// How far each device's changes are known here.
    pub vector: Vector,
    /// Whether nothing was ever done in it but to begin it, and to say the units.
    pub untouched: bool,
}

/// So many changes begin a book: one for it, one for its first device.
const BEGUN: u64 = 2;

/// Whether a device said nothing but that its book begins, and perhaps, as it is asked first of all, in which units it measures.
fn only_begun(state: &State) -> bool {
    let rules = state.tables.rules.get(&RulesId::SINGLE.0);
    let fields = rules.map(|rules| rules.value.fields());
    let only_units = fields.is_some_and(|fields| fields.keys().all(|field| field == "units"));
    state.head() <= BEGUN + u64::from(only_units)
}

/// How a file's book and the one here go together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meeting {
    /// They are one book.
    Same,
    /// Nothing was done here yet: the file's book takes its place.
    Fresh,
    /// Two books that were both used. The trader has to be told, to save a copy, and to choose: one of them, or both joined.
    Two,
}

impl Against {
    /// The book as it stands.
    #[must_use]
    pub fn of(state: &State) -> Self {
        Self {
            book: state.book(),
            joined: state.tables.books.keys().copied().map(BookId).collect(),
            vector: state.vector.clone(),
            untouched: state.vector.without(state.me).is_empty() && only_begun(state),
        }
    }

    /// Whether a file's header fits.
    pub(super) fn meet(&self, header: &Header) -> Result<Meeting, ReadError> {
        match self.book {
            _ if self.untouched => Ok(Meeting::Fresh),
            Some((_, ours)) if ours != header.currency => Err(ReadError::OtherCurrency {
                theirs: header.currency,
                ours,
            }),
            _ if self.joined.contains(&header.book) => Ok(Meeting::Same),
            _ => Ok(Meeting::Two),
        }
    }
}
