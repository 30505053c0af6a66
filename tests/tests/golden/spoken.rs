//! What people read of the small book: its saves in a sentence each, and the history of the thing in it.

use super::story;
use haulwren_core::change::Change;
use haulwren_core::view::{describe, history_of};
use std::fmt::Write;

#[test]
fn saves_are_told_in_a_sentence_each() {
    let (state, changes) = story::told();
    let of = |one: &Change| (one.device(), one.save);
    let saves = changes.chunk_by(|one, next| of(one) == of(next));
    let sentences = saves.map(|save| describe(&state, save).unwrap().sentence + "\n");
    insta::assert_snapshot!(sentences.collect::<String>(), @r"
    Book begun
    Quayside saved
    Brass lamp bought, 9.00
    Brass lamp taken out
    Jacket bought, 6.00
    Denim jacket changed
    Work jacket changed
    ");
}

#[test]
fn the_history_of_a_thing_is_told_newest_first() {
    let (state, changes) = story::told();
    let (thing, _) = state.things().next().unwrap();
    let mut told = String::new();
    for said in history_of(&state, &thing.record(), changes) {
        writeln!(told, "{} on {}", said.at.day().unwrap(), said.device).unwrap();
        for line in said.lines {
            writeln!(told, "  {}: {}", line.label, line.words).unwrap();
        }
    }
    insta::assert_snapshot!(told, @r"
    2026-11-21 on ijklmnop
      Name: Work jacket
    2026-11-21 on Phone
      Name: Denim jacket
    2026-11-21 on Phone
      Lot: Lot of Work jacket
      Name: Jacket
      Sells for: 26.00 (low 18.00, high 34.00)
      Postage: 4.50
      Packing: 0.40
      Verdict: Buy at 6.00, you keep 4.10
    ");
}
