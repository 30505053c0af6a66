//! What is said of a save at the table, before all that can be said of any save has come: it was bought, or passed by.

use super::{Done, bought};
use crate::book::State;
use crate::change::Change;
use crate::kind::RecordKind;
use crate::money::{Money, plain};
use serde::Deserialize;
use serde_json::Value;

/// Describes a save of Decide as [`describe`](super::describe) does; of any other it says that it was saved. `None` for no changes at all.
#[must_use]
pub fn briefly(state: &State, changes: &[Change]) -> Option<Done> {
    let first = changes.first()?;
    let of_kind = |kind: &RecordKind| changes.iter().find(|change| change.kind == *kind);
    let name = |change: &Change| {
        let name = change.set.get("name").and_then(Value::as_str);
        name.unwrap_or("Thing").to_owned()
    };
    let thing = bought(changes);
    let sentence = if let Some(passed) = of_kind(&RecordKind::Passed) {
        [&name(passed), " passed by"].concat()
    } else if let (Some(thing), Some(lot)) = (
        of_kind(&RecordKind::Thing).filter(|_| thing.is_some()),
        of_kind(&RecordKind::Lot),
    ) {
        let paid = lot
            .set
            .get("paid")
            .and_then(|paid| Money::deserialize(paid).ok());
        let paid = paid
            .zip(state.currency())
            .map(|(paid, currency)| plain(paid, currency));
        [&name(thing), " bought, ", &paid.unwrap_or_default()].concat()
    } else {
        "Saved".to_owned()
    };
    Some(Done {
        save: first.save,
        at: first.at,
        sentence,
        thing,
    })
}

#[cfg(test)]
mod tests {
    use super::super::describe;
    use super::briefly;
    use crate::book::Command;
    use crate::view::kit::{Kit, now};
    use crate::view::{DecideDraft, left_behind, purchase};

    #[test]
    fn at_the_table_it_says_what_it_says_anywhere() {
        for (name, ask) in [("linen dress", "6"), ("", "6"), ("jug", "0")] {
            let mut kit = Kit::quayside();
            let draft = DecideDraft {
                name: name.to_owned(),
                ask: ask.to_owned(),
                likely: "26".to_owned(),
                ..DecideDraft::default()
            };
            let buy = purchase(&kit.state, &draft, now()).expect("a purchase");
            let pass = left_behind(&kit.state, &draft, now()).expect("a thing");
            for command in [Command::Buy(buy), Command::PassBy(pass)] {
                let changes = kit.tell(&command);
                let said = briefly(&kit.state, &changes);
                assert_eq!(said, describe(&kit.state, &changes));
            }
        }
    }
}
