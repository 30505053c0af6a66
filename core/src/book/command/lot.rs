//! What the trader can ask of a lot.

use super::Bought;
use crate::id::{LotId, StopId, ThingId};
use crate::ledger::Paying;
use crate::lot::Method;
use crate::money::Money;

/// One thing that the trader asks of a lot.
#[derive(Clone, Debug, PartialEq)]
pub enum LotCommand {
    /// Logs a lot that is sorted later.
    BuyUnsorted {
        /// How many things it has; at least one.
        count: u16,
        /// What was handed over.
        paid: Money,
        /// How it was paid for.
        by: Paying,
        /// What it is called; may be empty.
        name: String,
    },
    /// Sorts some of a lot: so many fewer are left to sort. Things beyond the count are taken too: it was made by eye.
    Sort {
        /// Which.
        lot: LotId,
        /// What they turned out to be; at least one.
        things: Vec<Bought>,
    },
    /// Corrects how many things of a lot are left to sort.
    SetUnsorted {
        /// Which.
        lot: LotId,
        /// How many.
        count: u16,
    },
    /// Shares a lot's price in another way.
    SetMethod {
        /// Which.
        lot: LotId,
        /// How.
        method: Method,
    },
    /// Corrects what was handed over.
    SetPaid {
        /// Which.
        lot: LotId,
        /// How much.
        paid: Money,
    },
    /// Says what had to be paid on top: buyer's premium, sales tax.
    SetExtras {
        /// Which.
        lot: LotId,
        /// How much.
        extras: Money,
    },
    /// Corrects how it was paid for.
    SetPaying {
        /// Which.
        lot: LotId,
        /// How.
        by: Paying,
    },
    /// Corrects where it was bought.
    SetStop {
        /// Which.
        lot: LotId,
        /// The stop; `None` for none of a trip.
        stop: Option<StopId>,
    },
    /// Names a lot; an empty name takes the name away.
    NameLot {
        /// Which.
        lot: LotId,
        /// Its name.
        name: String,
    },
    /// Moves things into another lot. The price of a lot that nothing is left of goes with its things; else it stays where it is.
    Regroup {
        /// Which things; at least one.
        things: Vec<ThingId>,
        /// The lot that they belong to.
        lot: LotId,
    },
}
