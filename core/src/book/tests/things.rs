//! What else is said of things: work, marks, pictures, several at once; and a sale that can't pay its own postage.

use super::*;
use crate::id::{KindId, PhotoId, WorkId};

fn two(told: &mut Told) -> Vec<ThingId> {
    let bought = told.tell(&lot_of(10_00, &[("coat", 6_00), ("boots", 4_00)]));
    bought[1..].iter().map(|one| ThingId(one.id)).collect()
}

const NOBODY: ThingId = ThingId(Uuid::max());

#[test]
fn work_is_shared_evenly_and_joins_the_cost() {
    let mut told = Told::begun();
    let things = two(&mut told);
    let day = NOON.day().expect("a day");
    let work = |name: &str, cost, things: &[ThingId]| {
        Command::from(ThingCommand::AddWork {
            name: name.to_owned(),
            cost: Money::new(cost),
            day,
            things: things.to_vec(),
        })
    };
    told.refuses(&work(" ", 3_01, &things), Refusal::NoName);
    told.refuses(&work("Wash", -1, &things), Refusal::Negative);
    told.refuses(&work("Wash", 3_01, &[]), Refusal::NoThings);
    told.refuses(&work("Wash", 3_01, &[NOBODY]), Refusal::NoThing);
    let twice = [things[1], things[0], things[1]];
    let washed = told.tell(&work("Wash", 3_01, &twice));
    assert_eq!(kinds(&washed), ["work", "worked", "worked"]);
    assert_eq!(costs(&told), [7_51, 5_50]);
    told.tell(&Command::TakeOut(things[0]));
    assert_eq!(costs(&told), [13_01]);
    told.tell(&Command::TakeOut(things[1]));
    // A bill for what is no longer there is on no thing.
    let sum = told.state.reckoning();
    assert_eq!(
        (sum.paid, sum.work, sum.not_yet_shared),
        (Money::ZERO, Money::new(3_01), Money::new(3_01))
    );
    let remove = Command::from(ThingCommand::RemoveWork(WorkId(washed[0].id)));
    told.tell(&remove);
    told.refuses(&remove, Refusal::NoEntry);
    assert_eq!(told.state.reckoning(), Reckoning::default());
}

#[test]
fn marks_are_said_and_taken_away() {
    let mut told = Told::begun();
    let thing = two(&mut told)[0];
    let marks = Marks {
        colour: " blue ".to_owned(),
        label: "M".to_owned(),
        pieces: Some(1),
        ..Marks::default()
    };
    let mark = |marks: &Marks| {
        Command::from(ThingCommand::Mark {
            thing,
            marks: marks.clone(),
        })
    };
    assert_eq!(told.tell(&mark(&marks))[0].set.len(), 2);
    told.refuses(&mark(&marks), Refusal::NoChange);
    let long = Marks {
        maker: "x".repeat(81),
        ..Marks::default()
    };
    told.refuses(&mark(&long), Refusal::TextTooLong { limit: 80 });
    told.tell(&mark(&Marks {
        pieces: Some(2),
        ..Marks::default()
    }));
    let known = told.state.thing(thing).expect("a thing");
    assert_eq!((known.colour.as_deref(), known.pieces), (None, Some(2)));
    told.refuses(
        &ThingCommand::Mark {
            thing: NOBODY,
            marks,
        }
        .into(),
        Refusal::NoThing,
    );
}

#[test]
fn pictures_come_and_go() {
    let mut told = Told::begun();
    let thing = two(&mut told)[0];
    let add = |blob: &str| {
        Command::from(ThingCommand::AddPhoto {
            thing,
            blob: blob.to_owned(),
        })
    };
    let blob = "0123456789abcdef".repeat(4);
    for bad in ["", &blob[1..], &blob.to_uppercase(), &"g".repeat(64)] {
        told.refuses(&add(bad), Refusal::BadPicture);
    }
    let added = told.tell(&add(&blob));
    told.refuses(&add(&blob), Refusal::NoChange);
    assert_eq!(told.state.photos_of(thing).count(), 1);
    let remove = Command::from(ThingCommand::RemovePhoto(PhotoId(added[0].id)));
    told.tell(&remove);
    told.refuses(&remove, Refusal::NoEntry);
    assert_eq!(told.state.photos_of(thing).count(), 0);
}

#[test]
fn several_are_changed_at_once() {
    let mut told = Told::begun();
    let things = two(&mut told);
    let kind = told.state.kinds()[0].id;
    let edit = |things: &[ThingId], kind, likely| {
        Command::from(ThingCommand::EditMany {
            things: things.to_vec(),
            kind,
            likely,
        })
    };
    told.refuses(&edit(&[], Some(kind), None), Refusal::NoThings);
    let many: Vec<ThingId> = (0..201).map(|id| ThingId(Uuid::from_u128(id))).collect();
    told.refuses(&edit(&many, Some(kind), None), Refusal::TooManyAtOnce);
    told.refuses(&edit(&[NOBODY], Some(kind), None), Refusal::NoThing);
    told.refuses(
        &edit(&things, Some(KindId(Uuid::max())), None),
        Refusal::NoKind,
    );
    told.refuses(
        &edit(&things, None, Some(Money::new(-1))),
        Refusal::Negative,
    );
    told.refuses(&edit(&things, None, None), Refusal::NoChange);
    let changed = told.tell(&edit(&things, Some(kind), Some(Money::new(5_00))));
    assert_eq!(kinds(&changed), ["thing", "thing"]);
    assert_eq!(costs(&told), [5_00, 5_00]);
    let prices: Vec<Option<Sells>> = told.state.things().map(|(_, thing)| thing.sells).collect();
    assert_eq!(prices, [Sells::new(None, Money::new(5_00), None).ok(); 2]);
    // A low price that still fits stays; a high price that does not goes.
    let mut lamp = buy("Lamp", 1_00);
    let [low, likely, high] = [3_00, 4_00, 4_50].map(Money::new);
    lamp.things[0].sells = Sells::new(Some(low), likely, Some(high)).ok();
    let lamp = ThingId(told.tell(&Command::Buy(lamp))[1].id);
    told.tell(&edit(&[lamp], None, Some(Money::new(5_00))));
    let sells = told.state.thing(lamp).and_then(|lamp| lamp.sells);
    assert_eq!(sells, Sells::new(Some(low), Money::new(5_00), None).ok());
}

/// The lantern of the picture: 8.00 less 1.50 for the venue and 0.40 for packing leave 6.10, under its postage of 6.50.
#[test]
fn a_sale_that_cannot_pay_its_own_postage_is_told() {
    let mut told = Told::begun();
    let marlpost = VenueSetup {
        name: "Marlpost".to_owned(),
        arrangement: Arrangement::SellerPays,
        schedule: Schedule::of(vec![
            Charge::percent("Share of the sale", Rate::percent(15), Base::Price),
            Charge::flat("Flat charge", Money::new(30)),
        ]),
        ..setup("Marlpost", 15)
    };
    told.tell(&save_venue(None, marlpost));
    let mut lantern = buy("tin lantern", 2_00);
    lantern.things[0].sells = Sells::new(None, Money::new(8_00), None).ok();
    lantern.things[0].postage = Money::new(6_50);
    lantern.things[0].packing = Money::new(40);
    let bought = told.tell(&Command::Buy(lantern));
    let thing = told.state.thing(ThingId(bought[1].id)).expect("a thing");
    let short = told.state.postage_short(thing, Some(NOON)).expect("short");
    assert_eq!(
        (short.postage, short.leaves),
        (Money::new(6_50), Money::new(6_10))
    );
    let dearer = Thing {
        sells: Sells::new(None, Money::new(8_48), None).ok(),
        ..thing.clone()
    };
    assert_eq!(told.state.postage_short(&dearer, Some(NOON)), None);
    let unknown = Thing {
        sells: None,
        ..thing.clone()
    };
    assert_eq!(told.state.postage_short(&unknown, Some(NOON)), None);
}

#[test]
fn by_keep_goes_by_what_was_expected_else_by_the_terms_of_the_day() {
    let mut told = Told::begun();
    told.tell(&save_venue(None, setup("Quayside", 10)));
    let (venue, _) = told.state.venues().next().expect("a venue");
    let (terms, _) = told
        .state
        .terms_on(venue, NOON.day().expect("a day"))
        .expect("terms");
    let thing = |expected| Bought {
        sells: Sells::new(None, Money::new(20_00), None).ok(),
        postage: Money::new(4_50),
        packing: Money::new(40),
        expected,
        ..Bought::default()
    };
    let judged = Expected {
        venue,
        terms,
        ask: Money::new(3_00),
        keep: Money::new(3_30),
        ceiling: None,
        verdict: Word::Buy,
        card: None,
        rough: false,
        sells: None,
    };
    told.tell(&Command::Buy(Purchase {
        extras: Money::ZERO,
        paid: Money::new(18_90),
        // Expected: 3.30 + 3.00 before it is paid for. Worked out: 20.00 − 2.00 − 0.40 − 5.00 aside = 12.60.
        things: vec![thing(Some(judged)), thing(None)],
        method: Method::ByKeep,
        by: Paying::Cash,
    }));
    assert_eq!(costs(&told), [6_30, 12_60]);
    assert_eq!(told.state.lots()[0].split.by, Method::ByKeep);
}

/// What was judged stands with the purchase: a new price at home moves what the thing sells for, and no cost.
#[test]
fn a_new_price_at_home_moves_the_cost_of_no_mate() {
    let mut told = Told::begun();
    told.tell(&save_venue(None, setup("Quayside", 10)));
    let (venue, _) = told.state.venues().next().expect("a venue");
    let today = NOON.day().expect("a day");
    let (terms, _) = told.state.terms_on(venue, today).expect("terms");
    let thing = |likely| {
        let sells = Sells::new(None, Money::new(likely), None).ok();
        Bought {
            sells,
            expected: Some(Expected {
                venue,
                terms,
                ask: Money::new(3_00),
                keep: Money::new(3_30),
                ceiling: None,
                verdict: Word::Buy,
                card: None,
                rough: false,
                sells,
            }),
            ..Bought::default()
        }
    };
    told.tell(&Command::Buy(Purchase {
        extras: Money::ZERO,
        paid: Money::new(12_00),
        things: vec![thing(32_00), thing(16_00)],
        method: Method::ByPrice,
        by: Paying::Cash,
    }));
    assert_eq!(costs(&told), [8_00, 4_00]);
    let (first, _) = told.state.things().next().expect("a thing");
    let edit = ThingCommand::EditMany {
        things: vec![first],
        kind: None,
        likely: Some(Money::new(40_00)),
    };
    told.tell(&edit.into());
    assert_eq!(costs(&told), [8_00, 4_00]);
    let sells = told.state.thing(first).and_then(|thing| thing.sells);
    assert_eq!(sells.map(Sells::likely), Some(Money::new(40_00)));
}
