//! Reading what is typed.

use super::super::draft::{DecideDraft, Field};
use crate::money::{Currency, Money};
use crate::worth::Sells;

/// Typed amounts, with what is wrong with the rest.
pub(super) struct Typed {
    pub ask: Option<Money>,
    pub sells: Option<Sells>,
    pub postage: Option<Money>,
    pub packing: Option<Money>,
    pub work: Option<Money>,
    pub faults: Vec<(Field, String)>,
}

impl Typed {
    /// Nothing is typed.
    pub(super) const NOTHING: Self = Self {
        ask: None,
        sells: None,
        postage: None,
        packing: None,
        work: None,
        faults: Vec::new(),
    };
}

pub(super) fn read(draft: &DecideDraft, currency: Currency) -> Typed {
    let mut faults = Vec::new();
    let mut amount = |field| match draft.amount(field, currency) {
        Ok(amount) => amount,
        Err(error) => {
            faults.push((field, error.to_string()));
            None
        }
    };
    let (ask, postage, packing, work) = (
        amount(Field::Ask),
        amount(Field::Postage),
        amount(Field::Packing),
        amount(Field::Work),
    );
    let (low, likely, high) = (
        amount(Field::Low),
        amount(Field::Likely),
        amount(Field::High),
    );
    let sells = likely.and_then(|likely| match Sells::new(low, likely, high) {
        Ok(sells) => Some(sells),
        Err(error) => {
            let field = if low.is_some_and(|low| low > likely) {
                Field::Low
            } else {
                Field::High
            };
            faults.push((field, error.to_string()));
            None
        }
    });
    Typed {
        ask,
        sells,
        postage,
        packing,
        work,
        faults,
    }
}
