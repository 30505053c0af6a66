//! House rules and allowances: what a buy must leave, and what is set aside before judging.

use haulwren_core::book::Command;
use haulwren_core::view::{RulesForm, RulesInput};
use leptos::ev::SubmitEvent;
use leptos::prelude::*;

use crate::store::{Store, use_store};
use crate::ui::field::{Check, Entry, Field};

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
        hint: "“No more than” is shown in these steps.",
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
#[component]
pub fn Rules() -> impl IntoView {
    let desk = Desk::open();
    let save = move |event: SubmitEvent| {
        event.prevent_default();
        desk.save();
    };
    let field = move |text: Text| {
        let value =
            Signal::derive(move || desk.form.with(|form| (text.at)(&mut form.clone()).clone()));
        let typed = move |typed: String| desk.edit(|form| *(text.at)(form) = typed);
        view! {
            <Field
                id=text.id
                label=text.label
                hint=text.hint
                unit=text.unit
                entry=Entry::Number
                value
                on_input=typed
                fault=Signal::derive(move || desk.fault(text.input))
            />
        }
    };
    let is_as_stored = move || {
        desk.form
            .with(|form| desk.stored.with(|stored| form == stored))
    };
    view! {
        <form class="form flush" on:submit=save>
            {field(LEAST)}
            <Check
                id="no-loss-low"
                label="No loss if it sells at the low price"
                ticked=Signal::derive(move || desk.form.with(|form| form.no_loss_if_low))
                on_tick=move |ticked| desk.edit(|form| form.no_loss_if_low = ticked)
            />
            <div class="pair">{STEP_AND_REACH.map(field).collect_view()}</div>
            <p class="support">"Set aside of every price, before judging:"</p>
            <div class="pair">{ASIDE.map(field).collect_view()}</div>
            <button type="submit" class="press go" disabled=is_as_stored>"Save rules"</button>
        </form>
    }
}
