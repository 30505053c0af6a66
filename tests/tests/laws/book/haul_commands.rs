//! From a step about trips, lots and things to what is asked of the book.

use super::device::pick;
use super::haul_steps::HaulStep;
use haulwren_core::book::{
    Command, Facts, LotCommand, Marks, State, StopSetup, ThingCommand, TripCommand,
};
use haulwren_core::id::{CashId, KindId, LotId, PhotoId, StopId, ThingId, WorkId};
use haulwren_core::measure::{Weight, WeightUnit};
use haulwren_core::stamp::At;
use haulwren_core::worth::Sells;

impl HaulStep {
    /// What is asked of the book.
    #[allow(clippy::too_many_lines)] // One arm for each step.
    pub fn command(self, state: &State, now: At) -> Command {
        let tables = &state.tables;
        let thing = |which| ThingId(pick(&tables.things, which));
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
                    premium: None,
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
            Self::Sort(which, things) => {
                of_lot(state, which, |lot| LotCommand::Sort { lot, things })
            }
            Self::Left(which, count) => {
                of_lot(state, which, |lot| LotCommand::SetUnsorted { lot, count })
            }
            Self::Method(which, method) => {
                of_lot(state, which, |lot| LotCommand::SetMethod { lot, method })
            }
            Self::Paid(which, paid) => {
                of_lot(state, which, |lot| LotCommand::SetPaid { lot, paid })
            }
            Self::Extras(which, extras) => {
                of_lot(state, which, |lot| LotCommand::SetExtras { lot, extras })
            }
            Self::By(which, by) => of_lot(state, which, |lot| LotCommand::SetPaying { lot, by }),
            Self::At(which, at) => {
                let stop = at.map(stop);
                of_lot(state, which, |lot| LotCommand::SetStop { lot, stop })
            }
            Self::Regroup(which, to) => {
                let things = all(which);
                of_lot(state, to, |lot| LotCommand::Regroup { things, lot })
            }
            Self::Fix(which, share) => of_thing(state, which, |thing| ThingCommand::FixShare {
                thing,
                share,
            }),
            Self::Keep(which, kept) => of_thing(state, which, |thing| {
                ThingCommand::KeepForMyself { thing, kept }
            }),
            Self::Return(which, got_back) => of_thing(state, which, |thing| {
                ThingCommand::ReturnToSeller { thing, got_back }
            }),
            Self::Mark(which, maker, pieces) => {
                let marks = Marks {
                    maker,
                    pieces,
                    ..Marks::default()
                };
                of_thing(state, which, |thing| ThingCommand::Mark { thing, marks })
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
            Self::Facts(which, kind, ounces, [postage, packing]) => {
                let kinds = state.kinds();
                let facts = Facts {
                    kind: kind.map(|at| kinds[usize::from(at) % kinds.len()].id),
                    weight: ounces.map(|ounces| Weight::whole(ounces, WeightUnit::Ounce)),
                    size: None,
                    postage,
                    packing,
                };
                of_thing(state, which, |thing| ThingCommand::SetFacts {
                    thing,
                    facts,
                })
            }
            Self::Sells(which, prices) => {
                let sells = prices.and_then(|mut prices| {
                    prices.sort_unstable();
                    let [low, likely, high] = prices;
                    Sells::new(Some(low), likely, Some(high)).ok()
                });
                of_thing(state, which, |thing| ThingCommand::SetSells {
                    thing,
                    sells,
                })
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
                of_thing(state, which, |thing| ThingCommand::AddPhoto { thing, blob })
            }
            Self::RemovePhoto(which) => {
                ThingCommand::RemovePhoto(PhotoId(pick(&tables.photos, which))).into()
            }
        }
    }
}

/// Asked of one of the lots that are there.
fn of_lot(state: &State, which: u8, ask: impl FnOnce(LotId) -> LotCommand) -> Command {
    ask(LotId(pick(&state.tables.lots, which))).into()
}

/// Asked of one of the things that are there.
fn of_thing(state: &State, which: u8, ask: impl FnOnce(ThingId) -> ThingCommand) -> Command {
    ask(ThingId(pick(&state.tables.things, which))).into()
}
