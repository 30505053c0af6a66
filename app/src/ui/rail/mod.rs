//! The price rail: one bar as long as all that the buyer pays, true to scale, with the gate at the ceiling, a pointer at
//! the ask and the verdict hanging from the gate as a flag. Every figure is a button that opens the lines behind it.

mod draw;
mod facts;
mod label;
mod measure;
mod place;

use leptos::prelude::*;

pub use facts::RailFacts;
pub use place::Figure;

use draw::picture;
use label::{flag_words, listed_parts, rail_label};
use measure::{Measured, Room, watch};
use place::place;

use super::el::{El, div, span};
use super::verdict;

/// What of the rail was touched.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Touched {
    /// The flag.
    Verdict,
    /// A figure.
    Figure(Figure),
}

/// The rail of these amounts. `on_touch` opens what stands behind the part that was touched. `id` makes the pattern names of this rail
/// its own, when a page has several.
pub fn price_rail(facts: Signal<RailFacts>, on_touch: Callback<Touched>, id: &'static str) -> El {
    let probe = span("rail-probe").attr("aria-hidden", "true");
    let rail = div("rail");
    let element = rail.html().clone();
    let room = RwSignal::new(None::<Room>);
    let measured = StoredValue::new_local(Measured::by(probe.html().clone()));
    let watched = element.clone();
    let read = move || {
        let now = Room::of(&element);
        if now != room.get_untracked() {
            measured.with_value(Measured::forget);
            room.set(now);
        }
    };
    // The one place where the page's own size enters; everything else is derived from it.
    watch(&watched, read.clone());
    let on_resize = window_event_listener(leptos::ev::resize, move |_| read());
    on_cleanup(move || on_resize.remove());

    let layout = Memo::new(move |_| {
        let room = room.get()?;
        let wanted = facts.with(|facts| facts.wanted(room.width, room.scale, room.is_low));
        let width = |text: &str, size: f64, bold: bool| {
            measured.with_value(|measured| measured.width(text, size, bold))
        };
        Some(place(&wanted, &width))
    });
    let verdict = Signal::derive(move || facts.with(|facts| facts.verdict));
    let name = Signal::derive(move || facts.with(RailFacts::sentence));
    let figures = Memo::new(move |_| {
        let all = |l: &place::Layout| l.labels.iter().map(|label| label.of).collect();
        layout.with(|l| l.as_ref().map_or_else(Vec::new, all))
    });
    let labels = move || {
        let label = |of| rail_label(of, layout, facts, on_touch);
        figures.get().into_iter().map(label).collect::<Vec<_>>()
    };
    rail.attr_of("data-tone", move || {
        verdict
            .get()
            .map(|verdict| verdict::name(verdict).to_owned())
    })
    .with(probe)
    .with(picture(layout, verdict, name, id))
    .with(flag_words(layout, facts, on_touch))
    .with(div("bare").show(labels))
    .with(listed_parts(layout, facts, on_touch))
}
