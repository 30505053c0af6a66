//! Undo, case by case.

use super::*;

#[test]
fn undoing_a_purchase_takes_it_out_whole_though_it_was_renamed_since() {
    let mut told = Told::begun();
    let bought = told.tell(&Command::Buy(buy("Lamp", 600)));
    let thing = ThingId(bought[1].id);
    told.tell(&Command::Rename {
        thing,
        name: "Brass lamp".to_owned(),
    });
    let undone = told.undo(&bought);
    assert!(
        undone
            .iter()
            .all(|change| change.set.len() == 1 && change.set["gone"] == true)
    );
    assert_eq!(told.state.things().count(), 0);
    assert_eq!(undo(&bought, &told.log), Err(Refusal::NothingToUndo));
    told.undo(&undone);
    let back = told.state.thing(thing).expect("the thing is back");
    assert_eq!(back.name.as_deref(), Some("Brass lamp"));
    assert_eq!(
        told.state
            .lot(back.lot.expect("a lot"))
            .and_then(|lot| lot.paid),
        Some(Money::new(600))
    );
}

#[test]
fn undoing_an_edit_gives_back_what_stood_there_unless_a_later_word_stands_on_it() {
    let mut told = Told::begun();
    let thing = ThingId(told.tell(&Command::Buy(buy("Lamp", 600)))[1].id);
    let rename = |name: &str| Command::Rename {
        thing,
        name: name.to_owned(),
    };
    let first = told.tell(&rename("Brass lamp"));
    let second = told.tell(&rename("Desk lamp"));
    assert_eq!(undo(&first, &told.log), Err(Refusal::NothingToUndo));
    told.undo(&second);
    assert_eq!(
        told.state
            .thing(thing)
            .and_then(|thing| thing.name.as_deref()),
        Some("Brass lamp")
    );
    let begun: Vec<Change> = told.log[..2].to_vec();
    assert_eq!(undo(&begun, &told.log), Err(Refusal::BeginningStays));
}

/// The rules are one record of the book: were it to go, no later rule could be seen.
#[test]
fn undoing_the_first_rules_leaves_room_for_the_next() {
    let mut told = Told::begun();
    let currency = told.state.currency().expect("a currency");
    let start = HouseRules::starting(currency);
    let set = |keep| Command::SetRules {
        rules: HouseRules {
            least_keep: Some(Money::new(keep)),
            ..start
        },
        allowances: Allowances::default(),
    };
    let first = told.tell(&set(400));
    told.undo(&first);
    assert_eq!(told.state.house_rules(currency), start);
    told.tell(&set(500));
    assert_eq!(
        told.state.house_rules(currency).least_keep,
        Some(Money::new(500))
    );
}

#[test]
fn a_kind_to_begin_with_is_there_again_when_its_change_is_undone() {
    let mut told = Told::begun();
    let typical = told.state.kinds()[0].clone();
    let count = told.state.kinds().len();
    assert!(typical.typical);
    let id = typical.id;
    let mut piece = typical.piece;
    piece.weight = "9.5 oz".parse().expect("a weight");
    let kind = KindSetup {
        name: "Top".to_owned(),
        piece,
        venue: None,
    };
    let id_and = |kind| Command::SaveKind { id: Some(id), kind };
    let changed = told.tell(&id_and(kind));
    assert_eq!(told.state.kind(id).map(|kind| kind.typical), Some(false));
    told.undo(&changed);
    assert_eq!(told.state.kind(id), Some(typical.clone()));
    let removed = told.tell(&Command::RemoveKind(id));
    assert_eq!(told.state.kinds().len(), count - 1);
    told.undo(&removed);
    assert_eq!(told.state.kind(id), Some(typical));
}
