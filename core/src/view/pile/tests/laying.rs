//! Laying things on a pile, putting them back, pricing them, paying for them, and keeping the pile through a crash.

use super::{draft, of_the_picture};
use crate::book::{Command, MOST_THINGS};
use crate::json;
use crate::money::{Money, MoneyError};
use crate::view::kit::{Kit, now, usd};
use crate::view::{DecideDraft, Pile, Press, describe, haul, paid_for_all};

#[test]
fn things_are_put_taken_back_and_priced_anew() {
    let mut pile = Pile::default();
    let button = draft("button", "1", "", "0.50");
    assert_eq!(pile.put(&button, 6), 6);
    assert_eq!(pile.put(&DecideDraft::default(), 6), 0);
    assert_eq!(pile.put(&button, usize::MAX), MOST_THINGS - 6);
    pile.put_all_back();
    assert_eq!((pile.things.len(), pile.back.len()), (0, MOST_THINGS));
    pile.undo_back();
    assert_eq!((pile.things.len(), pile.back.len()), (MOST_THINGS, 0));
    pile.take_back(MOST_THINGS);
    pile.take_back(0);
    assert_eq!((pile.things.len(), pile.back.len()), (MOST_THINGS - 1, 1));

    let type_in = |pile: &mut Pile, press| pile.press(press, usd());
    pile.go(Some(1));
    type_in(&mut pile, Press::Digit(7)).unwrap();
    assert_eq!(
        (pile.things[1].draft.ask.as_str(), pile.says.as_str()),
        ("7", "")
    );
    pile.go(Some(MOST_THINGS));
    assert_eq!(pile.at, None);
    type_in(&mut pile, Press::Digit(1)).unwrap();
    type_in(&mut pile, Press::Digit(5)).unwrap();
    type_in(&mut pile, Press::Half).unwrap();
    assert_eq!(
        type_in(&mut pile, Press::Digit(5)),
        Err(MoneyError::TooFine { decimals: 2 })
    );
    assert_eq!((pile.says.as_str(), pile.text()), ("15.50", "15.50"));
    assert_eq!(pile.said(usd()), Some(Money::new(15_50)));
}

#[test]
fn more_alike_lie_beside_the_first_and_what_is_priced_stays() {
    let mut pile = Pile::default();
    pile.put(&draft("button", "1", "", "0.50"), 1);
    pile.put(&draft("jug", "3", "", "9"), 1);
    pile.go(Some(1));
    assert_eq!(pile.more(0, 5), 5);
    assert_eq!((pile.things.len(), pile.alike(0), pile.alike(5)), (7, 6, 6));
    assert_eq!((pile.at, pile.alike(6)), (Some(6), 1));
    assert_eq!((pile.more(7, 1), pile.alike(7)), (0, 0));
    assert_eq!(pile.more(0, usize::MAX), MOST_THINGS - 7);
}

#[test]
fn a_pile_reads_back_and_one_of_another_time_does_too() {
    let mut pile = of_the_picture();
    pile.tick(1, false);
    pile.take_back(3);
    pile.go(Some(2));
    assert_eq!(json::read::<Pile>(&json::write(&pile)).unwrap(), pile);
    assert_eq!(
        json::read::<Pile>(r#"{"later":1}"#).unwrap(),
        Pile::default()
    );
}

#[test]
fn paid_for_all_makes_a_lot_of_what_is_in_it() {
    let mut kit = Kit::quayside();
    let mut pile = of_the_picture();
    assert_eq!(
        paid_for_all(
            &kit.state,
            &Pile {
                says: String::new(),
                ..pile.clone()
            },
            now()
        ),
        None
    );
    pile.tick(3, false);
    let lot = paid_for_all(&kit.state, &pile, now()).expect("a lot");
    let save = kit.tell(&Command::Buy(lot));
    let done = describe(&kit.state, &save).unwrap();
    assert_eq!(done.sentence, "3 things bought, 15.00");
    let rows = haul(&kit.state).unwrap().rows;
    let mut paid: Vec<(&str, i64)> = rows
        .iter()
        .map(|row| (row.name.as_str(), row.paid.minor()))
        .collect();
    paid.sort_unstable();
    // 15.00 by 30, 26 and 22 of 78: the spare cents go to the largest fractions.
    assert_eq!(
        paid,
        [
            ("canvas satchel", 4_23),
            ("waxed jacket, child", 5_77),
            ("wool cardigan", 5_00)
        ]
    );
    let mut after = pile.clone();
    after.put(&draft("late", "5", "", ""), 1);
    after.after_paying(&pile);
    let left: Vec<_> = after
        .things
        .iter()
        .map(|thing| thing.draft.name.as_str())
        .collect();
    assert_eq!(
        (left, after.says.as_str()),
        (vec!["plaster dog", "late"], "")
    );
    assert_eq!(paid_for_all(&kit.state, &Pile::default(), now()), None);
}
