//! One line: the compact form of a JWE (RFC 7516 section 7.1), put together and taken apart.

use super::{KEY, MAX_LINE, ROUNDS, ROUNDS_TAKEN, SLICE, SealedError};
use crate::change::read_line;
use crate::json::{Object, field};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD as BASE64URL;

/// How the lock's key is wrapped.
const BY_PASSPHRASE: &str = "PBES2-HS512+A256KW";
/// How everything is encrypted.
const CIPHER: &str = "A256GCM";
/// Bytes of a key that AES Key Wrap has wrapped (RFC 3394): eight more than the key.
const WRAPPED: usize = KEY + 8;
/// Bytes of an initialization vector, and of a tag (RFC 7518 section 5.3).
const IV: usize = 12;
const TAG: usize = 16;
/// Bytes of a salt: 8 at least (RFC 7518 section 4.8.1.1); 16 are written.
const SALT: core::ops::RangeInclusive<usize> = 8..=64;
/// The longest header in base64url.
const MAX_HEAD: usize = 2_000;

/// What the cipher needs of a line, besides the key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Body {
    /// The header as it stands, in base64url: the additional authenticated data.
    pub head: String,
    /// The initialization vector.
    pub iv: [u8; IV],
    /// The ciphertext, and the tag after it.
    pub sealed: Vec<u8>,
}

/// The header of a lock, in base64url.
#[must_use]
pub fn lock_head(salt: &[u8; 16]) -> String {
    let salt = BASE64URL.encode(salt);
    head(&format!(
        r#"{{"alg":"{BY_PASSPHRASE}","enc":"{CIPHER}","p2s":"{salt}","p2c":{ROUNDS}}}"#
    ))
}

/// The header of a slice, in base64url.
#[must_use]
pub fn slice_head(n: u64, last: bool) -> String {
    head(&format!(
        r#"{{"alg":"dir","enc":"{CIPHER}","n":{n},"last":{last}}}"#
    ))
}

fn head(json: &str) -> String {
    BASE64URL.encode(json)
}

/// The salt as PBKDF2 takes it (RFC 7518 section 4.8.1.1): the algorithm's name, a zero byte, and the header's salt.
#[must_use]
pub fn salt_input(salt: &[u8]) -> Vec<u8> {
    [BY_PASSPHRASE.as_bytes(), &[0], salt].concat()
}

/// A whole line, with its end. `wrapped` is empty in a slice; `sealed` is the ciphertext with the tag after it.
///
/// # Panics
/// When there is no tag.
#[must_use]
pub fn jwe_line(head: &str, wrapped: &[u8], iv: &[u8; 12], sealed: &[u8]) -> String {
    let (ciphertext, tag) = sealed.split_at(sealed.len() - TAG);
    let mut line = String::with_capacity(head.len() + sealed.len() / 3 * 4 + 128);
    line.push_str(head);
    for part in [wrapped, iv, ciphertext, tag] {
        line.push('.');
        BASE64URL.encode_string(part, &mut line);
    }
    line.push('\n');
    line
}

/// A line by its parts.
pub(super) struct Parts {
    pub(super) header: Object,
    pub(super) wrapped: Vec<u8>,
    pub(super) body: Body,
}

/// Takes a line apart.
pub(super) fn parts(bytes: &[u8], line: usize) -> Result<Parts, SealedError> {
    let bad = |reason: &str| SealedError::BadLine {
        line,
        reason: reason.to_owned(),
    };
    let text = core::str::from_utf8(bytes).map_err(|_| bad("it is not text"))?;
    debug_assert!(text.len() <= MAX_LINE + 2, "its reader sees to that");
    let mut all = text.split('.');
    let mut next = || all.next().ok_or_else(|| bad("it has not five parts"));
    let [head, wrapped, iv, ciphertext, tag] = [next()?, next()?, next()?, next()?, next()?];
    if all.next().is_some() {
        return Err(bad("it has not five parts"));
    }
    let decode = |text: &str| {
        BASE64URL
            .decode(text)
            .map_err(|_| bad("it is not base64url"))
    };
    if head.len() > MAX_HEAD {
        return Err(bad("its header is too long"));
    }
    let header = String::from_utf8(decode(head)?).map_err(|_| bad("its header is not JSON"))?;
    let header =
        read_line(&header).map_err(|_| bad("its header is not JSON, or says a thing twice"))?;
    let iv = decode(iv)?
        .try_into()
        .map_err(|_| bad("its initialization vector is not 12 bytes long"))?;
    let mut sealed = decode(ciphertext)?;
    let tag = decode(tag)?;
    if tag.len() != TAG {
        return Err(bad("its tag is not 16 bytes long"));
    }
    if sealed.len() > SLICE {
        return Err(bad("it is longer than a slice"));
    }
    sealed.extend_from_slice(&tag);
    Ok(Parts {
        header,
        wrapped: decode(wrapped)?,
        body: Body {
            head: head.to_owned(),
            iv,
            sealed,
        },
    })
}

impl Parts {
    /// Refuses what is sealed by other means.
    fn expect_way(&self, line: usize, way: &str) -> Result<(), SealedError> {
        let other = |what: String| Err(SealedError::OtherWay { line, what });
        for name in ["crit", "zip"] {
            if self.header.contains_key(name) {
                return other(name.to_owned());
            }
        }
        for (name, ours) in [("alg", way), ("enc", CIPHER)] {
            let found = self.header.get(name).and_then(|value| value.as_str());
            if found != Some(ours) {
                let found: String = found.unwrap_or("none").chars().take(40).collect();
                return other(format!("{name}: {found}"));
            }
        }
        Ok(())
    }

    /// Salt and rounds of a lock, of line 1.
    pub(super) fn lock(&self) -> Result<(Vec<u8>, u32), SealedError> {
        self.expect_way(1, BY_PASSPHRASE)?;
        let bad = |reason: &str| SealedError::BadLine {
            line: 1,
            reason: reason.to_owned(),
        };
        let salt: String = field(&self.header, "p2s").map_err(|_| bad("it has no salt"))?;
        let salt = BASE64URL
            .decode(salt)
            .ok()
            .filter(|salt| SALT.contains(&salt.len()));
        let salt = salt.ok_or_else(|| bad("its salt is not 8 to 64 bytes in base64url"))?;
        let said: u64 = field(&self.header, "p2c").map_err(|_| bad("it has no count of rounds"))?;
        let rounds = u32::try_from(said).ok();
        let Some(rounds) = rounds.filter(|_| ROUNDS_TAKEN.contains(&said)) else {
            return Err(SealedError::Rounds { said });
        };
        if self.wrapped.len() != WRAPPED {
            return Err(bad("its wrapped key is not 40 bytes long"));
        }
        if self.body.sealed.len() != KEY + TAG {
            return Err(bad("what it holds is not 32 bytes long"));
        }
        Ok((salt, rounds))
    }

    /// Number of a slice, and whether it is the last.
    pub(super) fn slice(&self, line: usize) -> Result<(u64, bool), SealedError> {
        self.expect_way(line, "dir")?;
        let bad = |reason: &str| SealedError::BadLine {
            line,
            reason: reason.to_owned(),
        };
        if !self.wrapped.is_empty() {
            return Err(bad("it brings a key of its own"));
        }
        let n = field(&self.header, "n").ok().filter(|n| *n > 0);
        let n = n.ok_or_else(|| bad("it has no number"))?;
        let last = field(&self.header, "last");
        Ok((
            n,
            last.map_err(|_| bad("it does not say whether it is the last"))?,
        ))
    }
}
