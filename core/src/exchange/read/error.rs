//! Why a book file is refused. Whatever the reason, nothing of it was taken.

use crate::id::DeviceCode;
use crate::money::Currency;

/// Why a file is refused. Lines count from 1, the header's.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// No bytes at all.
    #[error("The file is empty.")]
    Empty,
    /// Some other sort of file.
    #[error("This is not a Haulwren book file: its first line is not the head of one.")]
    NotABook,
    /// Written by a later version.
    #[error(
        "A newer Haulwren wrote this file (format {version}). Update Haulwren here, then open it again."
    )]
    Newer {
        /// The format's version.
        version: u64,
    },
    /// Ours, but its first line is not whole.
    #[error("Line 1 of the file is damaged ({reason}). Ask for the file again.")]
    BadHeader {
        /// What is wrong with it.
        reason: String,
    },
    /// A book of other money.
    #[error(
        "The file's book is in {theirs} and this one in {ours}. A book has one currency, so they can't be joined."
    )]
    OtherCurrency {
        /// The file's.
        theirs: Currency,
        /// This book's.
        ours: Currency,
    },
    /// Bytes that are no text.
    #[error("Line {line} of the file is damaged (it is not UTF-8 text). Ask for the file again.")]
    NotText {
        /// Where.
        line: usize,
    },
    /// A line that is no change.
    #[error("Line {line} of the file is damaged ({reason}). Ask for the file again.")]
    BadLine {
        /// Where.
        line: usize,
        /// What is wrong with it.
        reason: String,
    },
    /// Numbers of a device that leave some out.
    #[error(
        "Line {line} of the file goes from change {after} of {device} to change {next}: some are missing. Ask for the file again."
    )]
    Hole {
        /// Where.
        line: usize,
        /// Whose changes.
        device: DeviceCode,
        /// The last before the hole.
        after: u64,
        /// The first after it.
        next: u64,
    },
    /// The file begins further on than this book goes.
    #[error(
        "The file begins after change {after} of {device}, yours ends at {ours}: ask for a whole book."
    )]
    BeginsLater {
        /// Where.
        line: usize,
        /// Whose changes.
        device: DeviceCode,
        /// The last that the file leaves out.
        after: u64,
        /// The last that this book has.
        ours: u64,
    },
    /// A change that was made in knowledge of others which would be missing here.
    #[error(
        "Line {line} of the file rests on change {needs} of {device}, and you would have them up to {have}: ask for a whole book."
    )]
    RestsOnMissing {
        /// Where.
        line: usize,
        /// Whose changes are missing.
        device: DeviceCode,
        /// How far it knew them.
        needs: u64,
        /// How far this book would know them.
        have: u64,
    },
    /// A part of a book, before those that it rests on.
    #[error(
        "This is part {part} of a book, and it goes on from change {after} of {device}; yours ends at {ours}: open the parts before it first."
    )]
    EarlierPart {
        /// Where.
        line: usize,
        /// Which part.
        part: u32,
        /// Whose changes are missing.
        device: DeviceCode,
        /// The last that this book has to have.
        after: u64,
        /// The last that it has.
        ours: u64,
    },
    /// Pictures of a book that is not here.
    #[error(
        "The pictures in this file are of another book than the one on this device. Open that book's file first."
    )]
    OtherBook,
    /// A number that comes again, or too late.
    #[error("Line {line} of the file has change {seq} of {device} again. Ask for the file again.")]
    Again {
        /// Where.
        line: usize,
        /// Whose change.
        device: DeviceCode,
        /// Its number.
        seq: u64,
    },
    /// A change that this book has, and the file has another under its name. When the device is this one, it has to take a new code.
    #[error(
        "Line {line} of the file says something else than your book about change {seq} of {device}. Two devices use one code, or the file was altered: nothing was taken."
    )]
    OtherWords {
        /// Where.
        line: usize,
        /// Whose change.
        device: DeviceCode,
        /// Its number.
        seq: u64,
    },
    /// The same of this device's own changes, in a file that does not reach back to where the two agree.
    #[error(
        "Line {line} of the file says something else than your book about change {seq} of {device}: two devices use one code. The file does not reach back to where they agree: ask for a whole book, and open that here."
    )]
    PartedBefore {
        /// Where.
        line: usize,
        /// Whose change.
        device: DeviceCode,
        /// Its number.
        seq: u64,
    },
    /// The end is missing.
    #[error("The file ends too early, at line {line}: its end is missing. Ask for the file again.")]
    CutShort {
        /// The last line that is there, whole or not.
        line: usize,
    },
    /// Lines are missing, or there are some too many.
    #[error(
        "Line {line}, the last, says {said} changes, and there are {found}. Ask for the file again."
    )]
    Count {
        /// Where.
        line: usize,
        /// What the last line says.
        said: u64,
        /// How many there are.
        found: u64,
    },
    /// The digest is another one.
    #[error(
        "The file was altered on its way: the check sum in line {line} does not fit. Ask for the file again."
    )]
    Altered {
        /// Where.
        line: usize,
    },
    /// Something after the end.
    #[error("Line {line} stands after the end of the book. Ask for the file again.")]
    AfterTheEnd {
        /// Where.
        line: usize,
    },
}

impl ReadError {
    /// The line that it is about, from 1; none when it is about the whole file.
    #[must_use]
    pub const fn line(&self) -> Option<usize> {
        match self {
            Self::Empty => None,
            Self::NotABook
            | Self::Newer { .. }
            | Self::BadHeader { .. }
            | Self::OtherBook
            | Self::OtherCurrency { .. } => Some(1),
            Self::NotText { line }
            | Self::BadLine { line, .. }
            | Self::Hole { line, .. }
            | Self::BeginsLater { line, .. }
            | Self::RestsOnMissing { line, .. }
            | Self::EarlierPart { line, .. }
            | Self::Again { line, .. }
            | Self::OtherWords { line, .. }
            | Self::PartedBefore { line, .. }
            | Self::CutShort { line }
            | Self::Count { line, .. }
            | Self::Altered { line }
            | Self::AfterTheEnd { line } => Some(*line),
        }
    }

    /// The device whose changes it is about.
    #[must_use]
    pub const fn device(&self) -> Option<DeviceCode> {
        match self {
            Self::Hole { device, .. }
            | Self::BeginsLater { device, .. }
            | Self::RestsOnMissing { device, .. }
            | Self::EarlierPart { device, .. }
            | Self::Again { device, .. }
            | Self::OtherWords { device, .. }
            | Self::PartedBefore { device, .. } => Some(*device),
            _ => None,
        }
    }

    /// What it is when the file is a part of a book. Its cure is not another file, but the parts before it.
    pub(super) fn of_part(self, part: Option<u32>) -> Self {
        let (line, device, after, ours) = match self {
            Self::BeginsLater {
                line,
                device,
                after,
                ours,
            } => (line, device, after, ours),
            Self::RestsOnMissing {
                line,
                device,
                needs,
                have,
            } => (line, device, needs, have),
            other => return other,
        };
        match part {
            Some(part) if part > 1 => Self::EarlierPart {
                line,
                part,
                device,
                after,
                ours,
            },
            _ => self,
        }
    }

    /// The sentence for the trader, with the device's name in the place of its code.
    #[must_use]
    pub fn sentence(&self, name: &dyn Fn(DeviceCode) -> String) -> String {
        let told = self.to_string();
        match self.device() {
            Some(device) => told.replace(device.as_str(), &name(device)),
            None => told,
        }
    }
}
