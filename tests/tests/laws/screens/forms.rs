//! Forms: what was saved from one fills it again, and reads the same.

use crate::book::{Device, setups};
use crate::postage::arranging::arrangements;
use crate::terms_cases::rich_schedules;
use haulwren_core::book::{Command, VenueSetup};
use haulwren_core::json;
use haulwren_core::money::Currency;
use haulwren_core::postage::Arrangement;
use haulwren_core::view::{
    ChargeInput, Dates, Form as _, GroupInput, Of, PostInput, Posts, RulesForm, StepInput,
    VenueForm, VenueInput, Way, dates, decide, history_of, setup_of,
};
use proptest::collection::vec;
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
    fn plain_forms()(
        name in "[A-Za-z ]{0,20}",
        percent in rate_texts(),
        base in any::<bool>(),
        flat in amount_texts(),
        way in 0..3_usize,
        postage in amount_texts(),
        packing in amount_texts(),
    ) -> VenueForm {
        let mut form = VenueForm { name, postage, packing, ..VenueForm::default() };
        form.charges[0].percent = percent;
        form.charges[0].of = if base { Of::Price } else { Of::PriceAndPost };
        form.charges[1].flat = flat;
        form.post.way = Posts::at(way);
        form
    }
}

/// Where texts of charges, limits and postage stand, each of which some form lacks.
const INPUTS: [VenueInput; 12] = [
    VenueInput::Charge(0, ChargeInput::Label),
    VenueInput::Charge(0, ChargeInput::Percent),
    VenueInput::Charge(0, ChargeInput::Flat),
    VenueInput::Charge(0, ChargeInput::Step(1, StepInput::From)),
    VenueInput::Charge(1, ChargeInput::Step(0, StepInput::Percent)),
    VenueInput::Charge(1, ChargeInput::Least),
    VenueInput::Charge(1, ChargeInput::Below),
    VenueInput::Charge(2, ChargeInput::Tax),
    VenueInput::Charge(2, ChargeInput::Region(0)),
    VenueInput::Group(0, GroupInput::Most),
    VenueInput::Post(PostInput::FreeFrom),
    VenueInput::Post(PostInput::BandWeight(0)),
];

prop_compose! {
    /// The form of any setup, with some of its texts overwritten, charges moved and taken away.
    fn rich_forms()(
        setup in setups(),
        schedule in rich_schedules(),
        arrangement in arrangements(),
        texts in vec((prop::sample::select(&INPUTS[..]), prop_oneof![amount_texts(), rate_texts()]), 0..3),
        moved in prop::option::of(0..6_usize),
        removed in prop::option::of(0..6_usize),
        way in prop::option::of((0..5_usize, 0..6_usize)),
    ) -> VenueForm {
        let setup = VenueSetup { schedule, arrangement, ..setup };
        let mut form = VenueForm::from_setup(&setup, usd());
        for (input, text) in texts {
            form.set(input, text);
        }
        if let Some(at) = moved {
            form.move_up(at);
        }
        if let Some(at) = removed {
            form.remove_charge(at);
        }
        if let Some((at, way)) = way {
            form.choose_way(at, Way::at(way));
        }
        form
    }
}

fn venue_forms() -> impl Strategy<Value = VenueForm> {
    prop_oneof![1 => plain_forms(), 2 => rich_forms()]
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
        RulesForm { hourly: least_keep.clone(), least_keep, least_multiple, longest_wait, no_loss_if_low, cash_step, reach, unsold, offers, returns }
    }
}

/// Common practice, no source: terms are worth another look after half a year.
#[test]
fn terms_grow_stale_until_somebody_says_still_so() {
    const DAY: u64 = 86_400_000;
    let mut device = Device::begun();
    let mut form = VenueForm {
        name: "Quayside".to_owned(),
        ..VenueForm::default()
    };
    form.charges[0].percent = "10".to_owned();
    let setup = form.read(usd()).unwrap();
    let edits = device.decide(&Command::SaveVenue { id: None, setup });
    device.commit(edits.unwrap());
    let (id, _) = device.state.venues().next().unwrap();
    let first = device.now.day().unwrap();
    let fresh = |from, checked| Dates {
        from,
        checked,
        stale: None,
    };
    assert_eq!(dates(&device.state, id, first), Some(fresh(first, first)));

    device.now.0 += 200 * DAY;
    let later = device.now.day().unwrap();
    let found = dates(&device.state, id, later).unwrap();
    assert_eq!((found.checked, found.stale), (first, Some(200)));
    let setup = setup_of(&device.state, id, later).unwrap();
    let edits = device.decide(&Command::SaveVenue {
        id: Some(id),
        setup,
    });
    device.commit(edits.unwrap());
    assert_eq!(dates(&device.state, id, later), Some(fresh(first, later)));
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

    /// The form holds every schedule and every arrangement that a book takes: filled from one it reads the same.
    #[test]
    fn a_form_filled_from_any_setup_reads_as_that_setup(
        setup in setups(),
        schedule in rich_schedules(),
        arrangement in arrangements(),
    ) {
        let mut setup = VenueSetup { name: setup.name.trim().to_owned(), schedule, arrangement, ..setup };
        if !setup.arrangement.is_posted() {
            (setup.postage, setup.packing) = (None, None);
        }
        let form = VenueForm::from_setup(&setup, usd());
        prop_assert_eq!(form.read(usd()), Ok(setup));
    }

    /// A half-typed form survives on disk as it is.
    #[test]
    fn a_form_reads_back_from_its_text(form in venue_forms()) {
        prop_assert_eq!(json::read::<VenueForm>(&json::write(&form)).unwrap(), form);
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
            prop_assert!(crate::is_sentence(&sentence) && sentence.starts_with(char::is_uppercase), "{}", sentence);
        }
    }

    /// Venues of any setup are shown without a panic; so is the verdict on them.
    #[test]
    fn any_venue_can_be_shown(setup in setups(), fit in any::<bool>()) {
        let mut device = Device::begun();
        let setup = VenueSetup { arrangement: if fit { setup.arrangement } else { Arrangement::HandedOver }, ..setup };
        let Ok(edits) = device.decide(&Command::SaveVenue { id: None, setup }) else { return Ok(()) };
        device.commit(edits);
        let today = device.now.day().unwrap();
        let (id, _) = device.state.venues().next().unwrap();
        let form = VenueForm::of(&device.state, id, today).unwrap();
        prop_assert!(form.read(usd()).is_ok());
        let shown = decide(&device.state, &haulwren_core::view::DecideDraft::default(), device.now).unwrap();
        prop_assert_eq!(shown.venues.len(), 1);
        prop_assert!(!history_of(&device.state, &id.record(), device.log.clone()).is_empty());
    }
}
