//! Laws of hints: what they promise comes true.

use haulwren_core::measure::{Weight, WeightUnit};
use haulwren_core::money::Money;
use haulwren_core::postage::{Hint, Parcel, To, quote};
use proptest::prelude::*;

use super::cards::{ZONES, boxes, facts, size, weight};

/// A hint's weight in hundredths of an ounce.
fn hundredths(of: Weight) -> i128 {
    i128::from(of.ten_thousandths() / 100)
}

proptest! {
    #![proptest_config(crate::tries(4096))]

    #[test]
    fn a_hint_comes_true(facts in facts(), (tenths, sides) in boxes(), fine in 0_i128..10, zone in 0..ZONES) {
        let card = facts.card();
        let at = |hundredths: i128| {
            let weight = Weight::from_ten_thousandths(u128::try_from(hundredths).unwrap() * 100, WeightUnit::Ounce);
            let parcel = Parcel { weight: weight.unwrap(), size: Some(size(sides)), container: None };
            quote(&card, &card.services[0], &parcel, To::Zone(zone))
        };
        let weight = tenths * 10 + fine;
        let Ok(quote) = at(weight) else {
            return Ok(());
        };
        match quote.hint {
            Some(Hint::Under { room, more }) => {
                let room = hundredths(room);
                let just_under = at(weight + room);
                prop_assert_eq!(just_under.map(|under| under.total), Ok(quote.total));
                // A tenth further is beyond: rounding down hid less than that.
                let beyond = at(weight + room + 10).ok().map(|beyond| beyond.total.minus(quote.total));
                prop_assert!(more.is_none_or(|more| more > Money::ZERO));
                prop_assert_eq!(beyond, more);
            }
            Some(Hint::Over { by, saves }) => {
                prop_assert!(saves > Money::ZERO);
                let lighter = at(weight - hundredths(by)).unwrap();
                prop_assert_eq!(quote.total.minus(lighter.total), saves);
            }
            None => {}
        }
    }

    #[test]
    fn what_is_shown_is_in_tenths(facts in facts(), (tenths, _) in boxes(), zone in 0..ZONES) {
        let card = facts.card();
        let parcel = Parcel { weight: weight(tenths, WeightUnit::Ounce), size: None, container: None };
        if let Ok(quote) = quote(&card, &card.services[0], &parcel, To::Zone(zone)) {
            let shown = match quote.hint {
                Some(Hint::Under { room, .. }) => room,
                Some(Hint::Over { by, .. }) => by,
                None => return Ok(()),
            };
            prop_assert_eq!(shown.unit(), WeightUnit::Ounce);
            prop_assert_eq!(shown.ten_thousandths() % 1_000, 0);
        }
    }
}
