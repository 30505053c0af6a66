//! What the history of a thing and its lot says in words.

use super::history_of;
use crate::book::{Bought, Command, LotCommand, Marks, Purchase, ThingCommand};
use crate::id::{LotId, ThingId};
use crate::ledger::Paying;
use crate::lot::Method;
use crate::money::Money;
use crate::view::kit::Kit;

#[test]
fn the_history_of_a_thing_and_its_lot_says_what_is_new_in_words() {
    let mut kit = Kit::begun();
    let jug = Bought {
        name: "jug".to_owned(),
        ..Bought::default()
    };
    let mut log = kit.tell(&Command::Buy(Purchase::of_one(Money::new(6_00), jug)));
    let (lot, jug) = (LotId(log[0].id), ThingId(log[1].id));
    let marks = Marks {
        colour: "blue".to_owned(),
        pieces: Some(2),
        ..Marks::default()
    };
    for command in [
        Command::from(LotCommand::SetMethod {
            lot,
            method: Method::ByHand,
        }),
        LotCommand::SetExtras {
            lot,
            extras: Money::new(1_00),
        }
        .into(),
        LotCommand::SetPaying {
            lot,
            by: Paying::Other,
        }
        .into(),
        ThingCommand::FixShare {
            thing: jug,
            share: Some(Money::new(2_00)),
        }
        .into(),
        ThingCommand::KeepForMyself {
            thing: jug,
            kept: true,
        }
        .into(),
        ThingCommand::Mark { thing: jug, marks }.into(),
    ] {
        log.extend(kit.tell(&command));
    }
    let mut lines = Vec::new();
    for record in [lot.record(), jug.record()] {
        for said in history_of(&kit.state, &record, log.clone()).iter().rev() {
            for line in said.lines.iter().filter(|line| line.field != "bought") {
                lines.push(format!("{}: {}", line.label, line.words));
            }
        }
    }
    let expected = [
        "Paid: 6.00",
        "Shared: by hand",
        "Extras: 1.00",
        "Paid in: another way",
        "Lot: Lot of jug",
        "Name: jug",
        "Postage: 0.00",
        "Packing: 0.00",
        "Share, by hand: 6.00",
        "Share, by hand: 2.00",
        "Kept for yourself: yes",
        "Pieces: 2",
        "Colour: blue",
    ];
    assert_eq!(lines, expected);
}
