//! What a file is, by what it holds. Names tell nothing: programs that hand files on change them.

use super::lines::without_mark;

/// What a file is meant to be. Whether it is one, its reader says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileKind {
    /// Sealed by a passphrase: something of the others is inside.
    Sealed,
    /// Pictures.
    Photos,
    /// A book, or nothing of ours.
    Book,
}

/// So many bytes are enough to tell.
pub const ENOUGH_TO_TELL: usize = 64;

impl FileKind {
    /// Tells by the first bytes.
    #[must_use]
    pub fn of(first: &[u8]) -> Self {
        let first = without_mark(first);
        if first.starts_with(b"eyJ") {
            // How a JSON object begins in base64url.
            Self::Sealed
        } else if first.starts_with(br#"{"format":"haulwren-photos""#) {
            Self::Photos
        } else {
            Self::Book
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_told_by_what_they_hold() {
        let check = |first: &[u8], kind| assert_eq!(FileKind::of(first), kind, "{first:?}");
        check(b"", FileKind::Book);
        check(b"eyJhbGciOiJkaXIifQ", FileKind::Sealed);
        check(b"\xef\xbb\xbfeyJ", FileKind::Sealed);
        check(
            br#"{"format":"haulwren-photos","version":9"#,
            FileKind::Photos,
        );
        check(br#"{"format":"haulwren-book","version":1"#, FileKind::Book);
        check(b"\xff\xd8\xff", FileKind::Book);
    }
}
