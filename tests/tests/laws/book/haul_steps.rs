//! Steps of random programs about trips, the purse, lots and things.

use super::device::pick;
use super::program::{amounts, names, purchases};
use haulwren_core::book::{
    Bought, Command, LotCommand, Marks, Purchase, State, StopSetup, ThingCommand, TripCommand,
};
use haulwren_core::id::{CashId, KindId, LotId, PhotoId, StopId, ThingId, WorkId};
use haulwren_core::ledger::{Moved, Paying};
use haulwren_core::lot::Method;
use haulwren_core::money::{Money, Rate};
use haulwren_core::stamp::At;
use haulwren_core::trip::Manner;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

/// One thing done. Small numbers choose among the records that are there, as in the other steps.
#[derive(Clone, Debug)]
pub enum HaulStep {
    Start(Money, Option<u32>),
    End(Option<u32>),
    Next(Option<u8>, String),
    Plan(String),
    SaveStop(u8, String, Manner, Option<u32>),
    RemoveStop(u8),
    Cash(Moved, Money),
    TakeCash(u8),
    Buy(Purchase),
    Unsorted(u16, Money, Paying),
    Sort(u8, Vec<Bought>),
    Left(u8, u16),
    Method(u8, Method),
    Paid(u8, Money),
    Extras(u8, Money),
    By(u8, Paying),
    At(u8, Option<u8>),
    Regroup(Vec<u8>, u8),
    Fix(u8, Option<Money>),
    Keep(u8, bool),
    Return(u8, Money),
    Mark(u8, String, Option<u16>),
    Edit(Vec<u8>, bool, Option<Money>),
    Work(String, Money, Vec<u8>),
    RemoveWork(u8),
    Photo(u8, u8),
    RemovePhoto(u8),
}

fn manners() -> impl Strategy<Value = Manner> {
    prop_oneof![
        Just(Manner::Fixed),
        Just(Manner::Haggle),
        (0_u32..=100).prop_map(|percent| Manner::Down(Rate::percent(percent))),
        (0_u16..1_500).prop_map(Manner::HalfFrom),
    ]
}

/// Several things at once.
fn several() -> impl Strategy<Value = Purchase> {
    let method = select(&Method::ALL[..]);
    let by = select(vec![Paying::Cash, Paying::Other]);
    (vec(purchases(), 1..5), method, by).prop_map(|(single, method, by)| Purchase {
        paid: single[0].paid,
        things: single.into_iter().flat_map(|one| one.things).collect(),
        method,
        by,
    })
}

fn moved() -> impl Strategy<Value = Moved> {
    select(vec![
        Moved::TookOut,
        Moved::OtherSpent,
        Moved::Sold,
        Moved::Counted,
    ])
}

/// Boxed: a strategy of so many ways is too large for a test's stack.
pub fn haul_steps() -> BoxedStrategy<HaulStep> {
    let which = || any::<u8>();
    let some = || vec(any::<u8>(), 0..4);
    let odometer = || prop::option::of(0_u32..500);
    let paying = || select(vec![Paying::Cash, Paying::Other]);
    let trips = prop_oneof![
        3 => (amounts(), odometer()).prop_map(|(cash, odometer)| HaulStep::Start(cash, odometer)),
        1 => odometer().prop_map(HaulStep::End),
        3 => (prop::option::of(which()), names()).prop_map(|(stop, name)| HaulStep::Next(stop, name)),
        1 => names().prop_map(HaulStep::Plan),
        1 => (which(), names(), manners(), odometer())
            .prop_map(|(stop, name, manner, stay)| HaulStep::SaveStop(stop, name, manner, stay)),
        1 => which().prop_map(HaulStep::RemoveStop),
        2 => (moved(), amounts()).prop_map(|(what, amount)| HaulStep::Cash(what, amount)),
        1 => which().prop_map(HaulStep::TakeCash),
    ];
    let lots = prop_oneof![
        4 => several().prop_map(HaulStep::Buy),
        2 => (0_u16..9, amounts(), paying()).prop_map(|(count, paid, by)| HaulStep::Unsorted(count, paid, by)),
        2 => (which(), several()).prop_map(|(lot, of)| HaulStep::Sort(lot, of.things)),
        1 => (which(), 0_u16..9).prop_map(|(lot, count)| HaulStep::Left(lot, count)),
        2 => (which(), select(&Method::ALL[..])).prop_map(|(lot, method)| HaulStep::Method(lot, method)),
        1 => (which(), amounts()).prop_map(|(lot, paid)| HaulStep::Paid(lot, paid)),
        1 => (which(), amounts()).prop_map(|(lot, extras)| HaulStep::Extras(lot, extras)),
        1 => (which(), paying()).prop_map(|(lot, by)| HaulStep::By(lot, by)),
        1 => (which(), prop::option::of(which())).prop_map(|(lot, stop)| HaulStep::At(lot, stop)),
        2 => (some(), which()).prop_map(|(things, lot)| HaulStep::Regroup(things, lot)),
    ];
    let things = prop_oneof![
        2 => (which(), prop::option::of(amounts())).prop_map(|(thing, share)| HaulStep::Fix(thing, share)),
        2 => (which(), any::<bool>()).prop_map(|(thing, kept)| HaulStep::Keep(thing, kept)),
        2 => (which(), amounts()).prop_map(|(thing, back)| HaulStep::Return(thing, back)),
        1 => (which(), names(), prop::option::of(0_u16..4))
            .prop_map(|(thing, maker, pieces)| HaulStep::Mark(thing, maker, pieces)),
        1 => (some(), any::<bool>(), prop::option::of(amounts()))
            .prop_map(|(things, kind, likely)| HaulStep::Edit(things, kind, likely)),
        2 => (names(), amounts(), some()).prop_map(|(name, cost, things)| HaulStep::Work(name, cost, things)),
        1 => which().prop_map(HaulStep::RemoveWork),
        1 => (which(), which()).prop_map(|(thing, blob)| HaulStep::Photo(thing, blob)),
        1 => which().prop_map(HaulStep::RemovePhoto),
    ];
    prop_oneof![3 => trips.boxed(), 4 => lots.boxed(), 3 => things.boxed()].boxed()
}

impl HaulStep {
    /// What is asked of the book.
    pub fn command(self, state: &State, now: At) -> Command {
        let tables = &state.tables;
        let thing = |which| ThingId(pick(&tables.things, which));
        let lot = |which| LotId(pick(&tables.lots, which));
        let stop = |which| StopId(pick(&tables.stops, which));
        let all = |which: Vec<u8>| which.into_iter().map(thing).collect();
        match self {
            Self::Start(cash, odometer) => {
                let (name, took_out) = (String::new(), Some(cash));
                TripCommand::StartTrip {
                    name,
                    took_out,
                    odometer,
                }
                .into()
            }
            Self::End(odometer) => TripCommand::EndTrip {
                odometer,
                distance: None,
            }
            .into(),
            Self::Next(which, name) => TripCommand::NextStop {
                stop: which.map(stop),
                name,
            }
            .into(),
            Self::Plan(name) => TripCommand::PlanStop { name }.into(),
            Self::SaveStop(which, name, manner, stay) => {
                let id = stop(which);
                let arrived = state.stop(id).and_then(|stop| stop.arrived);
                let later = |stay: u32| Some(At(arrived?.0.saturating_add(stay.into()), now.1));
                let setup = StopSetup {
                    name,
                    arrived,
                    left: stay.and_then(later),
                    manner: Some(manner),
                    note: String::new(),
                };
                TripCommand::SaveStop { id, setup }.into()
            }
            Self::RemoveStop(which) => TripCommand::RemoveStop(stop(which)).into(),
            Self::Cash(what, amount) => TripCommand::MoveCash {
                what,
                amount,
                note: "parking".to_owned(),
            }
            .into(),
            Self::TakeCash(which) => {
                TripCommand::RemoveCash(CashId(pick(&tables.cash, which))).into()
            }
            Self::Buy(purchase) => Command::Buy(purchase),
            Self::Unsorted(count, paid, by) => LotCommand::BuyUnsorted {
                count,
                paid,
                by,
                name: String::new(),
            }
            .into(),
            Self::Sort(which, things) => LotCommand::Sort {
                lot: lot(which),
                things,
            }
            .into(),
            Self::Left(which, count) => LotCommand::SetUnsorted {
                lot: lot(which),
                count,
            }
            .into(),
            Self::Method(which, method) => LotCommand::SetMethod {
                lot: lot(which),
                method,
            }
            .into(),
            Self::Paid(which, paid) => LotCommand::SetPaid {
                lot: lot(which),
                paid,
            }
            .into(),
            Self::Extras(which, extras) => LotCommand::SetExtras {
                lot: lot(which),
                extras,
            }
            .into(),
            Self::By(which, by) => LotCommand::SetPaying {
                lot: lot(which),
                by,
            }
            .into(),
            Self::At(which, at) => LotCommand::SetStop {
                lot: lot(which),
                stop: at.map(stop),
            }
            .into(),
            Self::Regroup(which, to) => LotCommand::Regroup {
                things: all(which),
                lot: lot(to),
            }
            .into(),
            Self::Fix(which, share) => ThingCommand::FixShare {
                thing: thing(which),
                share,
            }
            .into(),
            Self::Keep(which, kept) => ThingCommand::KeepForMyself {
                thing: thing(which),
                kept,
            }
            .into(),
            Self::Return(which, got_back) => ThingCommand::ReturnToSeller {
                thing: thing(which),
                got_back,
            }
            .into(),
            Self::Mark(which, maker, pieces) => {
                let marks = Marks {
                    maker,
                    pieces,
                    ..Marks::default()
                };
                ThingCommand::Mark {
                    thing: thing(which),
                    marks,
                }
                .into()
            }
            Self::Edit(which, kind, likely) => {
                let kind: Option<KindId> = kind.then(|| state.kinds()[0].id);
                ThingCommand::EditMany {
                    things: all(which),
                    kind,
                    likely,
                }
                .into()
            }
            Self::Work(name, cost, which) => {
                let (day, things) = (now.day().unwrap(), all(which));
                ThingCommand::AddWork {
                    name,
                    cost,
                    day,
                    things,
                }
                .into()
            }
            Self::RemoveWork(which) => {
                ThingCommand::RemoveWork(WorkId(pick(&tables.works, which))).into()
            }
            Self::Photo(which, blob) => {
                let blob = format!("{blob:02x}").repeat(32);
                ThingCommand::AddPhoto {
                    thing: thing(which),
                    blob,
                }
                .into()
            }
            Self::RemovePhoto(which) => {
                ThingCommand::RemovePhoto(PhotoId(pick(&tables.photos, which))).into()
            }
        }
    }
}
