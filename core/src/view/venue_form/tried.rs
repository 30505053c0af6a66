//! What a setup comes to at any price: every line, what is kept, and the prices to skip.

use crate::book::VenueSetup;
use crate::measure::{Weight, WeightUnit};
use crate::money::{Currency, Money};
use crate::postage::{Arrangement, NoPosting, Posting};
use crate::terms::{DeadZone, Sale, Settlement, dead_zones_from, monthly, refund, settle, unsold};

/// What is tried: a sale, and what the parcel weighs, where that is known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trying {
    /// The price, and what else is known of the sale. Its postage comes from the setup.
    pub sale: Sale,
    /// For labels that go by weight.
    pub weight: Option<Weight>,
}

/// What it comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// The sale in its lines.
    pub settled: Settlement,
    /// The postage lines.
    pub posting: Posting,
    /// Usual packing.
    pub packing: Money,
    /// What is left before the thing itself is paid for.
    pub keep: Money,
    /// What is owed though nothing sells.
    pub unsold: Money,
    /// What comes back when the sale is cancelled or returned.
    pub back: Money,
    /// What is owed each month, beside all sales.
    pub month: Money,
    /// Prices to skip, up to ten times the price.
    pub skip: Vec<DeadZone>,
}

impl Trying {
    /// The prices to skip, walking price and postage together.
    fn skip(&self, setup: &VenueSetup, up_to: Money) -> Vec<DeadZone> {
        let free_from = match &setup.arrangement {
            Arrangement::FreeFrom { sum, .. } => Some(*sum),
            _ => None,
        };
        let below = match &setup.arrangement {
            Arrangement::FreeFrom { below, .. } => below,
            all => all,
        };
        // Its postage can be told: this price's was.
        let posting = below.posting(
            Some(setup.postage.unwrap_or_default()),
            self.weight,
            Money::ZERO,
        );
        let sale = Sale {
            post_in: posting.map(|posting| posting.paid_in).unwrap_or_default(),
            ..self.sale.clone()
        };
        dead_zones_from(&setup.schedule, &sale, free_from, up_to)
    }

    /// Tries it.
    ///
    /// # Errors
    /// What has to be known before the postage can be told.
    pub fn at(&self, setup: &VenueSetup) -> Result<Tried, NoPosting> {
        let price = self.sale.price;
        let packing = setup.packing.unwrap_or_default();
        let posting = setup.arrangement.posting(
            Some(setup.postage.unwrap_or_default()),
            self.weight,
            price,
        )?;
        let sale = Sale {
            post_in: posting.paid_in,
            ..self.sale.clone()
        };
        let settled = settle(&setup.schedule, &sale);
        // More than a book can hold is not looked at.
        let far = Money::from_minor(price.minor().saturating_mul(10)).unwrap_or(Money::MAX);
        Ok(Tried {
            keep: settled.payout.minus(posting.out).minus(packing),
            packing,
            unsold: unsold(&setup.schedule, &sale).total,
            back: refund(&setup.schedule, &sale).total,
            month: monthly(&setup.schedule).total,
            skip: self.skip(setup, far),
            settled,
            posting,
        })
    }
}

/// Twenty units of a currency, and what is kept of a sale at that price before the thing itself is paid for; the lightest parcel,
/// where the postage goes by weight.
#[must_use]
pub fn keeps_of_twenty(setup: &VenueSetup, currency: Currency) -> (Money, Money) {
    let price = Money::from_minor(currency.unit().minor() * 20).unwrap_or_default();
    let nothing = Weight::whole(0, WeightUnit::Gram);
    let posting = setup
        .arrangement
        .posting(
            Some(setup.postage.unwrap_or_default()),
            Some(nothing),
            price,
        )
        .unwrap_or_default();
    let settled = settle(&setup.schedule, &Sale::of(price, posting.paid_in));
    (
        price,
        settled
            .payout
            .minus(posting.out)
            .minus(setup.packing.unwrap_or_default()),
    )
}
