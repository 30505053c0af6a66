//! Why a sealed file is refused. Whatever the reason, nothing of it was taken.

use super::ROUNDS_TAKEN;

/// Why a sealed file does not open. Lines count from 1, the lock's.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SealedError {
    /// Something that only begins like one.
    #[error("This is not a sealed Haulwren file: its first line is not a lock.")]
    NotSealed,
    /// Sealed by other means than ours.
    #[error(
        "Line {line} of the file is sealed in a way that this Haulwren does not open ({what}). Update Haulwren here, or ask for the file again."
    )]
    OtherWay {
        /// Where.
        line: usize,
        /// What is other.
        what: String,
    },
    /// A lock that asks for too little work, or too much.
    #[error(
        "Line 1 of the file asks for {said} rounds on the passphrase; {} to {} are taken. Ask for the file again.",
        ROUNDS_TAKEN.start(), ROUNDS_TAKEN.end()
    )]
    Rounds {
        /// What it asks for.
        said: u64,
    },
    /// The lock does not open.
    #[error("Wrong passphrase, or line 1 of the file is damaged.")]
    WrongPassphrase,
    /// A line that is none of ours.
    #[error("Line {line} of the file is damaged ({reason}). Ask for the file again.")]
    BadLine {
        /// Where.
        line: usize,
        /// What is wrong with it.
        reason: String,
    },
    /// A slice whose tag does not fit: another byte somewhere, another header, or another file's.
    #[error("Line {line} of the file was altered on its way. Ask for the file again.")]
    Altered {
        /// Where.
        line: usize,
    },
    /// Slices were left out, or stand in another order.
    #[error(
        "Line {line} of the file is slice {n}, and slice {wanted} is due: some are missing, or moved. Ask for the file again."
    )]
    Missing {
        /// Where.
        line: usize,
        /// Which slice it is.
        n: u64,
        /// Which should stand there.
        wanted: u64,
    },
    /// A slice that was there before.
    #[error("Line {line} of the file is slice {n} again. Ask for the file again.")]
    Again {
        /// Where.
        line: usize,
        /// Which slice.
        n: u64,
    },
    /// The end is missing.
    #[error("The file ends too early, at line {line}: its end is missing. Ask for the file again.")]
    CutShort {
        /// The last line that is there, whole or not.
        line: usize,
    },
    /// Something after the last slice.
    #[error("Line {line} stands after the end of the file. Ask for the file again.")]
    AfterTheEnd {
        /// Where.
        line: usize,
    },
}
