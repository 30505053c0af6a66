//! The head of Haul: the trip, the stop where the trader is, and the purse.

use super::HaulSums;
use crate::book::{State, Stop};
use crate::day::Day;
use crate::id::{StopId, TripId};
use crate::ledger::Purse;
use crate::money::Money;
use crate::stamp::At;
use crate::trip::{Manner, stop_title};

/// The trip that Haul is about.
#[derive(Clone, Debug, PartialEq)]
pub struct TripHead {
    /// Which.
    pub id: TripId,
    /// Its name; may be empty.
    pub name: String,
    /// On which day.
    pub day: Option<Day>,
    /// Whether it is under way.
    pub open: bool,
    /// The stop where the trader is; else the last one.
    pub stop: Option<StopHead>,
    /// Its purse.
    pub purse: Purse,
    /// What was bought on it.
    pub sums: HaulSums,
}

/// A stop.
#[derive(Clone, Debug, PartialEq)]
pub struct StopHead {
    /// Which.
    pub id: StopId,
    /// Its place among the stops of its trip, from 1.
    pub number: usize,
    /// Its name; may be empty.
    pub name: String,
    /// How far sellers come down there.
    pub manner: Manner,
    /// When the trader arrived; none while it is only planned.
    pub arrived: Option<At>,
    /// When the trader left.
    pub left: Option<At>,
    /// What is to be remembered of it; may be empty.
    pub note: String,
}

impl StopHead {
    pub(in crate::view) fn of(number: usize, id: StopId, stop: &Stop) -> Self {
        Self {
            id,
            number,
            name: stop.name.clone().unwrap_or_default(),
            manner: stop.manner.unwrap_or_default(),
            arrived: stop.arrived,
            left: stop.left,
            note: stop.note.clone().unwrap_or_default(),
        }
    }

    /// Its name; else its number and when the trader arrived: "Stop 2, 9:40".
    #[must_use]
    pub fn title(&self) -> String {
        stop_title(&self.name, self.number, self.arrived)
    }
}

/// Where the trader is, for the head of Decide and of the pile.
#[derive(Clone, Debug, PartialEq)]
pub struct Here {
    /// The stop; none between two.
    pub stop: Option<StopHead>,
    /// What should be in the purse.
    pub cash_left: Money,
}

/// Where the trader is. `None` while no trip is under way.
#[must_use]
pub fn here(state: &State) -> Option<Here> {
    let (trip, _) = state.open_trip()?;
    let open = state.open_stop().map(|(id, _)| id);
    let mut heads = stops(state, trip).into_iter();
    Some(Here {
        stop: heads.find(|head| Some(head.id) == open),
        cash_left: state.purse(trip).left(),
    })
}

/// The stops of a trip, in order.
pub(in crate::view) fn stops(state: &State, trip: TripId) -> Vec<StopHead> {
    let mut heads = Vec::new();
    for (id, stop) in state.stops_of(trip) {
        heads.push(StopHead::of(heads.len() + 1, id, stop));
    }
    heads
}

/// The stop that a trip is at: where the trader is, else the last one visited.
pub(super) fn current(state: &State, trip: TripId) -> Option<StopHead> {
    let heads = stops(state, trip);
    let open = state.open_stop().map(|(id, _)| id);
    let here = heads.iter().find(|head| Some(head.id) == open);
    let last = || heads.iter().rev().find(|head| head.arrived.is_some());
    here.or_else(last).cloned()
}
