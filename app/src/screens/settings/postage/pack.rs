//! One container's page, and one kind's.

use haulwren_core::book::State;
use haulwren_core::id::{ContainerId, KindId, VenueId};
use haulwren_core::packing::{Container, Fragility, TYPICAL, cautions};
use haulwren_core::view::{PackForm, PackInput, goes_in};
use leptos::prelude::*;

use super::pack_desk::{Of, PackDesk};
use super::tried::select;
use crate::route::Route;
use crate::screens::form::{Text, amount, currency};
use crate::screens::history;
use crate::screens::last_save::last_save;
use crate::screens::page::titled;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{El, Nodes, div, span};

/// A container's page; without an id it adds one.
pub fn container(id: Option<ContainerId>) -> Nodes {
    let is_there = id.is_none_or(|id| is_known(&|book| book.container(id).is_some()));
    let fields = |desk: PackDesk| -> Nodes {
        let cost = Text {
            hint: "Empty: nothing.",
            ..amount("pack-cost", "What one costs", PackInput::Cost)
        };
        [
            desk.form.choice(
                "What it is",
                "pack-form",
                &[
                    ("Mailer", "As thick as what is in it"),
                    ("Carton", "Keeps its shape"),
                ],
                |form| usize::from(form.carton),
                |form, at| form.carton = at == 1,
            ),
            div("bare").with(desk.measures(
                "Name of the container",
                "Its own weight",
                "Its size inside",
            )),
            parts::support(
                "Of a mailer: the two sides as it lies flat, and how thick it may become.",
            ),
            desk.form.field(&cost),
            parts::submit("Save container"),
        ]
        .into()
    };
    page(Of::Container(id), is_there, "A new container", &fields)
}

/// A kind's page; without an id it adds one.
pub fn kind(id: Option<KindId>) -> Nodes {
    let is_there = id.is_none_or(|id| is_known(&|book| book.kind(id).is_some()));
    let is_typical =
        id.is_some_and(|id| is_known(&|book| book.kind(id).is_some_and(|kind| kind.typical)));
    let fields = |desk: PackDesk| -> Nodes {
        let typical = is_typical.then(|| parts::line(TYPICAL));
        [
            div("bare").with(typical),
            div("bare").with(desk.measures(
                "Name of the kind",
                "What one weighs",
                "Its size, packed but not padded",
            )),
            desk.form.choice(
                "What it is like",
                "pack-soft",
                &[("Soft", "Folds and presses"), ("Rigid", "Keeps its shape")],
                |form| usize::from(!form.soft),
                |form, at| form.soft = at == 0,
            ),
            desk.form.choice(
                "How easily it breaks",
                "pack-fragility",
                &[
                    ("Not easily", "No padding"),
                    ("Easily", "Wrapped, about an inch all around"),
                    ("Very easily", "About two inches all around"),
                ],
                |form| {
                    let found = FRAGILITIES.iter().position(|one| *one == form.fragility);
                    found.unwrap_or_default()
                },
                |form, at| form.fragility = FRAGILITIES[at],
            ),
            div("bare").show(move || where_sold(desk)),
            div("faults")
                .attr("role", "status")
                .show(move || to_mind(desk)),
            parts::submit("Save kind"),
        ]
        .into()
    };
    page(Of::Kind(id), is_there, "A new kind", &fields)
}

const FRAGILITIES: [Fragility; 3] = [
    Fragility::Sturdy,
    Fragility::Fragile,
    Fragility::VeryFragile,
];

fn is_known(there: &dyn Fn(&State) -> bool) -> bool {
    untrack(|| use_store().read_setup(there))
}

fn page(of: Of, is_there: bool, new: &'static str, fields: &dyn Fn(PackDesk) -> Nodes) -> Nodes {
    let Some(currency) = currency() else {
        return Nodes::default();
    };
    let back = parts::back(Route::Postage, "Postage");
    if !is_there {
        let gone = parts::line("This is no longer in the book.");
        let page = div("form").with([back, gone]);
        return [titled(|| "Postage".to_owned()), div("scroll").with(page)].into();
    }
    let desk = PackDesk::new(of, currency);
    let title = move || {
        let name = desk.form.with(|form| form.name.trim().to_owned());
        if name.is_empty() {
            new.to_owned()
        } else {
            name
        }
    };
    let form = parts::form("form", move || desk.save())
        .with(back)
        .with(fields(desk))
        .with(desk.form.start_over(|| {}))
        .with(desk.remove());
    let history = match of {
        Of::Container(id) => id.map(|id| history::folded(id.record())),
        Of::Kind(id) => id.map(|id| history::folded(id.record())),
    };
    let form = form.with(history);
    [titled(title), div("scroll").with(form), last_save()].into()
}

/// The venue that things of a kind are judged on.
fn where_sold(desk: PackDesk) -> El {
    let mut options = vec![(String::new(), "the usual venue".to_owned())];
    desk.form.store().read_setup(|book| {
        for (id, venue) in book.venues() {
            options.push((id.to_string(), venue.name.clone().unwrap_or_default()));
        }
    });
    let chosen = untrack(|| desk.form.with(|form| form.venue));
    let chosen = chosen.map_or_else(String::new, |id| id.to_string());
    select("pack-venue", "Judged on", &options, &chosen, move |typed| {
        let venue: Option<VenueId> = typed.parse().ok();
        desk.form.edit(&mut |form| form.venue = venue);
    })
}

/// Which containers it goes into, and what its name calls for.
fn to_mind(desk: PackDesk) -> Nodes {
    let mut lines = Vec::new();
    let containers = desk.form.store().read_setup(|book| {
        let all = book.containers().map(|(_, container)| container);
        all.collect::<Vec<Container>>()
    });
    if let Ok(kind) = desk.form.with(PackForm::kind)
        && !containers.is_empty()
    {
        let names = goes_in(kind.piece, &containers);
        lines.push(parts::line(&if names.is_empty() {
            "One of it goes into none of your containers.".to_owned()
        } else {
            format!("One of it goes into: {}.", names.join(", "))
        }));
    }
    let name = desk.form.with(|form| form.name.clone());
    for caution in cautions(&name, &[]) {
        let mark = span("mark").with("mind");
        lines.push(
            parts::line("")
                .with(mark)
                .with(" ")
                .with(caution.sentence()),
        );
    }
    lines.into()
}
