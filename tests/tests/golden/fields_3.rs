//! The same for the fields that came with the third version: trips, stops, the purse, lots and things in full, work, pictures.

use haulwren_core::book::{
    CashEdit, Edits, LotEdit, PhotoEdit, RulesEdit, StopEdit, ThingEdit, TripEdit, WorkEdit,
    WorkedEdit,
};
use haulwren_core::id::{
    CashId, LotId, PhotoId, RulesId, StopId, ThingId, TripId, WorkId, WorkedId,
};
use haulwren_core::ledger::{Moved, Paying};
use haulwren_core::lot::Method;
use haulwren_core::measure::{DistanceUnit, System};
use haulwren_core::money::{Money, Rate};
use haulwren_core::stamp::At;
use haulwren_core::trip::Manner;

use super::fields::{day, id};

const TRIP: TripId = TripId(id(13));
const STOP: StopId = StopId(id(14));
const WORK: WorkId = WorkId(id(16));
const THING: ThingId = ThingId(id(7));
const NOON: At = At(1_795_279_327_123, -300);

/// All edits, each for a change of its own.
pub fn all() -> Vec<Edits> {
    [
        rules(),
        lot(),
        thing(),
        trip(),
        stop(),
        cash(),
        work(),
        photo(),
    ]
    .concat()
}

fn rules() -> Vec<Edits> {
    let edits = [DistanceUnit::Mile, DistanceUnit::Kilometre];
    let units = System::ALL.map(|units| RulesEdit::Units(Some(units)));
    edits
        .map(|unit| RulesEdit::Distance(Some(unit)))
        .into_iter()
        .chain(units)
        .map(|edit| RulesId::SINGLE.edit([edit]))
        .collect()
}

fn lot() -> Vec<Edits> {
    let edits = [
        LotEdit::Method(Some(Method::ByKeep)),
        LotEdit::Method(Some(Method::ByWeight)),
        LotEdit::Method(Some(Method::ByHand)),
        LotEdit::Stop(Some(STOP)),
        LotEdit::Extras(Some(Money::new(120))),
        LotEdit::Unsorted(Some(12)),
        LotEdit::By(Some(Paying::Cash)),
        LotEdit::By(Some(Paying::Other)),
        LotEdit::Name(Some("Box of books".to_owned())),
    ];
    edits.map(|edit| LotId(id(6)).edit([edit])).to_vec()
}

fn thing() -> Vec<Edits> {
    let edits = [
        ThingEdit::Share(Some(Money::new(300))),
        ThingEdit::Kept(Some(true)),
        ThingEdit::Kept(Some(false)),
        ThingEdit::Pieces(Some(2)),
        ThingEdit::Colour(Some("brass".to_owned())),
        ThingEdit::Label(Some("M, 10".to_owned())),
        ThingEdit::Maker(Some("Alder Mill".to_owned())),
        ThingEdit::Flaw(Some("a chip at the foot".to_owned())),
    ];
    edits.map(|edit| THING.edit([edit])).to_vec()
}

fn trip() -> Vec<Edits> {
    let edits = [
        TripEdit::Name(Some("Saturday round".to_owned())),
        TripEdit::Day(Some(day("2026-11-21"))),
        TripEdit::Started(Some(NOON)),
        TripEdit::Ended(Some(NOON)),
        TripEdit::Distance("23.4 mi".parse().ok()),
        TripEdit::Distance("38 km".parse().ok()),
        TripEdit::OdometerOut(Some(81_204)),
        TripEdit::OdometerBack(Some(81_228)),
        TripEdit::Note(Some("rain".to_owned())),
        TripEdit::Gone(true),
    ];
    edits.map(|edit| TRIP.edit([edit])).to_vec()
}

fn stop() -> Vec<Edits> {
    let edits = [
        StopEdit::Trip(Some(TRIP)),
        StopEdit::Name(Some("Alder Lane driveway sale".to_owned())),
        StopEdit::Planned(Some(2)),
        StopEdit::Arrived(Some(NOON)),
        StopEdit::Left(Some(NOON)),
        StopEdit::Manner(Some(Manner::Fixed)),
        StopEdit::Manner(Some(Manner::Haggle)),
        StopEdit::Manner(Some(Manner::Down(Rate::percent(25)))),
        StopEdit::Manner(Some(Manner::HalfFrom(780))),
        StopEdit::Note(Some("cash only".to_owned())),
        StopEdit::Gone(true),
    ];
    edits.map(|edit| STOP.edit([edit])).to_vec()
}

fn cash() -> Vec<Edits> {
    let what = [
        Moved::TookOut,
        Moved::OtherSpent,
        Moved::Sold,
        Moved::Counted,
    ];
    let edits = [
        CashEdit::Trip(Some(TRIP)),
        CashEdit::Stop(Some(STOP)),
        CashEdit::Amount(Some(Money::new(-350))),
        CashEdit::Counted(Some(Money::new(4_200))),
        CashEdit::At(Some(NOON)),
        CashEdit::Note(Some("parking".to_owned())),
        CashEdit::Gone(true),
    ];
    let what = what.map(|what| CashEdit::What(Some(what)));
    let all = what.into_iter().chain(edits);
    all.map(|edit| CashId(id(15)).edit([edit])).collect()
}

fn work() -> Vec<Edits> {
    let work = [
        WorkEdit::Name(Some("Wash".to_owned())),
        WorkEdit::Cost(Some(Money::new(350))),
        WorkEdit::Day(Some(day("2026-11-22"))),
        WorkEdit::Gone(true),
    ];
    let worked = [
        WorkedEdit::Work(Some(WORK)),
        WorkedEdit::Thing(Some(THING)),
        WorkedEdit::Gone(true),
    ];
    [
        work.map(|edit| WORK.edit([edit])).to_vec(),
        worked.map(|edit| WorkedId(id(17)).edit([edit])).to_vec(),
    ]
    .concat()
}

fn photo() -> Vec<Edits> {
    // The digest of nothing (FIPS 180-4, the empty message; M).
    let blob = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";
    let edits = [
        PhotoEdit::Thing(Some(THING)),
        PhotoEdit::Blob(Some(blob.to_owned())),
        PhotoEdit::At(Some(NOON)),
        PhotoEdit::Gone(true),
    ];
    edits.map(|edit| PhotoId(id(18)).edit([edit])).to_vec()
}
