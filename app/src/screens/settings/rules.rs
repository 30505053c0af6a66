//! House rules and allowances: what a buy must leave, and what is set aside before judging.

use haulwren_core::book::{Command, State};
use haulwren_core::view::{RulesForm, RulesInput};

use crate::screens::form::{FormState, Text, amount, number};
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::El;

const LEAST: Text<'static, RulesInput> = Text {
    hint: "Of one sale at the likely price. Empty: no such limit.",
    ..amount("least-keep", "The least you keep", RulesInput::LeastKeep)
};
const MORE: [Text<'static, RulesInput>; 2] = [
    Text {
        hint: "What is left of the sale, in times what you pay. Empty: no such limit.",
        unit: "times",
        ..amount(
            "least-multiple",
            "Least multiple",
            RulesInput::LeastMultiple,
        )
    },
    Text {
        hint: "Passes, with a note, until it is known how long things take. Empty: no limit.",
        unit: "days",
        ..amount("longest-wait", "Longest wait", RulesInput::LongestWait)
    },
];
const STEP_AND_REACH: [Text<'static, RulesInput>; 2] = [
    Text {
        hint: "Limits go in these steps.",
        ..amount("cash-step", "Cash step", RulesInput::CashStep)
    },
    Text {
        hint: "Up to this share of the ask.",
        unit: "%",
        ..amount("reach", "Sellers come down by", RulesInput::Reach)
    },
];
const HOURLY: Text<'static, RulesInput> = Text {
    hint: "For repairs before selling. Empty: not counted by the hour.",
    ..amount("hourly", "An hour of your work", RulesInput::Hourly)
};
const ASIDE: [Text<'static, RulesInput>; 3] = [
    number("unsold", "Never sell", "%", RulesInput::Unsold),
    number("offers", "Offers", "%", RulesInput::Offers),
    number("returns", "Returns", "%", RulesInput::Returns),
];

/// The form.
pub fn rules() -> El {
    let store = use_store();
    let stored = move || store.read_setup(RulesForm::of).unwrap_or_default();
    let read = move |form: &RulesForm| {
        let read = form.read(store.read_setup(State::currency)?);
        Some(read.map(|(rules, allowances)| Command::SetRules { rules, allowances }))
    };
    let form = FormState::new("rules".to_owned(), stored, read);
    parts::form("form flush", move || form.save(|_| {}, || {}))
        .with(form.field(&LEAST))
        .with(form.tick(
            "no-loss-low",
            "No loss if it sells at the low price",
            |form| form.no_loss_if_low,
            |form, on| form.no_loss_if_low = on,
        ))
        .with(form.row(&MORE))
        .with(form.row(&STEP_AND_REACH))
        .with(form.field(&HOURLY))
        .with(parts::support("Set aside of every price, before judging:"))
        .with(form.row(&ASIDE))
        .with(parts::submit("Save rules").flag("disabled", move || !form.is_changed()))
}
