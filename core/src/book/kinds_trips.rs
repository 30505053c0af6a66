//! The other half of the table of kinds: trips, their stops, the movements of the purse, work put into things, and pictures.

/// The table: the kinds given, then these.
macro_rules! with_trip_kinds {
    ($($before:tt)*) => {
        kinds! {
            $($before)*

            /// One outing.
            "trip" trips Trip TripId TripEdit {
                /// What the trader calls it.
                name Name: String, Dispute, since 3;
                /// On which day.
                day Day: Day, Dispute, since 3;
                /// When it started; not set while it is only planned.
                started Started: At, Dispute, since 3;
                /// When it ended; not set while it is under way.
                ended Ended: At, Dispute, since 3;
                /// How far was driven, when the trader says it so.
                distance Distance: Distance, Dispute, since 3;
                /// What the odometer showed on leaving, in whole units of the rules' `distance`.
                odometer_out OdometerOut: u32, Dispute, since 3;
                /// What it showed on coming back.
                odometer_back OdometerBack: u32, Dispute, since 3;
                /// What is to be remembered of it.
                note Note: String, Dispute, since 3;
            }

            /// One sale or place visited on a trip.
            "stop" stops Stop StopId StopEdit {
                /// The trip.
                trip Trip: TripId, Dispute, since 3;
                /// Its name.
                name Name: String, Dispute, since 3;
                /// Its place in the plan; not set when it was not planned.
                planned Planned: u16, Dispute, since 3;
                /// When the trader arrived.
                arrived Arrived: At, Dispute, since 3;
                /// When the trader left.
                left Left: At, Dispute, since 3;
                /// How far sellers come down here.
                manner Manner: Manner, Dispute, since 3;
                /// What is to be remembered of it.
                note Note: String, Dispute, since 3;
            }

            /// A movement of a trip's purse, or a count of it.
            "cash" cash Cash CashId CashEdit {
                /// The trip.
                trip Trip: TripId, Dispute, since 3;
                /// The stop where it was.
                stop Stop: StopId, Dispute, since 3;
                /// What moved it.
                what What: Moved, Dispute, since 3;
                /// By how much, signed as it moves the purse; of a count the difference.
                amount Amount: Money, Dispute, since 3;
                /// What was counted.
                counted Counted: Money, Dispute, since 3;
                /// When.
                at At: At, Dispute, since 3;
                /// What for.
                note Note: String, Dispute, since 3;
            }

            /// Work put into things: one bill.
            "work" works Work WorkId WorkEdit {
                /// What was done.
                name Name: String, Dispute, since 3;
                /// What it cost.
                cost Cost: Money, Dispute, since 3;
                /// When.
                day Day: Day, Dispute, since 3;
            }

            /// One thing that work was put into.
            "worked" worked Worked WorkedId WorkedEdit {
                /// The work.
                work Work: WorkId, Dispute, since 3;
                /// The thing.
                thing Thing: ThingId, Dispute, since 3;
            }

            /// A picture of a thing.
            "photo" photos Photo PhotoId PhotoEdit {
                /// The thing.
                thing Thing: ThingId, Dispute, since 3;
                /// Where its bytes lie: their SHA-256, in lower-case hexadecimal digits.
                blob Blob: String, Dispute, since 3;
                /// When it was taken.
                at At: At, Dispute, since 3;
            }
        }
    };
}
pub(super) use with_trip_kinds;
