//! Disputes between two devices, how they are settled, and the way back to earlier values.

use super::*;
use crate::change::{Fields, GONE, Key};
use crate::id::LotId;
use serde_json::{Value, json};

/// Two devices with one lamp.
fn lamp() -> (Told, Told, RecordKey) {
    let mut phone = Told::begun();
    let record = phone.tell(&Command::Buy(buy("Lamp", 600)))[1].record();
    let home = other(&phone, "ijklmnop");
    (phone, home, record)
}

fn rename(record: &RecordKey, name: &str) -> Command {
    let (thing, name) = (ThingId(record.id), name.to_owned());
    Command::Rename { thing, name }
}

fn settle(record: &RecordKey, field: &str, choice: Key, value: Value) -> Command {
    let (record, field) = (record.clone(), field.to_owned());
    Command::Settle {
        record,
        field,
        choice,
        value,
    }
}

fn name(told: &Told, record: &RecordKey) -> String {
    let thing = told.state.thing(ThingId(record.id)).expect("the thing");
    thing.name.clone().expect("a name")
}

#[test]
fn a_dispute_is_settled_once_and_stays_settled_for_both() {
    let (mut phone, mut home, lamp) = lamp();
    let brass = phone.tell(&rename(&lamp, "Brass lamp"))[0].key;
    let desk = home.tell(&rename(&lamp, "Desk lamp"))[0].key;
    exchange(&mut phone, &mut home);
    let dispute = [(lamp.clone(), "name".to_owned())];
    assert_eq!(phone.state.disputed(), dispute);
    assert_eq!(
        phone.state.parties(&lamp, "name"),
        Some([brass, desk].as_slice())
    );
    assert_eq!(name(&phone, &lamp), "Desk lamp");
    let choose = |choice, value| settle(&lamp, "name", choice, value);
    let elsewhere = Key { seq: 1, ..brass };
    phone.refuses(&choose(elsewhere, json!("Lamp")), Refusal::OtherChoices);
    phone.refuses(&choose(brass, json!(7)), Refusal::Unreadable);
    phone.refuses(
        &settle(&lamp, "flaw", brass, json!("x")),
        Refusal::NoDispute,
    );
    let choice = choose(brass, json!("Brass lamp"));
    let settled = phone.tell(&choice);
    assert!(phone.state.disputed().is_empty());
    phone.refuses(&choice, Refusal::NoDispute);
    exchange(&mut phone, &mut home);
    assert_eq!(home.state, State::from_changes(home.state.me, &phone.log));
    assert!(home.state.disputed().is_empty());
    assert_eq!(name(&home, &lamp), "Brass lamp");
    // Undone, it is what was used before: nobody can forget that there were two.
    phone.undo(&settled);
    assert_eq!(name(&phone, &lamp), "Desk lamp");
    assert!(phone.state.disputed().is_empty());
}

#[test]
fn settling_on_what_is_used_meanwhile_leaves_nothing_to_undo() {
    let (mut phone, mut home, lamp) = lamp();
    phone.tell(&rename(&lamp, "Brass lamp"));
    let desk = home.tell(&rename(&lamp, "Desk lamp"))[0].key;
    exchange(&mut phone, &mut home);
    let settled = phone.tell(&settle(&lamp, "name", desk, json!("Desk lamp")));
    assert_eq!(undo(&settled, &phone.log), Err(Refusal::StoodBefore));
    // What was not chosen is in the history, and can be gone back to.
    let back = |name: &str| Command::GoBack {
        record: lamp.clone(),
        set: [("name".to_owned(), json!(name))].into_iter().collect(),
    };
    phone.refuses(&back("Desk lamp"), Refusal::NoChange);
    let gone_back = phone.tell(&back("Brass lamp"));
    assert_eq!(name(&phone, &lamp), "Brass lamp");
    phone.undo(&gone_back);
    assert_eq!(name(&phone, &lamp), "Desk lamp");
}

#[test]
fn a_removal_against_an_edit_is_settled_either_way() {
    for stays in [true, false] {
        let (mut phone, mut home, lamp) = lamp();
        let out = phone.tell(&Command::TakeOut(ThingId(lamp.id)));
        let edit = home.tell(&rename(&lamp, "Desk lamp"))[0].key;
        exchange(&mut phone, &mut home);
        assert_eq!(phone.state.disputed(), [(lamp.clone(), GONE.to_owned())]);
        let lot = LotId(out[1].id).record();
        let things = 1;
        let gone = Concern::LotGone {
            lot: LotId(lot.id),
            things,
        };
        assert!(phone.state.attention().contains(&gone));
        let choice = if stays {
            settle(&lamp, GONE, edit, Value::Null)
        } else {
            settle(&lamp, GONE, out[0].key, json!(true))
        };
        let settled = phone.tell(&choice);
        exchange(&mut phone, &mut home);
        assert!(home.state.disputed().is_empty());
        assert_eq!(home.state.thing(ThingId(lamp.id)).is_some(), stays);
        if stays {
            assert_eq!(undo(&settled, &phone.log), Err(Refusal::StoodBefore));
            phone.tell(&Command::put_back(lot));
        } else {
            phone.undo(&settled);
            assert!(phone.state.thing(ThingId(lamp.id)).is_some());
        }
    }
}

#[test]
fn what_no_longer_counts_is_not_asked_about() {
    let (mut phone, mut home, lamp) = lamp();
    phone.tell(&rename(&lamp, "Brass lamp"));
    home.tell(&rename(&lamp, "Desk lamp"));
    exchange(&mut phone, &mut home);
    phone.tell(&Command::TakeOut(ThingId(lamp.id)));
    assert!(phone.state.parties(&lamp, "name").is_some());
    assert!(phone.state.disputed().is_empty());
    phone.refuses(&rename(&lamp, "Lamp"), Refusal::NoThing);
    let mut set = Fields::new();
    set.insert("name".to_owned(), json!("Lamp"));
    let back = Command::GoBack { record: lamp, set };
    phone.refuses(&back, Refusal::TakenOut);
}
