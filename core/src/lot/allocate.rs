//! Sharing a lot's price over its things, so that it always adds up to the minor unit.
//!
//! Parts of one purchase carry an equitably apportioned cost (26 CFR 1.61-6). What had to be paid to buy belongs to the cost
//! (26 CFR 1.471-3(b)): a buyer's premium and sales tax are shared together with the price.

use super::Method;
use crate::measure::Weight;
use crate::money::{Money, split_finely};

/// A thing of a lot, as far as its share goes by it. What is not known is `None`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Piece {
    /// What it sells for, likely.
    pub price: Option<Money>,
    /// What is left of its sale before it is paid for. Below nothing counts as nothing.
    pub keep: Option<Money>,
    /// What it weighs.
    pub weight: Option<Weight>,
    /// Its share, when the trader fixed it. Below nothing counts as nothing.
    pub fixed: Option<Money>,
    /// Whether the trader keeps it for their own use: then it carries nothing, unless its share is fixed.
    pub kept: bool,
}

/// What one thing of a lot cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    /// Its share. Never below nothing.
    pub amount: Money,
    /// Whether what the method goes by is known of it.
    pub known: bool,
    /// Whether the trader fixed it.
    pub fixed: bool,
    /// Whether the trader keeps the thing.
    pub kept: bool,
}

/// How a lot's price is shared. `shares + unsorted + not_yet_shared` is the total, exactly.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Split {
    /// The share of each thing, in the order given.
    pub shares: Vec<Share>,
    /// The share that each thing not sorted yet has for the time being.
    pub unsorted: Vec<Money>,
    /// The method it was to be shared by.
    pub asked: Method,
    /// The method it is shared by: evenly while something that the one asked for goes by is not known, or is nothing for all.
    pub by: Method,
    /// What is on no thing: over nothing when shares said by hand are too little, below nothing when they are too much.
    pub not_yet_shared: Money,
    /// Which things got a spare minor unit, by their places.
    pub spare: Vec<usize>,
}

impl Split {
    /// What the things that are not sorted yet carry, all together.
    #[must_use]
    pub fn on_unsorted(&self) -> Money {
        self.unsorted.iter().sum()
    }

    /// What the things carry, all together.
    #[must_use]
    pub fn on_things(&self) -> Money {
        self.shares.iter().map(|share| share.amount).sum()
    }
}

impl Piece {
    /// Whether it takes part when what is left over the fixed shares is shared out.
    const fn is_free(&self) -> bool {
        self.fixed.is_none() && !self.kept
    }

    /// What its share goes by; `None` while that is not known.
    fn weight_by(&self, method: Method) -> Option<u128> {
        let amount = |money: Money| u128::try_from(money.minor()).unwrap_or(0);
        match method {
            Method::Evenly => Some(1),
            Method::ByPrice => self.price.map(amount),
            Method::ByKeep => self.keep.map(amount),
            Method::ByWeight => self.weight.map(Weight::ticks),
            Method::ByHand => None,
        }
    }

    /// Its share with so much on it.
    fn sharing(&self, amount: Money, method: Method) -> Share {
        let fixed = self.fixed.is_some();
        Share {
            amount,
            known: fixed || self.weight_by(method).is_some(),
            fixed,
            kept: self.kept,
        }
    }
}

/// Shares the total of a lot (what was paid, and the extras) over its things and over so many that are not sorted yet.
///
/// Fixed shares come first. What is left is split by the method: largest remainder, ties in the order given, those not sorted yet last. By
/// hand nothing is split. A total below nothing, which no purchase has, is on no thing.
#[must_use]
pub fn allocate(total: Money, method: Method, pieces: &[Piece], unsorted: u16) -> Split {
    let mut amounts: Vec<Money> = Vec::with_capacity(pieces.len());
    let mut free: Vec<usize> = Vec::new();
    for (at, piece) in pieces.iter().enumerate() {
        amounts.push(piece.fixed.unwrap_or_default().max(Money::ZERO));
        if piece.is_free() {
            free.push(at);
        }
    }
    let mut rest = total.minus(amounts.iter().sum());
    let (by, weights) = weights(method, pieces, &free, unsorted);
    let mut split = Split {
        shares: Vec::with_capacity(pieces.len()),
        unsorted: vec![Money::ZERO; usize::from(unsorted)],
        asked: method,
        by,
        not_yet_shared: Money::ZERO,
        spare: Vec::new(),
    };
    if !weights.is_empty() && rest > Money::ZERO {
        let (parts, spare) = split_finely(rest, &weights);
        let mut parts = parts.into_iter();
        for (at, part) in free.iter().zip(parts.by_ref()) {
            amounts[*at] = part;
        }
        split.unsorted = parts.collect();
        for place in spare {
            split.spare.extend(free.get(place));
        }
        rest = Money::ZERO;
    }
    for (piece, amount) in pieces.iter().zip(amounts) {
        split.shares.push(piece.sharing(amount, method));
    }
    split.not_yet_shared = rest;
    split
}

/// The method that can be gone by, and the weights of the free pieces and of those not sorted yet. None by hand.
fn weights(method: Method, pieces: &[Piece], free: &[usize], unsorted: u16) -> (Method, Vec<u128>) {
    if method == Method::ByHand {
        return (method, Vec::new());
    }
    let mut weights: Vec<u128> = Vec::with_capacity(free.len());
    let mut whole: u128 = 0;
    for at in free {
        if let Some(weight) = pieces[*at].weight_by(method) {
            weights.push(weight);
            whole = whole.saturating_add(weight);
        }
    }
    let is_told = weights.len() == free.len() && unsorted == 0 && whole > 0;
    if is_told && method != Method::Evenly {
        return (method, weights);
    }
    let by = if free.is_empty() && unsorted == 0 {
        method
    } else {
        Method::Evenly
    };
    (by, vec![1; free.len() + usize::from(unsorted)])
}
