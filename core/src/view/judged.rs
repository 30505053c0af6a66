//! What was judged last: the things bought today, and those passed by, which can be weighed up again.

use super::draft::DecideDraft;
use crate::book::{Passed, State};
use crate::money::{Currency, Money, plain};
use crate::stamp::At;

/// One of them.
#[derive(Clone, Debug, PartialEq)]
pub struct JudgedLately {
    /// What it is called; else its kind; else that it has no name.
    pub name: String,
    /// What became of it: "bought, 3.00", "passed, asked 12.00".
    pub line: String,
    /// What weighs it up again, where it was passed by.
    pub again: Option<DecideDraft>,
}

/// The most things passed by on days before that are shown.
const OLDER: usize = 3;

/// The last so many, newest first: of today, and a few that were passed by before.
#[must_use]
pub fn judged_lately(state: &State, now: At, most: usize) -> Vec<JudgedLately> {
    let Some(currency) = state.currency() else {
        return Vec::new();
    };
    let today = now.day();
    let named = |name: &Option<String>, kind| {
        let kind = || Some(state.kind(kind?)?.name);
        let name = name.clone().or_else(kind);
        name.unwrap_or_else(|| "unnamed".to_owned())
    };
    let mut found: Vec<(At, JudgedLately)> = Vec::new();
    for (_, thing) in state.things().rev().take(most) {
        let lot = thing.lot.and_then(|id| state.lot(id));
        let Some(bought) = lot.and_then(|lot| lot.bought) else {
            continue;
        };
        if bought.day() != today {
            continue;
        }
        let paid = lot.and_then(|lot| lot.paid).unwrap_or(Money::ZERO);
        let mates = state.things().filter(|(_, other)| other.lot == thing.lot);
        let alone = mates.take(2).count() <= 1;
        let line = if alone {
            format!("bought, {}", plain(paid, currency))
        } else {
            "bought in a lot".to_owned()
        };
        let name = named(&thing.name, thing.kind);
        let again = None;
        put(&mut found, bought, JudgedLately { name, line, again });
    }
    let mut older = 0;
    for thing in state.passed_by().rev().take(most) {
        let Some(at) = thing.at else { continue };
        if at.day() != today {
            older += 1;
            if older > OLDER {
                break;
            }
        }
        let asked = thing.ask.map(|ask| plain(ask, currency));
        let line = asked.map_or_else(
            || "passed".to_owned(),
            |asked| format!("passed, asked {asked}"),
        );
        let name = named(&thing.name, thing.kind);
        let again = Some(again(thing, currency));
        put(&mut found, at, JudgedLately { name, line, again });
    }
    found.truncate(most);
    found.into_iter().map(|(_, one)| one).collect()
}

/// Puts one in its place, the newest first.
fn put(found: &mut Vec<(At, JudgedLately)>, at: At, one: JudgedLately) {
    let newer = found
        .iter()
        .take_while(|(other, _)| other.0 >= at.0)
        .count();
    found.insert(newer, (at, one));
}

/// A thing that was passed by, as it was typed.
fn again(thing: &Passed, currency: Currency) -> DecideDraft {
    let text = |money: Money| plain(money, currency);
    let mut draft = DecideDraft {
        ask: thing.ask.map(text).unwrap_or_default(),
        name: thing.name.clone().unwrap_or_default(),
        kind: thing.kind,
        ..DecideDraft::default()
    };
    if let Some(sells) = thing.sells {
        draft.likely = text(sells.likely());
        if sells.low() < sells.likely() {
            draft.low = text(sells.low());
        }
        if sells.high() > sells.likely() {
            draft.high = text(sells.high());
        }
    }
    draft
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::Command;
    use crate::view::kit::{Kit, NOON};
    use crate::view::{left_behind, purchase};

    #[test]
    fn what_was_passed_by_can_be_weighed_up_again() {
        let mut kit = Kit::quayside();
        let typed = DecideDraft {
            ask: "9.00".to_owned(),
            low: "18.00".to_owned(),
            likely: "26.00".to_owned(),
            name: "dress".to_owned(),
            ..DecideDraft::default()
        };
        let passed = left_behind(&kit.state, &typed, NOON).unwrap();
        kit.tell(&Command::PassBy(passed));
        let bought = DecideDraft {
            ask: "3".to_owned(),
            likely: "26".to_owned(),
            name: "shirt".to_owned(),
            ..DecideDraft::default()
        };
        let bought = purchase(&kit.state, &bought, NOON).unwrap();
        kit.tell(&Command::Buy(bought));
        let mut lately = judged_lately(&kit.state, NOON, 5);
        lately.sort_by(|one, other| one.name.cmp(&other.name));
        assert_eq!(lately[0].again.as_ref(), Some(&typed));
        let lines: Vec<&str> = lately.iter().map(|one| one.line.as_str()).collect();
        assert_eq!(lines, ["passed, asked 9.00", "bought, 3.00"]);
        // Tomorrow what was bought is Haul's; what was passed by can still be opened.
        let tomorrow = At(NOON.0 + 86_400_000, NOON.1);
        let lately = judged_lately(&kit.state, tomorrow, 5);
        assert_eq!(lately.len(), 1);
    }
}
