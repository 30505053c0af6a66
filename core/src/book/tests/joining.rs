//! Two used books made one.

use super::*;
use crate::id::BookId;

/// A book of another device, with rules of its own.
fn book_of(code: &str, keep: i64, drawn: u8) -> (Told, BookId) {
    let mut told = Told::new();
    told.state = State::new(code.parse().expect("a code"));
    told.drawn = drawn;
    told.tell(&begin(code));
    told.tell(&save_venue(None, setup(&format!("Venue of {code}"), 10)));
    told.tell(&rules_of(1_00));
    // A rule that is switched off is a setting too.
    told.tell(&rules_of(keep));
    let book = told.state.book().expect("a book").0;
    (told, book)
}

fn rules_of(keep: i64) -> Command {
    let currency = Currency::from_code("USD").expect("a currency");
    Command::SetRules {
        rules: HouseRules {
            least_keep: (keep > 0).then_some(Money::new(keep)),
            ..HouseRules::starting(currency)
        },
        allowances: Allowances::default(),
    }
}

fn join(of: &Joining) -> Command {
    Command::Join {
        joining: of.clone(),
        device: "Phone".to_owned(),
    }
}

#[test]
fn joined_books_are_one_with_the_settings_of_who_joined() {
    for keep in [8_00, 0] {
        let ((mut phone, ours), (mut home, _)) =
            (book_of("abcdefgh", keep, 0), book_of("ijklmnop", 5_00, 100));
        let before = Joining::before(&phone.state);
        let currency = phone.state.currency().expect("a currency");
        let (rules, venue) = (phone.state.house_rules(currency), phone.state.usual_venue());
        exchange(&mut phone, &mut home);
        phone.tell(&join(&before));
        phone.refuses(&join(&before), Refusal::NoChange);
        exchange(&mut phone, &mut home);
        for told in [&phone, &home] {
            assert_eq!(told.state.book().map(|(book, _)| book), Some(ours));
            assert_eq!(told.state.house_rules(currency), rules);
            assert_eq!(told.state.usual_venue(), venue);
            assert!(told.state.attention().is_empty());
            assert_eq!(told.state.venues().count(), 2);
        }
    }
}

#[test]
fn a_setting_that_was_never_said_is_taken_from_the_other_book() {
    let ((mut home, _), mut phone) = (book_of("ijklmnop", 5_00, 100), Told::begun());
    phone.tell(&Command::Buy(buy("Lamp", 600)));
    let before = Joining::before(&phone.state);
    exchange(&mut phone, &mut home);
    phone.tell(&join(&before));
    let currency = phone.state.currency().expect("a currency");
    let rules = phone.state.house_rules(currency);
    assert_eq!(rules.least_keep, Some(Money::new(5_00)));
    assert!(phone.state.attention().is_empty());
}

/// Each says that the other's book goes: then the older one counts, and what they set otherwise is for the trader to choose.
#[test]
fn two_that_join_each_other_at_once_have_one_book_and_a_dispute() {
    let ((mut phone, ours), (mut home, theirs)) =
        (book_of("abcdefgh", 8_00, 0), book_of("ijklmnop", 5_00, 100));
    let (mut first, mut second) = (other(&phone, "abcdefgh"), other(&home, "ijklmnop"));
    let befores = [Joining::before(&phone.state), Joining::before(&home.state)];
    exchange(&mut first, &mut home);
    exchange(&mut phone, &mut second);
    first.tell(&join(&befores[0]));
    second.tell(&join(&befores[1]));
    assert_eq!(first.state.book().map(|(book, _)| book), Some(ours));
    assert_eq!(second.state.book().map(|(book, _)| book), Some(theirs));
    exchange(&mut first, &mut second);
    let stays = ours.min(theirs);
    for told in [&first, &second] {
        assert_eq!(told.state.book().map(|(book, _)| book), Some(stays));
    }
    let disputed = first.state.disputed();
    let fields: Vec<&str> = disputed.iter().map(|(_, field)| field.as_str()).collect();
    assert_eq!(fields, ["least_keep", "usual_venue"]);
    // Whoever says it once more makes it so.
    let device = "Phone".to_owned();
    first.tell(&Command::OneBook { stays, device });
    exchange(&mut first, &mut second);
    assert_eq!(second.state.book().map(|(book, _)| book), Some(stays));
    assert_eq!(second.state.disputed(), disputed);
}
