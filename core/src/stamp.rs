//! Hybrid logical stamps: they only put changes in order. People are shown [`At`] instead.
//!
//! Source: Kulkarni, Demirbas, Madappa, Avva, Leone, "Logical Physical Clocks" (2014), figure 5. The device is the third key, since
//! two devices can draw the same time and counter.

use crate::day::Day;
use crate::id::DeviceCode;
use core::fmt;
use core::str::FromStr;
use serde::{Deserialize, Serialize};

/// The last millisecond that a stamp read from outside may carry: the end of the year 9999.
pub const LAST_MS: u64 = 253_402_300_799_999;

/// How far ahead of this device's clock a foreign stamp may be before the trader is told, in ms. It is taken all the same.
pub const FAR_AHEAD_MS: u64 = 24 * 60 * 60 * 1000;

/// A stamp. Its text has a fixed width, so that texts sort as stamps do: twelve hexadecimal digits of Unix ms, four of the counter, the device.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Stamp {
    /// Wall time in Unix ms, or ahead of it.
    pub ms: u64,
    /// Counts stamps within one ms.
    pub counter: u16,
    /// Who stamped.
    pub device: DeviceCode,
}

/// A text that is no stamp.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a stamp is 12 hexadecimal digits, 4 more and a device code, joined by hyphens")]
pub struct NotAStamp;

impl fmt::Display for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:012x}-{:04x}-{}", self.ms, self.counter, self.device)
    }
}

impl FromStr for Stamp {
    type Err = NotAStamp;
    fn from_str(text: &str) -> Result<Self, NotAStamp> {
        let mut parts = text.splitn(3, '-');
        let (Some(ms), Some(counter), Some(device)) = (parts.next(), parts.next(), parts.next())
        else {
            return Err(NotAStamp);
        };
        let hex = |digits: &str, width: usize| {
            let plain = digits.len() == width
                && digits
                    .bytes()
                    .all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'));
            if plain {
                u64::from_str_radix(digits, 16).map_err(|_| NotAStamp)
            } else {
                Err(NotAStamp)
            }
        };
        let ms = hex(ms, 12)?;
        let counter = u16::try_from(hex(counter, 4)?).map_err(|_| NotAStamp)?;
        let device = device.parse().map_err(|_| NotAStamp)?;
        if ms > LAST_MS {
            Err(NotAStamp)
        } else {
            Ok(Self {
                ms,
                counter,
                device,
            })
        }
    }
}

impl Serialize for Stamp {
    fn serialize<S: serde::Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Stamp {
    fn deserialize<D: serde::Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        let text = String::deserialize(input)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

/// What a device's clock showed when the trader saved: the time people are shown. Written `[Unix ms, minutes east of UTC]`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct At(
    /// Unix time in ms.
    pub u64,
    /// The zone's offset in minutes, east of UTC positive.
    pub i16,
);

impl At {
    /// The day that the clock showed; none for a time beyond the year 9999.
    #[must_use]
    pub fn day(self) -> Option<Day> {
        Day::shown_at(i64::try_from(self.0).ok()?, i32::from(self.1)).ok()
    }

    /// The same day at another time of day, in minutes after midnight.
    #[must_use]
    pub fn at_minute(self, minutes: u16) -> Self {
        let before = u64::from(self.minute_of_day()) * 60_000;
        let midnight = self.0.saturating_sub(before);
        Self(
            midnight - midnight % 60_000 + u64::from(minutes) * 60_000,
            self.1,
        )
    }

    /// The minutes after midnight that the clock showed, 0 to 1439.
    #[must_use]
    pub fn minute_of_day(self) -> u16 {
        let minutes = i128::from(self.0) / 60_000 + i128::from(self.1);
        u16::try_from(minutes.rem_euclid(24 * 60)).unwrap_or(0)
    }
}

/// The greatest time and counter that this book has seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Clock {
    ms: u64,
    counter: u16,
}

impl Clock {
    /// Takes in a stamp made elsewhere (or read back), so that the next own one is greater.
    pub fn observe(&mut self, stamp: Stamp) {
        if (stamp.ms, stamp.counter) > (self.ms, self.counter) {
            (self.ms, self.counter) = (stamp.ms, stamp.counter);
        }
    }

    /// The greatest seen, as a stamp of this device: what no later own stamp may fall behind.
    #[must_use]
    pub const fn last(self, device: DeviceCode) -> Stamp {
        Stamp {
            ms: self.ms,
            counter: self.counter,
            device,
        }
    }

    /// The next own stamp, greater than all seen. A full counter carries into the ms.
    ///
    /// No stamp goes beyond [`LAST_MS`], so that every stamp can be read back. Only a forged one stands at the very end of time;
    /// after it the last stamp repeats, and changes still know each other by their numbers.
    pub fn tick(&mut self, now_ms: u64, device: DeviceCode) -> Stamp {
        let now_ms = now_ms.min(LAST_MS);
        if now_ms > self.ms {
            (self.ms, self.counter) = (now_ms, 0);
        } else if let Some(next) = self.counter.checked_add(1) {
            self.counter = next;
        } else if self.ms < LAST_MS {
            (self.ms, self.counter) = (self.ms + 1, 0);
        }
        Stamp {
            ms: self.ms,
            counter: self.counter,
            device,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn device(text: &str) -> DeviceCode {
        text.parse().expect("a good code")
    }

    #[test]
    fn a_full_counter_carries_into_the_millisecond() {
        let phone = device("aaaaaaaa");
        let mut clock = Clock::default();
        clock.observe(Stamp {
            ms: 70,
            counter: u16::MAX,
            device: phone,
        });
        assert_eq!(
            clock.tick(5, phone),
            Stamp {
                ms: 71,
                counter: 0,
                device: phone
            }
        );
    }

    #[test]
    fn at_the_end_of_time_stamps_stay_readable() {
        let phone = device("aaaaaaaa");
        let mut clock = Clock::default();
        let first = clock.tick(u64::MAX, phone);
        assert_eq!((first.ms, first.counter), (LAST_MS, 0));
        clock.observe(Stamp {
            counter: u16::MAX,
            ..first
        });
        let next = clock.tick(u64::MAX, phone);
        assert_eq!(next.to_string().parse(), Ok(next));
    }

    #[test]
    fn texts_sort_as_stamps_do_and_read_back() {
        let stamps = [
            (1, 0, "aaaaaaaa"),
            (1, 0, "b2aaaaaa"),
            (1, 1, "aaaaaaaa"),
            (16, 0, "aaaaaaaa"),
            (LAST_MS, 65535, "zzzzzzzz"),
        ];
        let stamps = stamps.map(|(ms, counter, code)| Stamp {
            ms,
            counter,
            device: device(code),
        });
        let texts: Vec<_> = stamps.iter().map(ToString::to_string).collect();
        assert!(texts.is_sorted());
        for (stamp, text) in stamps.iter().zip(&texts) {
            assert_eq!(text.parse(), Ok(*stamp));
        }
    }

    #[test]
    fn crooked_texts_are_no_stamps() {
        for text in [
            "",
            "017f22e279b0-0003",
            "017F22E279B0-0003-aaaaaaaa",
            "17f22e279b0-0003-aaaaaaaa",
            "017f22e279b0-003-aaaaaaaa",
            "+17f22e279b0-0003-aaaaaaaa",
            "ffffffffffff-0000-aaaaaaaa",
        ] {
            assert_eq!(text.parse::<Stamp>(), Err(NotAStamp), "{text}");
        }
    }
}
