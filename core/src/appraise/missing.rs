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
    /// What the parcel weighs, for a label that goes by weight.
    Weight,
    /// A label: the parcel is too heavy for those of the venue.
    Label,
}

impl Missing {
    /// What to do about it, as a sentence.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::Ask => "Type the asking price.",
            Self::SellsFor => "Type what it sells for.",
            Self::Venue => "Choose where you would sell it.",
            Self::Postage => "Type what it costs to post.",
            Self::Weight => "Say what it weighs: choose its kind, or its size and heft.",
            Self::Label => "It is too heavy for this venue\u{2019}s labels.",
        }
    }
}
