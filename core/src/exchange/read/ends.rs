//! The first and the last line of a book file.

use super::ReadError;
use crate::change::{BadLine, read_line};
use crate::exchange::{Header, Trailer};
use crate::json::{self, Object, field};
use serde::de::Error as _;
use serde_json::Error;

/// How every book file of ours starts.
const START: &[u8] = br#"{"format":"haulwren-book""#;

/// Reads the first line. Fields that this version does not know are passed over: the digest covers them, and a later version that adds
/// something without which the file is misread raises the format's version.
pub(super) fn header(bytes: &[u8]) -> Result<Header, ReadError> {
    let object = match core::str::from_utf8(bytes).ok().map(read_line) {
        Some(Ok(object)) => object,
        Some(Err(error)) if bytes.starts_with(START) => return Err(bad_header(&error)),
        _ => return Err(ReadError::NotABook),
    };
    if object.get("format").and_then(|format| format.as_str()) != Some(Header::FORMAT) {
        return Err(ReadError::NotABook);
    }
    let version = field(&object, "version").map_err(|error| bad_header(&error.into()))?;
    if version > u64::from(Header::VERSION) {
        return Err(ReadError::Newer { version });
    }
    of_this_version(&object, version).map_err(|error| bad_header(&error.into()))
}

fn of_this_version(object: &Object, version: u64) -> Result<Header, Error> {
    if version == 0 {
        return Err(Error::custom("versions of the format count from 1"));
    }
    let mut header = Header::new(
        field(object, "book")?,
        field(object, "currency")?,
        field(object, "sender")?,
        field(object, "have")?,
    );
    // Only a help for what is said of a part before its turn: what says it otherwise is passed over.
    header.part = object.get("part").and_then(json::of);
    Ok(header)
}

fn bad_header(error: &BadLine) -> ReadError {
    let reason = reason(error);
    ReadError::BadHeader { reason }
}

/// What is wrong with a line. Where it stands in the file is said beside it; of itself the line is always the first one.
pub(in crate::exchange) fn reason(error: &BadLine) -> String {
    error
        .to_string()
        .replace(" at line 1 column ", " at column ")
}

/// Whether a line is meant to be the last one. No change begins so.
pub(in crate::exchange) fn is_trailer(text: &str) -> bool {
    text.starts_with(r#"{"count":"#)
}

/// Reads the last line.
pub(in crate::exchange) fn trailer(text: &str) -> Result<Trailer, BadLine> {
    let object = read_line(text)?;
    if object.len() != 2 {
        return Err(Error::custom("the last line is a count and a check sum").into());
    }
    Ok(Trailer {
        count: field(&object, "count")?,
        sha256: field(&object, "sha256")?,
    })
}
