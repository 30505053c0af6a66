//! What files are called.

/// The name of a part: `haulwren-book-2026-11-29-2-of-3.txt`, and without numbers when it is the only one. Ends in `.txt`, since phones
/// share no other kind of text. Readers do not go by names.
#[must_use]
pub fn part_name(what: &str, day: &str, number: usize, of: usize) -> String {
    let place = if of > 1 {
        format!("-{number}-of-{of}")
    } else {
        String::new()
    };
    let day = if day.is_empty() { "undated" } else { day };
    format!("haulwren-{what}-{day}{place}.txt")
}
