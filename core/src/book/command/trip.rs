//! What the trader can ask about trips, stops and the purse.

use crate::day::Day;
use crate::id::{CashId, StopId, TripId};
use crate::ledger::Moved;
use crate::measure::{Distance, DistanceUnit};
use crate::money::{Money, Rate};
use crate::stamp::At;
use crate::trip::Manner;

/// A trip as its form gives it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TripSetup {
    /// Its name; may be empty.
    pub name: String,
    /// On which day.
    pub day: Option<Day>,
    /// When it started.
    pub started: Option<At>,
    /// When it ended; `None` while it is under way.
    pub ended: Option<At>,
    /// How far was driven, when the trader says it so.
    pub distance: Option<Distance>,
    /// What the odometer showed on leaving.
    pub odometer_out: Option<u32>,
    /// What it showed on coming back.
    pub odometer_back: Option<u32>,
    /// What is to be remembered; may be empty.
    pub note: String,
}

/// A stop as its form gives it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StopSetup {
    /// Its name; may be empty.
    pub name: String,
    /// When the trader arrived; `None` while it is only planned.
    pub arrived: Option<At>,
    /// When the trader left; `None` while there.
    pub left: Option<At>,
    /// How far sellers come down here.
    pub manner: Option<Manner>,
    /// What is to be remembered; may be empty.
    pub note: String,
    /// Buyer's premium: what is paid on top, as a share of each price agreed here.
    pub premium: Option<Rate>,
}

/// One thing that the trader asks of trips, stops and the purse.
#[derive(Clone, Debug, PartialEq)]
pub enum TripCommand {
    /// Starts a trip: the planned one, when there is one.
    StartTrip {
        /// Its name; may be empty.
        name: String,
        /// The cash that is taken along.
        took_out: Option<Money>,
        /// What the odometer shows.
        odometer: Option<u32>,
    },
    /// Ends the trip under way, and leaves its stop.
    EndTrip {
        /// What the odometer shows.
        odometer: Option<u32>,
        /// How far was driven, when said so.
        distance: Option<Distance>,
    },
    /// Changes a trip.
    SaveTrip {
        /// Which.
        id: TripId,
        /// How it is to be.
        setup: TripSetup,
    },
    /// Leaves the stop where the trader is, and arrives at the next one at the same instant. Starts a trip when none is under way.
    NextStop {
        /// A planned stop; `None` for one that was not planned.
        stop: Option<StopId>,
        /// Its name; may be empty, then it goes by its number and the clock.
        name: String,
    },
    /// Plans a stop, after those that are planned: of the trip under way, else of the next one.
    PlanStop {
        /// Its name; not empty.
        name: String,
    },
    /// Changes a stop, back-dated or not.
    SaveStop {
        /// Which.
        id: StopId,
        /// How it is to be.
        setup: StopSetup,
    },
    /// Takes a stop away where nothing was bought or paid.
    RemoveStop(StopId),
    /// Moves cash into the purse, or out of it. A count is [`TripCommand::CountCash`].
    MoveCash {
        /// What moves it.
        what: Moved,
        /// How much, over nothing whichever way it goes.
        amount: Money,
        /// What for; may be empty.
        note: String,
    },
    /// Counts the purse: what is missing in it, or over, is posted.
    CountCash(Money),
    /// Takes a movement or a count of the purse away.
    RemoveCash(CashId),
    /// Counts distances in this unit from now on.
    SetDistanceUnit(DistanceUnit),
}
