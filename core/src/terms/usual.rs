//! How things usually sell on a venue: what a verdict goes by where a charge depends on more than the price.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::Value;

use super::{MAX_LABEL, MAX_NAMED};
use crate::json;
use crate::money::{Money, Rate};

/// How things usually sell on a venue, as far as the trader said.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Usual {
    /// Through a paid promotion, or without one.
    pub promoted: Option<bool>,
    /// Where the buyers are.
    pub regions: Regions,
    /// What sells in a month, in all.
    pub monthly: Option<Money>,
}

/// Which share of the buyers is in which region; what is missing to the whole is elsewhere. In files `[["North","60"],["South","40"]]`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Regions(pub Vec<(String, Rate)>);

/// Why regions can't be saved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RegionsError {
    /// A region without a name, or with one too long.
    #[error("Name each region, in at most {MAX_LABEL} characters.")]
    Name,
    /// One region twice.
    #[error("Each region can be named once.")]
    Twice,
    /// Too many of them.
    #[error("There can be {MAX_NAMED} regions at most.")]
    TooMany,
    /// Shares of more than the whole.
    #[error("The shares come to more than 100 %.")]
    OverWhole,
}

impl Regions {
    /// Was nothing said?
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Are they fit to be saved?
    ///
    /// # Errors
    /// The first fault found, with the sentence to show.
    pub fn check(&self) -> Result<(), RegionsError> {
        if self.0.len() > MAX_NAMED {
            return Err(RegionsError::TooMany);
        }
        let mut whole = Rate::ZERO;
        for (at, (name, share)) in self.0.iter().enumerate() {
            if name.trim().is_empty() || name.chars().count() > MAX_LABEL {
                return Err(RegionsError::Name);
            }
            let mut before = self.0[..at].iter();
            if before.any(|(other, _)| other.eq_ignore_ascii_case(name)) {
                return Err(RegionsError::Twice);
            }
            whole = whole.checked_add(*share).ok_or(RegionsError::OverWhole)?;
        }
        Ok(())
    }
}

impl Serialize for Regions {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        let mut pairs = Vec::with_capacity(self.0.len());
        for (name, share) in &self.0 {
            pairs.push(Value::Array(vec![json::value(name), json::value(share)]));
        }
        Value::Array(pairs).serialize(out)
    }
}

impl<'de> Deserialize<'de> for Regions {
    fn deserialize<D: Deserializer<'de>>(input: D) -> Result<Self, D::Error> {
        let value = Value::deserialize(input)?;
        let found = value
            .as_array()
            .and_then(|pairs| pairs.iter().map(pair).collect());
        let regions = Self(found.ok_or_else(|| D::Error::custom("no regions"))?);
        regions.check().map_err(D::Error::custom)?;
        Ok(regions)
    }
}

fn pair(value: &Value) -> Option<(String, Rate)> {
    match value.as_array()?.as_slice() {
        [name, share] => Some((json::of(name)?, json::of(share)?)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn regions(pairs: &[(&str, u32)]) -> Regions {
        let pair = |(name, share): &(&str, u32)| ((*name).to_owned(), Rate::percent(*share));
        Regions(pairs.iter().map(pair).collect())
    }

    #[test]
    fn regions_read_back_from_their_text() {
        let text = r#"[["North","60"],["South","40"]]"#;
        let read: Regions = json::read(text).unwrap();
        assert_eq!(read, regions(&[("North", 60), ("South", 40)]));
        assert_eq!(json::write(&read), text);
        for bad in [
            "{}",
            r#"[["North"]]"#,
            r#"[["North",60]]"#,
            r#"[["North","60"],["South","41"]]"#,
            r#"[["","1"]]"#,
        ] {
            assert!(json::read::<Regions>(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn shares_are_of_one_whole_and_each_region_is_named_once() {
        assert_eq!(regions(&[]).check(), Ok(()));
        assert_eq!(regions(&[("North", 60)]).check(), Ok(()));
        assert_eq!(
            regions(&[("North", 60), ("north", 1)]).check(),
            Err(RegionsError::Twice)
        );
        assert_eq!(
            regions(&[("North", 60), ("South", 41)]).check(),
            Err(RegionsError::OverWhole)
        );
        assert_eq!(regions(&[(" ", 1)]).check(), Err(RegionsError::Name));
        let many: Vec<String> = (0..=MAX_NAMED).map(|at| at.to_string()).collect();
        let many = many
            .iter()
            .map(|name| (name.as_str(), 0))
            .collect::<Vec<_>>();
        assert_eq!(regions(&many).check(), Err(RegionsError::TooMany));
    }
}
