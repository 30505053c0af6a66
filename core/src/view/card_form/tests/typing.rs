//! Typing, adding and taking away, and what is said of what can't be used.

use super::*;
use crate::money::{Currency, Money};
use crate::postage::RateCard;

fn usd() -> Currency {
    Currency::from_code("USD").unwrap()
}

/// A rough card with so many prices typed.
fn rough(prices: usize) -> CardForm {
    let mut form = CardForm::start(WeightUnit::Ounce);
    form.set(CardInput::Name, "Northmail".to_owned());
    for row in 1..=prices {
        form.set(
            CardInput::Cell(0, Sheet::Table, row, 1),
            format!("{row}.50"),
        );
    }
    form
}

fn said(form: &CardForm) -> Vec<(CardInput, String)> {
    let complaints = form.read(usd()).unwrap_err();
    let pair = |one: crate::view::Complaint<CardInput>| (one.field, one.sentence);
    complaints.into_iter().map(pair).collect()
}

#[test]
fn a_rough_card_is_six_numbers() {
    let card = rough(6).read(usd()).unwrap();
    let steps: Vec<_> = card.services[0]
        .steps
        .iter()
        .map(|step| (step.up_to, step.prices[0].unwrap()))
        .collect();
    assert_eq!(steps[0], ("4 oz".parse().unwrap(), Money::new(150)));
    assert_eq!(RateCard::rough("Northmail", &steps), Ok(card));
    assert_eq!(rough(4).read(usd()).unwrap().services[0].steps.len(), 4);
    let few = said(&rough(3));
    assert_eq!(few[0].0, CardInput::Sheet(0, Sheet::Table));
    assert_eq!(few[0].1, "Type a price for four to six of the weights.");
}

#[test]
fn another_unit_brings_its_own_weights_until_one_was_typed() {
    let mut form = rough(0);
    form.services[0].choose_unit(2);
    assert_eq!(form.services[0].unit_place(), 2);
    assert_eq!(form.services[0].table[1][0], "100");
    form.set(CardInput::Cell(0, Sheet::Table, 1, 0), "120".to_owned());
    form.services[0].choose_unit(0);
    assert_eq!(form.services[0].table[1][0], "120");
}

#[test]
fn each_fault_is_said_at_its_place() {
    let mut form = rough(6);
    form.rough = false;
    let mut check = |at, typed: &str, sentence: &str| {
        let before = form.at(at).to_owned();
        form.set(at, typed.to_owned());
        assert_eq!(said(&form), [(at, sentence.to_owned())], "{typed}");
        form.set(at, before);
    };
    let cell = |row, column| CardInput::Cell(0, Sheet::Table, row, column);
    check(CardInput::Name, " ", "Give the card a name.");
    check(cell(0, 1), "", "Give the zone a name.");
    check(cell(2, 0), "4", "Not heavier than 4 oz, the row before.");
    check(cell(2, 0), "", "Type up to which weight.");
    check(cell(1, 0), "0", "A weight of nothing.");
    check(cell(2, 1), "dear", "Numbers only, e.g. 3.50");
    let text = |text| CardInput::Text(0, text);
    check(text(ServiceText::Name), "", "Give the service a name.");
    check(
        text(ServiceText::Round),
        "0",
        "Type a step of more than nothing.",
    );
    let divisor = "Type how many in3 count as one lb.";
    check(text(ServiceText::Divisor), "0", divisor);
    form.set(text(ServiceText::BulkOver), "800".to_owned());
    assert_eq!(
        said(&form),
        [(text(ServiceText::Divisor), divisor.to_owned())]
    );
    form.set(text(ServiceText::Divisor), "166".to_owned());
    assert!(form.read(usd()).is_ok());
}

#[test]
fn shares_come_to_the_whole() {
    let mut form = rough(6);
    form.rough = false;
    assert!(form.add_zone(0));
    form.set(CardInput::Cell(0, Sheet::Table, 0, 2), "far".to_owned());
    form.set(CardInput::Mix(0), "33.3".to_owned());
    let short = said(&form);
    assert_eq!(short[0].0, CardInput::Shares);
    assert_eq!(short[0].1, "The shares come to 33.30, and have to be 100.");
    form.set(CardInput::Mix(1), "66.7".to_owned());
    assert_eq!(form.read(usd()).unwrap().mix, [3_330, 6_670]);
    form.set(CardInput::Mix(1), "66.6999".to_owned());
    assert_eq!(said(&form)[0].0, CardInput::Mix(1));
}

#[test]
fn zones_rows_and_services_come_and_go() {
    let mut form = rough(6);
    form.rough = false;
    form.add_zone(0);
    form.add_zone(0);
    form.mix = ["20", "30", "50"].map(str::to_owned).to_vec();
    form.set(CardInput::Cell(0, Sheet::Table, 1, 2), "2".to_owned());
    form.services[0].add_row(Sheet::Flat);
    form.set(CardInput::Cell(0, Sheet::Flat, 0, 3), "7".to_owned());
    form.remove_zone(0, 0);
    assert_eq!(form.at(CardInput::Cell(0, Sheet::Table, 1, 1)), "2");
    assert_eq!(form.at(CardInput::Cell(0, Sheet::Flat, 0, 2)), "7");
    assert_eq!(form.mix, ["30", "50"]);
    form.remove_zone(0, 0);
    form.remove_zone(0, 0);
    assert_eq!(form.services[0].zones().len(), 1, "the last one stays");
    assert!(form.mix.is_empty());
    form.services[0].remove_row(Sheet::Table, 0);
    assert_eq!(form.services[0].table.len(), 7, "the zones stay");
    form.services[0].remove_row(Sheet::Table, 6);
    assert_eq!(form.services[0].table.len(), 6);
    assert!(form.services[0].has_more());

    assert!(form.add_service());
    assert_eq!(form.services[1].zones(), form.services[0].zones());
    form.remove_service(0);
    form.remove_service(0);
    assert_eq!(form.services.len(), 1, "the last one stays");
    for _ in 1..12 {
        assert!(form.add_service());
    }
    assert!(!form.add_service());
}

#[test]
fn rough_and_full_change_over() {
    let mut form = rough(4);
    assert!(form.is_simple());
    form.set_rough(false);
    assert!(!form.is_simple());
    form.services[0].remove_row(Sheet::Table, 6);
    form.set_rough(true);
    assert!(form.is_simple());
    assert_eq!(form.services[0].table.len(), 7);
    form.set(
        CardInput::Text(0, ServiceText::Heaviest),
        "70 lb".to_owned(),
    );
    assert!(!form.is_simple(), "there is more to it");
}
