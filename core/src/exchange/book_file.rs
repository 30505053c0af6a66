//! The book file: JSON Lines text. A header, the changes byte for byte as stored, a trailer with their count and a digest.

use crate::change::Vector;
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
}

impl Header {
    /// A header of this format.
    #[must_use]
    pub fn new(book: BookId, currency: Currency, sender: DeviceCode, have: Vector) -> Self {
        Self {
            format: "haulwren-book".to_owned(),
            version: 1,
            book,
            currency,
            sender,
            have,
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
    let mut text = json::ordered(&[
        ("format", json::write(&header.format)),
        ("version", json::write(&header.version)),
        ("book", json::write(&header.book)),
        ("currency", json::write(&header.currency)),
        ("sender", json::write(&header.sender)),
        ("have", json::write(&header.have)),
    ]);
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

/// SHA-256 (FIPS 180-4) in lower-case hexadecimal digits.
///
/// # Panics
/// Never: a string takes all that is written to it.
#[must_use]
pub fn sha256(bytes: &[u8]) -> String {
    let mut digits = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        write!(digits, "{byte:02x}").expect("a string takes all");
    }
    digits
}
