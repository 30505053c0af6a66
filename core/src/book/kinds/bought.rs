//! What was bought or left: lots, things, work put into them, pictures.

use super::super::expected::Expected;
use super::record;
use crate::day::Day;
use crate::id::{KindId, LotId, StopId, ThingId, WorkId};
use crate::ledger::Paying;
use crate::lot::Method;
use crate::measure::{ParcelSize, Weight};
use crate::money::Money;
use crate::stamp::At;
use crate::worth::Sells;

record! {
    /// Things bought for one price.
    Lot LotId LotEdit;
    words: "Lot", "lot", "lots";
    group: Haul;
    read: Late;
    look: Page;
    /// What was handed over.
    paid Paid: Money, Dispute, since 1, "Paid";
    /// When.
    bought Bought: At, Dispute, since 1, "Bought";
    /// How its price is shared over its things.
    method Method: Method, Dispute, since 2, "Shared";
    /// The stop that it was bought at.
    stop Stop: StopId, Dispute, since 3, "Stop";
    /// What had to be paid on top: buyer's premium, sales tax.
    extras Extras: Money, Dispute, since 3, "Extras";
    /// How many things of it are not sorted yet.
    unsorted Unsorted: u16, Dispute, since 3, "Left to sort";
    /// How it was paid for; in cash when nothing is said.
    by By: Paying, Dispute, since 3, "Paid in";
    /// What the trader calls it.
    name Name: String, Dispute, since 3, "Name";
}

record! {
    /// One thing.
    Thing ThingId ThingEdit;
    words: "Thing without a name", "thing", "things";
    group: Haul;
    read: Last;
    look: Page;
    /// The lot that it was bought in.
    lot Lot: LotId, Dispute, since 1, "Lot";
    /// What the trader calls it.
    name Name: String, Dispute, since 1, "Name";
    /// What it sells for.
    sells Sells: Sells, Dispute, since 1, "Sells for";
    /// Its postage.
    postage Postage: Money, Dispute, since 1, "Postage";
    /// Its packing.
    packing Packing: Money, Dispute, since 1, "Packing";
    /// What was expected of it when it was bought.
    expected Expected: Expected, Latest, since 1, "Verdict";
    /// What kind of thing it is.
    kind Kind: KindId, Dispute, since 2, "Kind";
    /// Its own weight.
    weight Weight: Weight, Dispute, since 2, "Weight";
    /// Its own size, as it is packed.
    size Size: ParcelSize, Dispute, since 2, "Size";
    /// Its share of its lot, when fixed by hand.
    share Share: Money, Dispute, since 3, "Share, by hand";
    /// Whether the trader keeps it for their own use.
    kept Kept: bool, Dispute, since 3, "Kept for yourself";
    /// Of how many pieces it is: a pair, a set.
    pieces Pieces: u16, Dispute, since 3, "Pieces";
    /// Its colour.
    colour Colour: String, Dispute, since 3, "Colour";
    /// The size on its label.
    label Label: String, Dispute, since 3, "Size on the label";
    /// Who made it.
    maker Maker: String, Dispute, since 3, "Maker";
    /// What is wrong with it.
    flaw Flaw: String, Dispute, since 3, "Flaw";
    /// What the work would cost that it needed when it was weighed up.
    needs Needs: Money, Dispute, since 4, "Work it needs";
}

record! {
    /// A thing that was weighed up and left.
    Passed PassedId PassedEdit;
    words: "Thing passed by", "thing passed by", "things passed by";
    group: Haul;
    read: Late;
    look: Elsewhere("Haul lists what was passed by");
    /// What the trader calls it.
    name Name: String, Dispute, since 2, "Name";
    /// What kind of thing it is.
    kind Kind: KindId, Dispute, since 2, "Kind";
    /// What the seller wanted.
    ask Ask: Money, Dispute, since 2, "Asked";
    /// What it would sell for.
    sells Sells: Sells, Dispute, since 2, "Sells for";
    /// When.
    at At: At, Dispute, since 2, "When";
    /// The verdict.
    expected Expected: Expected, Latest, since 2, "Verdict";
}

record! {
    /// Work put into things: one bill.
    Work WorkId WorkEdit;
    words: "Work", "piece of work", "pieces of work";
    group: Haul;
    read: Late;
    look: Elsewhere("the pages of the things it was put into list it");
    /// What was done.
    name Name: String, Dispute, since 3, "Name";
    /// What it cost.
    cost Cost: Money, Dispute, since 3, "Cost";
    /// When.
    day Day: Day, Dispute, since 3, "Day";
}

record! {
    /// One thing that work was put into.
    Worked WorkedId WorkedEdit;
    words: "Work on a thing", "link of work to a thing", "links of work to things";
    group: Haul;
    read: Late;
    look: Elsewhere("the page of its thing lists it");
    /// The work.
    work Work: WorkId, Dispute, since 3, "Work";
    /// The thing.
    thing Thing: ThingId, Dispute, since 3, "Thing";
}

record! {
    /// A picture of a thing.
    Photo PhotoId PhotoEdit;
    words: "Picture", "picture", "pictures";
    group: Pictures;
    read: Last;
    look: Elsewhere("the page of its thing shows it");
    /// The thing.
    thing Thing: ThingId, Dispute, since 3, "Thing";
    /// Where its bytes lie: their SHA-256, in lower-case hexadecimal digits.
    blob Blob: String, Dispute, since 3, "Picture";
    /// When it was taken.
    at At: At, Dispute, since 3, "When";
}
