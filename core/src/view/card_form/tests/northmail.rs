//! The card of the pictures, pasted, typed on, tried and read back: rates invented.

use super::*;
use crate::money::Currency;
use crate::postage::{Hint, RateCard};

fn usd() -> Currency {
    Currency::from_code("USD").unwrap()
}

const COPIED: &str = "oz\t2\t3\t5\n12\t3.50\t4.00\t4.50\n1 lb\t4.50\t5.00\t5.50\nheavy\t1\t2\t3\n2 lb\t5.50\t6.00\t6.50\n6 lb\t11.00\t11.50\t12.00\n";

/// A new full card with the copied table taken.
fn typed() -> CardForm {
    let mut form = CardForm::start(WeightUnit::Ounce);
    form.rough = false;
    form.set(CardInput::Name, "Northmail".to_owned());
    COPIED.clone_into(&mut form.services[0].pasted);
    form.take_pasted(0, usd());
    form
}

#[test]
fn a_copied_table_is_looked_at_and_then_taken() {
    let mut form = typed();
    let mut service = ServiceForm::default();
    assert_eq!(pasted(&service, usd()), None);
    COPIED.clone_into(&mut service.pasted);
    let found = pasted(&service, usd()).unwrap();
    assert_eq!(take_word(&found).as_deref(), Some("Take 4 rows"));
    assert_eq!(found.complaints[0].row, 4);

    assert_eq!(form.services[0].zones(), ["2", "3", "5"]);
    assert_eq!(form.services[0].table[2], ["1 lb", "4.50", "5.00", "5.50"]);
    assert_eq!(form.services[0].filled(), 4);
    assert!(form.read(usd()).is_ok());
    form.put_back(0);
    assert_eq!(form.services[0].zones(), ["all"]);
    assert_eq!(form.services[0].table[1], ["4", ""]);
    // Nothing to put back any more.
    form.put_back(0);
    assert_eq!(form.services[0].zones(), ["all"]);
    assert_eq!(
        take_word(
            &pasted(
                &ServiceForm {
                    pasted: "x".to_owned(),
                    ..service
                },
                usd()
            )
            .unwrap()
        ),
        None
    );
}

fn card() -> RateCard {
    let mut form = typed();
    for (zone, share) in ["20", "30", "50"].into_iter().enumerate() {
        form.set(CardInput::Mix(zone), share.to_owned());
    }
    for (text, typed) in [
        (ServiceText::Divisor, "166"),
        (ServiceText::BulkOver, "800"),
        (ServiceText::Longest, "45"),
    ] {
        form.set(CardInput::Text(0, text), typed.to_owned());
    }
    form.services[0].add_row(Sheet::Extra);
    form.set(CardInput::Cell(0, Sheet::Extra, 0, 1), "22".to_owned());
    form.set(CardInput::Cell(0, Sheet::Extra, 0, 2), "4".to_owned());
    form.read(usd()).unwrap()
}

#[test]
fn what_was_typed_prices_a_parcel() {
    let card = card();
    let mut tried = TriedParcel {
        weight: "11.9".to_owned(),
        zone: Some(2),
        ..TriedParcel::default()
    };
    let said = |tried: &TriedParcel| told(&card, tried).unwrap().remove(0);
    let quote = said(&tried).quote.unwrap();
    assert_eq!(quote.total.minor(), 450);
    assert!(quote.rough, "without a size, by a card that goes by size");
    let hint = quote.hint.unwrap();
    assert!(matches!(hint, Hint::Under { .. }));
    assert_eq!(
        hint.sentence(usd()),
        "0.1 oz under the next step, which costs 1.00 more."
    );

    tried.zone = None;
    tried.sides = ["24", "9", "2"].map(str::to_owned);
    let quote = said(&tried).quote.unwrap();
    // 3.50, 4.00, 4.50 at 20, 30, 50 percent: 4.15.
    let lines: Vec<(String, i64)> = quote
        .lines
        .iter()
        .map(|line| (line.what.words(), line.amount.minor()))
        .collect();
    let expected = [("Up to 12 oz", 415), ("Longest side over 22 in", 400)];
    assert_eq!(
        lines,
        expected.map(|(what, amount)| (what.to_owned(), amount))
    );
    assert!(said(&tried).is_best);

    tried.sides[0] = "46".to_owned();
    assert_eq!(
        said(&tried).quote,
        Err("Too long: 45 in at most.".to_owned())
    );
    tried.sides[1].clear();
    assert_eq!(
        told(&card, &tried),
        Err("Size: Type a number and its unit.".to_owned())
    );
}

#[test]
fn a_card_fills_its_form_and_the_notes_keep_it() {
    let form = CardForm::of(&card(), usd());
    assert_eq!(form.mix, ["20", "30", "50"]);
    assert_eq!(form.at(CardInput::Text(0, ServiceText::Divisor)), "166");
    assert_eq!(form.at(CardInput::Text(0, ServiceText::BulkStep)), "1");
    assert_eq!(form.at(CardInput::Cell(0, Sheet::Extra, 0, 1)), "22");
    assert_eq!(form.read(usd()), Ok(card()));
    let again = CardForm::from_json(&form.to_json());
    assert_eq!(again, Some(form));
    for bad in [
        "{}",
        "[]",
        r#"{"name":"x","rough":false,"mix":[1],"services":[]}"#,
    ] {
        assert_eq!(CardForm::from_json(&crate::json::parse(bad).unwrap()), None);
    }
}
