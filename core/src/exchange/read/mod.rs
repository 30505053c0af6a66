//! Reading a book file, piece by piece as the browser hands it over. Everything is checked before anything is taken: a file that is cut
//! short, altered or somebody else's gives a [`ReadError`] and changes nothing.

mod after;
mod against;
pub(super) mod ends;
mod error;
mod incoming;
mod runs;
#[cfg(test)]
mod tests;

pub use against::{Against, Meeting};
pub use error::ReadError;
pub use incoming::{Incoming, Line, NewOf, fold_in};

use super::book_file::hex;
use crate::change::{BadLine, Change, MAX_LINE, Vector};
use crate::id::BookId;
use crate::kind::RecordKind;
use incoming::Known;
use runs::Runs;
use serde_json::Value;
use sha2::{Digest, Sha256};

/// Reads a book file: [`BookReader::push`] takes its bytes in pieces of any size, [`BookReader::finish`] gives what is new in them.
///
/// A byte order mark, lines that end in CR LF, and a last line without an end are taken. Memory is needed for the longest line and for
/// what is new; no size that a file claims is believed.
#[derive(Debug)]
pub struct BookReader {
    against: Against,
    /// A line that has not ended yet.
    begun: Vec<u8>,
    /// How many lines were read.
    line: usize,
    /// Over the lines before the trailer.
    digest: Sha256,
    /// How many changes were read.
    count: u64,
    runs: Runs,
    /// Present from the header on.
    incoming: Option<Incoming>,
    /// Whether the trailer was read.
    ended: bool,
    failed: Option<ReadError>,
}

const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

impl BookReader {
    /// A reader of one file, held against the book here.
    #[must_use]
    pub fn new(against: Against) -> Self {
        Self {
            against,
            begun: Vec::new(),
            line: 0,
            digest: Sha256::new(),
            count: 0,
            runs: Runs::default(),
            incoming: None,
            ended: false,
            failed: None,
        }
    }

    /// Takes the next bytes.
    ///
    /// # Errors
    /// Whatever is wrong with the lines that end in them. From then on the answer stays the same.
    pub fn push(&mut self, bytes: &[u8]) -> Result<(), ReadError> {
        if let Some(error) = &self.failed {
            return Err(error.clone());
        }
        let pushed = self.lines_of(bytes);
        self.failed = pushed.clone().err();
        pushed
    }

    /// Says that the file ends here.
    ///
    /// # Errors
    /// Whatever is wrong with it.
    pub fn finish(mut self) -> Result<Incoming, ReadError> {
        if let Some(error) = self.failed.take() {
            return Err(error);
        }
        if !self.begun.is_empty() {
            let last = core::mem::take(&mut self.begun);
            self.take_line(&last).map_err(|error| match error {
                // A line that does not end, and is none: the rest of it is missing.
                ReadError::NotText { line } | ReadError::BadLine { line, .. } => {
                    ReadError::CutShort { line }
                }
                ReadError::BadHeader { .. } => ReadError::CutShort { line: 1 },
                error => error,
            })?;
        }
        let mut incoming = self.incoming.take().ok_or(ReadError::Empty)?;
        if !self.ended {
            return Err(ReadError::CutShort { line: self.line });
        }
        let rest = self.runs.rest(&self.against.vector, &incoming.changes);
        rest.map_err(|error| error.of_part(incoming.header.part))?;
        incoming.sender_has = incoming.header.have.clone();
        self.runs.note_in(&mut incoming.sender_has);
        incoming.known.sort_unstable_by_key(|known| known.key);
        incoming.already_known = incoming.known.len();
        incoming.count();
        Ok(incoming)
    }

    fn lines_of(&mut self, bytes: &[u8]) -> Result<(), ReadError> {
        for piece in bytes.split_inclusive(|byte| *byte == b'\n') {
            // The end of the line may come on top.
            if self.begun.len() + piece.len() > MAX_LINE + 2 {
                self.line += 1;
                return Err(self.bad(&BadLine::TooLong));
            }
            match piece.strip_suffix(b"\n") {
                None => self.begun.extend_from_slice(piece),
                Some(line) if self.begun.is_empty() => self.take_line(line)?,
                Some(rest) => {
                    let mut line = core::mem::take(&mut self.begun);
                    line.extend_from_slice(rest);
                    self.take_line(&line)?;
                    line.clear();
                    self.begun = line;
                }
            }
        }
        Ok(())
    }

    fn take_line(&mut self, bytes: &[u8]) -> Result<(), ReadError> {
        self.line += 1;
        let line = self.line;
        let bytes = bytes.strip_suffix(b"\r").unwrap_or(bytes);
        if line == 1 {
            return self.header(bytes.strip_prefix(BYTE_ORDER_MARK).unwrap_or(bytes));
        }
        if self.ended {
            // Mail programs and editors add empty lines.
            return if bytes.is_empty() {
                Ok(())
            } else {
                Err(ReadError::AfterTheEnd { line })
            };
        }
        let text = core::str::from_utf8(bytes).map_err(|_| ReadError::NotText { line })?;
        if ends::is_trailer(text) {
            return self.trailer(text);
        }
        let change = Change::from_line(text).map_err(|error| self.bad(&error))?;
        self.digest.update(b"\n");
        self.digest.update(bytes);
        self.count += 1;
        self.change(&change, text)
    }

    fn header(&mut self, bytes: &[u8]) -> Result<(), ReadError> {
        let header = ends::header(bytes)?;
        self.digest.update(bytes);
        let meeting = self.against.meet(&header)?;
        self.incoming = Some(Incoming {
            header,
            meeting,
            changes: Vec::new(),
            new: Vec::new(),
            already_known: 0,
            sender_has: Vector::default(),
            known: Vec::new(),
        });
        Ok(())
    }

    fn trailer(&mut self, text: &str) -> Result<(), ReadError> {
        let (line, found) = (self.line, self.count);
        let trailer = ends::trailer(text).map_err(|error| self.bad(&error))?;
        if trailer.count != found {
            let said = trailer.count;
            return Err(ReadError::Count { line, said, found });
        }
        if trailer.sha256 != hex(&self.digest.clone().finalize()) {
            return Err(ReadError::Altered { line });
        }
        self.ended = true;
        Ok(())
    }

    fn change(&mut self, change: &Change, text: &str) -> Result<(), ReadError> {
        let (line, ours) = (self.line, &self.against.vector);
        let incoming = self.incoming.as_mut().ok_or(ReadError::NotABook)?;
        let follows = self.runs.follow(ours, change.key, line);
        follows.map_err(|error| error.of_part(incoming.header.part))?;
        if change.kind == RecordKind::Book {
            let currency = change.set.get("currency").and_then(Value::as_str);
            let is_other = currency.is_some_and(|code| code != incoming.header.currency.code());
            if is_other && change.id == incoming.header.book.0 {
                let reason = "it says another currency than line 1".to_owned();
                return Err(ReadError::BadLine { line, reason });
            }
            // The other device has joined this book before.
            let is_joined = self.against.joined.contains(&BookId(change.id));
            if is_joined && incoming.meeting == Meeting::Two {
                incoming.meeting = Meeting::Same;
            }
        }
        if change.key.seq <= ours.of(change.key.device) {
            incoming.known.push(Known::new(change.key, line, text));
        } else {
            self.runs.need(&change.seen);
            incoming.changes.push(Line::new(change, line, text));
        }
        Ok(())
    }

    fn bad(&self, error: &BadLine) -> ReadError {
        match self.line {
            1 => ReadError::NotABook,
            line => ReadError::BadLine {
                line,
                reason: ends::reason(error),
            },
        }
    }
}
