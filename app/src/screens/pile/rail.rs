//! The rail of the pile, or what it still needs; in its place nothing while the screen is covered.

use crate::live::worked;
use std::rc::Rc;

use leptos::prelude::*;

use super::{Desk, Opened};
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{Do, El, Now, div, el, span};
use crate::ui::rail::{RailFacts, Touched, price_rail};

/// The rail.
pub fn rail(desk: Desk) -> El {
    let view = use_store().pile_view();
    let facts = move || view.with(|view| view.as_ref().and_then(RailFacts::of_pile));
    let has_facts = worked(move || facts().is_some());
    let on_touch: Do<Touched> =
        Rc::new(move |touched| desk.opened.set(Some(Opened::Rail(touched))));
    let drawn = move || {
        let first = untrack(facts)?;
        // The rail stays on the page while its facts change.
        let shown: Now<RailFacts> = Rc::new(move || facts().unwrap_or_else(|| first.clone()));
        Some(price_rail(shown, &on_touch, "pile-rail"))
    };
    let body = move || {
        if desk.hides.get() {
            return None;
        }
        let rail = if has_facts.get() { drawn() } else { None };
        Some(rail.unwrap_or_else(blank))
    };
    let refused = move || {
        let refused = desk.refused.get();
        refused.map(|why| parts::status(&why).class("fault"))
    };
    div("pile-rail").show(body).show(refused)
}

/// Nothing ticked can be judged.
fn blank() -> El {
    let line = "Tick what you would buy. A thing counts once it is known what it sells for.";
    div("rail-empty")
        .with(el("div").attr("role", "status").with(parts::line(line)))
        .with(el("i"))
        .with(span("hidden").attr("data-verdict", "none"))
}
