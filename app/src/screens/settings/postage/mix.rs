//! How likely each zone is, while the buyer is unknown.

use haulwren_core::view::CardInput;
use leptos::prelude::*;

use super::card_desk::CardDesk;
use super::cells::{cell, head, in_table, wide};
use crate::screens::parts;
use crate::ui::el::{El, Nodes, div, el};

/// The shares, where there is more than one zone.
pub fn mix(desk: CardDesk) -> El {
    div("bare").show(move || {
        desk.whole.track();
        desk.shape.track();
        let zones = desk.zones.get();
        (zones.len() > 1).then(|| untrack(|| shares(desk, &zones)))
    })
}

fn shares(desk: CardDesk, zones: &[String]) -> Nodes {
    let (mut top, mut line) = (Vec::new(), Vec::new());
    for (zone, name) in zones.iter().enumerate() {
        let label = zone_name(name, zone);
        line.push(in_table(cell(
            desk,
            CardInput::Mix(zone),
            &format!("Percent to zone {label}"),
            true,
        )));
        top.push(head(label));
    }
    let faults = div("faults").attr("role", "status").show(move || {
        desk.state.faults(|faults| {
            let mut lines = Vec::new();
            for fault in faults {
                if matches!(fault.field, CardInput::Mix(_) | CardInput::Shares) {
                    lines.push(parts::line(&fault.sentence).class("fault"));
                }
            }
            lines
        })
    });
    let table = wide(
        "How likely each zone is",
        [
            el("thead").with(el("tr").with(top)),
            el("tbody").with(el("tr").with(line)),
        ],
    );
    [
        parts::heading("How likely each zone is"),
        parts::support("In percent, 100 together. Used while the buyer is unknown. The last zone is the far one."),
        table,
        faults,
    ]
    .into()
}

/// A zone's name, or its number while it has none.
pub fn zone_name(name: &str, zone: usize) -> String {
    if name.trim().is_empty() {
        format!("Zone {}", zone + 1)
    } else {
        name.to_owned()
    }
}
