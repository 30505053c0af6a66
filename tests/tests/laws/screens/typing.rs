//! The keypad.

use haulwren_core::money::{Currency, parse};
use haulwren_core::view::{DecideDraft, Field, Press};
use proptest::collection::vec;
use proptest::prelude::*;

#[derive(Clone, Debug)]
enum Key {
    Press(Press),
    Go(Field),
}

fn keys() -> impl Strategy<Value = Key> {
    let press = prop_oneof![
        6 => any::<u8>().prop_map(|digit| Press::Digit(digit % 12)),
        2 => Just(Press::Point),
        2 => Just(Press::Half),
        3 => Just(Press::RubOut),
        1 => Just(Press::Clear),
    ];
    let field = prop::sample::select(&Field::ALL[..]);
    prop_oneof![8 => press.prop_map(Key::Press), 1 => field.prop_map(Key::Go)]
}

proptest! {
    #![proptest_config(crate::tries(512))]

    #[test]
    fn keys_never_spell_what_is_no_amount(
        keys in vec(keys(), 0..40),
        currency in prop::sample::select(Currency::all().collect::<Vec<_>>()),
    ) {
        let mut draft = DecideDraft::default();
        for key in keys {
            let before = draft.clone();
            match key {
                Key::Go(field) => draft.go(field),
                Key::Press(press) => {
                    let taken = draft.press(press, currency);
                    prop_assert!(taken.is_ok() || draft == before, "a key that is not taken moves nothing");
                    let edits = matches!(press, Press::Clear | Press::RubOut);
                    prop_assert!(!edits || taken.is_ok(), "what was typed can always be taken back");
                }
            }
            for field in Field::ALL {
                let text = draft.text(field);
                // A point at the end is half typed, and reads as far as it goes.
                prop_assert!(text.is_empty() || parse(text, currency).is_ok(), "{}", text);
                prop_assert_eq!(draft.amount(field, currency).unwrap().is_none(), text.is_empty());
                prop_assert!(field == before.focus || text == before.text(field), "only the field in focus moves");
            }
        }
    }

    /// Digit by digit, any amount that can be shown can be typed.
    #[test]
    fn every_amount_can_be_typed(minor in 0_i64..=10_000_000_000, currency in prop::sample::select(Currency::all().collect::<Vec<_>>())) {
        let money = haulwren_core::money::Money::new(minor);
        let mut draft = DecideDraft::default();
        for sign in haulwren_core::money::plain(money, currency).chars() {
            let press = sign.to_digit(10).map_or(Press::Point, |digit| Press::Digit(u8::try_from(digit).unwrap()));
            draft.press(press, currency).unwrap();
        }
        prop_assert_eq!(draft.amount(Field::Ask, currency), Ok(Some(money)));
    }
}

#[test]
fn next_goes_round_the_prices() {
    let round = [Field::Ask, Field::Likely, Field::Low, Field::High];
    for (at, field) in round.into_iter().enumerate() {
        assert_eq!(field.next(), round[(at + 1) % round.len()]);
    }
    // What is said of sending leads back into it.
    assert_eq!(
        [Field::Postage, Field::Packing].map(Field::next),
        [Field::Ask; 2]
    );
}
