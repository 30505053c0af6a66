//! Forms: what was saved from one fills it again, and reads the same.

use crate::book::{Device, setups};
use haulwren_core::book::{Command, VenueSetup};
use haulwren_core::money::{Currency, Rate};
use haulwren_core::postage::Arrangement;
use haulwren_core::terms::Base;
use haulwren_core::view::{RulesForm, VenueForm, decide, history};
use proptest::prelude::*;

fn usd() -> Currency {
    Currency::from_code("USD").unwrap()
}

fn amount_texts() -> impl Strategy<Value = String> {
    prop_oneof![
        2 => "[0-9]{1,4}",
        2 => "[0-9]{1,4}[.,][0-9]{1,2}",
        1 => Just(String::new()),
        1 => "[ 0-9.,a-]{0,9}",
    ]
}

fn rate_texts() -> impl Strategy<Value = String> {
    prop_oneof![3 => "[0-9]{1,2}(\\.[0-9]{1,4})?", 1 => Just(String::new()), 1 => "[ 0-9.,%-]{0,7}"]
}

prop_compose! {
    fn venue_forms()(
        name in "[A-Za-z ]{0,20}",
        percent in rate_texts(),
        base in prop_oneof![Just(Base::Price), Just(Base::PriceAndPost)],
        flat in amount_texts(),
        arrangement in prop::sample::select(&Arrangement::ALL[..]),
        postage in amount_texts(),
        packing in amount_texts(),
    ) -> VenueForm {
        VenueForm { name, percent, base, flat, arrangement, postage, packing }
    }
}

prop_compose! {
    fn rules_forms()(
        least_keep in amount_texts(),
        no_loss_if_low in any::<bool>(),
        cash_step in amount_texts(),
        least_multiple in prop_oneof![Just(String::new()), Just("2.5".to_owned()), Just("x".to_owned())],
        longest_wait in prop_oneof![Just(String::new()), Just("60".to_owned()), Just("-3".to_owned())],
        [reach, unsold, offers, returns] in [rate_texts(), rate_texts(), rate_texts(), rate_texts()],
    ) -> RulesForm {
        RulesForm { least_keep, least_multiple, longest_wait, no_loss_if_low, cash_step, reach, unsold, offers, returns }
    }
}

proptest! {
    #![proptest_config(crate::tries(512))]

    #[test]
    fn a_venue_saved_from_its_form_fills_it_and_reads_the_same(form in venue_forms()) {
        let Ok(setup) = form.read(usd()) else { return Ok(()) };
        let mut device = Device::begun();
        let save = Command::SaveVenue { id: None, setup: setup.clone() };
        let edits = device.decide(&save).expect("what a form takes, the book takes");
        device.commit(edits);
        let (id, _) = device.state.venues().next().unwrap();
        let filled = VenueForm::of(&device.state, id, device.now.day().unwrap()).unwrap();
        prop_assert_eq!(filled.read(usd()), Ok(setup));
    }

    #[test]
    fn rules_saved_from_their_form_fill_it_and_read_the_same(form in rules_forms()) {
        let Ok((rules, allowances)) = form.read(usd()) else { return Ok(()) };
        let mut device = Device::begun();
        let save = Command::SetRules { rules, allowances };
        if let Ok(edits) = device.decide(&save) {
            device.commit(edits);
        }
        let filled = RulesForm::of(&device.state).unwrap();
        prop_assert_eq!(filled.read(usd()), Ok((rules, allowances)));
    }

    /// Each complaint is a sentence; a form without one is a setup that the book takes.
    #[test]
    fn complaints_are_sentences(venue in venue_forms(), rules in rules_forms()) {
        let venue = venue.read(usd()).err().into_iter().flatten().map(|complaint| complaint.sentence);
        let rules = rules.read(usd()).err().into_iter().flatten().map(|complaint| complaint.sentence);
        for sentence in venue.chain(rules) {
            prop_assert!(sentence.ends_with('.') && sentence.starts_with(char::is_uppercase), "{}", sentence);
        }
    }

    /// Venues of any setup, some with charges that the form has no place for, are shown without a panic; so is the verdict on them.
    #[test]
    fn any_venue_can_be_shown(setup in setups(), fit in any::<bool>()) {
        let mut device = Device::begun();
        let setup = VenueSetup { arrangement: if fit { setup.arrangement } else { Arrangement::HandedOver }, ..setup };
        let Ok(edits) = device.decide(&Command::SaveVenue { id: None, setup }) else { return Ok(()) };
        device.commit(edits);
        let today = device.now.day().unwrap();
        let (id, _) = device.state.venues().next().unwrap();
        let form = VenueForm::of(&device.state, id, today).unwrap();
        prop_assert!(form.percent.is_empty() || Rate::parse(&form.percent).is_ok());
        let shown = decide(&device.state, &haulwren_core::view::DecideDraft::default(), today).unwrap();
        prop_assert_eq!(shown.venues.len(), 1);
        prop_assert!(!history(&device.state, device.log.clone()).is_empty());
    }
}
