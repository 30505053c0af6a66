//! What stands over the tray: the rail, the venues and the fields; or, covered, the asking figure alone.

use crate::live::{Worked, settled, worked};
use std::rc::Rc;

use haulwren_core::postage::Arrangement;
use haulwren_core::view::{DecideDraft, DecideView, Field, JudgedLately, judged_lately};

use super::Desk;
use super::cells::cells;
use super::venues::venues;
use crate::route::Route;
use crate::screens::last_save::last_save;
use crate::screens::page::{titled_here, use_wide};
use crate::screens::parts;
use crate::shell::clock;
use crate::store::use_store;
use crate::ui::el::{Do, El, Nodes, Now, button, div, el, span};
use crate::ui::icons::Icon;
use crate::ui::rail::{RailFacts, Touched, price_rail};

/// Everything that the seller should not read.
pub fn top(desk: Desk) -> Nodes {
    let scrolled = div("decide-top").with([
        titled_here("Worth it?"),
        rail(desk),
        notes(),
        venues(desk),
        lately(desk),
    ]);
    // Over the fields and not scrolled, so that a slip can be taken back at once on any screen. Once the next thing is being typed, the
    // room is the rail's; Undo then waits on Haul.
    let saved =
        div("bare").show(move || (desk.is_idle.get() && desk.shows_save.get()).then(last_save));
    [scrolled, saved, cells(desk)].into()
}

/// The rail, or what is still needed to draw it.
fn rail(desk: Desk) -> El {
    let view = use_store().decide_view();
    // Worked out apart: a key that leaves the sums as they are, such as a point, draws nothing.
    let facts = worked(move || view.with(|view| view.as_ref().and_then(facts_of)));
    // One text, so that what stays the same is not drawn and said again at every key.
    let missing =
        worked(move || view.with(|view| view.as_ref().map(missing_of).unwrap_or_default()));
    let on_touch: Do<Touched> = Rc::new(move |touched| desk.opened.set(Some(touched)));
    let drawn = move || {
        let first = facts.get_untracked()?;
        // The rail stays on the page while its facts change.
        let shown: Now<RailFacts> = Rc::new(move || facts.get().unwrap_or_else(|| first.clone()));
        Some(price_rail(shown, &on_touch, "rail"))
    };
    div("decide-rail").show(move || {
        let rail = if desk.has_sums.get() { drawn() } else { None };
        rail.unwrap_or_else(|| blank(missing))
    })
}

fn facts_of(view: &DecideView) -> Option<RailFacts> {
    let judged = view.appraisal.judged.as_ref()?;
    Some(RailFacts {
        second: view.second(),
        ..RailFacts::of(judged, view.currency, view.rough)
    })
}

/// What to beware of, and rates that nobody has looked at for long.
fn notes() -> El {
    let view = use_store().decide_view();
    let lines = settled(move || {
        view.with(|view| {
            let Some(view) = view else {
                return Vec::new();
            };
            let refused = view.posted.refused.clone();
            let beware = view.cautions.iter().map(|caution| (*caution).to_owned());
            beware.chain(view.stale.clone()).chain(refused).collect()
        })
    });
    let lines = move || {
        lines.with(|lines| {
            lines
                .iter()
                .map(|line| parts::line(line))
                .collect::<Vec<_>>()
        })
    };
    let promoted = settled(move || view.with(|view| view.as_ref()?.promoted));
    div("notes")
        .show(lines)
        .show(move || promoted.get().map(promotion))
}

/// Where charges hang on a paid promotion: whether this thing sells through one, turned by a tap.
fn promotion(is_promoted: bool) -> El {
    let store = use_store();
    let word = if is_promoted {
        "Promoted"
    } else {
        "Not promoted"
    };
    button("press promotion")
        .attr("data-key", "promoted")
        .attr("aria-pressed", if is_promoted { "true" } else { "false" })
        .on_click(move || store.edit_draft(|draft| draft.promoted = Some(!is_promoted)))
        .with(word)
}

/// What was judged last, while nothing is typed or there is room beside it; what was passed by can be opened again.
fn lately(desk: Desk) -> El {
    let store = use_store();
    let wide = use_wide();
    let rows = worked(move || {
        let most = if wide.get() { 10 } else { 3 };
        let is_shown = wide.get() || desk.is_idle.get();
        if is_shown {
            store.read(|book| judged_lately(book, clock::now(), most))
        } else {
            Vec::new()
        }
    });
    let one = move |row: &JudgedLately| {
        let again = row.again.clone().map(|again| {
            button("press")
                .attr("data-again", "")
                .flag("disabled", move || !desk.is_idle.get())
                .on_click(move || {
                    store.edit_draft(|draft| {
                        let covered = draft.covered;
                        *draft = DecideDraft {
                            covered,
                            ..again.clone()
                        };
                        draft.go(Field::Ask);
                    });
                })
                .with("Open again")
        });
        let what = span("what")
            .with(el("b").with(row.name.as_str()))
            .with(" ")
            .with(el("small").with(row.line.as_str()));
        el("li").class("row").with(what).with(again)
    };
    div("lately").show(move || {
        rows.with(|rows| {
            let rows: Vec<El> = rows.iter().map(one).collect();
            (!rows.is_empty()).then(|| {
                el("section")
                    .attr("aria-label", "Judged last")
                    .with(el("h2").class("label").with("Judged last"))
                    .with(el("ul").with(rows))
            })
        })
    })
}

/// What is missing, a line each.
fn missing_of(view: &DecideView) -> String {
    let lines = view
        .appraisal
        .missing
        .iter()
        .map(|missing| missing.sentence());
    lines.collect::<Vec<_>>().join("\n")
}

fn blank(missing: Worked<String>) -> El {
    let lines = move || missing.with(|lines| lines.lines().map(parts::line).collect::<Vec<_>>());
    div("rail-empty")
        .with(el("div").attr("role", "status").show(lines))
        .show(rough_card)
        .with(el("i"))
        .with(span("hidden").attr("data-verdict", "none"))
}

/// Before there is a rate card: the way to a rough one.
fn rough_card() -> Option<El> {
    let store = use_store();
    let is_wanted = store.read_setup(|book| {
        let venue = book.usual_venue().and_then(|id| book.venue(id));
        let is_posted = venue.is_some_and(|venue| {
            let arrangement = venue.arrangement.as_ref();
            arrangement.is_some_and(|arrangement| !matches!(arrangement, Arrangement::HandedOver))
        });
        is_posted && book.cards().next().is_none()
    });
    is_wanted.then(|| {
        let word = "Postage by weight: a rough card in a minute";
        parts::link("press", Route::Card(None), Icon::Plus, word)
    })
}

/// The asking figure alone.
pub fn covered() -> Nodes {
    let store = use_store();
    let length = move || store.draft(|draft| draft.text(Field::Ask).len());
    let figure = span("covered-figure")
        .class_if("long", move || length() > 5)
        .class_if("longer", move || length() > 8)
        .text_of(move || store.draft(|draft| draft.text(Field::Ask).to_owned()));
    [
        el("h1").class("hidden").with("Asking"),
        div("covered").with(figure),
    ]
    .into()
}
