//! Outings: trips, their stops, the movements of the purse.

use super::record;
use crate::day::Day;
use crate::id::{StopId, TripId};
use crate::ledger::Moved;
use crate::measure::Distance;
use crate::money::{Money, Rate};
use crate::stamp::At;
use crate::trip::Manner;

record! {
    /// One outing.
    Trip TripId TripEdit;
    words: "Trip", "trip", "trips";
    group: Trips;
    read: Late;
    look: Page;
    /// What the trader calls it.
    name Name: String, Dispute, since 3, "Name";
    /// On which day.
    day Day: Day, Dispute, since 3, "Day";
    /// When it started; not set while it is only planned.
    started Started: At, Dispute, since 3, "Started";
    /// When it ended; not set while it is under way.
    ended Ended: At, Dispute, since 3, "Ended";
    /// How far was driven, when the trader says it so.
    distance Distance: Distance, Dispute, since 3, "Driven";
    /// What the odometer showed on leaving, in whole units of the rules' `distance`.
    odometer_out OdometerOut: u32, Dispute, since 3, "Odometer on leaving";
    /// What it showed on coming back.
    odometer_back OdometerBack: u32, Dispute, since 3, "Odometer on coming back";
    /// What is to be remembered of it.
    note Note: String, Dispute, since 3, "Note";
}

record! {
    /// One sale or place visited on a trip.
    Stop StopId StopEdit;
    words: "Stop", "stop", "stops";
    group: Trips;
    read: Late;
    look: Page;
    /// The trip.
    trip Trip: TripId, Dispute, since 3, "Trip";
    /// Its name.
    name Name: String, Dispute, since 3, "Name";
    /// Its place in the plan; not set when it was not planned.
    planned Planned: u16, Dispute, since 3, "Place in the plan";
    /// When the trader arrived.
    arrived Arrived: At, Dispute, since 3, "Arrived";
    /// When the trader left.
    left Left: At, Dispute, since 3, "Left";
    /// How far sellers come down here.
    manner Manner: Manner, Dispute, since 3, "How sellers come down";
    /// What is to be remembered of it.
    note Note: String, Dispute, since 3, "Note";
    /// Buyer's premium: what is paid on top, as a share of each price agreed here.
    premium Premium: Rate, Dispute, since 4, "Buyer\u{2019}s premium";
}

record! {
    /// A movement of a trip's purse, or a count of it.
    Cash CashId CashEdit;
    words: "Entry of the purse", "movement of the purse", "movements of the purse";
    group: Trips;
    read: Late;
    look: Elsewhere("the page of its trip lists it");
    /// The trip.
    trip Trip: TripId, Dispute, since 3, "Trip";
    /// The stop where it was.
    stop Stop: StopId, Dispute, since 3, "Stop";
    /// What moved it.
    what What: Moved, Dispute, since 3, "What moved it";
    /// By how much, signed as it moves the purse; of a count the difference.
    amount Amount: Money, Dispute, since 3, "Amount";
    /// What was counted.
    counted Counted: Money, Dispute, since 3, "Counted";
    /// When.
    at At: At, Dispute, since 3, "When";
    /// What for.
    note Note: String, Dispute, since 3, "Note";
}
