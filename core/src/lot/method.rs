//! How a lot's price is shared over its things.

use crate::json::words;

/// How a lot's price is shared over its things. In files by its name; a name that this version doesn't know is unreadable.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Method {
    /// To each the same.
    #[default]
    Evenly,
    /// By what each sells for: relative sales value, as joint costs are shared (26 CFR 1.61-6: parts of one purchase carry an
    /// equitably apportioned cost).
    ByPrice,
    /// By what is left of each sale before the thing is paid for: net realisable value.
    ByKeep,
    /// By what each weighs.
    ByWeight,
    /// As the trader says, thing by thing; what is said of none is not yet shared.
    ByHand,
}

words!(Method: Evenly "evenly" ByPrice "by_price" ByKeep "by_keep" ByWeight "by_weight" ByHand "by_hand");

impl Method {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 5] = [
        Self::Evenly,
        Self::ByPrice,
        Self::ByKeep,
        Self::ByWeight,
        Self::ByHand,
    ];

    /// Its word on screen, after "split".
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Evenly => "evenly",
            Self::ByPrice => "by price",
            Self::ByKeep => "by keep",
            Self::ByWeight => "by weight",
            Self::ByHand => "by hand",
        }
    }
}
