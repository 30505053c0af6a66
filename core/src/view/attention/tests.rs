//! Sentences and cures of the attention list.

use super::*;
use crate::book::{Bought, LotCommand, Purchase, VenueSetup};
use crate::id::{LotId, ThingId};
use crate::ledger::Paying;
use crate::lot::Method;
use crate::postage::Arrangement;
use crate::terms::{Schedule, Usual};
use crate::view::kit::{Kit, today};
use uuid::Uuid;

fn bought(name: &str) -> Bought {
    Bought {
        name: name.to_owned(),
        ..Bought::default()
    }
}

/// Checks the one thing that needs the trader, and that its cure mends it where a tap does.
fn check(kit: &mut Kit, sentence: &str, key: &str) {
    let list = attention(&kit.state);
    let said: Vec<_> = list
        .iter()
        .map(|of| (of.sentence.as_str(), of.key.as_str()))
        .collect();
    assert_eq!(said, [(sentence, key)]);
    if let Cure::Tell(command) = &list[0].cure {
        kit.tell(command);
        assert!(attention(&kit.state).is_empty(), "{sentence}");
    }
}

#[test]
fn shares_that_miss_are_put_on_the_last_thing() {
    let mut kit = Kit::begun();
    let purchase = Purchase {
        extras: Money::ZERO,
        paid: Money::new(10_00),
        things: vec![bought("jug"), bought("bowl")],
        method: Method::ByHand,
        by: Paying::Cash,
    };
    let log = kit.tell(&Command::Buy(purchase));
    let (lot, jug) = (LotId(log[0].id), ThingId(log[1].id));
    check(
        &mut kit,
        "Lot of jug and bowl: 10.00 not yet shared.",
        "Put it on the last thing",
    );
    let paid = Money::new(8_00);
    kit.tell(&LotCommand::SetPaid { lot, paid }.into());
    check(
        &mut kit,
        "Lot of jug and bowl: 2.00 over what was paid.",
        "Put it on the last thing",
    );
    // The last one has less than what is over, so it has to be looked at.
    let share = Some(Money::new(20_00));
    kit.tell(&ThingCommand::FixShare { thing: jug, share }.into());
    check(
        &mut kit,
        "Lot of jug and bowl: 20.00 over what was paid.",
        "Look at it",
    );
}

#[test]
fn work_on_nothing_is_taken_out() {
    let mut kit = Kit::begun();
    let log = kit.tell(&Command::Buy(Purchase::of_one(
        Money::new(6_00),
        bought("jug"),
    )));
    let jug = ThingId(log[1].id);
    let wash = ThingCommand::AddWork {
        name: "Wash".to_owned(),
        cost: Money::new(5_00),
        day: today(),
        things: vec![jug],
    };
    kit.tell(&wash.into());
    kit.tell(&Command::TakeOut(jug));
    check(
        &mut kit,
        "Nothing is left of what Wash was put into: 5.00 is on no thing.",
        "Take the work out",
    );
}

#[test]
fn two_of_one_name_are_to_be_looked_at() {
    let mut kit = Kit::quayside();
    let setup = VenueSetup {
        name: "Townboard".to_owned(),
        arrangement: Arrangement::HandedOver,
        postage: Some(Money::ZERO),
        packing: Some(Money::ZERO),
        schedule: Schedule::default(),
        usual: Usual::default(),
    };
    let venue = kit.tell(&Command::SaveVenue { id: None, setup });
    // The same name under another id, as another device gives it.
    let mut again = venue[0].clone();
    again.id = Uuid::max();
    kit.state.fold_own(&again);
    check(&mut kit, "Two venues are called Townboard.", "Look at it");
}
