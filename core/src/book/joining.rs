//! Two used books become one: what of the settings holds then. Taken down before the other book's changes are folded in.

use super::state::State;
use super::table::{Edits, Record as _};
use crate::change::{Fields, GONE, Key, RecordKey, Vector};
use crate::id::{BookId, KindId, RulesId};
use crate::json;
use litemap::LiteMap;
use serde_json::Value;
use uuid::Uuid;

/// The book that stays when two are joined, and its settings: what stands in records that both books have, so that it can clash.
///
/// What was said wins over what was not: a setting that this book never touched is taken from the other one. The house rules count as
/// one setting, since an unset one among them is one that was switched off; so does each kind to begin with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Joining {
    book: Option<BookId>,
    own: Vec<Own>,
    /// How far the book went.
    vector: Vector,
}

/// What is to hold of one record.
#[derive(Clone, Debug, PartialEq)]
struct Own {
    record: RecordKey,
    /// Its fields; `null` for one that is to be unset. Of one that does not stand here nothing was said.
    fields: Fields,
}

/// The fields of the house rules that are set together.
const TOGETHER: [&str; 10] = [
    "least_keep",
    "no_loss_if_low",
    "cash_step",
    "reach",
    "unsold",
    "offers",
    "returns",
    "least_multiple",
    "longest_wait",
    "hourly",
];

/// The one of them that is never unset once they were said.
const SAID: &str = "no_loss_if_low";

impl Joining {
    /// The book here and its settings, before another one's changes are folded in.
    #[must_use]
    pub fn before(state: &State) -> Self {
        let mut joining = Self {
            book: state.book().map(|(book, _)| book),
            own: Vec::new(),
            vector: state.vector.clone(),
        };
        joining.keep(RulesId::SINGLE.record(), rules(state));
        for (id, entry) in state.tables.kinds.iter() {
            if is_in_every_book(*id) {
                let record = KindId(*id).record();
                let fields = whole(&record, entry.value.fields());
                joining.keep(record, fields);
            }
        }
        joining
    }

    fn keep(&mut self, record: RecordKey, fields: Fields) {
        self.own.push(Own { record, fields });
    }

    /// The same, where this book stays.
    #[must_use]
    pub fn of_book(mut self, book: BookId) -> Self {
        self.book = Some(book);
        self
    }

    /// The book that stays; none where none had begun.
    #[must_use]
    pub const fn book(&self) -> Option<BookId> {
        self.book
    }

    /// What makes the settings hold, once all is folded in.
    pub(super) fn hold_in(&self, state: &State) -> Vec<Edits> {
        let mut edits = Vec::new();
        for own in &self.own {
            let now = state.fields_of(&own.record);
            let mut set = own.fields.clone();
            set.retain(|field, value| now.get(field).unwrap_or(&Value::Null) != value);
            let disputes = state.tables.find(&own.record).map(|(_, disputes)| disputes);
            for (field, parties) in disputes.into_iter().flat_map(LiteMap::iter) {
                if self.clashes(parties) {
                    // What was cleared here, and now stands against something, is cleared again.
                    let value = own.fields.get(field).cloned().unwrap_or_default();
                    set.insert(field.clone(), value);
                }
            }
            if !set.is_empty() {
                let record = own.record.clone();
                edits.push(Edits { record, set });
            }
        }
        edits
    }

    /// Whether a dispute is between the two books, and not within one of them.
    fn clashes(&self, parties: &[Key]) -> bool {
        let is_own = |key: &Key| key.seq <= self.vector.of(key.device);
        parties.iter().any(is_own) && !parties.iter().all(is_own)
    }
}

/// Whether two books that never met mean the same record by this id.
pub(crate) fn is_in_every_book(id: Uuid) -> bool {
    id.is_nil() || id.get_version_num() == 8
}

/// What is to hold of the rules.
fn rules(state: &State) -> Fields {
    let said = state.tables.rules.get(&RulesId::SINGLE.0);
    let mut held = said.map(|rules| rules.value.fields()).unwrap_or_default();
    if held.contains_key(SAID) {
        for field in TOGETHER {
            held.entry(field).or_insert(Value::Null);
        }
    }
    // Those that are used, though nobody chose them: an older one may come in.
    if let Some(venue) = state.usual_venue() {
        held.insert("usual_venue".to_owned(), json::value(&venue));
    }
    if let Some((card, _)) = state.usual_card() {
        let chosen = said.and_then(|rules| rules.value.usual_card);
        if chosen.and_then(|chosen| state.newest_of(chosen)) != Some(card) {
            held.insert("usual_card".to_owned(), json::value(&card));
        }
    }
    held
}

/// All fields of a record, where any is said: those that are not said are unset.
fn whole(record: &RecordKey, mut said: Fields) -> Fields {
    if said.is_empty() {
        return said;
    }
    for field in record.kind.fields() {
        said.entry(field.name).or_insert(Value::Null);
    }
    said.entry(GONE).or_insert(Value::Null);
    said
}
