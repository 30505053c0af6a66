//! From a step about trips, lots and things to what is asked of the book.

use super::device::pick;
use super::haul_steps::HaulStep;
use haulwren_core::book::{
    Command, LotCommand, Marks, State, StopSetup, ThingCommand, TripCommand,
};
use haulwren_core::id::{CashId, KindId, LotId, PhotoId, StopId, ThingId, WorkId};
use haulwren_core::stamp::At;

impl HaulStep {
    /// What is asked of the book.
    #[allow(clippy::too_many_lines)] // One arm for each step.
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
