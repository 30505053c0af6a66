//! How a venue arranges postage: who pays what.

use crate::measure::Weight;
use crate::money::{Money, Rate, percent_of};

/// How a venue arranges postage. In files by its name, with what it needs beside it; a name that this version doesn't know is
/// unreadable.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub enum Arrangement {
    /// Handed over in person: nothing is packed or posted.
    HandedOver,
    /// "+ post": the buyer pays what the postage costs, on top of the price.
    #[default]
    BuyerAtCost,
    /// "Post included": the seller pays it out of the price.
    SellerPays,
    /// The buyer pays this sum for postage, whatever it costs.
    Stated(Money),
    /// The parcel goes with a label of the venue's own.
    Label {
        /// What the label costs.
        price: LabelPrice,
        /// Who pays for it.
        payer: Payer,
    },
    /// The buyer pays no postage on an order of this sum or over.
    FreeFrom {
        /// The least sum of the order's prices that goes free.
        sum: Money,
        /// How it is arranged under that sum, and how it is posted at any. Never free from a sum itself.
        below: Box<Arrangement>,
    },
}

/// What a venue's label costs.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum LabelPrice {
    /// The same for any parcel.
    Flat(Money),
    /// By weight: up to each weight its price, the lightest first. Over the last one there is no label.
    Bands(Vec<(Weight, Money)>),
}

/// Who pays for a venue's label.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Payer {
    /// The buyer, on top of the price.
    Buyer,
    /// The seller, out of the price.
    Seller,
    /// Both: this share is the buyer's, rounded half away from zero, and the rest the seller's.
    Shared(Rate),
}

/// The two postage lines of one sale.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Posting {
    /// What the buyer pays for postage, on top of the price.
    pub paid_in: Money,
    /// What the postage costs.
    pub out: Money,
}

/// Why the postage lines can't be told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoPosting {
    /// What the parcel costs to post is not known.
    #[error("Type what it costs to post.")]
    NoCost,
    /// The label goes by weight, and the weight is not known.
    #[error("Type what the parcel weighs: this venue's label goes by weight.")]
    NoWeight,
    /// Heavier than the venue's last band.
    #[error("This venue has no label for parcels over {most}.")]
    TooHeavy {
        /// The most a label takes.
        most: Weight,
    },
}

/// Why an arrangement is not fit to be saved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ArrangementError {
    /// An amount below nothing, or over what may be typed.
    #[error("Type a postage between nothing and what one amount may be.")]
    Amount,
    /// No bands, or one that is not heavier than the one before.
    #[error("Give each weight band a greater weight than the one before.")]
    Bands,
    /// Free from a sum, twice.
    #[error("Postage can go free from one sum only.")]
    Nested,
}

impl Arrangement {
    /// The plain arrangements, which need nothing beside them, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::BuyerAtCost, Self::SellerPays, Self::HandedOver];

    /// The postage lines of a parcel that costs `cost` to post and weighs `weight`, for an order whose things come to
    /// `order_price`. Only what the arrangement needs has to be known.
    ///
    /// # Errors
    /// [`NoPosting`]: what isn't known, or that the venue has no label for it.
    pub fn posting(
        &self,
        cost: Option<Money>,
        weight: Option<Weight>,
        order_price: Money,
    ) -> Result<Posting, NoPosting> {
        let known = cost.ok_or(NoPosting::NoCost);
        let (paid_in, out) = match self {
            Self::HandedOver => (Money::ZERO, Money::ZERO),
            Self::BuyerAtCost => (known?, known?),
            Self::SellerPays => (Money::ZERO, known?),
            Self::Stated(sum) => (*sum, known?),
            Self::Label { price, payer } => {
                let out = price.of(weight)?;
                let paid_in = match payer {
                    Payer::Buyer => out,
                    Payer::Seller => Money::ZERO,
                    Payer::Shared(rate) => percent_of(out, *rate),
                };
                (paid_in, out)
            }
            Self::FreeFrom { sum, below } => {
                let posting = below.posting(cost, weight, order_price)?;
                let paid_in = if order_price >= *sum {
                    Money::ZERO
                } else {
                    posting.paid_in
                };
                (paid_in, posting.out)
            }
        };
        Ok(Posting { paid_in, out })
    }

    /// Is there a parcel at all, to pack and to post?
    pub fn is_posted(&self) -> bool {
        match self {
            Self::HandedOver => false,
            Self::FreeFrom { below, .. } => below.is_posted(),
            _ => true,
        }
    }

    /// Does it hang on what the parcel costs to post, which a label of the venue's own does not?
    pub fn goes_by_cost(&self) -> bool {
        match self {
            Self::HandedOver | Self::Label { .. } => false,
            Self::FreeFrom { below, .. } => below.goes_by_cost(),
            Self::BuyerAtCost | Self::SellerPays | Self::Stated(_) => true,
        }
    }

    /// Is it fit to be saved?
    ///
    /// # Errors
    /// The first fault found, with the sentence to show.
    pub fn check(&self) -> Result<(), ArrangementError> {
        match self {
            Self::HandedOver | Self::BuyerAtCost | Self::SellerPays => Ok(()),
            Self::Stated(sum) => amount(*sum),
            Self::Label { price, .. } => match price {
                LabelPrice::Flat(flat) => amount(*flat),
                LabelPrice::Bands(bands) => bands_rise(bands),
            },
            Self::FreeFrom { below, .. } if matches!(**below, Self::FreeFrom { .. }) => {
                Err(ArrangementError::Nested)
            }
            Self::FreeFrom { sum, below } => amount(*sum).and_then(|()| below.check()),
        }
    }
}

fn amount(money: Money) -> Result<(), ArrangementError> {
    if money.is_negative() || money > Money::TYPED_MAX {
        return Err(ArrangementError::Amount);
    }
    Ok(())
}

fn bands_rise(bands: &[(Weight, Money)]) -> Result<(), ArrangementError> {
    let mut before = 0;
    for (up_to, price) in bands {
        if up_to.ticks() <= before {
            return Err(ArrangementError::Bands);
        }
        before = up_to.ticks();
        amount(*price)?;
    }
    if bands.is_empty() {
        return Err(ArrangementError::Bands);
    }
    Ok(())
}

impl LabelPrice {
    fn of(&self, weight: Option<Weight>) -> Result<Money, NoPosting> {
        match self {
            Self::Flat(flat) => Ok(*flat),
            Self::Bands(bands) => {
                let ticks = weight.ok_or(NoPosting::NoWeight)?.ticks();
                let band = bands.iter().find(|(up_to, _)| ticks <= up_to.ticks());
                let last = bands.last().ok_or(NoPosting::NoCost)?;
                let most = NoPosting::TooHeavy { most: last.0 };
                band.map(|(_, price)| *price).ok_or(most)
            }
        }
    }
}

#[cfg(test)]
#[path = "tests/arrangement.rs"]
mod tests;
