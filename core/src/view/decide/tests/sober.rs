//! A verdict does not flatter: what nobody said never improves it, and it says what it assumed.

use crate::appraise::{HouseRules, Missing, Verdict};
use crate::book::{Command, StopSetup, TripCommand, VenueSetup};
use crate::id::VenueId;
use crate::money::{Money, Rate};
use crate::postage::Arrangement;
use crate::terms::{Base, Charge, Regions, Schedule, Usual, When};
use crate::view::kit::{Kit, NOON, usd};
use crate::view::{DecideDraft, Field};
use crate::view::{DecideView, decide, purchase};

fn draft(ask: &str, likely: &str) -> DecideDraft {
    DecideDraft {
        ask: ask.to_owned(),
        likely: likely.to_owned(),
        ..DecideDraft::default()
    }
}

fn shown(kit: &Kit, draft: &DecideDraft) -> DecideView {
    decide(&kit.state, draft, NOON).expect("a begun book")
}

fn verdict(view: &DecideView) -> (Verdict, String) {
    let judged = view.appraisal.judged.as_ref().expect("all facts");
    let (verdict, _) = judged.verdict.expect("an ask");
    (verdict, view.second().unwrap_or_default())
}

fn rules(kit: &mut Kit, change: impl FnOnce(&mut HouseRules)) {
    let mut rules = kit.state.house_rules(usd());
    change(&mut rules);
    let allowances = kit.state.allowances();
    kit.tell(&Command::SetRules { rules, allowances });
}

fn venue(kit: &mut Kit, name: &str, arrangement: Arrangement, charges: Vec<Charge>) -> VenueId {
    let setup = VenueSetup {
        name: name.to_owned(),
        arrangement,
        postage: None,
        packing: None,
        schedule: Schedule::of(charges),
        usual: Usual::default(),
    };
    let saved = kit.tell(&Command::SaveVenue { id: None, setup });
    VenueId(saved[0].id)
}

/// 11.50 asked for what sells at 20 once was a plain Buy with 0.20 kept.
#[test]
fn without_a_minimum_the_flag_and_the_reasons_say_so() {
    let mut kit = Kit::quayside();
    rules(&mut kit, |rules| rules.least_keep = None);
    let view = shown(&kit, &draft("11.50", "20"));
    let (word, second) = verdict(&view);
    assert_eq!(
        (word, second.as_str()),
        (Verdict::Buy, "Offer 6 first; no minimum")
    );
    let reasons = &view.appraisal.judged.as_ref().unwrap().reasons;
    assert_eq!(
        reasons[0].sentence(usd()),
        "No minimum is set: any profit counts."
    );
    assert!(view.assumed.iter().any(|said| said.contains("25 % in all")));
    assert!(
        view.assumed
            .iter()
            .any(|said| said.contains("come down by up to 50 %"))
    );
    rules(&mut kit, |rules| rules.least_keep = Some(Money::new(4_00)));
    let (word, _) = verdict(&shown(&kit, &draft("11.50", "20")));
    assert_eq!(word, Verdict::Haggle);
}

/// 12 % for one region, 15 % for another: unknown, they once made a cut of nothing and a ceiling of 100.00 on 100.00.
#[test]
fn an_unknown_region_or_promotion_is_judged_by_the_dearer_branch() {
    let mut kit = Kit::begun();
    let named = |label: &str, percent, regions: &[&str]| Charge {
        when: When {
            regions: regions.iter().map(|region| (*region).to_owned()).collect(),
            ..When::default()
        },
        ..Charge::percent(label, Rate::percent(percent), Base::Price)
    };
    let charges = vec![
        named("North", 12, &["North"]),
        named("South", 15, &["South"]),
    ];
    let id = venue(
        &mut kit,
        "Townboard",
        Arrangement::HandedOver,
        charges.clone(),
    );
    let cut = |view: &DecideView| view.appraisal.judged.as_ref().unwrap().likely.cut();
    let view = shown(&kit, &draft("10", "100"));
    assert_eq!(cut(&view), Money::new(15_00));
    assert!(
        view.assumed
            .iter()
            .any(|said| said.contains("judged as South"))
    );
    let mut setup = crate::view::setup_of(&kit.state, id, crate::view::kit::today()).unwrap();
    let share = |name: &str, share| (name.to_owned(), Rate::percent(share));
    setup.usual.regions = Regions(vec![share("North", 60), share("South", 40)]);
    kit.tell(&Command::SaveVenue {
        id: Some(id),
        setup: setup.clone(),
    });
    let view = shown(&kit, &draft("10", "100"));
    assert_eq!(cut(&view), Money::new(13_20));
    assert!(!view.assumed.iter().any(|said| said.contains("buyer")));

    setup.schedule.charges.push(Charge {
        when: When {
            promoted: Some(true),
            ..When::default()
        },
        ..Charge::percent("Promotion", Rate::percent(8), Base::Price)
    });
    kit.tell(&Command::SaveVenue {
        id: Some(id),
        setup,
    });
    let view = shown(&kit, &draft("10", "100"));
    assert_eq!((cut(&view), view.promoted), (Money::new(21_20), Some(true)));
    assert!(
        view.assumed
            .iter()
            .any(|said| said.contains("judged as promoted"))
    );
    let plain = DecideDraft {
        promoted: Some(false),
        ..draft("10", "100")
    };
    let view = shown(&kit, &plain);
    assert_eq!(
        (cut(&view), view.promoted),
        (Money::new(13_20), Some(false))
    );
}

/// "Post included" without a postage once was "post 0.00".
#[test]
fn postage_that_nobody_said_is_missing_or_rough_and_never_nothing() {
    let mut kit = Kit::begun();
    venue(&mut kit, "Marlpost", Arrangement::SellerPays, Vec::new());
    let view = shown(&kit, &draft("6", "26"));
    assert_eq!(view.appraisal.missing, [Missing::Postage]);
    assert!(view.appraisal.judged.is_none() && view.venues[0].unsaid && view.rough);
    let mut typed = draft("6", "26");
    typed.set_text(Field::Postage, "4.50".to_owned());
    let view = shown(&kit, &typed);
    assert!(view.appraisal.judged.is_some() && !view.rough);
    // The buyer pays what it costs: judged, but rough, and said.
    let mut kit = Kit::begun();
    venue(&mut kit, "Quayside", Arrangement::BuyerAtCost, Vec::new());
    let view = shown(&kit, &draft("6", "26"));
    assert!(view.appraisal.judged.is_some() && view.rough && view.venues[0].unsaid);
    assert!(
        view.assumed
            .iter()
            .any(|said| said.contains("what posting costs"))
    );
    assert!(
        view.assumed
            .iter()
            .any(|said| said.contains("what packing costs"))
    );
}

#[test]
fn work_and_premium_come_off_before_buying() {
    let mut kit = Kit::quayside();
    let before = |view: &DecideView| view.appraisal.judged.as_ref().unwrap().likely.before;
    let plain = before(&shown(&kit, &draft("6", "26")));
    let mut worked = draft("6", "26");
    worked.set_text(Field::Work, "4".to_owned());
    let view = shown(&kit, &worked);
    assert_eq!(before(&view), plain.minus(Money::new(4_00)));
    assert_eq!(
        purchase(&kit.state, &worked, NOON).unwrap().things[0].needs,
        Some(Money::new(4_00))
    );

    let next = TripCommand::NextStop {
        stop: None,
        name: String::new(),
    };
    kit.tell(&next.into());
    let (id, stop) = kit.state.open_stop().expect("a stop");
    let setup = StopSetup {
        arrived: stop.arrived,
        premium: Some(Rate::percent(20)),
        ..StopSetup::default()
    };
    kit.tell(&TripCommand::SaveStop { id, setup }.into());
    let view = shown(&kit, &draft("6", "26"));
    let judged = view.appraisal.judged.as_ref().unwrap();
    // 15.90 is left; 6.00 and 1.20 on top leave 8.70, and 7.90 at most for 8.00 is 6.58 and 1.32.
    assert_eq!(
        (judged.keep(), judged.ceiling.unwrap().exact),
        (Money::new(8_70), Money::new(6_58))
    );
    for figure in [
        crate::appraise::Figure::Keep,
        crate::appraise::Figure::Ceiling,
    ] {
        let sum: Money = judged.why(figure).iter().map(|line| line.amount).sum();
        let shown = [judged.keep(), judged.ceiling.unwrap().shown];
        assert!(shown.contains(&sum), "{figure:?} {sum:?}");
    }
    let bought = purchase(&kit.state, &draft("6", "26"), NOON).unwrap();
    assert_eq!(
        (bought.paid, bought.extras),
        (Money::new(6_00), Money::new(1_20))
    );
}

/// A look at another venue once stayed through purchases, and quietly changed the ceiling.
#[test]
fn a_venue_is_chosen_for_one_thing_alone_and_the_flag_says_where_else_it_passes() {
    let mut kit = Kit::quayside();
    let townboard = venue(&mut kit, "Townboard", Arrangement::HandedOver, Vec::new());
    let view = shown(&kit, &draft("9", "26"));
    assert_eq!(
        verdict(&view),
        (Verdict::Haggle, "11.50 on Townboard".to_owned())
    );
    assert!(view.venues.iter().all(|card| !card.chosen));
    let mut looked = draft("9", "26");
    looked.venue = Some(townboard);
    let view = shown(&kit, &looked);
    assert_eq!(verdict(&view).0, Verdict::Buy);
    assert!(
        view.venues
            .iter()
            .any(|card| card.chosen && card.id == townboard)
    );
    assert_eq!(looked.after_buy().venue, None);
}
