//! The book file: JSON Lines text. A header, the changes byte for byte as stored, a trailer with their count and a digest.

use crate::change::{Key, Vector};
use crate::id::{BookId, DeviceCode};
use crate::json;
use crate::money::Currency;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::fmt::Write;

/// First line: whose book, and how far it goes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Header {
    /// Always `haulwren-book`.
    pub format: String,
    /// Always 1 so far.
    pub version: u32,
    /// The book.
    pub book: BookId,
    /// The currency of its amounts.
    pub currency: Currency,
    /// The device that wrote the file.
    pub sender: DeviceCode,
    /// How far the sender knows each device.
    pub have: Vector,
    /// Which part it is, from 1, when the book is in several files; none in the only one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<u32>,
}

impl Header {
    /// What [`Header::format`] says.
    pub const FORMAT: &'static str = "haulwren-book";
    /// The newest version of the format that is read here, and the one that is written.
    pub const VERSION: u32 = 1;

    /// A header of this format.
    #[must_use]
    pub fn new(book: BookId, currency: Currency, sender: DeviceCode, have: Vector) -> Self {
        Self {
            format: Self::FORMAT.to_owned(),
            version: Self::VERSION,
            book,
            currency,
            sender,
            have,
            part: None,
        }
    }
}

/// Last line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trailer {
    /// How many changes came before.
    pub count: u64,
    /// [`sha256`] of all lines before the trailer, joined by LF.
    pub sha256: String,
}

/// Writes a whole book file from the lines of its changes, which go in as they are stored.
///
/// # Panics
/// Never: header and trailer have a JSON form.
#[must_use]
pub fn write_book<'a>(header: &Header, changes: impl IntoIterator<Item = &'a str>) -> String {
    let mut text = header_line(header);
    let mut count = 0;
    for change in changes {
        text.push('\n');
        text.push_str(change);
        count += 1;
    }
    let sha256 = sha256(text.as_bytes());
    let trailer = json::write(&Trailer { count, sha256 });
    text.push('\n');
    text.push_str(&trailer);
    text.push('\n');
    text
}

/// The first line, without its end.
pub(super) fn header_line(header: &Header) -> String {
    let mut fields = vec![
        ("format", json::write(&header.format)),
        ("version", json::write(&header.version)),
        ("book", json::write(&header.book)),
        ("currency", json::write(&header.currency)),
        ("sender", json::write(&header.sender)),
        ("have", json::write(&header.have)),
    ];
    fields.extend(header.part.map(|part| ("part", json::write(&part))));
    json::ordered(&fields)
}

/// The same with only what changed: the changes that are not within `have`, which the last file *read from* the device that this one
/// is for said. Of a device that no file was ever read from, nothing is known: then `have` is empty, and the whole book goes.
///
/// The changes of each device come in the order of their numbers, as [`write_book`] takes them too.
#[must_use]
pub fn write_changed<'a>(
    header: &Header,
    have: &Vector,
    changes: impl IntoIterator<Item = &'a str>,
) -> String {
    let above: Vec<&str> = changes
        .into_iter()
        .filter(|line| is_above(line, have))
        .collect();
    write_book(header, above)
}

/// Whether the line of a change is not within what somebody has.
#[must_use]
pub fn is_above(line: &str, have: &Vector) -> bool {
    let key = line
        .strip_prefix(r#"{"k":""#)
        .and_then(|rest| rest.get(..19));
    match key.and_then(|key| key.parse::<Key>().ok()) {
        Some(key) => key.seq > have.of(key.device),
        // Rather one line too much than one too few.
        None => true,
    }
}

/// SHA-256 (FIPS 180-4) in lower-case hexadecimal digits.
///
/// # Panics
/// Never: a string takes all that is written to it.
#[must_use]
pub fn sha256(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes))
}

pub(super) fn hex(bytes: &[u8]) -> String {
    let mut digits = String::with_capacity(2 * bytes.len());
    for byte in bytes {
        write!(digits, "{byte:02x}").expect("a string takes all");
    }
    digits
}
