//! What forms share: fields that may stay empty, and what is wrong with a field.

/// What is wrong with a field, as a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Complaint<F> {
    /// Which field.
    pub field: F,
    /// What to do about it.
    pub sentence: String,
}

impl<F: PartialEq> Complaint<F> {
    /// The first sentence about a field.
    #[must_use]
    pub fn about(field: &F, complaints: Vec<Self>) -> Option<String> {
        let mine = complaints
            .into_iter()
            .find(|complaint| complaint.field == *field);
        mine.map(|complaint| complaint.sentence)
    }
}

/// Reads an entry that may stay empty.
pub(super) fn optional<T, E>(
    text: &str,
    read: impl Fn(&str) -> Result<T, E>,
) -> Result<Option<T>, E> {
    if text.trim().is_empty() {
        Ok(None)
    } else {
        read(text).map(Some)
    }
}
