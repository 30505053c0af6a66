//! A file sealed by a passphrase, as lines of compact JWE (RFC 7516), each of which any JOSE library opens.
//!
//! **Line 1, the lock.** `alg` `PBES2-HS512+A256KW` (RFC 7518 section 4.8), `p2s` a salt of 16 bytes, `p2c` [`ROUNDS`], `enc` `A256GCM`. Its
//! payload is the file's key: 32 bytes, raw, not a JWK and not text. The passphrase is the UTF-8 of what was typed as RFC 8265 section 4.2
//! (`OpaqueString`) prepares it: spaces of other scripts become plain ones, then Unicode form NFC; and blanks at both ends are left off,
//! since keyboards of phones add one.
//!
//! **Then the slices,** one for each [`SLICE`] bytes of the plain file, an empty file being one empty slice: `alg` `dir`, `enc` `A256GCM`, by
//! the file's key; in the protected header, which the tag covers, `n`, which counts from 1, and `last`, which is true for the last only.
//! So no slice can be left out, doubled, moved, cut off or brought in from another file unnoticed.
//!
//! Lines end in LF. Byte order mark, CR LF and a lost last line's end are taken, as in the plain file. A header must not name `crit` or
//! `zip`, nor anything twice; what else it names is passed over, as RFC 7516 section 4 says. Nothing is made room for because a file says
//! so: a line is at most [`MAX_LINE`] bytes, and `p2c`, the work that a file asks for, lies within [`ROUNDS_TAKEN`].
//!
//! The ciphers are the browser's. What is here: how the lines are put together and taken apart, and what is wrong with them.

mod error;
mod jwe;
mod reader;
#[cfg(test)]
mod tests;

pub use error::SealedError;
pub use jwe::{Body, jwe_line, lock_head, salt_input, slice_head};
pub use reader::{Lock, Sealed, SealedReader, Slice};

use core::ops::RangeInclusive;

/// How often the passphrase is stirred: `p2c` of what is written. Source: OWASP "Password Storage Cheat Sheet" (PBKDF2-HMAC-SHA512: 210,000).
pub const ROUNDS: u32 = 210_000;

/// What is taken for `p2c`: less is no protection, and more would keep a phone busy for minutes.
pub const ROUNDS_TAKEN: RangeInclusive<u64> = 10_000..=2_000_000;

/// Bytes of the plain file in a slice; fewer in the last.
pub const SLICE: usize = 1 << 20;

/// The longest line, in bytes: a slice in base64url, with room for its header.
pub const MAX_LINE: usize = SLICE / 3 * 4 + 8_192;

/// Bytes of the file's key.
pub const KEY: usize = 32;
