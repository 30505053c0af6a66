//! The same for the fields that came with the second version: kinds of charge and arrangement, rate cards, containers, kinds, things passed by.

use haulwren_core::appraise::Multiple;
use haulwren_core::book::{
    CardEdit, ContainerEdit, Edits, Expected, KindEdit, LotEdit, PassedEdit, RulesEdit, ThingEdit,
    VenueEdit, Word,
};
use haulwren_core::id::{CardId, ContainerId, KindId, LotId, PassedId, RulesId, ThingId, VenueId};
use haulwren_core::lot::Method;
use haulwren_core::measure::{ParcelSize, Weight};
use haulwren_core::money::{Money, Rate};
use haulwren_core::packing::{Form, Fragility};
use haulwren_core::postage::{Arrangement, LabelPrice, Payer, RateCard};
use haulwren_core::stamp::At;
use haulwren_core::worth::Sells;

use super::fields::{day, id};

fn weight(text: &str) -> Weight {
    text.parse().unwrap()
}

fn size() -> ParcelSize {
    "12 x 9 x 2 in".parse().unwrap()
}

const CARD: CardId = CardId(id(8));
const KIND: KindId = KindId(id(10));

/// All edits, each for a change of its own.
pub fn all() -> Vec<Edits> {
    [
        rules(),
        venue(),
        things(),
        card(),
        container(),
        kind(),
        passed(),
    ]
    .concat()
}

fn rules() -> Vec<Edits> {
    let edits = [
        RulesEdit::LeastMultiple(Some(Multiple(250))),
        RulesEdit::LongestWait(Some(60)),
        RulesEdit::UsualCard(Some(CARD)),
    ];
    edits.map(|edit| RulesId::SINGLE.edit([edit])).to_vec()
}

fn venue() -> Vec<Edits> {
    let label = |price, payer| Arrangement::Label { price, payer };
    let bands = vec![
        (weight("8 oz"), Money::new(399)),
        (weight("1.5 lb"), Money::new(599)),
    ];
    let edits = [
        VenueEdit::Arrangement(Some(Arrangement::Stated(Money::new(399)))),
        VenueEdit::Arrangement(Some(label(LabelPrice::Flat(Money::new(799)), Payer::Buyer))),
        VenueEdit::Arrangement(Some(label(LabelPrice::Bands(bands), Payer::Seller))),
        VenueEdit::Arrangement(Some(label(
            LabelPrice::Flat(Money::new(800)),
            Payer::Shared(Rate::percent(50)),
        ))),
        VenueEdit::Arrangement(Some(Arrangement::FreeFrom {
            sum: Money::new(3000),
            below: Box::new(Arrangement::BuyerAtCost),
        })),
        VenueEdit::Card(Some(CARD)),
    ];
    edits.map(|edit| VenueId(id(4)).edit([edit])).to_vec()
}

fn verdict() -> Expected {
    Expected {
        venue: VenueId(id(4)),
        terms: haulwren_core::id::TermsId(id(5)),
        ask: Money::new(600),
        keep: Money::new(410),
        ceiling: Some(Money::new(1090)),
        verdict: Word::Buy,
        card: Some(CARD),
        rough: true,
        sells: None,
    }
}

fn things() -> Vec<Edits> {
    let lots = [Method::ByPrice, Method::Evenly].map(|method| LotEdit::Method(Some(method)));
    let edits = [
        ThingEdit::Expected(Some(verdict())),
        ThingEdit::Kind(Some(KIND)),
        ThingEdit::Weight(Some(weight("9 oz"))),
        ThingEdit::Size(Some(size())),
    ];
    [
        lots.map(|edit| LotId(id(6)).edit([edit])).to_vec(),
        edits.map(|edit| ThingId(id(7)).edit([edit])).to_vec(),
    ]
    .concat()
}

fn card() -> Vec<Edits> {
    let steps = [("4 oz", 450), ("8 oz", 500), ("1 lb", 550), ("2 lb", 650)]
        .map(|(up_to, price)| (weight(up_to), Money::new(price)));
    let edits = [
        CardEdit::Follows(Some(CardId(id(11)))),
        CardEdit::From(Some(day("2026-11-21"))),
        CardEdit::Checked(Some(day("2026-12-01"))),
        CardEdit::Card(RateCard::rough("Northmail", &steps).ok()),
        CardEdit::Gone(true),
    ];
    edits.map(|edit| CARD.edit([edit])).to_vec()
}

fn container() -> Vec<Edits> {
    let edits = [
        ContainerEdit::Name(Some("Mailer, 10 x 13".to_owned())),
        ContainerEdit::Tare(Some(weight("0.5 oz"))),
        ContainerEdit::Cost(Some(Money::new(30))),
        ContainerEdit::Inside(Some(size())),
        ContainerEdit::Form(Some(Form::Mailer)),
        ContainerEdit::Form(Some(Form::Carton)),
        ContainerEdit::Gone(true),
    ];
    edits.map(|edit| ContainerId(id(9)).edit([edit])).to_vec()
}

fn kind() -> Vec<Edits> {
    let edits = [
        KindEdit::Name(Some("summer dress".to_owned())),
        KindEdit::Weight(Some(weight("9 oz"))),
        KindEdit::Size(Some(size())),
        KindEdit::Soft(Some(true)),
        KindEdit::Fragility(Some(Fragility::Sturdy)),
        KindEdit::Fragility(Some(Fragility::Fragile)),
        KindEdit::Fragility(Some(Fragility::VeryFragile)),
        KindEdit::Venue(Some(VenueId(id(4)))),
        KindEdit::Gone(true),
    ];
    edits.map(|edit| KIND.edit([edit])).to_vec()
}

fn passed() -> Vec<Edits> {
    let edits = [
        PassedEdit::Name(Some("plaster dog".to_owned())),
        PassedEdit::Kind(Some(KIND)),
        PassedEdit::Ask(Some(Money::new(200))),
        PassedEdit::Sells(Sells::new(None, Money::new(900), None).ok()),
        PassedEdit::At(Some(At(1_795_279_327_123, -300))),
        PassedEdit::Expected(Some(verdict())),
        PassedEdit::Gone(true),
    ];
    edits.map(|edit| PassedId(id(12)).edit([edit])).to_vec()
}
