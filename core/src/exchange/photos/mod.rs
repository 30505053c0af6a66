//! Photo parts: pictures of a book's things as text files of their own, JSON Lines (UTF-8), named `.txt` so that phones may share them.
//!
//! - **First line:** `format` `haulwren-photos`, `version` 1, `book` the book's id, `sender` the device that wrote it. Fields that a reader
//!   does not know are passed over.
//! - **Then the pictures,** each as a run of lines: `sha256` the SHA-256 of its bytes in lower-case hexadecimal digits, which is its name in
//!   the book's `photo` records; `mime` its media type; `n` from 1, and `last`, which is true on its last line; `data` a piece of its bytes in
//!   base64 (RFC 4648 section 4), at most 1 MiB of text. A picture has at most [`MAX_PHOTO`] bytes, and lies in one part whole.
//! - **Last line,** as in a book file: `count` of the lines between, `sha256` over all lines before joined by LF.
//!
//! Byte order mark, CR LF and a lost last line's end are taken. Parts are at most 32 MiB and need no order: each says all about itself. Only
//! pictures that the book names and the device holds are written; only such as the book here names are taken.

mod read;
#[cfg(test)]
mod tests;
mod write;

pub use read::{PhotoReader, Picture};
pub use write::PhotoWriter;

use crate::id::{BookId, DeviceCode};

/// The longest picture that is taken, in bytes. What the app keeps is shrunk, to some 150 kB.
pub const MAX_PHOTO: usize = 8 << 20;

/// Bytes of a picture on one line: 1 MiB in base64.
const ON_A_LINE: usize = 768 << 10;

/// The longest line, in bytes: that, and the other fields.
const MAX_LINE: usize = (1 << 20) + 1_024;

const FORMAT: &str = "haulwren-photos";
const VERSION: u32 = 1;

/// First line of a photo part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PhotoHeader {
    /// The book whose things are on them.
    pub book: BookId,
    /// The device that wrote the file.
    pub sender: DeviceCode,
}
