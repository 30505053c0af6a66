//! What more there is to a service: limits, bulk billed as weight, surcharges by size, containers at a flat price.

use std::rc::Rc;

use haulwren_core::measure::WeightUnit;
use haulwren_core::view::{ServiceText, Sheet, Units};

use super::card_desk::CardDesk;
use super::service::text;
use super::surcharges::surcharges;
use super::table::table;
use crate::screens::parts;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, div, el};
use crate::ui::field::FieldSpec;

/// All of it, folded away unless something is typed.
pub fn more(desk: CardDesk, at: usize) -> El {
    let unit = desk.service(at, |service| service.unit);
    let is_open = |texts: &[ServiceText]| {
        desk.service(at, |service| {
            texts
                .iter()
                .any(|text| !service.text(*text).trim().is_empty())
        })
    };
    let has = |sheet| desk.service(at, |service| !service.sheet(sheet).is_empty());
    div("bare").with([
        fold("Limits", is_open(&LIMITS), limits(desk, at, unit)),
        fold(
            "Bulk billed as weight",
            is_open(&BULK),
            bulk(desk, at, unit),
        ),
        fold(
            "Surcharges for size",
            has(Sheet::Extra),
            surcharges(desk, at, unit),
        ),
        fold(
            "Flat-price containers",
            has(Sheet::Flat),
            table(desk, at, Sheet::Flat),
        ),
    ])
}

/// A part that opens.
pub fn fold(word: &str, is_open: bool, inside: impl Into<Nodes>) -> El {
    let fold = el("details").class("fold");
    let fold = if is_open { fold.attr("open", "") } else { fold };
    fold.with(el("summary").class("press").with(word))
        .with(div("folded").with(inside))
}

const LIMITS: [ServiceText; 5] = [
    ServiceText::Heaviest,
    ServiceText::Longest,
    ServiceText::Around,
    ServiceText::Sum,
    ServiceText::Round,
];
const BULK: [ServiceText; 3] = [
    ServiceText::Divisor,
    ServiceText::BulkStep,
    ServiceText::BulkOver,
];

fn spec<'a>(id: &'a str, label: &'a str, unit: &'a str) -> FieldSpec<'a> {
    FieldSpec {
        id,
        label,
        unit,
        ..FieldSpec::default()
    }
}

fn limits(desk: CardDesk, at: usize, unit: WeightUnit) -> Nodes {
    let Units { weight, length, .. } = Units::of(unit);
    let [heaviest, longest, around, sum, round] = LIMITS;
    let pair = |one, other| div("pair").with([one, other]);
    [
        parts::support("What the service takes at most. Empty: no such limit."),
        pair(
            text(
                desk,
                at,
                heaviest,
                spec("limit-weight", "Most weight", weight),
            ),
            text(
                desk,
                at,
                longest,
                spec("limit-longest", "Longest side", length),
            ),
        ),
        pair(
            text(
                desk,
                at,
                around,
                spec("limit-around", "Length and girth", length),
            ),
            text(
                desk,
                at,
                sum,
                spec("limit-sum", "Three sides together", length),
            ),
        ),
        text(
            desk,
            at,
            round,
            FieldSpec {
                hint: "Before it is looked up. Empty: not at all.",
                ..spec("round-step", "Weight is rounded to steps of", weight)
            },
        ),
        direction(desk, at, false),
    ]
    .into()
}

fn bulk(desk: CardDesk, at: usize, unit: WeightUnit) -> Nodes {
    let Units { heavy, volume, .. } = Units::of(unit);
    let [divisor, step, over] = BULK;
    let empty = ["Empty: 1 ", heavy, "."].concat();
    let per = [volume, " per ", heavy].concat();
    [
        text(desk, at, divisor, spec("bulk-divisor", "Divisor", &per)),
        text(
            desk,
            at,
            over,
            FieldSpec {
                hint: "Empty: from the smallest parcel on.",
                ..spec("bulk-over", "Only parcels over", volume)
            },
        ),
        text(
            desk,
            at,
            step,
            FieldSpec {
                hint: &empty,
                ..spec("bulk-step", "Rounded to steps of", heavy)
            },
        ),
        direction(desk, at, true),
    ]
    .into()
}

/// Which way a weight is rounded.
fn direction(desk: CardDesk, at: usize, of_bulk: bool) -> El {
    let chosen: Now<usize> = Rc::new(move || {
        desk.service(at, |service| {
            usize::from(if of_bulk {
                service.bulk_nearest
            } else {
                service.round_nearest
            })
        })
    });
    let choose: Do<usize> = Rc::new(move |place| {
        desk.edit_service(at, &mut |service| {
            let nearest = if of_bulk {
                &mut service.bulk_nearest
            } else {
                &mut service.round_nearest
            };
            *nearest = place == 1;
        });
    });
    let name = if of_bulk { "bulk-way" } else { "round-way" };
    let words = [("up", ""), ("to the nearest", "")];
    choice_keys("Rounded", name, false, &words, &chosen, &choose)
}
