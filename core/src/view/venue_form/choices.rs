//! The choices of the form, each among a few. In drafts they are written by their place.

use serde::{Deserialize, Serialize};

macro_rules! choices {
    ($($(#[$doc:meta])* $name:ident { $($(#[$each:meta])* $choice:ident),* $(,)? })*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(from = "u8", into = "u8")]
        pub enum $name {
            $($(#[$each])* $choice,)*
        }

        impl $name {
            /// All of them, in the order they are offered.
            pub const ALL: &[Self] = &[$(Self::$choice),*];

            /// The one at a place of [`Self::ALL`]; the first where there is no such place.
            #[must_use]
            pub fn at(place: usize) -> Self {
                Self::ALL.get(place).copied().unwrap_or_default()
            }
        }

        impl From<u8> for $name {
            fn from(place: u8) -> Self {
                Self::at(usize::from(place))
            }
        }

        impl From<$name> for u8 {
            fn from(choice: $name) -> Self {
                choice as Self
            }
        }
    )*};
}

choices! {
    /// How much a charge is.
    Way {
        /// A percentage.
        #[default]
        Percent,
        /// A flat sum.
        Flat,
        /// The whole base at the step that it lies in.
        Brackets,
        /// Each slice at its own step.
        Slices,
        /// By the month's running sales.
        ByMonth,
        /// By the year's running sales.
        ByYear,
    }
    /// What it is taken of.
    Of {
        /// The price.
        #[default]
        Price,
        /// The price and the postage that the buyer pays.
        PriceAndPost,
        /// Those and the tax on them.
        OrderTotal,
        /// Other charges.
        Charges,
    }
    /// How often it is charged.
    Times {
        /// For each thing.
        #[default]
        Thing,
        /// Once for an order.
        Order,
        /// Once for a parcel.
        Parcel,
        /// Once for a listing.
        Listing,
        /// Each month.
        Month,
    }
    /// Whether it comes back when a sale is cancelled or returned.
    Back {
        /// The venue keeps it.
        #[default]
        Kept,
        /// All of it.
        All,
        /// All but some.
        AllBut,
    }
    /// Whether it hangs on a paid promotion.
    Promotion {
        /// It doesn't.
        #[default]
        Any,
        /// Only for things that sold through one.
        Only,
        /// Only for things that sold without.
        Without,
    }
    /// Who pays the postage, and how.
    Posts {
        /// The buyer, at cost.
        #[default]
        AtCost,
        /// The seller.
        SellerPays,
        /// Nobody: it is handed over.
        HandedOver,
        /// The buyer, a stated sum.
        Stated,
        /// By a label of the venue's own.
        Label,
    }
    /// Who pays for a venue's label.
    Payers {
        /// The buyer.
        #[default]
        Buyer,
        /// The seller.
        Seller,
        /// Both.
        Shared,
    }
}
