//! The price rail: one bar as long as all that the buyer pays, true to scale, with the gate at the ceiling, a pointer at
//! the ask and the verdict hanging from the gate as a flag. Every figure is a button that opens the lines behind it.

mod draw;
mod facts;
mod flag;
mod label;
mod measure;
mod place;

use crate::follow::follow;
use crate::live::Live;

pub use facts::RailFacts;
pub use place::Figure;

use draw::Picture;
use flag::FlagWords;
use label::Labels;
use measure::{Measured, Room, watch};
use place::place;

use super::el::{Do, El, Now, div, on_window, span};
use super::kept::Kept;
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
///
/// Its elements are built once and moved at each change: they keep the focus, and can slide.
pub fn price_rail(facts: Now<RailFacts>, on_touch: &Do<Touched>, id: &str) -> El {
    let probe = span("rail-probe").attr("aria-hidden", "true");
    // As wide as the rail is, and as high as it may be: unlike the rail itself, it stays as it is whatever a key draws.
    let gauge = span("rail-gauge").attr("aria-hidden", "true");
    let measured = std::rc::Rc::new(Measured::by(probe.html().clone()));
    let picture = Picture::new(id);
    let flag = FlagWords::new(on_touch);
    let labels = Labels::new(on_touch);
    let rail = div("rail")
        .with([probe, gauge.clone(), picture.whole.clone()])
        .with(flag.whole.clone())
        .with(labels.all())
        .with(labels.list.clone());

    let room = Live::new(None::<Room>);
    let (element, known) = (gauge.html().clone(), measured.clone());
    let read = move || {
        let now = Room::of(&element);
        if now != room.get_untracked() {
            known.forget();
            room.set(now);
        }
    };
    // The one place where the page's own size enters; everything else is derived from it.
    watch(gauge.html(), read.clone());
    on_window("resize", move |_| read());

    let tone = Kept::new(&rail);
    follow(Box::new(move || {
        let facts = facts();
        tone.set("data-tone", facts.verdict.map(verdict::name));
        let Some(room) = room.get() else { return };
        let wanted = facts.wanted(room.width, room.scale, room.spare);
        let layout = place(&wanted, &|text, size, bold| {
            measured.width(text, size, bold)
        });
        picture.draw(&layout, &wanted, &facts);
        flag.draw(&layout, &facts);
        labels.draw(&layout, &wanted, &facts);
    }));
    rail
}
