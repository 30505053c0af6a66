//! Files in parts: what is longer than [`MAX_PART`] is written as several files, each of them valid by itself.
//!
//! A book's parts are opened in their order: each rests on what came before. Their headers say `part`, from 1; a book in one file says
//! nothing. Photo parts need no order.

mod book;
mod links;
mod name;
#[cfg(test)]
mod tests;

pub use book::BookWriter;
pub use name::part_name;

use super::book_file::hex;
use crate::json;
use core::mem::take;
use sha2::{Digest, Sha256};

/// The longest part, in bytes: what goes through mails and messengers, and what a phone holds in memory without pain.
pub const MAX_PART: usize = 32 << 20;

/// Bytes for the last line, and for `part` in the first.
const ENDS: usize = 160;

/// Bytes of a piece, about.
const PIECE: usize = 1 << 20;

/// A whole file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its bytes in pieces of a MiB at the most, or of one line: so nothing has to be copied into one stretch of memory.
    pub pieces: Vec<Vec<u8>>,
}

/// Lines between a header and a trailer.
#[derive(Debug, Default)]
pub(in crate::exchange) struct Lines {
    pieces: Vec<Vec<u8>>,
    bytes: usize,
    count: u64,
}

impl Lines {
    /// Whether there is none.
    pub(in crate::exchange) const fn is_empty(&self) -> bool {
        self.count == 0
    }

    /// Whether so many bytes more fit beside a header.
    pub(in crate::exchange) const fn has_room(
        &self,
        bytes: usize,
        header: usize,
        limit: usize,
    ) -> bool {
        self.bytes + bytes + 1 + header + ENDS <= limit
    }

    /// Adds a line.
    pub(in crate::exchange) fn push(&mut self, line: &str) {
        let is_full = |piece: &Vec<u8>| piece.len() + line.len() + 1 > PIECE;
        if self.pieces.last().is_none_or(is_full) {
            self.pieces.push(Vec::new());
        }
        if let Some(piece) = self.pieces.last_mut() {
            piece.extend_from_slice(line.as_bytes());
            piece.push(b'\n');
        }
        self.bytes += line.len() + 1;
        self.count += 1;
    }

    /// The file that they are under a header; none are left.
    pub(in crate::exchange) fn close(&mut self, header: &str) -> Part {
        let lines = take(self);
        let mut pieces = vec![[header, "\n"].concat().into_bytes()];
        pieces.extend(lines.pieces);
        let mut digest = Sha256::new();
        for (at, piece) in pieces.iter().enumerate() {
            let is_last = at + 1 == pieces.len();
            // The last line before the trailer counts without its end.
            digest.update(&piece[..piece.len() - usize::from(is_last)]);
        }
        let count = lines.count;
        let sha256 = hex(&digest.finalize());
        let trailer = json::ordered(&[
            ("count", json::write(&count)),
            ("sha256", json::write(&sha256)),
        ]);
        pieces.push([&trailer, "\n"].concat().into_bytes());
        Part { pieces }
    }
}
