//! How far the sellers of a stop come down.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::{Value, json};

use crate::json;
use crate::money::Rate;

/// How far sellers come down at a stop. In files `"fixed"`, `"haggle"`, `{"down":"25"}` or `{"half_from":780}`, for ever.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Manner {
    /// Prices stand.
    Fixed,
    /// As the house rules say sellers do.
    #[default]
    Haggle,
    /// By a share of what they ask.
    Down(Rate),
    /// Half the price from a time on, in minutes after midnight; before it as the house rules say.
    HalfFrom(u16),
}

/// Half off.
const HALF: Rate = Rate::percent(50);

/// Minutes of a day.
const DAY: u16 = 24 * 60;

impl Manner {
    /// How far sellers come down, as a share of what they ask, when the clock shows so many minutes after midnight. `house` is the reach
    /// of the house rules. Once it is half price they come down by half at least.
    #[must_use]
    pub fn reach(self, at_minutes: u16, house: Rate) -> Rate {
        match self {
            Self::Fixed => Rate::ZERO,
            Self::Down(rate) => rate,
            Self::HalfFrom(minutes) if at_minutes >= minutes => house.max(HALF),
            Self::Haggle | Self::HalfFrom(_) => house,
        }
    }

    /// Whether a clock can show it.
    #[must_use]
    pub const fn is_fit(self) -> bool {
        !matches!(self, Self::HalfFrom(DAY..))
    }

    /// In words: "sellers here haggle".
    #[must_use]
    pub fn sentence(self) -> String {
        match self {
            Self::Fixed => "prices here are fixed".to_owned(),
            Self::Haggle => "sellers here haggle".to_owned(),
            Self::Down(rate) => format!("sellers here come down {rate} %"),
            Self::HalfFrom(minutes) => {
                format!("half price from {}:{:02}", minutes / 60, minutes % 60)
            }
        }
    }
}

impl Serialize for Manner {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        let value = match self {
            Self::Fixed => json!("fixed"),
            Self::Haggle => json!("haggle"),
            Self::Down(rate) => json!({ "down": json::value(rate) }),
            Self::HalfFrom(minutes) => json!({ "half_from": minutes }),
        };
        value.serialize(out)
    }
}

impl<'de> Deserialize<'de> for Manner {
    fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        let value = Value::deserialize(input)?;
        of(&value).ok_or_else(|| D::Error::custom("no manner of sellers"))
    }
}

fn of(value: &Value) -> Option<Manner> {
    let found = match value {
        Value::String(word) if word == "fixed" => Manner::Fixed,
        Value::String(word) if word == "haggle" => Manner::Haggle,
        Value::Object(choice) if choice.len() == 1 => match choice.iter().next()? {
            (name, rate) if name == "down" => Manner::Down(Rate::deserialize(rate).ok()?),
            (name, from) if name == "half_from" => {
                Manner::HalfFrom(u16::try_from(from.as_u64()?).ok()?)
            }
            _ => return None,
        },
        _ => return None,
    };
    found.is_fit().then_some(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sellers_come_down_as_far_as_the_stop_says() {
        let house = Rate::percent(30);
        let check = |manner: Manner, minutes, percent| {
            assert_eq!(
                manner.reach(minutes, house),
                Rate::percent(percent),
                "{manner:?}"
            );
        };
        check(Manner::Fixed, 600, 0);
        check(Manner::Haggle, 600, 30);
        check(Manner::Down(Rate::percent(10)), 600, 10);
        check(Manner::HalfFrom(780), 779, 30);
        check(Manner::HalfFrom(780), 780, 50);
        let generous = Rate::percent(70);
        assert_eq!(Manner::HalfFrom(0).reach(0, generous), generous);
    }

    #[test]
    fn a_manner_reads_back_from_its_text_and_others_are_refused() {
        let check = |text: &str, manner: Manner, sentence: &str| {
            assert_eq!(json::read::<Manner>(text).unwrap(), manner);
            assert_eq!(json::write(&manner), text);
            assert_eq!(manner.sentence(), sentence);
        };
        check("\"fixed\"", Manner::Fixed, "prices here are fixed");
        check("\"haggle\"", Manner::Haggle, "sellers here haggle");
        let down = Manner::Down(Rate::parse("12.5").unwrap());
        check(r#"{"down":"12.5"}"#, down, "sellers here come down 12.5 %");
        check(
            r#"{"half_from":785}"#,
            Manner::HalfFrom(785),
            "half price from 13:05",
        );
        for bad in [
            "\"free\"",
            "null",
            "780",
            "{}",
            r#"{"down":12}"#,
            r#"{"down":"101"}"#,
            r#"{"half_from":1440}"#,
            r#"{"half_from":-1}"#,
            r#"{"half_from":1.5}"#,
            r#"{"down":"5","half_from":780}"#,
        ] {
            assert!(json::read::<Manner>(bad).is_err(), "{bad}");
        }
    }
}
