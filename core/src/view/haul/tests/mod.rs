//! Haul as it is drawn: the trip of the picture, what is in each group, and what it comes to.

mod now;
mod trips;

use super::*;
use crate::book::{Bought, LotCommand, Purchase, TripCommand, VenueSetup};
use crate::ledger::Purse;
use crate::lot::Method;
use crate::money::Rate;
use crate::postage::Arrangement;
use crate::terms::{Base, Charge, Schedule, Usual};
use crate::view::kit::{Kit, now};
use crate::view::{DecideDraft, as_bought, describe};

/// The pictures' Marlpost: the seller pays the postage; 15 % of the price and 0.30; packing 0.40.
fn marlpost() -> Kit {
    let mut kit = Kit::begun();
    let schedule = Schedule::of(vec![
        Charge::percent("Sale", Rate::percent(15), Base::Price),
        Charge::flat("Order", Money::new(30)),
    ]);
    kit.tell(&crate::book::Command::SaveVenue {
        id: None,
        setup: VenueSetup {
            name: "Marlpost".to_owned(),
            arrangement: Arrangement::SellerPays,
            postage: Some(Money::new(6_50)),
            packing: Some(Money::new(40)),
            schedule,
            usual: Usual::default(),
        },
    });
    kit
}

fn thing(kit: &Kit, name: &str, likely: &str, ask: &str) -> Bought {
    let draft = DecideDraft {
        name: name.to_owned(),
        likely: likely.to_owned(),
        ask: ask.to_owned(),
        ..DecideDraft::default()
    };
    as_bought(&kit.state, &draft, now()).expect("a begun book")
}

fn buy(kit: &mut Kit, paid: i64, by: Paying, things: Vec<Bought>) {
    let method = Method::ByPrice;
    let paid = Money::new(paid);
    kit.tell(&crate::book::Command::Buy(Purchase {
        extras: Money::ZERO,
        paid,
        things,
        method,
        by,
    }));
}

/// 80.00 taken along to the driveway sale; jug, dress, bookends, twelve things unsorted, and a lot of three.
fn of_the_picture() -> Kit {
    let mut kit = marlpost();
    let start = TripCommand::StartTrip {
        name: String::new(),
        took_out: Some(Money::new(80_00)),
        odometer: Some(100),
    };
    kit.tell(&start.into());
    let name = "Alder Lane driveway sale".to_owned();
    kit.tell(&TripCommand::NextStop { stop: None, name }.into());
    for (name, likely, ask, by) in [
        ("enamel jug", "16", "0", Paying::Cash),
        ("linen wrap dress", "26", "6", Paying::Cash),
        ("brass bookends", "28", "4.50", Paying::Other),
    ] {
        let bought = thing(&kit, name, likely, ask);
        let paid = crate::money::parse(ask, crate::view::kit::usd()).expect("an amount");
        buy(&mut kit, paid.minor(), by, vec![bought]);
    }
    let twelve = LotCommand::BuyUnsorted {
        count: 12,
        paid: Money::new(10_00),
        by: Paying::Cash,
        name: String::new(),
    };
    let said = kit.tell(&twelve.into());
    let sentence = describe(&kit.state, &said).map(|done| done.sentence);
    assert_eq!(sentence.as_deref(), Some("12 things added, 10.00"));
    let three = vec![
        thing(&kit, "wool duffle coat, child", "22", "5"),
        thing(&kit, "rain boots, child", "12", "3"),
        thing(&kit, "tin lantern", "8", "2"),
    ];
    buy(&mut kit, 10_00, Paying::Cash, three);
    kit
}

#[test]
fn the_head_is_as_drawn() {
    let view = haul(&of_the_picture().state).expect("a begun book");
    let head = view.trip.expect("a trip");
    let stop = head.stop.expect("a stop");
    assert_eq!(
        (stop.number, stop.title().as_str()),
        (1, "Alder Lane driveway sale")
    );
    assert_eq!(stop.manner.sentence(), "sellers here haggle");
    let purse = Purse {
        took_out: Money::new(80_00),
        spent_cash: Money::new(26_00),
        spent_other: Money::new(4_50),
        ..Purse::default()
    };
    assert_eq!((head.purse, head.purse.left()), (purse, Money::new(54_00)));
    let sums = head.sums;
    assert_eq!(
        (sums.spent.minor(), sums.things, sums.unsorted),
        (30_50, 18, 12)
    );
    // At 85 % less 0.30, 6.50, 0.40 and 25 % aside each keeps 60 % of its price less 7.20: 112 × 0.6 − 6 × 7.20 − 20.50 paid.
    assert_eq!(
        (sums.keep.minor(), sums.no_estimate),
        (67_20 - 43_20 - 20_50, 0)
    );
    assert_eq!((view.sums, view.rows.len()), (sums, 6));
    assert!(view.days.is_empty());
}

#[test]
fn the_groups_are_as_drawn() {
    let view = haul(&of_the_picture().state).expect("a begun book");
    let [
        Group::Lot(lot),
        Group::Unsorted(twelve),
        Group::Thing(bookends),
        Group::Thing(dress),
        Group::Thing(jug),
    ] = view.groups.as_slice()
    else {
        panic!("{:?}", view.groups);
    };
    let shares: Vec<i64> = lot
        .rows
        .iter()
        .map(|row| row.share.amount.minor())
        .collect();
    assert_eq!((shares, lot.total.minor()), (vec![5_24, 2_86, 1_90], 10_00));
    assert_eq!(
        (lot.method, lot.shared_by),
        (Method::ByPrice, Method::ByPrice)
    );
    assert_eq!(lot.spare, [lot.rows[0].row.id, lot.rows[1].row.id]);
    let short: Vec<_> = lot.rows.iter().map(|row| row.short.clone()).collect();
    assert_eq!(
        short,
        [None, None, Some((Money::new(6_50), "Marlpost".to_owned()))]
    );
    assert_eq!((twelve.unsorted, twelve.on_unsorted.minor()), (12, 10_00));
    assert_eq!((bookends.by, bookends.paid.minor()), (Paying::Other, 4_50));
    assert_eq!((dress.paid.minor(), jug.paid.minor()), (6_00, 0));
    assert_eq!(
        one_lot(&kit_state(), lot.id).map(|lot| lot.rows.len()),
        Some(3)
    );
}

fn kit_state() -> State {
    of_the_picture().state
}

/// A thing that is kept alone leaves its price on no thing: so it is shown as a lot, where that can be seen.
#[test]
fn a_single_thing_that_does_not_carry_its_price_is_shown_as_a_lot() {
    let mut kit = marlpost();
    let jug = thing(&kit, "jug", "16", "1");
    buy(&mut kit, 1_00, Paying::Cash, vec![jug]);
    let (thing, _) = kit.state.things().next().expect("a thing");
    let keep = crate::book::ThingCommand::KeepForMyself { thing, kept: true };
    kit.tell(&keep.into());
    let view = haul(&kit.state).expect("a view");
    let [Group::Lot(lot)] = view.days[0].groups.as_slice() else {
        panic!("{:?}", view.days);
    };
    assert_eq!(
        (lot.not_yet_shared.minor(), lot.rows[0].row.kept),
        (1_00, true)
    );
    assert_eq!((view.sums.keep, view.sums.no_estimate), (Money::ZERO, 0));
}
