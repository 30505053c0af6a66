//! When a charge holds: conditions on the sale, all of which must be met.

use serde::Serialize;

use super::Sale;
use crate::id::KindId;
use crate::money::Money;

/// The most kinds, and the most regions, that one charge may name.
pub const MAX_NAMED: usize = 60;

/// The conditions of a charge. None at all: it always holds. A fact of the sale that isn't known meets no condition.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct When {
    /// The price is at least this.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<Money>,
    /// The price is under this.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub below: Option<Money>,
    /// The thing is of one of these kinds. None: of any.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub kinds: Vec<KindId>,
    /// The thing sold through a paid promotion, or didn't.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub promoted: Option<bool>,
    /// The buyer is in one of these regions, in capitals or not. None: in any.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub regions: Vec<String>,
}

impl When {
    /// No condition at all?
    pub fn is_always(&self) -> bool {
        self.from.is_none()
            && self.below.is_none()
            && self.kinds.is_empty()
            && self.promoted.is_none()
            && self.regions.is_empty()
    }

    /// Are the conditions met that don't look at the price?
    pub(super) fn meets_facts(&self, sale: &Sale) -> bool {
        self.meets_kind(sale.kind)
            && self.meets_promotion(sale.promoted)
            && self.meets_region(sale.region.as_deref())
    }

    pub(super) fn meets_kind(&self, kind: Option<KindId>) -> bool {
        self.kinds.is_empty() || kind.is_some_and(|kind| self.kinds.contains(&kind))
    }

    pub(super) fn meets_promotion(&self, promoted: bool) -> bool {
        self.promoted.is_none_or(|wanted| wanted == promoted)
    }

    pub(super) fn meets_region(&self, region: Option<&str>) -> bool {
        let is_named = |region: &str| {
            let mut named = self.regions.iter();
            named.any(|named| named.eq_ignore_ascii_case(region))
        };
        self.regions.is_empty() || region.is_some_and(is_named)
    }

    /// Is the price within the range? In minor units.
    pub(super) fn meets_price(&self, price: i64) -> bool {
        self.from.is_none_or(|from| from.minor() <= price)
            && self.below.is_none_or(|below| price < below.minor())
    }
}
