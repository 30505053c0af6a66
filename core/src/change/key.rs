//! A change's key: device and running number, as text that sorts by number within a device.

use crate::id::DeviceCode;
use core::fmt;
use core::str::FromStr;
use serde::{Deserialize, Serialize};

/// Which change. Its text is `device/0000000001`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    /// Who made it.
    pub device: DeviceCode,
    /// 1, 2, 3… for each device, without holes.
    pub seq: u64,
}

impl Key {
    /// The greatest number that ten digits hold.
    pub const LAST_SEQ: u64 = 9_999_999_999;
}

/// A text that is no key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a change's key is a device code, a stroke and a number of ten digits from 1")]
pub struct NotAKey;

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{:010}", self.device, self.seq)
    }
}

impl FromStr for Key {
    type Err = NotAKey;
    fn from_str(text: &str) -> Result<Self, NotAKey> {
        let (device, seq) = text.split_once('/').ok_or(NotAKey)?;
        let device = device.parse().map_err(|_| NotAKey)?;
        if seq.len() != 10 || !seq.bytes().all(|b| b.is_ascii_digit()) {
            return Err(NotAKey);
        }
        match seq.parse() {
            Ok(seq) if seq > 0 => Ok(Self { device, seq }),
            _ => Err(NotAKey),
        }
    }
}

impl Serialize for Key {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Key {
    fn deserialize<D: serde::Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        let text = String::deserialize(input)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_read_back_and_crooked_ones_do_not() {
        let key = Key {
            device: "abcdefgh".parse().expect("a code"),
            seq: 12,
        };
        assert_eq!(key.to_string(), "abcdefgh/0000000012");
        assert_eq!(key.to_string().parse(), Ok(key));
        for text in [
            "",
            "abcdefgh",
            "abcdefgh/12",
            "abcdefgh/0000000000",
            "abcdefgh/00000000012",
            "abcdefgh/+000000012",
            "short/0000000001",
        ] {
            assert_eq!(text.parse::<Key>(), Err(NotAKey), "{text}");
        }
    }
}
