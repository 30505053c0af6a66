//! What was judged stands; what is kept now follows every correction.

use super::*;
use crate::book::{Command, KeepNow, Sales, ThingCommand};
use crate::view::kit::today;

fn now_of(kit: &Kit) -> KeepNow {
    let (id, _) = kit.state.things().next().expect("a thing");
    let now = Sales::of(&kit.state).of_thing(id).expect("an estimate");
    let view = haul(&kit.state).expect("a begun book");
    assert_eq!((view.sums.keep, view.sums.if_sold), (now.keep, now.if_sold));
    now
}

/// 26.00 on Marlpost: 26.00 − 3.90 − 0.30 − 6.50 − 0.40 − 6.50 aside leaves 8.40, less 6.00 paid is 2.40; 3.90 of it is for what never sells.
#[test]
fn what_is_kept_now_follows_paid_price_work_and_terms() {
    let mut kit = marlpost();
    let dress = thing(&kit, "dress", "26", "6");
    buy(&mut kit, 6_00, Paying::Cash, vec![dress]);
    let keep = |kit: &Kit| now_of(kit).keep.minor();
    let now = now_of(&kit);
    assert_eq!((now.keep.minor(), now.if_sold.minor()), (2_40, 6_30));
    let (id, _) = kit.state.things().next().expect("a thing");
    let judged = |kit: &Kit| {
        let thing = kit.state.thing(id).expect("a thing");
        thing.expected.as_ref().expect("a verdict").keep.minor()
    };
    assert_eq!(judged(&kit), 2_40);
    let lot = kit.state.lots()[0].id;
    let paid = Money::new(7_00);
    kit.tell(&LotCommand::SetPaid { lot, paid }.into());
    assert_eq!(keep(&kit), 1_40);
    let edit = ThingCommand::EditMany {
        things: vec![id],
        kind: None,
        likely: Some(Money::new(36_00)),
    };
    kit.tell(&edit.into());
    // Ten more, of which 15 % go to the venue and 25 % aside.
    assert_eq!(keep(&kit), 7_40);
    let work = ThingCommand::AddWork {
        name: "wash".to_owned(),
        cost: Money::new(4_00),
        day: today(),
        things: vec![id],
    };
    kit.tell(&work.into());
    assert_eq!(keep(&kit), 3_40);
    let (venue, _) = kit.state.venues().next().expect("a venue");
    let schedule = Schedule::of(vec![Charge::percent(
        "Sale",
        Rate::percent(10),
        Base::Price,
    )]);
    kit.tell(&Command::SaveVenue {
        id: Some(venue),
        setup: VenueSetup {
            name: "Marlpost".to_owned(),
            arrangement: Arrangement::SellerPays,
            postage: Some(Money::new(6_50)),
            packing: Some(Money::new(40)),
            usual: crate::terms::Usual::default(),
            schedule,
        },
    });
    // 5 % of 36.00 less, and no 0.30.
    assert_eq!(keep(&kit), 5_50);
    assert_eq!(judged(&kit), 2_40);
}

/// Priced at home, a thing that nobody judged has an estimate.
#[test]
fn what_was_not_judged_counts_once_it_has_a_price() {
    let mut kit = marlpost();
    let dress = thing(&kit, "dress", "", "6");
    buy(&mut kit, 6_00, Paying::Cash, vec![dress]);
    let sums = haul(&kit.state).expect("a begun book").sums;
    assert_eq!((sums.no_estimate, sums.keep), (1, Money::ZERO));
    let (id, _) = kit.state.things().next().expect("a thing");
    let edit = ThingCommand::EditMany {
        things: vec![id],
        kind: None,
        likely: Some(Money::new(26_00)),
    };
    kit.tell(&edit.into());
    assert_eq!(now_of(&kit).keep.minor(), 2_40);
}
