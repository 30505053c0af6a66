//! All that was said about one thing and the venue it would be sold on.

use super::HouseRules;
use crate::id::KindId;
use crate::measure::Weight;
use crate::money::{Currency, Money, Rate};
use crate::postage::Arrangement;
use crate::terms::{Schedule, Usual};
use crate::worth::{Allowances, Sells};

/// One thing to appraise, on one venue. What isn't known yet is `None`, and the appraisal names it.
#[derive(Clone, Copy, Debug)]
pub struct Case<'a> {
    /// The book's currency: its whole unit is the coin that opening offers are made in.
    pub currency: Currency,
    /// What the seller wants. Nothing (`Money::ZERO`) is free.
    pub ask: Option<Money>,
    /// What the thing sells for.
    pub sells: Option<Sells>,
    /// Where it would be sold.
    pub venue: Option<Selling<'a>>,
    /// What the parcel costs to post. Not needed where a thing is handed over.
    pub postage: Option<Money>,
    /// What packing it costs. Counts only where there is a parcel.
    pub packing: Money,
    /// What the work costs that it needs before it can be sold.
    pub work: Money,
    /// Buyer's premium: what is paid on top, as a share of the price agreed.
    pub premium: Rate,
    /// What the packed parcel weighs: some venues' labels go by it.
    pub weight: Option<Weight>,
    /// What kind of thing it is: some charges hold for some kinds only.
    pub kind: Option<KindId>,
    /// What is set aside.
    pub allowances: Allowances,
    /// The trader's limits.
    pub rules: HouseRules,
}

/// How a venue sells: who pays the postage, and what it takes.
#[derive(Clone, Copy, Debug)]
pub struct Selling<'a> {
    /// Who pays the postage.
    pub arrangement: &'a Arrangement,
    /// What the venue takes.
    pub schedule: &'a Schedule,
    /// How things usually sell there.
    pub usual: &'a Usual,
}
