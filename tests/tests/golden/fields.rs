//! One edit for every field of every kind, with every variant of its values: what the golden lines are written from.

use haulwren_core::book::{
    BookEdit, DeviceEdit, Edits, Expected, LotEdit, RulesEdit, TermsEdit, ThingEdit, VenueEdit,
    Word,
};
use haulwren_core::day::Day;
use haulwren_core::id::{BookId, DeviceId, LotId, RulesId, TermsId, ThingId, VenueId};
use haulwren_core::money::{Currency, Money, Rate};
use haulwren_core::postage::Arrangement;
use haulwren_core::stamp::At;
use haulwren_core::terms::{Base, Charge, Schedule};
use haulwren_core::worth::Sells;
use uuid::Uuid;

/// The id of the one record of each kind; the kinds have a number each.
pub const fn id(number: u128) -> Uuid {
    Uuid::from_u128(0x0193_0000_0000_7000_8000_0000_0000_0000 | number)
}

const VENUE: VenueId = VenueId(id(4));
const TERMS: TermsId = TermsId(id(5));
const LOT: LotId = LotId(id(6));

pub fn day(text: &str) -> Day {
    text.parse().unwrap()
}

fn rate(text: &str) -> Rate {
    Rate::parse(text).unwrap()
}

/// All edits, each for a change of its own.
pub fn all() -> Vec<Edits> {
    [
        setup(),
        venue(),
        terms(),
        lot(),
        thing(),
        super::fields_2::all(),
        super::fields_3::all(),
        super::fields_4::all(),
    ]
    .concat()
}

fn setup() -> Vec<Edits> {
    let book = [
        BookEdit::Currency(Currency::from_code("USD").ok()),
        BookEdit::Currency(None),
        BookEdit::Gone(true),
    ];
    let device = [
        DeviceEdit::Code("abcdefgh".parse().ok()),
        DeviceEdit::Name(Some("Phone".to_owned())),
        DeviceEdit::Name(Some(
            "Quote \" stroke \\ tab \t line \n \u{e9} \u{2028} \u{1f9e5}".to_owned(),
        )),
        DeviceEdit::Gone(true),
    ];
    let rules = [
        RulesEdit::LeastKeep(Some(Money::new(400))),
        RulesEdit::NoLossIfLow(Some(true)),
        RulesEdit::NoLossIfLow(Some(false)),
        RulesEdit::CashStep(Some(Money::new(50))),
        RulesEdit::Reach(Some(rate("50"))),
        RulesEdit::Unsold(Some(rate("15"))),
        RulesEdit::Offers(Some(rate("6.25"))),
        RulesEdit::Returns(Some(rate("0.0001"))),
        RulesEdit::UsualVenue(Some(VENUE)),
        RulesEdit::Gone(true),
    ];
    let book = book.map(|edit| BookId(id(1)).edit([edit]));
    let device = device.map(|edit| DeviceId(id(2)).edit([edit]));
    let rules = rules.map(|edit| RulesId::SINGLE.edit([edit]));
    [book.to_vec(), device.to_vec(), rules.to_vec()].concat()
}

fn venue() -> Vec<Edits> {
    let arrangements = Arrangement::ALL.map(|one| VenueEdit::Arrangement(Some(one)));
    let others = [
        VenueEdit::Name(Some("Quayside".to_owned())),
        VenueEdit::Postage(Some(Money::new(450))),
        VenueEdit::Packing(Some(Money::new(0))),
        VenueEdit::Gone(true),
        VenueEdit::Gone(false),
    ];
    let edits = arrangements.into_iter().chain(others);
    edits.map(|edit| VENUE.edit([edit])).collect()
}

fn terms() -> Vec<Edits> {
    let schedule = Schedule::of(vec![
        Charge::percent("Share of the sale", Rate::percent(10), Base::Price),
        Charge::percent("Share of the payment", rate("12.5"), Base::PriceAndPost),
        Charge::flat("Flat charge", Money::new(25)),
    ]);
    let edits = [
        TermsEdit::Venue(Some(VENUE)),
        TermsEdit::From(Some(day("2026-11-21"))),
        TermsEdit::Checked(Some(day("2026-12-01"))),
        TermsEdit::Schedule(Some(Schedule::default())),
        TermsEdit::Schedule(Some(schedule)),
        TermsEdit::Gone(true),
    ];
    edits.map(|edit| TERMS.edit([edit])).to_vec()
}

fn lot() -> Vec<Edits> {
    let edits = [
        LotEdit::Paid(Some(Money::new(600))),
        LotEdit::Bought(Some(At(1_795_279_327_123, -300))),
        LotEdit::Gone(true),
    ];
    edits.map(|edit| LOT.edit([edit])).to_vec()
}

fn thing() -> Vec<Edits> {
    let prices = [1800, 2600, 3400].map(Money::new);
    let expected = |verdict, ceiling| {
        ThingEdit::Expected(Some(Expected {
            venue: VENUE,
            terms: TERMS,
            ask: Money::new(600),
            keep: Money::new(-410),
            ceiling,
            verdict,
            card: None,
            rough: false,
            sells: None,
        }))
    };
    let edits = [
        ThingEdit::Lot(Some(LOT)),
        ThingEdit::Name(Some("Denim jacket".to_owned())),
        ThingEdit::Name(None),
        ThingEdit::Sells(Sells::new(Some(prices[0]), prices[1], Some(prices[2])).ok()),
        ThingEdit::Postage(Some(Money::new(450))),
        ThingEdit::Packing(Some(Money::new(40))),
        expected(Word::Buy, Some(Money::new(1090))),
        expected(Word::Haggle, Some(Money::new(550))),
        expected(Word::Leave, None),
        ThingEdit::Gone(true),
    ];
    edits.map(|edit| ThingId(id(7)).edit([edit])).to_vec()
}
