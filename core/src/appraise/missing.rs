//! What a verdict still needs.

/// A fact that was not given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Missing {
    /// What the seller wants. The ceiling needs none.
    Ask,
    /// What the thing sells for.
    SellsFor,
    /// Where it would be sold.
    Venue,
    /// What it costs to post.
    Postage,
}

impl Missing {
    /// What to do about it, as a sentence.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Ask => "Type the asking price.",
            Self::SellsFor => "Type what it sells for.",
            Self::Venue => "Choose where you would sell it.",
            Self::Postage => "Type what it costs to post.",
        }
    }
}
