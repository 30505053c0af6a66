//! The forms in files, letter by letter.

use serde_json::{from_str, to_string};

use super::service;
use crate::json;
use crate::postage::{Arrangement, RateCard};

#[test]
fn an_arrangement_is_its_name_with_what_it_needs() {
    let names = Arrangement::ALL.map(|one| to_string(&one).unwrap());
    assert_eq!(
        names,
        ["\"buyer_at_cost\"", "\"seller_pays\"", "\"handed_over\""]
    );
    for json in [
        "\"handed_over\"",
        "\"buyer_at_cost\"",
        "\"seller_pays\"",
        r#"{"stated":450}"#,
        r#"{"label":{"paid_by":"buyer","price":{"flat":450}}}"#,
        r#"{"label":{"paid_by":"seller","price":{"bands":[["8 oz",400],["1 lb",555]]}}}"#,
        r#"{"label":{"paid_by":{"shared":"50"},"price":{"flat":0}}}"#,
        r#"{"free_from":{"below":{"stated":450},"sum":5000}}"#,
    ] {
        let read: Arrangement = from_str(json).unwrap();
        assert_eq!(to_string(&read).unwrap(), json);
    }
}

#[test]
fn what_a_later_version_adds_to_an_arrangement_is_unreadable() {
    for json in [
        "\"free_above\"",
        "null",
        "3",
        "[]",
        "{}",
        r#"{"stated":-1}"#,
        r#"{"stated":450,"more":1}"#,
        r#"{"label":{"paid_by":"buyer"}}"#,
        r#"{"label":{"paid_by":"nobody","price":{"flat":450}}}"#,
        r#"{"label":{"paid_by":"buyer","price":{"flat":450},"more":1}}"#,
        r#"{"label":{"paid_by":"buyer","price":{"bands":[]}}}"#,
        r#"{"label":{"paid_by":"buyer","price":{"bands":[["8 oz"]]}}}"#,
        r#"{"free_from":{"sum":5000}}"#,
        r#"{"free_from":{"sum":1,"below":{"free_from":{"sum":2,"below":"seller_pays"}}}}"#,
    ] {
        assert!(from_str::<Arrangement>(json).is_err(), "{json}");
    }
}

const WHOLE: &str = r#"{"mix":[2500,7500],"name":"Northmail","services":[{"flat":[{"container":"Small box","heaviest":"20 lb","prices":[900,null]}],"heaviest":"70 lb","length_and_girth":"108 in","longest":"30 in","name":"Parcel","round":{"direction":"nearest","step":"1 oz"},"steps":[["8 oz",[350,400]],["1 lb",[450,null]]],"sum_of_sides":"900 mm","surcharges":[{"amount":400,"over":{"longest":"22 in"}},{"amount":300,"over":{"length_and_girth":"84 in"}},{"amount":1500,"over":{"volume":"3456 in3"}}],"unit":"oz","volumetric":{"over":"800 in3","per":"166 in3","step":"1 lb"},"zones":["2","5"]}]}"#;
const LEAST: &str = r#"{"name":"Northmail","services":[{"name":"Parcel","steps":[["250 g",[350]]],"unit":"g","zones":["all"]}]}"#;

#[test]
fn a_card_is_written_without_what_says_nothing() {
    for json in [WHOLE, LEAST, r#"{"name":"","rough":true,"services":[]}"#] {
        let card: RateCard = from_str(json).unwrap();
        assert_eq!(to_string(&card).unwrap(), json);
    }
    assert_eq!(from_str::<RateCard>(WHOLE).unwrap().check(), Ok(()));
    assert_eq!(from_str::<RateCard>(LEAST).unwrap().check(), Ok(()));
}

/// Every object on a card, with one more field, or with one of its own that can't be read, is refused whole.
#[test]
fn what_a_later_version_adds_to_a_card_is_unreadable() {
    let mut spoiled = 0;
    for (at, _) in WHOLE.match_indices('{') {
        let (before, after) = WHOLE.split_at(at + 1);
        let json = format!("{before}\"later\":1,{after}");
        assert!(from_str::<RateCard>(&json).is_err(), "{json}");
        spoiled += 1;
    }
    assert_eq!(spoiled, 11);
    for (from, to) in [
        ("\"8 oz\"", "8"),
        ("\"nearest\"", "\"down\""),
        ("350", "3.5"),
        ("\"108 in\"", "\"108 oz\""),
        ("\"166 in3\"", "\"166 in\""),
        ("\"oz\"", "\"stone\""),
        ("[\"8 oz\",[350,400]]", "[\"8 oz\",[350,400],1]"),
        ("2500", "-1"),
        ("\"volume\"", "\"weight\""),
        ("[900,null]", "null"),
        ("\"800 in3\"", "null"),
    ] {
        let json = WHOLE.replacen(from, to, 1);
        assert_ne!(json, WHOLE, "{from}");
        assert!(from_str::<RateCard>(&json).is_err(), "{json}");
    }
    for json in ["null", "[]", "{}", "\"card\"", r#"{"name":"Northmail"}"#] {
        assert!(from_str::<RateCard>(json).is_err(), "{json}");
    }
}

/// A divisor once was of the step's own unit: 5000 with steps of 500 g billed 40 x 30 x 20 cm as 500 g instead of 5 kg.
#[test]
fn a_divisor_without_its_unit_is_read_as_it_was_meant() {
    let check = |per: &str, step: &str, of: &str, size: &str, bills: &str| {
        let text = format!(
            r#"{{"name":"Parcel","unit":"oz","zones":["all"],"volumetric":{{"per":"{per}","step":"{step}"{of}}}}}"#
        );
        let service = service::read(&json::parse(&text).unwrap()).unwrap();
        let rule = service.volumetric.unwrap();
        let weight = rule.weight(size.parse().unwrap()).unwrap();
        assert_eq!(weight.to_string(), bills, "{per} {step}{of}");
        // Written and read back it stays as it is, whatever it was read from.
        let back = service::read(&service::write(&service)).unwrap();
        assert_eq!(back, service);
    };
    let parcel = "40 x 30 x 20 cm";
    // 24,000 cm3 by 5000 is 4.8 kg: ten steps of 500 g.
    check("5000 cm3", "500 g", "", parcel, "5000 g");
    check("5000 cm3", "1 kg", "", parcel, "5 kg");
    check("5 cm3", "500 g", "", parcel, "5000 g");
    check("5000 cm3", "500 g", r#","each":"g""#, parcel, "500 g");
    check("5000 cm3", "500 g", r#","each":"kg""#, parcel, "5000 g");
    // 1728 in3 by 166 is 10.41 lb: 166.6 oz, 21 steps of 8 oz.
    check("166 in3", "8 oz", "", "12 x 12 x 12 in", "168 oz");
    check("166 in3", "1 lb", "", "12 x 12 x 12 in", "11 lb");
    check("10.375 in3", "8 oz", "", "12 x 12 x 12 in", "168 oz");
    let mixed = r#"{"name":"Parcel","unit":"oz","zones":["all"],"volumetric":{"per":"166 in3","step":"1 kg","each":"lb"}}"#;
    assert_eq!(service::read(&json::parse(mixed).unwrap()), None);
}
