//! Steps of random programs about trips, the purse, lots and things.

use super::program::{amounts, names, purchases};
use haulwren_core::book::{Bought, Purchase};
use haulwren_core::ledger::{Moved, Paying};
use haulwren_core::lot::Method;
use haulwren_core::money::{Money, Rate};
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
    Facts(u8, Option<u8>, Option<u16>, [Option<Money>; 2]),
    Sells(u8, Option<[Money; 3]>),
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
        extras: Money::ZERO,
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
        2 => (which(), prop::option::of(which()), prop::option::of(1_u16..900), prop::array::uniform2(prop::option::of(amounts())))
            .prop_map(|(thing, kind, ounces, amounts)| HaulStep::Facts(thing, kind, ounces, amounts)),
        2 => (which(), prop::option::of(prop::array::uniform3(amounts()))).prop_map(|(thing, prices)| HaulStep::Sells(thing, prices)),
        2 => (names(), amounts(), some()).prop_map(|(name, cost, things)| HaulStep::Work(name, cost, things)),
        1 => which().prop_map(HaulStep::RemoveWork),
        1 => (which(), which()).prop_map(|(thing, blob)| HaulStep::Photo(thing, blob)),
        1 => which().prop_map(HaulStep::RemovePhoto),
    ];
    prop_oneof![3 => trips.boxed(), 4 => lots.boxed(), 3 => things.boxed()].boxed()
}
