//! Shapes that terms often have, to start from: they fill the charges, and every number in them is there to be changed.

use super::charge::{ChargeForm, StepForm};
use super::choices::{Of, Posts, Times, Way};
use super::{PostForm, VenueForm};
use crate::money::{Currency, Money, plain};

/// A shape of terms.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// One percentage of the price.
    Percentage,
    /// A percentage of price and postage, and a flat sum.
    PercentageAndFlat,
    /// Flat under a price, a percentage above.
    FlatThenPercentage,
    /// A percentage that falls with the price, slice by slice.
    Falling,
    /// Sold in person: no charge, no parcel.
    InPerson,
    /// A percentage and a flat sum, and tax on both on top.
    TaxOnFees,
    /// A smaller percentage, and a fee each month.
    MonthlyFee,
}

impl Shape {
    /// All of them, in the order they are offered.
    pub const ALL: [Self; 7] = [
        Self::Percentage,
        Self::PercentageAndFlat,
        Self::FlatThenPercentage,
        Self::Falling,
        Self::InPerson,
        Self::TaxOnFees,
        Self::MonthlyFee,
    ];

    /// A form with the charges of this shape in place of its own. Its name, usual postage and packing stay.
    #[must_use]
    pub fn fill(self, form: &VenueForm, currency: Currency) -> VenueForm {
        // In hundredths of the currency's unit; rounded towards nothing where it has no such part.
        let amount = |hundredths: i64| {
            let minor = currency.unit().minor() * hundredths / 100;
            plain(Money::new(minor), currency)
        };
        let share = |percent: &str, of| ChargeForm {
            percent: percent.to_owned(),
            of,
            ..ChargeForm::share()
        };
        let flat = |hundredths| ChargeForm {
            flat: amount(hundredths),
            ..ChargeForm::flat_charge()
        };
        let none = ChargeForm::flat_charge;
        let table = |way, rows: &[(i64, &str, i64)]| {
            let mut charge = ChargeForm {
                way,
                ..ChargeForm::share()
            };
            for (from, percent, flat) in rows {
                charge.steps.push(StepForm {
                    from: amount(*from),
                    percent: (*percent).to_owned(),
                    flat: if *flat == 0 {
                        String::new()
                    } else {
                        amount(*flat)
                    },
                });
            }
            charge
        };
        let charges = match self {
            Self::Percentage => vec![share("12", Of::Price), none()],
            Self::PercentageAndFlat => vec![share("10", Of::PriceAndPost), flat(25)],
            Self::FlatThenPercentage => {
                vec![table(Way::Brackets, &[(0, "", 1_50), (10_00, "15", 0)])]
            }
            Self::Falling => vec![table(
                Way::Slices,
                &[(0, "12", 0), (100_00, "8", 0), (500_00, "4", 0)],
            )],
            Self::InPerson => vec![ChargeForm::share(), none()],
            Self::TaxOnFees => vec![
                share("10", Of::PriceAndPost),
                flat(25),
                ChargeForm {
                    label: "Tax on the charges".to_owned(),
                    percent: "20".to_owned(),
                    of: Of::Charges,
                    others: 0b11,
                    ..ChargeForm::default()
                },
            ],
            Self::MonthlyFee => vec![
                share("5", Of::Price),
                ChargeForm {
                    label: "Monthly fee".to_owned(),
                    way: Way::Flat,
                    flat: amount(15_00),
                    times: Times::Month,
                    ..ChargeForm::default()
                },
            ],
        };
        let is_in_person = self == Self::InPerson;
        let mut post = form.post.clone();
        if is_in_person {
            post = PostForm {
                way: Posts::HandedOver,
                ..PostForm::default()
            };
        } else if post.way == Posts::HandedOver {
            post.way = Posts::AtCost;
        }
        VenueForm {
            charges,
            groups: Vec::new(),
            post,
            ..form.clone()
        }
    }
}
