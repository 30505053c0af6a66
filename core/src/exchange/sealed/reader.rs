//! Reading the lines of a sealed file in their order.

use super::jwe::{Body, parts, salt_input};
use super::{MAX_LINE, SealedError};
use crate::exchange::FileKind;
use crate::exchange::lines::{Lines, without_end, without_mark};
use core::mem::take;

/// Line 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lock {
    /// The salt as PBKDF2 takes it.
    pub salt: Vec<u8>,
    /// How often the passphrase is stirred.
    pub rounds: u32,
    /// The key that opens the body, wrapped by what the passphrase gives.
    pub wrapped: Vec<u8>,
    /// The file's key, sealed.
    pub body: Body,
}

/// Any other line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slice {
    /// Which line of the file, from 1.
    pub line: usize,
    /// A piece of the plain file, sealed.
    pub body: Body,
}

/// A line of a sealed file, in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sealed {
    /// Line 1.
    Lock(Lock),
    /// Any other.
    Slice(Slice),
}

/// Takes a sealed file apart: [`SealedReader::push`] takes its bytes in pieces of any size, and gives the lines that end in them.
///
/// Numbers and ends are checked here, before anything is opened; that they were not altered says the tag of each line, to the one who
/// opens it.
#[derive(Debug)]
pub struct SealedReader {
    lines: Lines,
    order: Order,
}

/// How far the file was read.
#[derive(Debug, Default)]
struct Order {
    /// How many lines were read.
    line: usize,
    /// Whether the last slice was read.
    ended: bool,
    found: Vec<Sealed>,
}

impl Default for SealedReader {
    fn default() -> Self {
        Self {
            lines: Lines::new(MAX_LINE),
            order: Order::default(),
        }
    }
}

impl SealedReader {
    /// Takes the next bytes.
    ///
    /// # Errors
    /// Whatever is wrong with the lines that end in them. Nothing more can be read after that.
    pub fn push(&mut self, bytes: &[u8]) -> Result<Vec<Sealed>, SealedError> {
        let order = &mut self.order;
        self.lines.push(bytes, &mut |line| match line {
            Some(line) => order.take_line(line),
            None => Err(order.too_long()),
        })?;
        Ok(take(&mut self.order.found))
    }

    /// Says that the file ends here; gives what the last line was, when it had no end.
    ///
    /// # Errors
    /// When the end is missing.
    pub fn finish(mut self) -> Result<Vec<Sealed>, SealedError> {
        if let Some(last) = self.lines.rest() {
            self.order
                .take_line(without_end(&last))
                .map_err(|error| match error {
                    // A line that does not end, and is none: the rest of it is missing.
                    SealedError::BadLine { line, .. } => SealedError::CutShort { line },
                    error => error,
                })?;
        }
        match self.order.line {
            0 => return Err(SealedError::NotSealed),
            line if !self.order.ended => return Err(SealedError::CutShort { line }),
            _ => {}
        }
        Ok(self.order.found)
    }
}

impl Order {
    fn too_long(&self) -> SealedError {
        match self.line + 1 {
            1 => SealedError::NotSealed,
            line => SealedError::BadLine {
                line,
                reason: "it is longer than a slice".to_owned(),
            },
        }
    }

    fn take_line(&mut self, bytes: &[u8]) -> Result<(), SealedError> {
        self.line += 1;
        let line = self.line;
        if line == 1 {
            let lock = lock(without_mark(bytes))?;
            self.found.push(Sealed::Lock(lock));
            return Ok(());
        }
        if self.ended {
            // Mail programs and editors add empty lines.
            return if bytes.is_empty() {
                Ok(())
            } else {
                Err(SealedError::AfterTheEnd { line })
            };
        }
        let parts = parts(bytes, line)?;
        let (n, last) = parts.slice(line)?;
        // The first slice stands on line 2.
        let wanted = line as u64 - 1;
        if n > wanted {
            return Err(SealedError::Missing { line, n, wanted });
        }
        if n < wanted {
            return Err(SealedError::Again { line, n });
        }
        self.ended = last;
        let body = parts.body;
        self.found.push(Sealed::Slice(Slice { line, body }));
        Ok(())
    }
}

fn lock(bytes: &[u8]) -> Result<Lock, SealedError> {
    if FileKind::of(bytes) != FileKind::Sealed {
        return Err(SealedError::NotSealed);
    }
    let parts = parts(bytes, 1)?;
    let (salt, rounds) = parts.lock()?;
    Ok(Lock {
        salt: salt_input(&salt),
        rounds,
        wrapped: parts.wrapped,
        body: parts.body,
    })
}
