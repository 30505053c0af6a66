//! Names of things on disk: one type for each kind of record, one for a device.
//!
//! Record ids are UUIDs of version 7 (RFC 9562 section 5.7): the time comes first, so that they sort by birth. Their chance comes from the
//! caller, since this crate has none.
//!
//! Ids of two kinds do not mix:
//!
//! ```compile_fail
//! use haulwren_core::id::{ThingId, VenueId};
//! fn look_up(_: ThingId) {}
//! look_up(VenueId::SINGLE);
//! ```

use crate::kind::with_kinds;
use core::fmt;
use core::str::FromStr;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

/// A UUID of version 7 from a time in Unix milliseconds and ten bytes of chance.
///
/// The time is taken modulo 2^48, as the standard lays out.
#[must_use]
pub fn uuid_v7(unix_ms: u64, chance: &[u8; 10]) -> Uuid {
    uuid::Builder::from_unix_timestamp_millis(unix_ms, chance).into_uuid()
}

macro_rules! ids {
    ($($(#[$doc:meta])* $kind:ident $name:literal $table:ident $id:ident;)*) => {$(
        #[doc = concat!("Which record of the kind `", $name, "`.")]
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $id(pub Uuid);

        impl $id {
            /// The id of the one record of a kind that a book holds once (the nil UUID, RFC 9562 section 5.9), so that two devices
            /// which never met still mean the same record.
            pub const SINGLE: Self = Self(Uuid::nil());
        }

        impl fmt::Display for $id {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.fmt(f)
            }
        }

        impl FromStr for $id {
            type Err = uuid::Error;
            fn from_str(text: &str) -> Result<Self, Self::Err> {
                Uuid::parse_str(text).map(Self)
            }
        }
    )*};
}
with_kinds!(ids);

/// A browser profile's own code: eight characters of base 32 (RFC 4648 section 6, in lower case). Made once on the device, never imported.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DeviceCode([u8; 8]);

/// A text that is no device code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a device code is eight letters a to z or digits 2 to 7")]
pub struct NotADeviceCode;

impl DeviceCode {
    const ALPHABET: &'static [u8; 32] = b"abcdefghijklmnopqrstuvwxyz234567";

    /// A code from five bytes of chance: 40 bits are eight characters of five.
    #[must_use]
    pub fn from_chance(chance: [u8; 5]) -> Self {
        let bits = chance
            .iter()
            .fold(0_u64, |bits, byte| bits << 8 | u64::from(*byte));
        let mut code = [0; 8];
        for (place, letter) in code.iter_mut().enumerate() {
            let five = bits >> (35 - 5 * place) & 31;
            *letter = Self::ALPHABET[usize::try_from(five).unwrap_or(0)];
        }
        Self(code)
    }

    /// The eight characters.
    #[must_use]
    pub fn as_str(&self) -> &str {
        // Only letters of the alphabet are ever let in, so this cannot fail.
        core::str::from_utf8(&self.0).unwrap_or("")
    }
}

impl FromStr for DeviceCode {
    type Err = NotADeviceCode;
    fn from_str(text: &str) -> Result<Self, NotADeviceCode> {
        let code: [u8; 8] = text.as_bytes().try_into().map_err(|_| NotADeviceCode)?;
        if code.iter().all(|letter| Self::ALPHABET.contains(letter)) {
            Ok(Self(code))
        } else {
            Err(NotADeviceCode)
        }
    }
}

impl fmt::Display for DeviceCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

impl fmt::Debug for DeviceCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

impl Serialize for DeviceCode {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.serialize_str(self.as_str())
    }
}

impl<'de> Deserialize<'de> for DeviceCode {
    fn deserialize<D: serde::Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        let text = String::deserialize(input)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_device_code_is_the_base_32_of_its_chance() {
        // RFC 4648 section 10: BASE32("fooba") = "MZXW6YTB".
        assert_eq!(DeviceCode::from_chance(*b"fooba").as_str(), "mzxw6ytb");
    }

    #[test]
    fn other_texts_are_no_device_codes() {
        for text in [
            "",
            "abcdefg",
            "abcdefghi",
            "ABCDEFGH",
            "abcdefg1",
            "abcdef\u{e9}",
        ] {
            assert_eq!(text.parse::<DeviceCode>(), Err(NotADeviceCode), "{text}");
        }
    }
}
