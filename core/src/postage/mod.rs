//! Postage: who pays it at a venue. Postage in (what the buyer pays for it) and postage out (what the parcel costs) are
//! always separate lines.

use serde::{Deserialize, Serialize};

use crate::money::Money;

/// How a venue arranges postage. In files by its name; a name that this version doesn't know is unreadable.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Arrangement {
    /// Handed over in person: nothing is packed or posted.
    HandedOver,
    /// "+ post": the buyer pays what the postage costs, on top of the price.
    #[default]
    BuyerAtCost,
    /// "Post included": the seller pays it out of the price.
    SellerPays,
}

/// The two postage lines of one sale.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Posting {
    /// What the buyer pays for postage, on top of the price.
    pub paid_in: Money,
    /// What the postage costs.
    pub out: Money,
}

impl Arrangement {
    /// Every arrangement, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::BuyerAtCost, Self::SellerPays, Self::HandedOver];

    /// The postage lines when the parcel costs `cost` to post.
    pub const fn posting(self, cost: Money) -> Posting {
        match self {
            Self::HandedOver => Posting {
                paid_in: Money::ZERO,
                out: Money::ZERO,
            },
            Self::BuyerAtCost => Posting {
                paid_in: cost,
                out: cost,
            },
            Self::SellerPays => Posting {
                paid_in: Money::ZERO,
                out: cost,
            },
        }
    }

    /// Is there a parcel at all, to pack and to post?
    pub const fn is_posted(self) -> bool {
        !matches!(self, Self::HandedOver)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn postage_in_and_out_are_separate_lines() {
        let check = |arrangement: Arrangement, paid_in, out| {
            let posting = arrangement.posting(Money::new(450));
            assert_eq!(
                (posting.paid_in.minor(), posting.out.minor()),
                (paid_in, out)
            );
        };
        check(Arrangement::HandedOver, 0, 0);
        check(Arrangement::BuyerAtCost, 450, 450);
        check(Arrangement::SellerPays, 0, 450);
    }

    #[test]
    fn an_arrangement_is_its_name_in_json() {
        let names = Arrangement::ALL.map(|one| serde_json::to_string(&one).unwrap());
        assert_eq!(
            names,
            ["\"buyer_at_cost\"", "\"seller_pays\"", "\"handed_over\""]
        );
        assert!(serde_json::from_str::<Arrangement>("\"free_above\"").is_err());
    }
}
