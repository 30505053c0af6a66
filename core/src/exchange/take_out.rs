//! Undoing an import: its changes go out of the book again, as if the file had never been read. Only while nothing was built on it.

use crate::book::{State, Touched};
use crate::change::{Change, Key, RecordKey, Vector, by_record, fold};

/// What an import brought: its changes' keys with the records that they speak of.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Import {
    /// Which changes.
    pub keys: Vec<Key>,
    /// The records that they speak of, in the order of their keys, each once: they are to be folded again from what is left.
    pub records: Vec<RecordKey>,
}

impl Import {
    /// An import by its changes.
    pub fn of<'a>(changes: impl IntoIterator<Item = &'a Change>) -> Self {
        let mut import = Self::default();
        for change in changes {
            import.keys.push(change.key);
            import.records.push(change.record());
        }
        import.records.sort_unstable();
        import.records.dedup();
        import
    }

    /// How far each device's changes are known without this import. `None` where it cannot be undone: something came on top of it, or
    /// it brought back what this very device had said and lost, so that its numbers would be given twice. That nothing was saved and
    /// no file was written since is for the caller to know: either may rest on what came in.
    #[must_use]
    pub fn taken_out(&self, state: &State) -> Option<Vector> {
        let mut keys = self.keys.clone();
        keys.sort_unstable();
        let (before, mut left) = (&state.vector, Vector::default());
        for of_device in keys.chunk_by(|one, next| one.device == next.device) {
            let (first, last) = (of_device[0], of_device[of_device.len() - 1]);
            let is_run = (first.seq..=last.seq).eq(of_device.iter().map(|key| key.seq));
            let is_end = before.of(first.device) == last.seq;
            if first.device == state.me || !is_run || !is_end {
                return None;
            }
            let seq = first.seq - 1;
            let device = first.device;
            left.note(Key { device, seq });
        }
        let is_in = |device| keys.iter().any(|key| key.device == device);
        for known in before.iter().filter(|known| !is_in(known.device)) {
            left.note(known);
        }
        Some(left)
    }
}

/// Takes an import out of a book: the records that it touched are folded again from `rest`, all changes of those records that are left,
/// in any order; a record of which none is left is dropped. The clock stays, so that no stamp is given twice.
///
/// `None`, and nothing is changed, where the import cannot be taken out.
pub fn fold_out(state: &mut State, import: &Import, rest: &[Change]) -> Option<Touched> {
    let vector = import.taken_out(state)?;
    let mut touched = Touched::default();
    for record in &import.records {
        touched = touched.and(state.drop_record(record));
    }
    for of_record in by_record(rest) {
        let record = of_record[0].record();
        let folded = fold(of_record, |field| record.kind.rule(field));
        touched = touched.and(state.put_folded(&record, folded));
    }
    state.vector = vector;
    Some(touched)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::id::DeviceCode;

    fn key(device: &str, seq: u64) -> Key {
        let device: DeviceCode = device.parse().expect("a code");
        Key { device, seq }
    }

    /// What is known without an import of these changes, in a book of `abcdefgh` that knows so much.
    fn without(known: &[(&str, u64)], import: &[(&str, u64)]) -> Option<Vec<Key>> {
        let mut state = State::new("abcdefgh".parse().expect("a code"));
        state.vector = known
            .iter()
            .map(|(device, seq)| key(device, *seq))
            .collect();
        let keys = import
            .iter()
            .map(|(device, seq)| key(device, *seq))
            .collect();
        let records = Vec::new();
        let left = Import { keys, records }.taken_out(&state)?;
        Some(left.iter().collect())
    }

    #[test]
    fn the_vector_shrinks_by_what_came_in() {
        let known = [("abcdefgh", 3), ("ijklmnop", 5), ("qrstuvwx", 2)];
        let import = [
            ("ijklmnop", 5),
            ("ijklmnop", 4),
            ("qrstuvwx", 1),
            ("qrstuvwx", 2),
        ];
        let left = [key("abcdefgh", 3), key("ijklmnop", 3)];
        assert_eq!(without(&known, &import).as_deref(), Some(left.as_slice()));
    }

    #[test]
    fn an_import_stays_under_what_came_later_and_with_own_words_in_it() {
        let known = [("abcdefgh", 3), ("ijklmnop", 5)];
        for import in [
            // More of this device came in since.
            [("ijklmnop", 3), ("ijklmnop", 4)],
            // It is not all of what came in.
            [("ijklmnop", 3), ("ijklmnop", 5)],
            // This very device had lost them.
            [("abcdefgh", 2), ("abcdefgh", 3)],
        ] {
            assert_eq!(without(&known, &import), None, "{import:?}");
        }
    }
}
