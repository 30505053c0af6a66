//! Terms under which a dearer price pays nothing more.

use super::checking::{fits, refused};
use super::*;

#[test]
fn a_venue_that_takes_all_that_a_dearer_price_adds_is_refused() {
    let half = || percent("50", Base::Price);
    refused(vec![half(), half()], TermsError::TakesAll);
    refused(vec![half(), half(), half()], TermsError::TakesAll);
    fits(vec![half(), percent("49.9999", Base::Price)]);
    // Half, and as much again as a tax on it.
    refused(vec![half(), of_charges("100", &[1])], TermsError::TakesAll);
    fits(vec![half(), of_charges("99.9", &[1])]);
    // A tax that is assumed lifts 95 % over the whole.
    refused(
        vec![percent("95", Base::OrderTotal(rate("10")))],
        TermsError::TakesAll,
    );
    // 60 % and 50 %, but never at one price; and never of one kind.
    let only = |when, charge: Charge| Charge { when, ..charge };
    let under = When {
        below: Some(m(10_00)),
        ..When::default()
    };
    let over = When {
        from: Some(m(10_00)),
        ..When::default()
    };
    fits(vec![
        only(under.clone(), percent("60", Base::Price)),
        only(over, half()),
    ]);
    refused(
        vec![only(under, percent("60", Base::Price)), half()],
        TermsError::TakesAll,
    );
    let of_kind = |number| When {
        kinds: vec![kind(number)],
        ..When::default()
    };
    fits(vec![
        only(of_kind(1), percent("60", Base::Price)),
        only(of_kind(2), half()),
    ]);
    refused(
        vec![only(of_kind(1), percent("60", Base::Price)), half()],
        TermsError::TakesAll,
    );
    // A dear slice in the middle.
    refused(
        vec![slices(&[(0, "10", 0), (50_00, "100", 0), (60_00, "5", 0)])],
        TermsError::TakesAll,
    );
    // A least, alone or of a group, only hides it for a while.
    let together = Schedule {
        charges: vec![percent("60", Base::Price), half()],
        groups: vec![group(&[1, 2], Some(50_00), None)],
    };
    assert_eq!(together.check(), Err(TermsError::TakesAll));
    let alone = Charge {
        least: Some(m(50_00)),
        ..percent("60", Base::Price)
    };
    refused(vec![alone, half()], TermsError::TakesAll);
    // A most stops it.
    fits(vec![Charge {
        most: Some(m(0)),
        ..percent("100", Base::Price)
    }]);
    let tiers = Amount::Tiers {
        by: Period::Year,
        steps: steps(&[(0, "5", 0), (100, "60", 0)]),
    };
    refused(
        vec![half(), Charge::new("Tiers", Base::Price, tiers)],
        TermsError::TakesAll,
    );
}
