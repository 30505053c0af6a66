//! What is said of a thing on the sheet of Decide: its name, its kind or else its size and heft, and what sending it costs when that is
//! known better.

use crate::live::{Live, worked};
use std::rc::Rc;

use haulwren_core::packing::Heft;
use haulwren_core::view::{self, Before, DecideDraft, Field, KindChoice};
use leptos::prelude::untrack;

use crate::format;
use crate::screens::parts;
use crate::store::{Store, use_store};
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, button, div, el, span};
use crate::ui::field::{Entry, FieldSpec, field};
use crate::ui::heft::picture;

/// What stands on the sheet; `naming` says whether it is open.
pub fn inside(naming: Live<bool>) -> Nodes {
    let form = parts::form("name-form", move || naming.set(false))
        .with(name())
        .with(parts::submit("Done"));
    [form, before(naming), kinds(naming), hefts(naming), costs()].into()
}

fn name() -> El {
    let store = use_store();
    let spec = FieldSpec {
        id: "thing-name",
        label: "Name of the thing",
        hint: "It can stay empty: buying never waits for a name.",
        ..FieldSpec::default()
    };
    let name = move || store.draft(|draft| draft.name.clone());
    let typed = move |name| store.edit_draft(|draft| draft.name = name);
    field(spec, Rc::new(name), Rc::new(|| None), Rc::new(typed))
}

/// Things of that name bought before.
fn before(naming: Live<bool>) -> El {
    let store = use_store();
    let found = worked(move || {
        let typed = store.draft(|draft| draft.name.clone());
        store.read(|book| view::before(book, &typed))
    });
    let one = move |before: &Before| {
        let taken = before.clone();
        let take = move || {
            if let Some(currency) = untrack(|| store.currency()) {
                store.edit_draft(|draft| taken.fill(draft, currency));
            }
            naming.set(false);
        };
        let sells = before.sells.zip(store.currency()).map(|(sells, currency)| {
            let price = format::short(sells.likely(), currency);
            el("small").with(format!("sells {price}"))
        });
        button("press chip")
            .on_click(take)
            .with(before.name.as_str())
            .with(sells)
    };
    div("bare").show(move || {
        found.with(|found| {
            let chips: Vec<El> = found.iter().map(one).collect();
            (!chips.is_empty()).then(|| group("Bought before", chips))
        })
    })
}

fn group(title: &str, chips: Vec<El>) -> El {
    el("section")
        .class("chips")
        .attr("aria-label", title)
        .with(parts::heading(title))
        .with(div("chip-row").with(chips))
}

/// Chooses something about the thing, and shows the verdict again.
fn choose(store: Store, naming: Live<bool>, change: impl FnOnce(&mut DecideDraft)) {
    store.edit_draft(change);
    naming.set(false);
}

fn kinds(naming: Live<bool>) -> El {
    let store = use_store();
    let choices = worked(move || {
        let draft = store.draft(DecideDraft::clone);
        store.read_setup(|book| view::kinds(book, &draft))
    });
    let one = move |kind: &KindChoice| {
        let id = kind.id;
        let pressed = if kind.chosen { "true" } else { "false" };
        button("press chip")
            .attr("aria-pressed", pressed)
            .attr("data-kind", &id.to_string())
            .on_click(move || {
                choose(store, naming, move |draft| {
                    // Touched again, it is not of this kind after all.
                    draft.kind = (draft.kind != Some(id)).then_some(id);
                    draft.heft = None;
                });
            })
            .with(kind.name.as_str())
            .with(el("small").with(kind.line.as_str()))
    };
    div("bare")
        .show(move || choices.with(|choices| group("Its kind", choices.iter().map(one).collect())))
}

fn hefts(naming: Live<bool>) -> El {
    let store = use_store();
    let chosen = worked(move || store.draft(|draft| draft.heft));
    let one = move |heft: Heft| {
        button("press chip heft")
            .state("aria-pressed", move || chosen.get() == Some(heft))
            .attr("data-heft", heft.label())
            .on_click(move || {
                choose(store, naming, move |draft| {
                    draft.heft = (draft.heft != Some(heft)).then_some(heft);
                    draft.kind = None;
                });
            })
            .with(picture(heft))
            .with(span("").with(heft.label()))
    };
    group(
        "Unknown kind: what size and heft?",
        Heft::ALL.map(one).into(),
    )
}

/// What sending costs, when it is known better than by card and kind.
fn costs() -> El {
    let store = use_store();
    let view = store.decide_view();
    let one = move |at: Field, id: &'static str, label: &'static str| {
        let spec = FieldSpec {
            id,
            label,
            entry: Entry::Number,
            ..FieldSpec::default()
        };
        let text = move || store.draft(|draft| draft.text(at).to_owned());
        let fault = move || {
            view.with(|view| {
                let mut faults = view.as_ref()?.faults.iter();
                faults
                    .find(|(of, _)| *of == at)
                    .map(|(_, fault)| fault.clone())
            })
        };
        let typed = move |text| store.edit_draft(|draft| draft.set_text(at, text));
        field(spec, Rc::new(text), Rc::new(fault), Rc::new(typed))
    };
    let lines = move || {
        view.with(|view| {
            let view = view.as_ref();
            let lines = view.map(|view| view.posted.lines(view.currency));
            lines
                .unwrap_or_default()
                .iter()
                .map(|line| parts::support(line))
                .collect::<Vec<_>>()
        })
    };
    let paid: Now<usize> = Rc::new(move || store.draft(|draft| usize::from(draft.other)));
    let pay: Do<usize> = Rc::new(move |at| store.edit_draft(|draft| draft.other = at == 1));
    let words = [("in cash", ""), ("otherwise", "")];
    el("section")
        .class("chips")
        .with(choice_keys("Paid", "thing-by", false, &words, &paid, &pay))
        .with(parts::heading("Work it needs"))
        .with(one(Field::Work, "thing-work", "What the work costs"))
        .with(by_the_hour(store))
        .with(parts::heading("Sending it"))
        .with(div("bare").show(lines))
        .with(div("pair").with([
            one(Field::Postage, "thing-postage", "Postage, when you know it"),
            one(Field::Packing, "thing-packing", "Packing, when you know it"),
        ]))
}

/// Work at the trader's own rate, where one is set: a tap each.
fn by_the_hour(store: Store) -> Option<El> {
    let currency = store.currency()?;
    let hour = store.read_setup(|book| book.house_rules(currency).hourly)?;
    let one = |(word, parts): (&'static str, i64)| {
        let cost = view::part_of_hour(hour, parts);
        let text = view::typed_amount(cost, currency);
        button("press chip")
            .attr("data-work", word)
            .on_click(move || store.edit_draft(|draft| draft.set_text(Field::Work, text.clone())))
            .with(word)
            .with(el("small").with(format::amount(cost, currency)))
    };
    let keys = [("15 min", 1), ("Half an hour", 2), ("1 hour", 4)].map(one);
    Some(div("chip-row").with(keys))
}
