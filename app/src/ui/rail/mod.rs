//! The price rail: one bar as long as all that the buyer pays, true to scale, with the gate at the ceiling, a pointer at
//! the ask and the verdict hanging from the gate as a flag. Every figure is a button that opens the lines behind it.

mod draw;
mod facts;
mod label;
mod measure;
mod place;

use leptos::html::{Div, Span};
use leptos::prelude::*;
use leptos::web_sys::HtmlElement;

pub use facts::RailFacts;
pub use place::Figure;

use draw::Picture;
use label::{FlagWords, ListedParts, RailLabel};
use measure::{Measured, Room, watch};
use place::place;

use super::verdict;

/// What of the rail was touched.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Touched {
    /// The flag.
    Verdict,
    /// A figure.
    Figure(Figure),
}

/// The rail.
#[component]
pub fn PriceRail(
    /// The amounts.
    #[prop(into)]
    facts: Signal<RailFacts>,
    /// Opens what stands behind the part that was touched.
    #[prop(into)]
    on_touch: Callback<Touched>,
    /// Makes the pattern names of this rail its own, when a page has several.
    #[prop(default = "rail")]
    id: &'static str,
) -> impl IntoView {
    let rail = NodeRef::<Div>::new();
    let probe = NodeRef::<Span>::new();
    let room = RwSignal::new(None::<Room>);
    let measured = StoredValue::new_local(Measured::default());
    let read = move || {
        let now = rail.get_untracked().and_then(|rail| Room::of(&rail));
        if now != room.get_untracked() {
            measured.with_value(Measured::forget);
            room.set(now);
        }
    };
    // The one place where the page's own size enters; everything else is derived from it.
    Effect::new(move || {
        if let Some(rail) = rail.get() {
            watch(&rail, read);
        }
    });
    let on_resize = window_event_listener(leptos::ev::resize, move |_| read());
    on_cleanup(move || on_resize.remove());

    let layout = Memo::new(move |_| {
        let room = room.get()?;
        let probe: HtmlElement = probe.get()?.into();
        let wanted = facts.with(|facts| facts.wanted(room.width, room.scale, room.is_low));
        let width = |text: &str, size: f64, bold: bool| {
            measured.with_value(|measured| measured.width(&probe, text, size, bold))
        };
        Some(place(&wanted, &width))
    });
    let verdict = Signal::derive(move || facts.with(|facts| facts.verdict));
    let name = Signal::derive(move || facts.with(RailFacts::sentence));
    let figures = move || {
        let all = |l: &place::Layout| l.labels.iter().map(|label| label.of).collect();
        layout.with(|l| l.as_ref().map_or_else(Vec::new, all))
    };
    view! {
        <div
            class="rail"
            node_ref=rail
            data-tone=move || verdict.get().map(verdict::name)
        >
            <span class="rail-probe" aria-hidden="true" node_ref=probe></span>
            <Picture layout verdict name id />
            <FlagWords layout facts on_touch />
            <For each=figures key=|of| *of let(of)>
                <RailLabel of layout facts on_touch />
            </For>
            <ListedParts layout facts on_touch />
        </div>
    }
}
