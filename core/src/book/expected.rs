//! What was expected of a thing when it was bought. Kept with the thing, so that later the trader can see which buys were right.

use crate::id::{CardId, TermsId, VenueId};
use crate::json::{Object, field, fill};
use crate::money::Money;
use crate::worth::Sells;
use serde::{Deserialize, Serialize};

/// The word that the verdict was.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Word {
    /// Buy.
    Buy,
    /// Haggle.
    Haggle,
    /// Leave.
    Leave,
}

impl Word {
    /// The word on screen.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Buy => "Buy",
            Self::Haggle => "Haggle",
            Self::Leave => "Leave",
        }
    }
}

/// The verdict as it stood at the table. Never recomputed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct Expected {
    /// The venue that it was judged on.
    pub venue: VenueId,
    /// The terms that it was judged by.
    pub terms: TermsId,
    /// What the seller wanted.
    pub ask: Money,
    /// What was to be kept of the sale.
    pub keep: Money,
    /// The exact ceiling; absent when no price was low enough.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ceiling: Option<Money>,
    /// The verdict.
    pub verdict: Word,
    /// The rate card that the postage was taken from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub card: Option<CardId>,
    /// Whether it rested on rough figures.
    #[serde(skip_serializing_if = "is_false")]
    pub rough: bool,
    /// What it was to sell for; absent where it was judged before this was kept. Shares by price go by it, so that a new price at home
    /// never moves the cost of a mate.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sells: Option<Sells>,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // As the library asks for it.
fn is_false(rough: &bool) -> bool {
    !rough
}

impl TryFrom<Object> for Expected {
    type Error = serde_json::Error;
    fn try_from(object: Object) -> Result<Self, Self::Error> {
        let (mut ceiling, mut card, mut rough, mut sells) = (None, None, false, None);
        fill(&object, "ceiling", &mut ceiling)?;
        fill(&object, "card", &mut card)?;
        fill(&object, "rough", &mut rough)?;
        fill(&object, "sells", &mut sells)?;
        Ok(Self {
            venue: field(&object, "venue")?,
            terms: field(&object, "terms")?,
            ask: field(&object, "ask")?,
            keep: field(&object, "keep")?,
            ceiling,
            verdict: field(&object, "verdict")?,
            card,
            rough,
            sells,
        })
    }
}
