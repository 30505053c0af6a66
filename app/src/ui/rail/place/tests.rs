//! The height of a rail against its room, for widths of phones and of fonts.

use haulwren_core::appraise::Verdict;
use haulwren_core::money::{Currency, Money};
use wasm_bindgen_test::wasm_bindgen_test;

use super::{FULL_BAR, LEAST, LOW_BAR, place};
use crate::ui::rail::RailFacts;

/// A dress at 6.00, 9.00 or 19.00: it sells for 26.00, and the buyer pays 30.50.
fn dress(ask: i64, verdict: Verdict, second: &str) -> RailFacts {
    RailFacts {
        currency: Currency::from_code("USD").expect("in ISO 4217"),
        buyer_pays: Money::new(3050),
        ask: Some(Money::new(ask)),
        asking: "Asking",
        before: None,
        buyer: "Buyer pays".to_owned(),
        keep: Money::new(1590 - ask),
        aside: Money::new(650),
        packing: Money::new(30),
        has_work: false,
        postage: Money::new(450),
        cut: Money::new(330),
        ceiling: Money::new(750),
        verdict: Some(verdict),
        second: Some(second.to_owned()),
        is_rough: false,
        low: Some((Money::new(1800), Money::new(470))),
    }
}

#[wasm_bindgen_test]
fn a_rail_is_no_higher_than_its_room() {
    // Mean widths of a sign against its height: a narrow font, a wide one, and one wider still.
    for share in [0.43, 0.5, 0.55] {
        let measure = move |text: &str, size: f64, _: bool| {
            let signs = u32::try_from(text.chars().count()).unwrap_or(u32::MAX);
            f64::from(signs) * size * share
        };
        for facts in [
            dress(600, Verdict::Buy, "Offer 4 first"),
            dress(900, Verdict::Haggle, "Open at 4, stop at 7.50"),
            dress(1900, Verdict::Leave, "You’d lose 3.10"),
        ] {
            for width in [336.0, 366.0, 406.0] {
                // A sentence on a line of its own and a row that makes way take 38 together, of which the bar gives all that it has over its least.
                for spare in [38.0, 45.0, 51.0, 58.0, 400.0] {
                    let layout = place(&facts.wanted(width, 1.0, spare), &measure);
                    let most = LEAST + spare.min(58.0) + 38.0 - (FULL_BAR - LOW_BAR);
                    assert!(
                        layout.height <= most,
                        "{} of {most} at {width}, {share}: {facts:?}",
                        layout.height
                    );
                    assert!(layout.flag.is_some_and(|flag| flag.word >= 26.0));
                }
            }
        }
    }
}
