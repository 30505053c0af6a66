//! The form of a rate card: any card fills it, reads the same and is kept in notes as it was; whatever is typed into it is a card or a
//! complaint.

use crate::postage::cards::{Facts, ZONES, facts};
use haulwren_core::measure::{Direction, ParcelSize, Weight};
use haulwren_core::money::{Currency, Money};
use haulwren_core::packing::{Container, Form};
use haulwren_core::postage::{FlatPrice, Over, RateCard, Rounding, Surcharge};
use haulwren_core::view::Form as _;
use haulwren_core::view::{CardForm, CardInput, PackForm, ServiceText, Sheet, TriedParcel, told};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

fn usd() -> Currency {
    Currency::from_code("USD").unwrap()
}

fn weights() -> impl Strategy<Value = Weight> {
    (1_u32..20_000, select(&["oz", "lb", "g", "kg"][..])).prop_map(|(tenths, unit)| {
        format!("{}.{} {unit}", tenths / 10, tenths % 10)
            .parse()
            .unwrap()
    })
}

fn sizes() -> impl Strategy<Value = ParcelSize> {
    let side = || (1_u32..390, select(&["in", "cm"][..]));
    (side(), side(), side()).prop_map(|(one, two, three)| {
        let [one, two, three] = [one, two, three].map(|(number, unit)| format!("{number} {unit}"));
        format!("{one} x {two} x {three}").parse().unwrap()
    })
}

fn overs() -> impl Strategy<Value = Over> {
    let length = || {
        (1_u32..400, select(&["in", "cm", "mm"][..]))
            .prop_map(|(number, unit)| format!("{number} {unit}"))
    };
    let volume = (1_u32..9_000, select(&["in3", "cm3"][..]))
        .prop_map(|(number, unit)| format!("{number} {unit}"));
    prop_oneof![
        length().prop_map(|text| Over::Longest(text.parse().unwrap())),
        length().prop_map(|text| Over::LengthAndGirth(text.parse().unwrap())),
        volume.prop_map(|text| Over::Volume(text.parse().unwrap())),
    ]
}

fn prices() -> impl Strategy<Value = Vec<Option<Money>>> {
    vec(
        option::weighted(0.8, (0_i64..=10_000_000_000).prop_map(Money::new)),
        ZONES,
    )
}

prop_compose! {
    fn flats()(container in "[A-Za-z][a-z ]{0,10}[a-z]", prices in prices(), heaviest in option::of(weights())) -> FlatPrice {
        FlatPrice { container, prices, heaviest }
    }
}

prop_compose! {
    /// One service by the other laws' facts, and one with all that they leave out.
    fn cards()(
        facts in facts(),
        name in "[A-Za-z][A-Za-z ]{0,30}[a-z]",
        flat in vec(flats(), 0..4),
        extra in vec((overs(), 0_i64..9_000), 0..4),
        unit in select(&[0_usize, 1, 2, 3][..]),
        sum in option::of(1_u16..900),
        step in option::of((weights(), any::<bool>())),
        knows_mix in any::<bool>(),
    ) -> RateCard {
        let mut card = Facts::card(&facts);
        let mut second = card.services[0].clone();
        "Fast".clone_into(&mut second.name);
        second.unit = <haulwren_core::measure::WeightUnit as haulwren_core::measure::Unit>::ALL[unit];
        second.flat = flat;
        second.surcharges = extra.into_iter().map(|(over, amount)| Surcharge { over, amount: Money::new(amount) }).collect();
        second.limits.sum_of_sides = sum.map(|sum| format!("{sum} cm").parse().unwrap());
        second.rounding = step.map(|(step, nearest)| Rounding {
            step,
            direction: if nearest { Direction::Nearest } else { Direction::Up },
        });
        card.services.push(second);
        card.name = name;
        if !knows_mix {
            card.mix.clear();
        }
        card
    }
}

fn inputs() -> impl Strategy<Value = CardInput> {
    let text = select(
        &[
            ServiceText::Name,
            ServiceText::Heaviest,
            ServiceText::Longest,
            ServiceText::Around,
            ServiceText::Sum,
            ServiceText::Round,
            ServiceText::Divisor,
            ServiceText::BulkStep,
            ServiceText::BulkOver,
        ][..],
    );
    let sheet = select(&[Sheet::Table, Sheet::Flat, Sheet::Extra][..]);
    prop_oneof![
        1 => Just(CardInput::Name),
        1 => (0_usize..5).prop_map(CardInput::Mix),
        3 => (0_usize..3, text).prop_map(|(at, text)| CardInput::Text(at, text)),
        6 => (0_usize..3, sheet, 0_usize..8, 0_usize..6).prop_map(|(at, sheet, row, column)| CardInput::Cell(at, sheet, row, column)),
    ]
}

fn typed() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => "[0-9]{1,3}(\\.[0-9]{1,2})?",
        2 => "[0-9]{1,3} (oz|lb|g|kg|in|cm|in3|cm3)",
        2 => "[A-Za-z ]{0,8}",
        1 => "[ -~]{0,6}",
        1 => Just(String::new()),
    ]
}

#[derive(Clone, Debug)]
enum Act {
    Type(CardInput, String),
    AddService,
    RemoveService(usize),
    AddZone(usize),
    RemoveZone(usize, usize),
    AddRow(Sheet),
    RemoveRow(Sheet, usize),
    Rough(bool),
    Unit(usize),
    Paste(String),
    PutBack,
}

fn acts() -> impl Strategy<Value = Act> {
    let sheet = || select(&[Sheet::Table, Sheet::Flat, Sheet::Extra][..]);
    prop_oneof![
        8 => (inputs(), typed()).prop_map(|(at, text)| Act::Type(at, text)),
        1 => Just(Act::AddService),
        1 => (0_usize..3).prop_map(Act::RemoveService),
        1 => (0_usize..3).prop_map(Act::AddZone),
        1 => (0_usize..3, 0_usize..4).prop_map(|(at, zone)| Act::RemoveZone(at, zone)),
        1 => sheet().prop_map(Act::AddRow),
        1 => (sheet(), 0_usize..8).prop_map(|(sheet, row)| Act::RemoveRow(sheet, row)),
        1 => any::<bool>().prop_map(Act::Rough),
        1 => (0_usize..5).prop_map(Act::Unit),
        1 => "(oz\t[a-z]\t[a-z]\n)?([0-9]{1,2}\t[0-9]{0,2}\t[0-9]{0,2}\n){0,3}".prop_map(Act::Paste),
        1 => Just(Act::PutBack),
    ]
}

fn act(form: &mut CardForm, act: Act) {
    match act {
        Act::Type(at, text) => form.set(at, text),
        Act::AddService => drop(form.add_service()),
        Act::RemoveService(at) => form.remove_service(at),
        Act::AddZone(at) => drop(form.add_zone(at)),
        Act::RemoveZone(at, zone) => form.remove_zone(at, zone),
        Act::AddRow(sheet) => drop(form.services[0].add_row(sheet)),
        Act::RemoveRow(sheet, row) => form.services[0].remove_row(sheet, row),
        Act::Rough(rough) => form.set_rough(rough),
        Act::Unit(place) => form.services[0].choose_unit(place),
        Act::Paste(text) => {
            form.services[0].pasted = text;
            form.take_pasted(0, usd());
        }
        Act::PutBack => form.put_back(0),
    }
}

proptest! {
    #![proptest_config(crate::tries(512))]

    /// Nothing of a card is lost on its way through the form, and nothing of the form on its way through a card or the notes.
    #[test]
    fn a_card_fills_its_form_and_reads_the_same(card in cards()) {
        prop_assume!(card.check().is_ok());
        let form = CardForm::of(&card, usd());
        prop_assert_eq!(form.read(usd()), Ok(card.clone()));
        prop_assert_eq!(CardForm::of(&card, usd()), form.clone());
        prop_assert_eq!(CardForm::from_json(&form.to_json()), Some(form));
    }

    /// Whatever is typed, added and taken away: a card that the book takes, or complaints that are sentences.
    #[test]
    fn what_is_typed_is_a_card_or_complaints(acts in vec(acts(), 0..60), weight in typed(), side in typed()) {
        let mut form = CardForm::start(haulwren_core::measure::WeightUnit::Ounce);
        form.set(CardInput::Name, "Northmail".to_owned());
        for one in acts {
            act(&mut form, one);
            prop_assert!(!form.services.is_empty());
        }
        prop_assert_eq!(CardForm::from_json(&form.to_json()), Some(form.clone()));
        match form.read(usd()) {
            Ok(card) => {
                prop_assert_eq!(card.check(), Ok(()));
                let again = CardForm::of(&card, usd());
                prop_assert_eq!(again.read(usd()), Ok(card.clone()));
                let tried = TriedParcel { weight, sides: [side.clone(), side.clone(), side], ..TriedParcel::default() };
                if let Err(sentence) = told(&card, &tried) {
                    prop_assert!(crate::is_sentence(&sentence), "{}", sentence);
                }
            }
            Err(complaints) => {
                prop_assert!(!complaints.is_empty());
                for complaint in complaints {
                    prop_assert!(crate::is_sentence(&complaint.sentence), "{}", complaint.sentence);
                }
            }
        }
    }

    #[test]
    fn a_container_fills_its_form_and_reads_the_same(
        name in "[A-Za-z][A-Za-z ]{0,30}[a-z]",
        tare in weights(),
        cost in 0_i64..9_000,
        inside in sizes(),
        carton in any::<bool>(),
    ) {
        let form = if carton { Form::Carton } else { Form::Mailer };
        let container = Container { name, tare, cost: Money::new(cost), inside, form };
        let form = PackForm::of_container(&container, usd());
        prop_assert_eq!(form.container(usd()), Ok(container));
        let text = haulwren_core::json::write(&form);
        prop_assert_eq!(haulwren_core::json::read::<PackForm>(&text).unwrap(), form);
    }
}
