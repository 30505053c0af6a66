//! What parcels are sent in and by: rate cards, containers, kinds of thing.

use super::record;
use crate::day::Day;
use crate::id::{CardId, VenueId};
use crate::measure::{ParcelSize, Weight};
use crate::money::Money;
use crate::packing::{Form, Fragility};
use crate::postage::RateCard;

record! {
    /// One dated version of a rate card. Once used it is never edited: a new one is written, which follows it.
    Card CardId CardEdit;
    words: "Rate card", "rate card", "rate cards";
    group: Setup;
    read: Early;
    look: Page;
    /// The version that this one takes the place of.
    follows Follows: CardId, Dispute, since 2, "Version before";
    /// First day on which its prices hold.
    from From: Day, Dispute, since 2, "Holds from";
    /// When the trader last looked whether they still hold.
    checked Checked: Day, Latest, since 2, "Last checked";
    /// The table of prices.
    card Card: RateCard, Dispute, since 2, "Rate card";
}

record! {
    /// A mailer or carton.
    Container ContainerId ContainerEdit;
    words: "Container", "container", "containers";
    group: Setup;
    read: Early;
    look: Page;
    /// Its name.
    name Name: String, Dispute, since 2, "Name";
    /// Its own weight.
    tare Tare: Weight, Dispute, since 2, "Its own weight";
    /// What one costs.
    cost Cost: Money, Dispute, since 2, "Cost";
    /// Its size inside.
    inside Inside: ParcelSize, Dispute, since 2, "Inside";
    /// Mailer or carton.
    form Form: Form, Dispute, since 2, "Form";
}

record! {
    /// A kind: what things of it weigh, how large they are, and where they are usually sold.
    Kind KindId KindEdit;
    words: "Kind", "kind", "kinds";
    group: Setup;
    read: Early;
    look: Page;
    /// Its name.
    name Name: String, Dispute, since 2, "Name";
    /// What one weighs.
    weight Weight: Weight, Dispute, since 2, "Weight";
    /// How large one is when packed.
    size Size: ParcelSize, Dispute, since 2, "Size";
    /// Whether it folds and presses.
    soft Soft: bool, Dispute, since 2, "Folds and presses";
    /// How easily it breaks.
    fragility Fragility: Fragility, Dispute, since 2, "How easily it breaks";
    /// The venue that things of it are judged on, when not the usual one.
    venue Venue: VenueId, Dispute, since 2, "Venue";
}
