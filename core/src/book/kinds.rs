//! The table of kinds: every record that a book can hold, field by field. Names and types are the format: they are never changed or
//! reused, only added to. Those of trips and of work are in `kinds_trips`. A test holds this table against a golden text.

use super::expected::Expected;
use super::kinds_trips::with_trip_kinds;
use super::table::{Edits, Record, Rows, Table, kinds, read};
use crate::appraise::Multiple;
use crate::change::{Disputes, Fields, RecordKey, Rule};
use crate::day::Day;
use crate::id::{CardId, DeviceCode, KindId, LotId, StopId, ThingId, TripId, VenueId, WorkId};
use crate::json;
use crate::ledger::{Moved, Paying};
use crate::lot::Method;
use crate::measure::{Distance, DistanceUnit, ParcelSize, System, Weight};
use crate::money::{Currency, Money, Rate};
use crate::packing::{Form, Fragility};
use crate::postage::{Arrangement, RateCard};
use crate::stamp::At;
use crate::terms::Schedule;
use crate::trip::Manner;
use crate::worth::Sells;
use serde_json::Value;
use uuid::Uuid;

with_trip_kinds! {
    /// The book itself: one record.
    "book" books Book BookId BookEdit {
        /// The currency of every amount in the book.
        currency Currency: Currency, Dispute, since 1;
    }

    /// A device that writes in the book.
    "device" devices Device DeviceId DeviceEdit {
        /// Its code, as in the keys of its changes.
        code Code: DeviceCode, Dispute, since 1;
        /// What the trader calls it.
        name Name: String, Latest, since 1;
    }

    /// House rules and allowances: one record.
    "rules" rules Rules RulesId RulesEdit {
        /// The least to keep of a sale, after the purchase.
        least_keep LeastKeep: Money, Dispute, since 1;
        /// Whether a sale at the low price must not lose.
        no_loss_if_low NoLossIfLow: bool, Dispute, since 1;
        /// What shown ceilings are rounded down to.
        cash_step CashStep: Money, Dispute, since 1;
        /// How far sellers come down, as a share of what they ask.
        reach Reach: Rate, Dispute, since 1;
        /// Share of the price set aside for things that never sell.
        unsold Unsold: Rate, Dispute, since 1;
        /// Share of the price set aside for offers taken.
        offers Offers: Rate, Dispute, since 1;
        /// Share of the price set aside for returns.
        returns Returns: Rate, Dispute, since 1;
        /// The venue that things are judged on.
        usual_venue UsualVenue: VenueId, Dispute, since 1;
        /// The least that must be left of a sale, in parts of what was paid.
        least_multiple LeastMultiple: Multiple, Dispute, since 2;
        /// The longest wait for a sale, in days.
        longest_wait LongestWait: u16, Dispute, since 2;
        /// The rate card that parcels are posted by.
        usual_card UsualCard: CardId, Dispute, since 2;
        /// The units that measures are typed and shown in.
        units Units: System, Dispute, since 3;
        /// What distances are driven in.
        distance Distance: DistanceUnit, Dispute, since 3;
    }

    /// A place where things are sold.
    "venue" venues Venue VenueId VenueEdit {
        /// Its name.
        name Name: String, Dispute, since 1;
        /// Who pays the postage, and how.
        arrangement Arrangement: Arrangement, Dispute, since 1;
        /// Postage of a usual parcel.
        postage Postage: Money, Dispute, since 1;
        /// Packing of a usual parcel.
        packing Packing: Money, Dispute, since 1;
        /// The rate card that its parcels are posted by, when not the usual one.
        card Card: CardId, Dispute, since 2;
    }

    /// One dated schedule of a venue's charges. Once used it is never edited: a new one is written.
    "terms" terms Terms TermsId TermsEdit {
        /// Whose terms.
        venue Venue: VenueId, Dispute, since 1;
        /// First day on which they hold.
        from From: Day, Dispute, since 1;
        /// When the trader last looked whether they still hold.
        checked Checked: Day, Latest, since 1;
        /// The charges.
        schedule Schedule: Schedule, Dispute, since 1;
    }

    /// Things bought for one price.
    "lot" lots Lot LotId LotEdit {
        /// What was handed over.
        paid Paid: Money, Dispute, since 1;
        /// When.
        bought Bought: At, Dispute, since 1;
        /// How its price is shared over its things.
        method Method: Method, Dispute, since 2;
        /// The stop that it was bought at.
        stop Stop: StopId, Dispute, since 3;
        /// What had to be paid on top: buyer's premium, sales tax.
        extras Extras: Money, Dispute, since 3;
        /// How many things of it are not sorted yet.
        unsorted Unsorted: u16, Dispute, since 3;
        /// How it was paid for; in cash when nothing is said.
        by By: Paying, Dispute, since 3;
        /// What the trader calls it.
        name Name: String, Dispute, since 3;
    }

    /// One thing.
    "thing" things Thing ThingId ThingEdit {
        /// The lot that it was bought in.
        lot Lot: LotId, Dispute, since 1;
        /// What the trader calls it.
        name Name: String, Dispute, since 1;
        /// What it sells for.
        sells Sells: Sells, Dispute, since 1;
        /// Its postage.
        postage Postage: Money, Dispute, since 1;
        /// Its packing.
        packing Packing: Money, Dispute, since 1;
        /// What was expected of it when it was bought.
        expected Expected: Expected, Latest, since 1;
        /// What kind of thing it is.
        kind Kind: KindId, Dispute, since 2;
        /// Its own weight.
        weight Weight: Weight, Dispute, since 2;
        /// Its own size, as it is packed.
        size Size: ParcelSize, Dispute, since 2;
        /// Its share of its lot, when fixed by hand.
        share Share: Money, Dispute, since 3;
        /// Whether the trader keeps it for their own use.
        kept Kept: bool, Dispute, since 3;
        /// Of how many pieces it is: a pair, a set.
        pieces Pieces: u16, Dispute, since 3;
        /// Its colour.
        colour Colour: String, Dispute, since 3;
        /// The size on its label.
        label Label: String, Dispute, since 3;
        /// Who made it.
        maker Maker: String, Dispute, since 3;
        /// What is wrong with it.
        flaw Flaw: String, Dispute, since 3;
    }

    /// One dated version of a rate card. Once used it is never edited: a new one is written, which follows it.
    "card" cards Card CardId CardEdit {
        /// The version that this one takes the place of.
        follows Follows: CardId, Dispute, since 2;
        /// First day on which its prices hold.
        from From: Day, Dispute, since 2;
        /// When the trader last looked whether they still hold.
        checked Checked: Day, Latest, since 2;
        /// The table of prices.
        card Card: RateCard, Dispute, since 2;
    }

    /// A mailer or carton.
    "container" containers Container ContainerId ContainerEdit {
        /// Its name.
        name Name: String, Dispute, since 2;
        /// Its own weight.
        tare Tare: Weight, Dispute, since 2;
        /// What one costs.
        cost Cost: Money, Dispute, since 2;
        /// Its size inside.
        inside Inside: ParcelSize, Dispute, since 2;
        /// Mailer or carton.
        form Form: Form, Dispute, since 2;
    }

    /// A kind: what things of it weigh, how large they are, and where they are usually sold.
    "kind" kinds Kind KindId KindEdit {
        /// Its name.
        name Name: String, Dispute, since 2;
        /// What one weighs.
        weight Weight: Weight, Dispute, since 2;
        /// How large one is when packed.
        size Size: ParcelSize, Dispute, since 2;
        /// Whether it folds and presses.
        soft Soft: bool, Dispute, since 2;
        /// How easily it breaks.
        fragility Fragility: Fragility, Dispute, since 2;
        /// The venue that things of it are judged on, when not the usual one.
        venue Venue: VenueId, Dispute, since 2;
    }

    /// A thing that was weighed up and left.
    "passed" passed Passed PassedId PassedEdit {
        /// What the trader calls it.
        name Name: String, Dispute, since 2;
        /// What kind of thing it is.
        kind Kind: KindId, Dispute, since 2;
        /// What the seller wanted.
        ask Ask: Money, Dispute, since 2;
        /// What it would sell for.
        sells Sells: Sells, Dispute, since 2;
        /// When.
        at At: At, Dispute, since 2;
        /// The verdict.
        expected Expected: Expected, Latest, since 2;
    }
}

/// What happens to clashing values of a field of a kind.
#[must_use]
pub fn rule(kind: &str, field: &str) -> Rule {
    let is_latest = DECLARED
        .iter()
        .any(|of| (of.0, of.1, of.3) == (kind, field, "Latest"));
    if is_latest {
        Rule::Latest
    } else {
        Rule::Dispute
    }
}
