//! What is left of one sale at one price, before the thing itself is paid for.

use super::{Case, Missing};
use crate::money::Money;
use crate::postage::{NoPosting, Posting};
use crate::terms::{Assumed, Settlement, settle_by};
use crate::worth::SetAside;

/// The sums at one selling price. `buyer_pays − cut − postage − packing − work − aside = before`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sums {
    /// The thing's own price.
    pub price: Money,
    /// All the buyer pays: the price, and postage where the venue is "+ post".
    pub buyer_pays: Money,
    /// The venue's charges and what it pays out.
    pub settlement: Settlement,
    /// Postage in and out.
    pub posting: Posting,
    /// What packing costs; nothing where the thing is handed over.
    pub packing: Money,
    /// What the work costs that it needs.
    pub work: Money,
    /// What is set aside.
    pub aside: SetAside,
    /// Keep before purchase: what is left to pay for the thing and to keep.
    pub before: Money,
    /// What nobody said and the terms hang on: it was judged by the dearer branch.
    pub assumed: Vec<Assumed>,
}

impl Sums {
    /// The sums of a case at this selling price.
    ///
    /// # Errors
    /// What the case lacks: the venue, or the postage where there is a parcel.
    pub fn at(case: &Case<'_>, price: Money) -> Result<Self, Missing> {
        let venue = case.venue.ok_or(Missing::Venue)?;
        let posting = venue
            .arrangement
            .posting(case.postage, case.weight, price)
            .map_err(|why| match why {
                NoPosting::NoWeight => Missing::Weight,
                NoPosting::NoCost => Missing::Postage,
                NoPosting::TooHeavy { .. } => Missing::Label,
            })?;
        let packing = if venue.arrangement.is_posted() {
            case.packing
        } else {
            Money::ZERO
        };
        let (settlement, assumed) = settle_by(
            venue.schedule,
            case.kind,
            venue.usual,
            price,
            posting.paid_in,
        );
        let aside = case.allowances.set_aside(price);
        let before = settlement
            .payout
            .minus(posting.out)
            .minus(packing)
            .minus(case.work)
            .minus(aside.total);
        Ok(Self {
            price,
            buyer_pays: price.plus(posting.paid_in),
            settlement,
            posting,
            packing,
            work: case.work,
            aside,
            before,
            assumed,
        })
    }

    /// What you keep of this sale when the thing costs `paid`. Below nothing is a loss.
    pub fn keep(&self, paid: Money) -> Money {
        self.before.minus(paid)
    }

    /// The venue's cut: all its charges.
    pub const fn cut(&self) -> Money {
        self.settlement.cut
    }
}
