//! Lines out of bytes that come in pieces of any size.

use core::mem::take;

/// Takes a line.
pub(super) type TakeLine<'a, E> = dyn FnMut(Option<&[u8]>) -> Result<(), E> + 'a;

/// What of a line has come.
#[derive(Debug)]
pub(super) struct Lines {
    begun: Vec<u8>,
    /// The longest line that is taken, without its end.
    most: usize,
}

impl Lines {
    /// Lines of at most so many bytes.
    pub(super) const fn new(most: usize) -> Self {
        Self {
            begun: Vec::new(),
            most,
        }
    }

    /// Hands each line that ends in these bytes to `take_line`, without its end; `None` for one that is longer than any of ours.
    pub(super) fn push<E>(
        &mut self,
        bytes: &[u8],
        take_line: &mut TakeLine<'_, E>,
    ) -> Result<(), E> {
        for piece in bytes.split_inclusive(|byte| *byte == b'\n') {
            // The end of the line may come on top.
            if self.begun.len() + piece.len() > self.most + 2 {
                return take_line(None);
            }
            self.begun.extend_from_slice(piece);
            if piece.ends_with(b"\n") {
                let line = take(&mut self.begun);
                take_line(Some(without_end(&line)))?;
                self.begun = line;
                self.begun.clear();
            }
        }
        Ok(())
    }

    /// The last line, when it has no end.
    pub(super) fn rest(&mut self) -> Option<Vec<u8>> {
        let rest = take(&mut self.begun);
        (!rest.is_empty()).then_some(rest)
    }
}

/// A line without LF or CR LF.
pub(super) fn without_end(line: &[u8]) -> &[u8] {
    let line = line.strip_suffix(b"\n").unwrap_or(line);
    line.strip_suffix(b"\r").unwrap_or(line)
}

/// What some programs put before a text.
pub(super) const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

/// The bytes without the mark.
pub(super) fn without_mark(bytes: &[u8]) -> &[u8] {
    bytes.strip_prefix(BYTE_ORDER_MARK).unwrap_or(bytes)
}
