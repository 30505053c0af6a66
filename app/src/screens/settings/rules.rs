//! House rules and allowances: what a buy must leave, and what is set aside before judging.

use haulwren_core::book::Command;
use haulwren_core::view::{RulesForm, RulesInput};
use leptos::prelude::*;

use crate::store::{Store, use_store};
use crate::ui::el::{El, div, el};
use crate::ui::field::{Entry, FieldSpec, check, field};

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

/// What the form holds, and what of it can't be used once it was tried.
#[derive(Clone, Copy)]
struct Desk {
    store: Store,
    stored: Memo<RulesForm>,
    form: Memo<RulesForm>,
    tried: RwSignal<bool>,
}

impl Desk {
    fn open() -> Self {
        let store = use_store();
        let stored = Memo::new(move |_| store.read_setup(RulesForm::of).unwrap_or_default());
        let form = Memo::new(move |_| store.rules_draft().unwrap_or_else(|| stored.get()));
        Self {
            store,
            stored,
            form,
            tried: RwSignal::new(false),
        }
    }

    fn edit(self, change: impl FnOnce(&mut RulesForm)) {
        let mut form = self.form.get_untracked();
        change(&mut form);
        self.store.keep_rules_draft(Some(form));
    }

    fn fault(self, input: RulesInput) -> Option<String> {
        let currency = self
            .store
            .read_setup(haulwren_core::book::State::currency)?;
        let complaints = self.form.with(|form| form.read(currency)).err()?;
        let mine = complaints
            .into_iter()
            .find(|complaint| complaint.field == input);
        mine.map(|complaint| complaint.sentence)
            .filter(|_| self.tried.get())
    }

    fn save(self) {
        self.tried.set(true);
        let read = untrack(|| {
            let currency = self
                .store
                .read_setup(haulwren_core::book::State::currency)?;
            self.form.with(|form| form.read(currency)).ok()
        });
        // What can't be used is said beside its field.
        let Some((rules, allowances)) = read else {
            return;
        };
        self.store
            .dispatch(Command::SetRules { rules, allowances }, move |saved| {
                if saved {
                    self.tried.set(false);
                    self.store.keep_rules_draft(None);
                }
            });
    }
}

/// The form.
pub fn rules() -> El {
    let desk = Desk::open();
    let one = move |text: Text| {
        let Text {
            id,
            label,
            hint,
            unit,
            ..
        } = text;
        let value =
            Signal::derive(move || desk.form.with(|form| (text.at)(&mut form.clone()).clone()));
        let typed = Callback::new(move |typed: String| desk.edit(|form| *(text.at)(form) = typed));
        let fault = Signal::derive(move || desk.fault(text.input));
        let spec = FieldSpec {
            id,
            label,
            hint,
            unit,
            entry: Entry::Number,
            autofocus: false,
        };
        field(spec, value, fault, typed)
    };
    let ticked = Signal::derive(move || desk.form.with(|form| form.no_loss_if_low));
    let tick = Callback::new(move |ticked| desk.edit(|form| form.no_loss_if_low = ticked));
    let is_as_stored = move || {
        desk.form
            .with(|form| desk.stored.with(|stored| form == stored))
    };
    let save = el("button")
        .attr("type", "submit")
        .class("press go")
        .flag("disabled", is_as_stored);
    el("form")
        .class("form flush")
        .on("submit", move |event| {
            event.prevent_default();
            desk.save();
        })
        .with(one(LEAST))
        .with(check(
            "no-loss-low",
            "No loss if it sells at the low price",
            ticked,
            tick,
        ))
        .with(div("pair").with(STEP_AND_REACH.map(one)))
        .with(
            el("p")
                .class("support")
                .with("Set aside of every price, before judging:"),
        )
        .with(div("pair").with(ASIDE.map(one)))
        .with(save.with("Save rules"))
}
