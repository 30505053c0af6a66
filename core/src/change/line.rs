//! A change as one line of text: what is stored, and what a book file carries, byte for byte.

use super::Change;

/// The longest line that is taken, in bytes.
pub const MAX_LINE: usize = 2 * 1024 * 1024;

/// Why a line is no change.
#[derive(Debug, thiserror::Error)]
pub enum BadLine {
    /// Too long to be ours.
    #[error("the line is longer than 2 MiB")]
    TooLong,
    /// No change in JSON.
    #[error("the line is not a change of this book format ({0})")]
    NotAChange(#[from] serde_json::Error),
    /// The save's first number lies after the change.
    #[error("the change says that its save began after it")]
    SaveAfter,
    /// The stamp is another device's.
    #[error("the change carries another device's stamp")]
    OthersStamp,
    /// The change claims to know its own device through `seen`.
    #[error("the change lists its own device among the others")]
    SeesItself,
}

impl Change {
    /// The change as its line, without the line's end.
    ///
    /// # Panics
    /// Never: each part has a JSON form.
    #[must_use]
    pub fn line(&self) -> String {
        serde_json::to_string(self).expect("every part of a change has a JSON form")
    }

    /// Reads a line back.
    ///
    /// # Errors
    /// When it is too long, no change, or contradicts itself.
    pub fn from_line(line: &str) -> Result<Self, BadLine> {
        if line.len() > MAX_LINE {
            return Err(BadLine::TooLong);
        }
        let change: Self = serde_json::from_str(line)?;
        if change.save == 0 || change.save > change.key.seq {
            return Err(BadLine::SaveAfter);
        }
        if change.stamp.device != change.key.device {
            return Err(BadLine::OthersStamp);
        }
        if change.seen.of(change.key.device) != 0 {
            return Err(BadLine::SeesItself);
        }
        Ok(change)
    }
}
