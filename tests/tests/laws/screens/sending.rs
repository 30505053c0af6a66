//! Decide: how a thing is packed and posted by its kind, the containers and the rate card. All rates are invented.

use crate::book::Device;
use haulwren_core::book::{Command, VenueSetup};
use haulwren_core::id::KindId;
use haulwren_core::measure::Weight;
use haulwren_core::money::{Money, Rate};
use haulwren_core::packing::{Container, Form, Heft};
use haulwren_core::postage::{Arrangement, RateCard};
use haulwren_core::terms::{Base, Charge, Schedule, Usual};
use haulwren_core::view::{DecideDraft, DecideView, as_bought, decide};

fn weight(text: &str) -> Weight {
    text.parse().unwrap()
}

fn tell(device: &mut Device, command: &Command) {
    let edits = device.decide(command).expect("taken");
    device.commit(edits);
}

/// Quayside, + post, 10 % of price and post and 0.25; usual postage 4.00 and packing 0.40.
fn begun() -> Device {
    let mut device = Device::begun();
    let setup = VenueSetup {
        name: "Quayside".to_owned(),
        arrangement: Arrangement::BuyerAtCost,
        postage: Some(Money::new(400)),
        packing: Some(Money::new(40)),
        schedule: Schedule::of(vec![
            Charge::percent("Sale", Rate::percent(10), Base::PriceAndPost),
            Charge::flat("Order", Money::new(25)),
        ]),
        usual: Usual::default(),
    };
    tell(&mut device, &Command::SaveVenue { id: None, setup });
    device
}

/// Northmail, rough: 8 oz 4.00, 12 oz 4.50, 1 lb 5.50, 2 lb 6.50, 6 lb 12.00.
fn add_card(device: &mut Device) {
    let steps = [
        ("8 oz", 400),
        ("12 oz", 450),
        ("1 lb", 550),
        ("2 lb", 650),
        ("6 lb", 1_200),
    ]
    .map(|(up_to, price)| (weight(up_to), Money::new(price)));
    let card = RateCard::rough("Northmail", &steps).unwrap();
    tell(device, &Command::SaveCard { id: None, card });
}

fn add_mailer(device: &mut Device) {
    let container = Container {
        name: "mailer".to_owned(),
        tare: weight("0.5 oz"),
        cost: Money::new(30),
        inside: "15 x 12 x 4 in".parse().unwrap(),
        form: Form::Mailer,
    };
    tell(
        device,
        &Command::SaveContainer {
            id: None,
            container,
        },
    );
}

fn kind(device: &Device, name: &str) -> KindId {
    let mut kinds = device.state.kinds().into_iter();
    kinds.find(|kind| kind.name == name).unwrap().id
}

fn shown(device: &Device, draft: &DecideDraft) -> DecideView {
    decide(&device.state, draft, device.now).unwrap()
}

fn dress(device: &Device) -> DecideDraft {
    DecideDraft {
        ask: "6".to_owned(),
        likely: "26".to_owned(),
        kind: Some(kind(device, "Dress")),
        ..DecideDraft::default()
    }
}

fn check(view: &DecideView, postage: i64, packing: i64, keep: i64, rough: bool) {
    let found = view.appraisal.judged.as_ref().unwrap();
    assert_eq!(
        (
            view.postage.map(Money::minor),
            view.packing.minor(),
            found.keep().minor(),
            view.rough
        ),
        (Some(postage), packing, keep, rough)
    );
}

#[test]
fn without_a_card_the_usual_amounts_of_the_venue_stand() {
    let device = begun();
    // 30.00 less 3.00 and 0.25, 4.00 post, 0.40 packing, 25 % of 26.00 and the ask of 6.00.
    check(&shown(&device, &dress(&device)), 400, 40, 985, false);
}

#[test]
fn a_kind_is_packed_in_a_container_and_posted_by_the_card() {
    let mut device = begun();
    add_card(&mut device);
    // A dress of 12 oz, in the usual packing: 4.50. 30.50 less 3.05 and 0.25, 4.50, 0.40, 6.50, 6.00.
    check(&shown(&device, &dress(&device)), 450, 40, 980, true);
    add_mailer(&mut device);
    // With the mailer's half ounce it is over 12 oz: 5.50. 31.50 less 3.15 and 0.25, 5.50, 0.30, 6.50, 6.00.
    let view = shown(&device, &dress(&device));
    check(&view, 550, 30, 980, true);
    assert_eq!(view.posted.short(), "12.5 oz, mailer");
    let lines = view.posted.lines(view.currency);
    assert_eq!(
        lines,
        [
            "mailer, 12.5 oz with it.",
            "Northmail, Parcel: billed as 1 lb.",
            "0.5 oz less and it costs 1.00 less."
        ]
    );
}

#[test]
fn what_is_typed_goes_before_what_is_worked_out() {
    let mut device = begun();
    add_card(&mut device);
    add_mailer(&mut device);
    let draft = DecideDraft {
        postage: "4.50".to_owned(),
        packing: "0".to_owned(),
        ..dress(&device)
    };
    // 30.50 less 3.05 and 0.25, 4.50, 6.50, 6.00; a typed postage is not rough.
    check(&shown(&device, &draft), 450, 0, 1_020, false);
}

#[test]
fn size_and_heft_stand_in_for_a_kind_and_are_rough() {
    let mut device = begun();
    add_card(&mut device);
    let draft = DecideDraft {
        heft: Some(Heft::ShoeboxHeavy),
        kind: None,
        ..dress(&device)
    };
    // 56 oz are under 6 lb: 12.00. 38.00 less 3.80 and 0.25, 12.00, 0.40, 6.50, 6.00.
    check(&shown(&device, &draft), 1_200, 40, 905, true);
}

#[test]
fn a_parcel_that_no_service_takes_has_no_price_and_says_why() {
    let mut device = begun();
    add_card(&mut device);
    let draft = DecideDraft {
        heft: Some(Heft::BigHeavy),
        kind: None,
        ..dress(&device)
    };
    let view = shown(&device, &draft);
    assert!(view.appraisal.judged.is_none());
    assert_eq!(view.postage, None);
    assert!(view.posted.refused.is_some());
}

#[test]
fn what_is_bought_says_by_which_card_it_was_judged() {
    let mut device = begun();
    add_card(&mut device);
    let draft = dress(&device);
    let bought = as_bought(&device.state, &draft, device.now).unwrap();
    let expected = bought.expected.unwrap();
    let card = device.state.usual_card().map(|(id, _)| id);
    assert_eq!(
        (expected.card, expected.rough, bought.kind),
        (card, true, draft.kind)
    );
    // Used once, the card is never edited again: a change is a new version that follows it.
    let thing = as_bought(&device.state, &draft, device.now).unwrap();
    let paid = Money::new(600);
    tell(
        &mut device,
        &Command::Buy(haulwren_core::book::Purchase::of_one(paid, thing)),
    );
    let old = card.unwrap();
    let mut changed = device.state.card(old).unwrap().card.clone().unwrap();
    changed.services[0].steps[0].prices[0] = Some(Money::new(425));
    tell(
        &mut device,
        &Command::SaveCard {
            id: Some(old),
            card: changed.clone(),
        },
    );
    let (new, newest) = device.state.usual_card().unwrap();
    assert_ne!(new, old);
    assert_eq!(
        (newest.follows, newest.card.as_ref()),
        (Some(old), Some(&changed))
    );
    assert_ne!(
        device.state.card(old).unwrap().card.as_ref(),
        Some(&changed)
    );
    assert_eq!(device.state.cards().count(), 1);
}
