//! Commands with whatever amounts, names, times and ids, fit or not.

use super::program::{allowances, names, rules, setups};
use haulwren_core::appraise::HouseRules;
use haulwren_core::book::{
    Bought, Command, LotCommand, Purchase, StopSetup, TripCommand, VenueSetup,
};
use haulwren_core::id::{StopId, ThingId, VenueId};
use haulwren_core::ledger::{Moved, Paying};
use haulwren_core::money::{Currency, Money};
use haulwren_core::stamp::At;
use haulwren_core::terms::{Charge, Schedule};
use proptest::prelude::*;
use uuid::Uuid;

/// Amounts of every size and sign.
fn any_money() -> impl Strategy<Value = Money> {
    let most = Money::MAX.minor();
    prop_oneof![
        Just(0),
        Just(most),
        Just(-most),
        -most..=most,
        -100_i64..10_000
    ]
    .prop_map(Money::new)
}

fn any_names() -> impl Strategy<Value = String> {
    prop_oneof![names(), any::<String>(), "\\PC{70,90}", " {0,99}"]
}

fn any_setups() -> impl Strategy<Value = VenueSetup> {
    let charge = (any_names(), any_money()).prop_map(|(label, flat)| Charge::flat(&label, flat));
    let schedule = prop::collection::vec(charge, 0..15).prop_map(Schedule::of);
    (any_names(), any_money(), any_money(), schedule, setups()).prop_map(
        |(name, postage, packing, schedule, fit)| VenueSetup {
            name,
            postage: Some(postage),
            packing: Some(packing),
            schedule,
            ..fit
        },
    )
}

pub fn any_commands() -> impl Strategy<Value = Command> {
    let id = || any::<u128>().prop_map(Uuid::from_u128);
    let currency = Currency::from_code("KWD").unwrap();
    let rules = (rules(), any_money(), any_money()).prop_map(|(fit, keep, step)| HouseRules {
        least_keep: Some(keep),
        cash_step: step,
        ..fit
    });
    prop_oneof![
        any_names().prop_map(move |device| Command::Begin { currency, device }),
        (rules, allowances())
            .prop_map(|(rules, allowances)| Command::SetRules { rules, allowances }),
        (prop::option::of(id()), any_setups()).prop_map(|(id, setup)| Command::SaveVenue {
            id: id.map(VenueId),
            setup
        }),
        id().prop_map(|id| Command::UseVenue(VenueId(id))),
        id().prop_map(|id| Command::RemoveVenue(VenueId(id))),
        (any_money(), any_names(), any_money(), any_money()).prop_map(
            |(paid, name, postage, packing)| {
                let thing = Bought {
                    name,
                    postage,
                    packing,
                    ..Bought::default()
                };
                Command::Buy(Purchase::of_one(paid, thing))
            }
        ),
        (id(), any_names()).prop_map(|(id, name)| Command::Rename {
            thing: ThingId(id),
            name
        }),
        id().prop_map(|id| Command::TakeOut(ThingId(id))),
        any_of_the_haul(),
    ]
}

/// Trips, lots and things with whatever amounts, names and times.
fn any_of_the_haul() -> impl Strategy<Value = Command> {
    let at =
        || prop::option::of((any::<u64>(), any::<i16>()).prop_map(|(ms, offset)| At(ms, offset)));
    let moved = prop::sample::select(vec![Moved::TookOut, Moved::OtherSpent, Moved::Counted]);
    let start = (any_names(), any_money(), any::<u32>()).prop_map(|(name, cash, odometer)| {
        let (took_out, odometer) = (Some(cash), Some(odometer));
        TripCommand::StartTrip {
            name,
            took_out,
            odometer,
        }
        .into()
    });
    let saved = (any::<u8>(), any_names(), at(), at()).prop_map(|(which, name, arrived, left)| {
        let id = StopId(Uuid::from_u128(which.into()));
        let setup = StopSetup {
            name,
            arrived,
            left,
            ..StopSetup::default()
        };
        TripCommand::SaveStop { id, setup }.into()
    });
    let unsorted = (any::<u16>(), any_money(), any_names()).prop_map(|(count, paid, name)| {
        let by = Paying::Other;
        LotCommand::BuyUnsorted {
            count,
            paid,
            by,
            name,
        }
        .into()
    });
    let next = any_names().prop_map(|name| TripCommand::NextStop { stop: None, name }.into());
    let plan = any_names().prop_map(|name| TripCommand::PlanStop { name }.into());
    let cash = (moved, any_money(), any_names())
        .prop_map(|(what, amount, note)| TripCommand::MoveCash { what, amount, note }.into());
    let end = any::<u32>().prop_map(|odometer| {
        let (odometer, distance) = (Some(odometer), None);
        TripCommand::EndTrip { odometer, distance }.into()
    });
    prop_oneof![start, saved, unsorted, next, plan, cash, end].boxed()
}
