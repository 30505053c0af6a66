//! Why the book will not do what it was asked, as sentences.

use super::command::{MOST_THINGS, MOST_UNSORTED};
use crate::appraise::RulesError;
use crate::postage::{ArrangementError, CardError};
use crate::terms::{RegionsError, TermsError};
use crate::worth::WorthError;

/// Why the book will not do what it was asked.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// Begun twice.
    #[error("This book has begun already. Its currency stays.")]
    AlreadyBegun,
    /// Not begun.
    #[error("Choose the book's currency first.")]
    NotBegun,
    /// A name is missing.
    #[error("Give it a name.")]
    NoName,
    /// Longer than anybody writes.
    #[error("The name is too long: {limit} characters at most.")]
    NameTooLong {
        /// The most.
        limit: usize,
    },
    /// The name is another venue's.
    #[error("Another venue has this name already.")]
    NameTaken,
    /// An amount under 0.
    #[error("An amount here cannot be under 0.")]
    Negative,
    /// An amount over [`crate::money::Money::TYPED_MAX`].
    #[error("That is more than one amount may be.")]
    TooLarge,
    /// House rules that cannot hold.
    #[error(transparent)]
    Rules(#[from] RulesError),
    /// Allowances that cannot hold.
    #[error(transparent)]
    Allowances(#[from] WorthError),
    /// Charges that cannot hold.
    #[error(transparent)]
    Terms(#[from] TermsError),
    /// A rate card that cannot hold.
    #[error(transparent)]
    Card(#[from] CardError),
    /// An arrangement that cannot hold.
    #[error(transparent)]
    Arrangement(#[from] ArrangementError),
    /// Regions that can't be used.
    #[error("{0}")]
    Regions(#[from] RegionsError),
    /// The rate card is not there.
    #[error("This rate card is no longer in the book.")]
    NoCard,
    /// The container is not there.
    #[error("This container is no longer in the book.")]
    NoContainer,
    /// The kind is not there.
    #[error("This kind is no longer in the book.")]
    NoKind,
    /// A purchase of nothing.
    #[error("Put a thing in the pile first.")]
    NoThings,
    /// More things than one lot may hold.
    #[error("A lot holds {MOST_THINGS} things at most.")]
    TooManyThings,
    /// More things than one save takes.
    #[error("{MOST_THINGS} things at once at most.")]
    TooManyAtOnce,
    /// The lot is not there.
    #[error("This lot is no longer in the book.")]
    NoLot,
    /// More things to be sorted than one lot may hold.
    #[error("A lot holds {MOST_UNSORTED} unsorted things at most.")]
    TooManyUnsorted,
    /// Everything of the lot is sorted.
    #[error("Everything of this lot is sorted already.")]
    AllSorted,
    /// More money than the lot was paid with.
    #[error("That is more than was paid for the lot.")]
    TooMuchBack,
    /// One lot was paid in cash, the other was not.
    #[error("One of them was paid in cash and the other was not, so their prices stay apart.")]
    OtherPaying,
    /// Lots of two trips.
    #[error("They were bought on different trips, so their prices stay apart.")]
    OtherTrip,
    /// A trip is under way.
    #[error("A trip is under way. End it first.")]
    TripOpen,
    /// No trip is under way, or it is not there.
    #[error("Start a trip first.")]
    NoTrip,
    /// The stop is not there.
    #[error("This stop is no longer in the book.")]
    NoStop,
    /// The stop was visited already.
    #[error("You have been at this stop already.")]
    BeenThere,
    /// Things or cash stand on the stop.
    #[error("Something was bought or paid at this stop, so it stays.")]
    StopInUse,
    /// An end before its beginning.
    #[error("It can\u{2019}t end before it began.")]
    EndsTooSoon,
    /// An odometer that ran backwards.
    #[error("The odometer can\u{2019}t show less than when you left.")]
    OdometerBack,
    /// No time of a day.
    #[error("A day has 24 hours.")]
    NoSuchTime,
    /// An amount of nothing.
    #[error("Type an amount.")]
    NoAmount,
    /// A movement of the purse is not there.
    #[error("This entry is no longer in the book.")]
    NoEntry,
    /// A picture without a fit name.
    #[error("This picture can\u{2019}t be kept.")]
    BadPicture,
    /// Longer than anybody writes.
    #[error("That is longer than {limit} characters.")]
    TextTooLong {
        /// The most.
        limit: usize,
    },
    /// The venue is not there.
    #[error("This venue is no longer in the book.")]
    NoVenue,
    /// The thing is not there.
    #[error("This thing is no longer in the book.")]
    NoThing,
    /// Nothing would change.
    #[error("Nothing has changed.")]
    NoChange,
    /// What was in dispute is settled.
    #[error("This is settled already.")]
    NoDispute,
    /// The choices of a dispute are others by now.
    #[error("Something new was said about it meanwhile. Look again, then choose.")]
    OtherChoices,
    /// A value that this version cannot read.
    #[error(
        "Only a newer version of Haulwren can read this. Choose it on the device that wrote it."
    )]
    Unreadable,
    /// A field of what was taken out.
    #[error("It was taken out. Put it back first.")]
    TakenOut,
    /// A verdict rests on it, or it takes something out that has to be looked at.
    #[error(
        "There is no way back to this: a verdict rests on what stands, or its own page has to take it out."
    )]
    NoWayBack,
    /// The device's clock shows a time beyond the calendar.
    #[error("This device's clock is far off. Set it, then save again.")]
    ClockOff,
    /// The start of a book.
    #[error("The book's beginning cannot be undone.")]
    BeginningStays,
    /// Another tab saved between the look and the save.
    #[error("Another tab has just saved. Look again, then try once more.")]
    MovedOn,
    /// What was settled stands as it stood before.
    #[error("Nothing to undo here: it was settled on what stood there before.")]
    StoodBefore,
    /// Undo has nothing to give back.
    #[error("Nothing to undo here: later changes stand on it.")]
    NothingToUndo,
}
