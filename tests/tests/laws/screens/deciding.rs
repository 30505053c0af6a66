//! Decide: what Buy keeps is what was shown, on the venue that is judged.

use crate::book::{Device, setups};
use haulwren_core::appraise::{Judged, Verdict};
use haulwren_core::book::{Command, Word};
use haulwren_core::id::VenueId;
use haulwren_core::view::{DecideDraft, decide, haul, purchase};
use proptest::collection::vec;
use proptest::prelude::*;

prop_compose! {
    fn drafts()(
        ask in "([0-9]{1,2}(\\.[0-9]{1,2})?)?",
        prices in prop::array::uniform3(0_u32..60),
        ends in any::<[bool; 2]>(),
        [postage, packing] in ["([0-9](\\.[0-9]{1,2})?)?", "(0?\\.[0-9]{1,2})?"],
        unsorted in prop::bool::weighted(0.1),
    ) -> DecideDraft {
        let mut prices = prices;
        if !unsorted {
            prices.sort_unstable();
        }
        let [low, likely, high] = prices.map(|price| price.to_string());
        let end = |text: String, is_typed: bool| if is_typed { text } else { String::new() };
        let (low, high) = (end(low, ends[0]), end(high, ends[1]));
        DecideDraft { ask, low, likely, high, postage, packing, ..DecideDraft::default() }
    }
}

const fn word(verdict: Verdict) -> Word {
    match verdict {
        Verdict::Buy => Word::Buy,
        Verdict::Haggle => Word::Haggle,
        Verdict::Leave => Word::Leave,
    }
}

proptest! {
    #![proptest_config(crate::tries(256))]

    #[test]
    fn the_verdict_that_buy_keeps_is_the_one_shown(draft in drafts(), setups in vec(setups(), 0..4), which in any::<u8>()) {
        let mut device = Device::begun();
        for setup in setups {
            // Two of one name: the second is refused, which is fine.
            if let Ok(edits) = device.decide(&Command::SaveVenue { id: None, setup }) {
                device.commit(edits);
            }
        }
        let ids: Vec<VenueId> = device.state.venues().map(|(id, _)| id).collect();
        let venue = ids.get(usize::from(which) % (ids.len() + 1)).copied();
        let draft = DecideDraft { venue, ..draft };
        let now = device.now;

        let shown = decide(&device.state, &draft, now).unwrap();
        prop_assert_eq!(shown.judged, venue.or(device.state.usual_venue()));
        prop_assert_eq!(shown.venues.len(), ids.len());
        prop_assert!(shown.venues.is_sorted_by(|one, next| one.keep >= next.keep), "best first");
        let keep = shown.appraisal.judged.as_ref().map(Judged::keep);
        for card in shown.venues.iter().filter(|card| card.judged) {
            prop_assert_eq!((Some(card.id), card.keep), (shown.judged, keep));
        }

        let bought = purchase(&device.state, &draft, now);
        prop_assert_eq!(bought.as_ref().map(|bought| bought.paid), shown.buy);
        prop_assert!(shown.buy.is_none() || shown.faults.is_empty());
        let Some(bought) = bought else { return Ok(()) };
        let expected = bought.things[0].expected.clone();
        let verdict = shown.appraisal.judged.as_ref().and_then(|found| Some(word(found.verdict?.0)));
        prop_assert_eq!(expected.as_ref().map(|expected| expected.verdict), verdict);
        prop_assert_eq!(expected.as_ref().map(|expected| expected.keep), verdict.and(keep));

        let edits = device.decide(&Command::Buy(bought.clone())).expect("what Decide offers, the book takes");
        device.commit(edits);
        let haul = haul(&device.state).unwrap();
        // Nothing was corrected: what is kept now is what was judged.
        if let Some(expected) = &expected {
            prop_assert_eq!(haul.sums.keep, expected.keep);
        }
        prop_assert_eq!((haul.sums.spent, &haul.rows[0].expected), (bought.paid, &expected));
    }
}
