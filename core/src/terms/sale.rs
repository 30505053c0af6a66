//! What the terms need to know of a sale.

use crate::id::KindId;
use crate::money::Money;

/// A sale, done or imagined, of one thing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sale {
    /// The thing's own price.
    pub price: Money,
    /// The postage that the buyer pays.
    pub post_in: Money,
    /// The tax that the buyer paid, once it is known. Until then a charge on the order's total assumes one.
    pub tax: Option<Money>,
    /// What kind of thing it is.
    pub kind: Option<KindId>,
    /// Did it sell through a paid promotion?
    pub promoted: bool,
    /// Where the buyer is.
    pub region: Option<String>,
    /// The sales before this one in the month or the year that [`super::Schedule::tiers_by`] names.
    pub running: Money,
}

impl Sale {
    /// A sale of which the price and the postage are known.
    pub fn of(price: Money, post_in: Money) -> Self {
        Self {
            price,
            post_in,
            ..Self::default()
        }
    }
}
