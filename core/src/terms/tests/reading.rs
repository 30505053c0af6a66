//! The text of a schedule in files.

use super::*;

fn quayside() -> Schedule {
    Schedule::of(vec![percent("10", Base::PriceAndPost), flat(25)])
}

/// A schedule and its exact text.
fn reads(schedule: &Schedule, text: &str) {
    assert_eq!(serde_json::to_string(schedule).unwrap(), text);
    assert_eq!(&serde_json::from_str::<Schedule>(text).unwrap(), schedule);
}

#[test]
fn a_simple_schedule_is_written_by_names() {
    reads(
        &quayside(),
        r#"{"charges":[{"label":"Sale","base":"price_and_post","amount":{"percent":"10"}},{"label":"Order","base":"price","amount":{"flat":25}}]}"#,
    );
    reads(&Schedule::default(), r#"{"charges":[]}"#);
    let short = r#"{"charges":[{"label":"Order","amount":{"flat":25}}]}"#;
    assert_eq!(
        serde_json::from_str::<Schedule>(short).unwrap().charges[0].base,
        Base::Price
    );
}

#[test]
fn every_part_has_its_text_and_what_is_at_its_default_is_left_out() {
    let full = Charge {
        scope: Scope::Listing,
        least: Some(m(10)),
        most: Some(m(0)),
        when: When {
            from: Some(m(0)),
            below: Some(m(50)),
            kinds: vec![kind(1)],
            promoted: Some(false),
            regions: vec!["North".to_owned()],
        },
        owed_unsold: true,
        refund: Refund::ReturnedLess(m(30)),
        ..percent("10", Base::OrderTotal(rate("8.25")))
    };
    let tiers = Amount::Tiers {
        by: Period::Year,
        steps: steps(&[(0, "0", 5)]),
    };
    let others = Charge {
        scope: Scope::Month,
        refund: Refund::Returned,
        ..Charge::new(
            "Tiers",
            Base::Charges(Positions::of(&[1, 12]).unwrap()),
            tiers,
        )
    };
    let schedule = Schedule {
        charges: vec![
            full,
            others,
            brackets(&[(0, "12.5", 0), (500, "0", 25)]),
            slices(&[(0, "1", 0)]),
        ],
        groups: vec![group(&[2, 1], Some(0), Some(5))],
    };
    reads(
        &schedule,
        concat!(
            r#"{"charges":[{"label":"Sale","base":{"order_total":"8.25"},"amount":{"percent":"10"},"scope":"listing","#,
            r#""least":10,"most":0,"when":{"from":0,"below":50,"kinds":["00000000-0000-0000-0000-000000000001"],"#,
            r#""promoted":false,"regions":["North"]},"owed_unsold":true,"refund":{"returned_less":30}},"#,
            r#"{"label":"Tiers","base":{"charges":[1,12]},"amount":{"tiers":{"by":"year","steps":[{"flat":5}]}},"#,
            r#""scope":"month","refund":"returned"},"#,
            r#"{"label":"Brackets","base":"price","amount":{"brackets":[{"percent":"12.5"},{"from":500,"flat":25}]}},"#,
            r#"{"label":"Slices","base":"price","amount":{"slices":[{"percent":"1"}]}}],"#,
            r#""groups":[{"label":"Together","charges":[1,2],"least":0,"most":5}]}"#,
        ),
    );
    for scope in [Scope::Thing, Scope::Order, Scope::Parcel] {
        let schedule = Schedule::of(vec![Charge { scope, ..flat(1) }]);
        let text = serde_json::to_string(&schedule).unwrap();
        assert_eq!(serde_json::from_str::<Schedule>(&text).unwrap(), schedule);
    }
}

#[test]
fn what_a_later_version_adds_is_unreadable_and_never_misread() {
    for later in [
        r#"{"charges":[{"label":"Sale","amount":{"auction":[]}}]}"#,
        r#"{"charges":[{"label":"Sale","base":"order_total","amount":{"percent":"10"}}]}"#,
        r#"{"charges":[{"label":"Sale","base":"profit","amount":{"percent":"10"}}]}"#,
        r#"{"charges":[{"label":"Sale","base":{"charges":[0]},"amount":{"percent":"10"}}]}"#,
        r#"{"charges":[{"label":"Sale","base":{"charges":[17]},"amount":{"percent":"10"}}]}"#,
        r#"{"charges":[{"label":"Sale","amount":{"flat":150},"when":{"price_under":1000}}]}"#,
        r#"{"charges":[{"label":"Sale","amount":{"flat":150},"scope":"week"}]}"#,
        r#"{"charges":[{"label":"Sale","amount":{"flat":150},"refund":"half"}]}"#,
        r#"{"charges":[{"label":"Sale","amount":{"flat":150},"note":""}]}"#,
        r#"{"charges":[{"label":"Sale","amount":{"flat":150,"percent":"1"}}]}"#,
        r#"{"charges":[{"label":"Sale","amount":{"tiers":{"by":"week","steps":[]}}}]}"#,
        r#"{"charges":[{"label":"Sale","amount":{"slices":[{"up_to":5}]}}]}"#,
        r#"{"charges":[{"label":"Sale","amount":{"percent":10}}]}"#,
        r#"{"charges":[{"label":"Sale","amount":{"flat":1},"least":null}]}"#,
        r#"{"charges":[{"label":"Sale"}]}"#,
        r#"{"charges":[{"amount":{"flat":1}}]}"#,
        r#"{"charges":[],"spread":"by_weight"}"#,
        r#"{"charges":[],"groups":[{"label":"Together","charges":[1],"share":1}]}"#,
        r#"{"charges":[],"groups":[{"label":"Together"}]}"#,
        r#"{"groups":[]}"#,
        r"[]",
    ] {
        assert!(serde_json::from_str::<Schedule>(later).is_err(), "{later}");
    }
}
