//! Containers and kinds as typed.

use super::*;
use crate::measure::System;
use crate::packing::STARTERS;

fn usd() -> Currency {
    Currency::from_code("USD").unwrap()
}

fn dress() -> PackForm {
    PackForm {
        name: "Dress".to_owned(),
        weight: "12".to_owned(),
        sides: ["13", "10", "2"].map(str::to_owned),
        soft: true,
        ..PackForm::default()
    }
}

#[test]
fn a_kind_is_read_or_every_fault_is_said() {
    let kind = dress().kind().unwrap();
    let typical = STARTERS.iter().find(|kind| kind.name == "Dress").unwrap();
    assert_eq!(kind.piece, typical.piece(System::OuncesInches));
    let mut bad = dress();
    bad.name.clear();
    bad.weight = "heavy".to_owned();
    bad.sides[1].clear();
    let fields: Vec<PackInput> = bad
        .kind()
        .unwrap_err()
        .iter()
        .map(|one| one.field)
        .collect();
    assert_eq!(
        fields,
        [PackInput::Name, PackInput::Weight, PackInput::Size]
    );
    bad = dress();
    bad.cost = "x".to_owned();
    assert!(bad.kind().is_ok(), "a kind has no cost");
    let faults = bad.container(usd()).unwrap_err();
    assert_eq!(faults[0].field, PackInput::Cost);
}

#[test]
fn other_units_say_the_same() {
    let mut form = dress();
    form.sides[2] = "5 mm".to_owned();
    form.measure_in(true);
    assert_eq!(form.weight, "340");
    assert_eq!(form.sides, ["33.02", "25.4", "0.5"]);
    form.measure_in(false);
    assert_eq!(form.weight, "12");
    assert_eq!(form.sides[0], "13");
    let mut half = PackForm {
        weight: "1 st".to_owned(),
        ..PackForm::default()
    };
    half.measure_in(true);
    assert_eq!((half.weight.as_str(), half.metric), ("1 st", true));
}

#[test]
fn what_it_goes_into_is_named() {
    let mut mailer = PackForm {
        name: "Padded mailer".to_owned(),
        weight: "1".to_owned(),
        ..PackForm::default()
    };
    mailer.sides = ["14", "12", "3"].map(str::to_owned);
    let small = PackForm {
        sides: ["5", "4", "1"].map(str::to_owned),
        name: "Small".to_owned(),
        ..mailer.clone()
    };
    let all = [mailer, small].map(|form| form.container(usd()).unwrap());
    assert_eq!(
        goes_in(dress().kind().unwrap().piece, &all),
        ["Padded mailer"]
    );
}
