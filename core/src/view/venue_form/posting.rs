//! The postage arrangement of the form: its texts and choices, read into an arrangement, and filled from one.

use super::choices::{Payers, Posts};
use super::input::{PostInput, VenueInput};
use super::read::Reader;
use crate::json::{Object, read_form};
use crate::measure::Weight;
use crate::money::{Currency, Money, plain};
use crate::postage::{Arrangement, ArrangementError, LabelPrice, Payer};
use crate::view::measures::{bare, typed};
use serde::{Deserialize, Serialize};

/// The texts and choices of an arrangement. What a choice makes idle stays as it was typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct PostForm {
    /// Who pays, and how.
    pub way: Posts,
    /// The sum that the buyer pays, where it is stated.
    pub stated: String,
    /// Whether the venue's label goes by weight.
    pub by_weight: bool,
    /// What a label costs that doesn't.
    pub label: String,
    /// What labels cost that do.
    pub bands: Vec<BandForm>,
    /// Who pays for the label.
    pub payer: Payers,
    /// The buyer's share of it, in percent, where it is shared.
    pub share: String,
    /// Whether the buyer pays no postage from a sum on.
    pub is_free: bool,
    /// That sum.
    pub free_from: String,
}

read_form!(PostForm: way stated by_weight label bands payer share is_free free_from);

/// A weight band.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct BandForm {
    /// The most that it takes, with its unit.
    pub up_to: String,
    /// Its price.
    pub price: String,
}

read_form!(BandForm: up_to price);

impl PostForm {
    /// Reads it.
    pub(super) fn read(&self, reader: &mut Reader<'_>) -> Arrangement {
        let of = VenueInput::Post;
        let way = match self.way {
            Posts::AtCost => Arrangement::BuyerAtCost,
            Posts::SellerPays => Arrangement::SellerPays,
            Posts::HandedOver => Arrangement::HandedOver,
            Posts::Stated => {
                Arrangement::Stated(reader.must_money(of(PostInput::Stated), &self.stated))
            }
            Posts::Label => Arrangement::Label {
                price: if self.by_weight {
                    LabelPrice::Bands(self.read_bands(reader))
                } else {
                    LabelPrice::Flat(reader.must_money(of(PostInput::Label), &self.label))
                },
                payer: match self.payer {
                    Payers::Buyer => Payer::Buyer,
                    Payers::Seller => Payer::Seller,
                    Payers::Shared => {
                        Payer::Shared(reader.must_rate(of(PostInput::Share), &self.share))
                    }
                },
            },
        };
        if self.is_free {
            let sum = reader.must_money(of(PostInput::FreeFrom), &self.free_from);
            let below = Box::new(way);
            return Arrangement::FreeFrom { sum, below };
        }
        way
    }

    fn read_bands(&self, reader: &mut Reader<'_>) -> Vec<(Weight, Money)> {
        let mut bands: Vec<(Weight, _)> = Vec::with_capacity(self.bands.len());
        let mut is_whole = true;
        for (row, band) in self.bands.iter().enumerate() {
            let price = VenueInput::Post(PostInput::BandPrice(row));
            let price = reader.must_money(price, &band.price);
            match typed(&band.up_to, "") {
                Ok(up_to) => bands.push((up_to, price)),
                Err(error) => {
                    is_whole = false;
                    let field = VenueInput::Post(PostInput::BandWeight(row));
                    reader.complain(field, &error);
                }
            }
        }
        let rise = bands
            .windows(2)
            .all(|pair| pair[0].0.ticks() < pair[1].0.ticks());
        if is_whole && (bands.is_empty() || !rise) {
            let field = VenueInput::Post(PostInput::Bands);
            reader.complain(field, &ArrangementError::Bands);
        }
        bands
    }

    /// The form of an arrangement.
    pub(super) fn of(arrangement: &Arrangement, currency: Currency) -> Self {
        let text = |money| plain(money, currency);
        let mut form = Self::default();
        let mut way = arrangement;
        if let Arrangement::FreeFrom { sum, below } = arrangement {
            (form.is_free, form.free_from) = (true, text(*sum));
            way = below;
        }
        form.way = match way {
            Arrangement::BuyerAtCost => Posts::AtCost,
            // Free from a sum, twice: no book takes it.
            Arrangement::SellerPays | Arrangement::FreeFrom { .. } => Posts::SellerPays,
            Arrangement::HandedOver => Posts::HandedOver,
            Arrangement::Stated(sum) => {
                form.stated = text(*sum);
                Posts::Stated
            }
            Arrangement::Label { price, payer } => {
                match price {
                    LabelPrice::Flat(flat) => form.label = text(*flat),
                    LabelPrice::Bands(bands) => {
                        form.by_weight = true;
                        for (up_to, price) in bands {
                            form.bands.push(BandForm {
                                up_to: bare(&up_to.to_string(), ""),
                                price: text(*price),
                            });
                        }
                    }
                }
                form.payer = match payer {
                    Payer::Buyer => Payers::Buyer,
                    Payer::Seller => Payers::Seller,
                    Payer::Shared(share) => {
                        form.share = share.to_string();
                        Payers::Shared
                    }
                };
                Posts::Label
            }
        };
        form
    }
}
