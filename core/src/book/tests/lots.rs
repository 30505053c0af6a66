//! Lots: how their price is shared, sorted later, given back, regrouped.

use super::*;
use crate::id::LotId;
use crate::kind::RecordKind;

fn lot(told: &mut Told) -> (LotId, Vec<ThingId>) {
    let three = [("coat", 22_00), ("boots", 12_00), ("lantern", 8_00)];
    of(&told.tell(&lot_of(10_00, &three)))
}

fn of(changes: &[Change]) -> (LotId, Vec<ThingId>) {
    let of_kind = |kind: RecordKind| changes.iter().filter(move |one| one.kind == kind);
    let lot = of_kind(RecordKind::Lot).next().expect("a lot");
    (
        LotId(lot.id),
        of_kind(RecordKind::Thing)
            .map(|one| ThingId(one.id))
            .collect(),
    )
}

fn unsorted(count: u16, paid: i64) -> Command {
    LotCommand::BuyUnsorted {
        count,
        paid: Money::new(paid),
        by: Paying::Cash,
        name: "Box of books".to_owned(),
    }
    .into()
}

fn sort(lot: LotId, count: usize) -> Command {
    let things = vec![Bought::default(); count];
    LotCommand::Sort { lot, things }.into()
}

#[test]
fn the_price_of_a_lot_is_shared_as_the_trader_says() {
    let mut told = Told::begun();
    let (id, things) = lot(&mut told);
    assert_eq!(costs(&told), [5_24, 2_86, 1_90]);
    let by = |method| Command::from(LotCommand::SetMethod { lot: id, method });
    told.tell(&by(Method::Evenly));
    assert_eq!(costs(&told), [3_34, 3_33, 3_33]);
    told.refuses(&by(Method::Evenly), Refusal::NoChange);
    told.tell(
        &ThingCommand::FixShare {
            thing: things[0],
            share: Some(Money::new(6_00)),
        }
        .into(),
    );
    assert_eq!(costs(&told), [6_00, 2_00, 2_00]);
    told.tell(
        &ThingCommand::KeepForMyself {
            thing: things[1],
            kept: true,
        }
        .into(),
    );
    assert_eq!(costs(&told), [6_00, 0, 4_00]);
    // By hand starts from the shares that stand, and another way lets go of them.
    told.tell(&by(Method::ByHand));
    assert_eq!(costs(&told), [6_00, 0, 4_00]);
    let fix = |share| ThingCommand::FixShare {
        thing: things[2],
        share,
    };
    told.tell(&fix(Some(Money::ZERO)).into());
    assert_eq!(told.state.reckoning().not_yet_shared, Money::new(4_00));
    told.tell(&by(Method::ByWeight));
    assert_eq!(told.state.lots()[0].split.by, Method::Evenly);
    assert_eq!(costs(&told), [5_00, 0, 5_00]);
    told.tell(
        &ThingCommand::FixShare {
            thing: things[0],
            share: Some(Money::new(6_00)),
        }
        .into(),
    );
    told.tell(
        &LotCommand::SetExtras {
            lot: id,
            extras: Money::new(1_00),
        }
        .into(),
    );
    assert_eq!(costs(&told), [6_00, 0, 5_00]);
    told.tell(
        &LotCommand::SetPaid {
            lot: id,
            paid: Money::new(5_00),
        }
        .into(),
    );
    assert_eq!(costs(&told), [6_00, 0, 0]);
    told.tell(
        &ThingCommand::FixShare {
            thing: things[0],
            share: None,
        }
        .into(),
    );
    assert_eq!(costs(&told), [3_00, 0, 3_00]);
}

#[test]
fn an_unsorted_lot_is_sorted_bit_by_bit() {
    let mut told = Told::begun();
    told.refuses(&unsorted(0, 10_00), Refusal::NoThings);
    told.refuses(&unsorted(1_000, 10_00), Refusal::TooManyUnsorted);
    told.refuses(&unsorted(12, -1), Refusal::Negative);
    let (id, _) = of(&told.tell(&unsorted(12, 10_00)));
    assert_eq!(told.state.reckoning().on_unsorted, Money::new(10_00));
    told.refuses(&sort(id, 0), Refusal::NoThings);
    told.refuses(&sort(id, 201), Refusal::TooManyThings);
    told.refuses(&sort(LotId(Uuid::max()), 1), Refusal::NoLot);
    let (_, first) = of(&told.tell(&sort(id, 2)));
    assert_eq!(costs(&told), [84, 84]);
    let count = |count| Command::from(LotCommand::SetUnsorted { lot: id, count });
    told.tell(&count(3));
    assert_eq!(costs(&told), [2_00, 2_00]);
    // A thing that is taken out leaves the lot to those that are left to sort.
    for thing in &first {
        assert_eq!(kinds(&told.tell(&Command::TakeOut(*thing))), ["thing"]);
    }
    assert_eq!(told.state.reckoning().on_unsorted, Money::new(10_00));
    // There was one more in it than was counted.
    told.tell(&sort(id, 4));
    assert_eq!(costs(&told), [2_50; 4]);
    told.refuses(&sort(id, 1), Refusal::AllSorted);
    told.refuses(&count(0), Refusal::NoChange);
    told.refuses(&count(1_000), Refusal::TooManyUnsorted);
}

#[test]
fn what_goes_back_to_its_seller_lowers_what_was_paid() {
    let mut told = Told::begun();
    let (id, things) = lot(&mut told);
    let back = |place: usize, got_back| {
        let got_back = Money::new(got_back);
        Command::from(ThingCommand::ReturnToSeller {
            thing: things[place],
            got_back,
        })
    };
    told.refuses(&back(0, 10_01), Refusal::TooMuchBack);
    told.refuses(&back(0, -1), Refusal::Negative);
    told.tell(&back(2, 4_00));
    assert_eq!(costs(&told), [3_88, 2_12]);
    told.tell(&back(1, 2_00));
    // The last one with all the rest takes the lot with it.
    told.tell(&back(0, 4_00));
    assert_eq!(told.state.lot(id), None);
    told.refuses(&back(0, 0), Refusal::NoThing);
    assert_eq!(told.state.reckoning(), Reckoning::default());
    // With less than all, the rest is a loss that stays on the lot.
    let (id, things) = of(&told.tell(&lot_of(6_00, &[("jug", 9_00)])));
    let (thing, got_back) = (things[0], Money::new(5_00));
    told.tell(&ThingCommand::ReturnToSeller { thing, got_back }.into());
    assert!(told.state.lot(id).is_some());
    assert_eq!(told.state.reckoning().not_yet_shared, Money::new(1_00));
}

#[test]
fn things_are_moved_into_another_lot_and_take_the_price_with_the_last() {
    let mut told = Told::begun();
    let (target, things) = lot(&mut told);
    let (source, jug_and_bowl) = of(&told.tell(&lot_of(6_00, &[("jug", 9_00), ("bowl", 9_00)])));
    let regroup = |things: &[ThingId], lot| {
        Command::from(LotCommand::Regroup {
            things: things.to_vec(),
            lot,
        })
    };
    told.refuses(&regroup(&[], target), Refusal::NoThings);
    told.refuses(&regroup(&things, target), Refusal::NoChange);
    told.refuses(&regroup(&jug_and_bowl, LotId(Uuid::max())), Refusal::NoLot);
    told.refuses(&regroup(&[ThingId(Uuid::max())], target), Refusal::NoThing);
    told.tell(&regroup(&jug_and_bowl[..1], target));
    let paid = |told: &Told, id| told.state.lot(id).and_then(|lot| lot.paid);
    assert_eq!(
        (paid(&told, target), paid(&told, source)),
        (Some(Money::new(10_00)), Some(Money::new(6_00)))
    );
    told.tell(&regroup(&jug_and_bowl, target));
    assert_eq!(
        (paid(&told, target), paid(&told, source)),
        (Some(Money::new(16_00)), None)
    );
    assert_eq!(
        told.state.shared_lot(target).expect("a lot").things.len(),
        5
    );
    let other = Purchase {
        by: Paying::Other,
        ..buy("Lamp", 3_00)
    };
    let (apart, lamp) = of(&told.tell(&Command::Buy(other)));
    told.refuses(&regroup(&lamp, target), Refusal::OtherPaying);
    let cash = LotCommand::SetPaying {
        lot: apart,
        by: Paying::Cash,
    };
    told.tell(&cash.into());
    let stop = TripCommand::NextStop {
        stop: None,
        name: String::new(),
    };
    let stop = Some(crate::id::StopId(told.tell(&stop.into())[1].id));
    told.tell(&LotCommand::SetStop { lot: apart, stop }.into());
    told.refuses(&regroup(&lamp, target), Refusal::OtherTrip);
    let nowhere = Some(crate::id::StopId(Uuid::max()));
    told.refuses(
        &LotCommand::SetStop {
            lot: apart,
            stop: nowhere,
        }
        .into(),
        Refusal::NoStop,
    );
    told.tell(
        &LotCommand::SetStop {
            lot: apart,
            stop: None,
        }
        .into(),
    );
    told.tell(&regroup(&lamp, target));
    assert_eq!(paid(&told, target), Some(Money::new(19_00)));
    told.tell(
        &LotCommand::NameLot {
            lot: target,
            name: "Garage table".to_owned(),
        }
        .into(),
    );
    let name = told.state.lot(target).and_then(|lot| lot.name.clone());
    assert_eq!(name.as_deref(), Some("Garage table"));
}
