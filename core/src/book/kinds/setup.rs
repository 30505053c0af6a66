//! The set-up: the book, its devices, the house rules, venues and their terms.

use super::record;
use crate::appraise::Multiple;
use crate::day::Day;
use crate::id::{CardId, DeviceCode, VenueId};
use crate::measure::{DistanceUnit, System};
use crate::money::{Currency, Money, Rate};
use crate::postage::Arrangement;
use crate::terms::{Regions, Schedule};

record! {
    /// The book itself: one record.
    Book BookId BookEdit;
    words: "Book", "book", "books";
    group: Setup;
    read: Early;
    look: Elsewhere("Set up shows its currency");
    /// The currency of every amount in the book.
    currency Currency: Currency, Dispute, since 1, "Currency";
}

record! {
    /// A device that writes in the book.
    Device DeviceId DeviceEdit;
    words: "Device", "device", "devices";
    group: Setup;
    read: Early;
    look: Elsewhere("the page of all devices lists it");
    /// Its code, as in the keys of its changes.
    code Code: DeviceCode, Dispute, since 1, "Code";
    /// What the trader calls it.
    name Name: String, Latest, since 1, "Name";
}

record! {
    /// House rules and allowances: one record.
    Rules RulesId RulesEdit;
    words: "House rules", "set of house rules", "sets of house rules";
    group: Setup;
    read: Early;
    look: Elsewhere("Set up is where they are");
    /// The least to keep of a sale, after the purchase.
    least_keep LeastKeep: Money, Dispute, since 1, "Least keep";
    /// Whether a sale at the low price must not lose.
    no_loss_if_low NoLossIfLow: bool, Dispute, since 1, "No loss if it sells low";
    /// What shown ceilings are rounded down to.
    cash_step CashStep: Money, Dispute, since 1, "Cash step";
    /// How far sellers come down, as a share of what they ask.
    reach Reach: Rate, Dispute, since 1, "How far sellers come down";
    /// Share of the price set aside for things that never sell.
    unsold Unsold: Rate, Dispute, since 1, "Set aside for what never sells";
    /// Share of the price set aside for offers taken.
    offers Offers: Rate, Dispute, since 1, "Set aside for offers";
    /// Share of the price set aside for returns.
    returns Returns: Rate, Dispute, since 1, "Set aside for returns";
    /// The venue that things are judged on.
    usual_venue UsualVenue: VenueId, Dispute, since 1, "Usual venue";
    /// The least that must be left of a sale, in parts of what was paid.
    least_multiple LeastMultiple: Multiple, Dispute, since 2, "Least multiple of cost";
    /// The longest wait for a sale, in days.
    longest_wait LongestWait: u16, Dispute, since 2, "Longest wait, in days";
    /// The rate card that parcels are posted by.
    usual_card UsualCard: CardId, Dispute, since 2, "Usual rate card";
    /// The units that measures are typed and shown in.
    units Units: System, Dispute, since 3, "Units";
    /// What distances are driven in.
    distance Distance: DistanceUnit, Dispute, since 3, "Unit of distances";
    /// What an hour of the trader's own work counts for.
    hourly Hourly: Money, Dispute, since 4, "An hour of your work";
}

record! {
    /// A place where things are sold.
    Venue VenueId VenueEdit;
    words: "Venue", "venue", "venues";
    group: Setup;
    read: Early;
    look: Page;
    /// Its name.
    name Name: String, Dispute, since 1, "Name";
    /// Who pays the postage, and how.
    arrangement Arrangement: Arrangement, Dispute, since 1, "Who pays the postage";
    /// Postage of a usual parcel.
    postage Postage: Money, Dispute, since 1, "Postage";
    /// Packing of a usual parcel.
    packing Packing: Money, Dispute, since 1, "Packing";
    /// The rate card that its parcels are posted by, when not the usual one.
    card Card: CardId, Dispute, since 2, "Rate card";
    /// Whether things usually sell through a paid promotion there.
    promoted Promoted: bool, Dispute, since 4, "Usually promoted";
    /// Where its buyers usually are.
    regions Regions: Regions, Dispute, since 4, "Where buyers are";
    /// What usually sells there in a month, in all.
    monthly Monthly: Money, Dispute, since 4, "Usual sales a month";
}

record! {
    /// One dated schedule of a venue's charges. Once used it is never edited: a new one is written.
    Terms TermsId TermsEdit;
    words: "Terms", "set of terms", "sets of terms";
    group: Setup;
    read: Early;
    look: Elsewhere("the page of their venue holds them");
    /// Whose terms.
    venue Venue: VenueId, Dispute, since 1, "Venue";
    /// First day on which they hold.
    from From: Day, Dispute, since 1, "Holds from";
    /// When the trader last looked whether they still hold.
    checked Checked: Day, Latest, since 1, "Last checked";
    /// The charges.
    schedule Schedule: Schedule, Dispute, since 1, "Charges";
}
