//! House rules and allowances: what a buy must leave, and what is set aside before judging.

use crate::live::Live;
use std::rc::Rc;

use haulwren_core::book::{Command, State};
use haulwren_core::json;
use haulwren_core::view::{Complaint, RulesForm, RulesInput};
use leptos::prelude::*;

use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::el::{El, div};
use crate::ui::field::{Entry, FieldSpec, check, field};

/// The name of the half-typed form.
const DRAFT: &str = "rules";

/// A text of the form.
#[derive(Clone, Copy)]
struct Text {
    id: &'static str,
    label: &'static str,
    hint: &'static str,
    unit: &'static str,
    input: RulesInput,
    at: fn(&mut RulesForm) -> &mut String,
}

const LEAST: Text = Text {
    id: "least-keep",
    label: "The least you keep",
    hint: "Of one sale at the likely price. Empty: no such limit.",
    unit: "",
    input: RulesInput::LeastKeep,
    at: |form| &mut form.least_keep,
};
const MORE: [Text; 2] = [
    Text {
        id: "least-multiple",
        label: "Least multiple",
        hint: "What is left of the sale, in times what you pay. Empty: no such limit.",
        unit: "times",
        input: RulesInput::LeastMultiple,
        at: |form| &mut form.least_multiple,
    },
    Text {
        id: "longest-wait",
        label: "Longest wait",
        hint: "Passes, with a note, until it is known how long things take. Empty: no limit.",
        unit: "days",
        input: RulesInput::LongestWait,
        at: |form| &mut form.longest_wait,
    },
];
const STEP_AND_REACH: [Text; 2] = [
    Text {
        id: "cash-step",
        label: "Cash step",
        hint: "Limits go in these steps.",
        unit: "",
        input: RulesInput::CashStep,
        at: |form| &mut form.cash_step,
    },
    Text {
        id: "reach",
        label: "Sellers come down by",
        hint: "Up to this share of the ask.",
        unit: "%",
        input: RulesInput::Reach,
        at: |form| &mut form.reach,
    },
];
const ASIDE: [Text; 3] = [
    Text {
        id: "unsold",
        label: "Never sell",
        hint: "",
        unit: "%",
        input: RulesInput::Unsold,
        at: |form| &mut form.unsold,
    },
    Text {
        id: "offers",
        label: "Offers",
        hint: "",
        unit: "%",
        input: RulesInput::Offers,
        at: |form| &mut form.offers,
    },
    Text {
        id: "returns",
        label: "Returns",
        hint: "",
        unit: "%",
        input: RulesInput::Returns,
        at: |form| &mut form.returns,
    },
];

/// What of the form can't be used is said once it was tried.
#[derive(Clone, Copy)]
struct Desk {
    store: Store,
    tried: Live<bool>,
}

impl Desk {
    fn stored(self) -> RulesForm {
        self.store.read_setup(RulesForm::of).unwrap_or_default()
    }

    fn form(self) -> RulesForm {
        self.store
            .form(DRAFT, json::of::<RulesForm>)
            .unwrap_or_else(|| self.stored())
    }

    fn edit(self, change: impl FnOnce(&mut RulesForm)) {
        let mut form = untrack(|| self.form());
        change(&mut form);
        self.store.keep_form(DRAFT, Some(json::value(&form)));
    }

    fn fault(self, input: RulesInput) -> Option<String> {
        if !self.tried.get() {
            return None;
        }
        let read = self.form().read(self.store.read_setup(State::currency)?);
        Complaint::about(&input, read.err()?)
    }

    fn save(self) {
        self.tried.set(true);
        let read = untrack(|| {
            self.form()
                .read(self.store.read_setup(State::currency)?)
                .ok()
        });
        // What can't be used is said beside its field.
        let Some((rules, allowances)) = read else {
            return;
        };
        self.store
            .dispatch(Command::SetRules { rules, allowances }, move |saved| {
                if saved {
                    self.store.keep_form(DRAFT, None);
                    // The screen may have gone in the meantime.
                    self.tried.set(false);
                }
            });
    }

    fn field(self, text: Text) -> El {
        let Text {
            id,
            label,
            hint,
            unit,
            input,
            at,
        } = text;
        let value = move || at(&mut self.form()).clone();
        let typed = move |typed| self.edit(|form| *at(form) = typed);
        let spec = FieldSpec {
            id,
            label,
            hint,
            unit,
            entry: Entry::Number,
            autofocus: false,
        };
        field(
            spec,
            Rc::new(value),
            Rc::new(move || self.fault(input)),
            Rc::new(typed),
        )
    }
}

/// The form.
pub fn rules() -> El {
    let desk = Desk {
        store: use_store(),
        tried: Live::new(false),
    };
    let ticked = move || desk.form().no_loss_if_low;
    let tick = move |ticked| desk.edit(|form| form.no_loss_if_low = ticked);
    let row = |texts: &[Text]| {
        div("pair").with(
            texts
                .iter()
                .map(|text| desk.field(*text))
                .collect::<Vec<_>>(),
        )
    };
    parts::form("form flush", move || desk.save())
        .with(desk.field(LEAST))
        .with(check(
            "no-loss-low",
            "No loss if it sells at the low price",
            Rc::new(ticked),
            Rc::new(tick),
        ))
        .with(row(&MORE))
        .with(row(&STEP_AND_REACH))
        .with(parts::support("Set aside of every price, before judging:"))
        .with(row(&ASIDE))
        .with(parts::submit("Save rules").flag("disabled", move || desk.form() == desk.stored()))
}
