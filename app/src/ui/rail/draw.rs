//! The rail's picture: bar, gate, pointer, flag and leaders. Its elements stay the same while amounts change, so that
//! parts can slide; the words are laid over it by the parent, as buttons.

use haulwren_core::appraise::Verdict;

use std::fmt::Write as _;

use super::facts::RailFacts;
use super::place::{Bar, Flag, Layout, Side, Span, Wanted};
use crate::ui::el::{El, svg};
use crate::ui::kept::Kept;
use crate::ui::px::Px;
use crate::ui::verdict::{SIGN_BOX, sign};

/// The picture and its parts.
pub struct Picture {
    /// The picture, one image to those who hear it.
    pub whole: El,
    image: Kept,
    /// The bar, in which the stretches are as high as it is.
    bar: Kept,
    rects: [Kept; 9],
    paths: [Kept; 8],
    /// The hollow pointer, and the one to what is asked.
    slides: [Kept; 2],
    flag: Kept,
    /// The signs of the verdicts, of which the style sheet shows one. They stand from the start: what comes and goes costs more than what
    /// is hidden.
    signs: Kept,
}

/// Finds a stretch of the bar.
type Stretch = fn(&Bar) -> Span;
/// Draws a line of the picture.
type Line = fn(&Layout) -> String;

/// The stretches of the bar that are drawn as blocks, with the class and the fill of each, from the ground to the frame.
const RECTS: [(&str, &str, Stretch); 9] = [
    ("rail-ground", "", |b| Span {
        x: 0.0,
        w: b.length(),
    }),
    ("rail-pay", "", |b| b.pay),
    ("rail-pattern", "over", |b| b.over),
    ("rail-keep", "", |b| b.keep),
    ("rail-cell", "", |b| b.aside),
    ("rail-packing", "", |b| b.packing),
    ("rail-pattern", "post", |b| b.postage),
    ("rail-pattern", "cut", |b| b.cut),
    ("rail-frame", "", |b| Span {
        x: 1.0,
        w: (b.length() - 2.0).max(0.0),
    }),
];

/// The lines of the picture, with the class of each.
const PATHS: [(&str, Line); 8] = [
    ("rail-dash", |l| dashes(&l.bar, l.bar.aside)),
    ("rail-short", |l| tongue(&l.bar)),
    ("rail-short-bars", |l| tongue_bars(&l.bar)),
    ("rail-paper", |l| paper(&l.bar)),
    ("rail-seams", |l| seams(&l.bar)),
    ("rail-leader", leaders),
    ("rail-gate-gap", |l| {
        gate(&l.bar, 5.5, l.bar.top + 2.0, l.bar.top + l.bar.height - 2.0)
    }),
    ("rail-gate", post),
];

impl Picture {
    /// Nothing drawn yet. `id` makes the pattern names of this rail its own.
    pub fn new(id: &str) -> Self {
        let rects = RECTS.map(|(class, fill, _)| {
            let rect = svg("rect").class(class).attr("height", "100%");
            if fill.is_empty() {
                rect
            } else {
                rect.attr("fill", &format!("url(#{id}-{fill})"))
            }
        });
        let paths = PATHS.map(|(class, _)| svg("path").class(class));
        let slides = ["rail-pointer hollow", "rail-pointer"].map(|class| {
            let pointer = svg("path").class(class);
            svg("g")
                .class("rail-pointer-slide")
                .with(pointer.attr("d", "M-9 -14H9L0 -1z"))
        });
        let flag_path = svg("path");
        let signs = [Verdict::Buy, Verdict::Haggle, Verdict::Leave].map(sign);
        let signs = svg("g").with(signs);
        let flag = svg("g")
            .class("rail-flag")
            .with([flag_path.clone(), signs.clone()]);
        let bar = svg("svg").class("rail-bar").with(rects.to_vec());
        let whole = svg("svg")
            .class("rail-picture")
            .attr("role", "img")
            .attr("width", "100%")
            .with(patterns(id))
            .with(bar.clone())
            .with(paths[..6].to_vec())
            .with(slides.to_vec())
            .with(paths[6..].to_vec())
            .with(flag);
        Self {
            image: Kept::new(&whole),
            whole,
            bar: Kept::new(&bar),
            rects: rects.each_ref().map(Kept::new),
            paths: paths.each_ref().map(Kept::new),
            slides: slides.each_ref().map(Kept::new),
            flag: Kept::new(&flag_path),
            signs: Kept::new(&signs),
        }
    }

    /// Draws the layout. Parts that stay slide to their new places.
    pub fn draw(&self, layout: &Layout, wanted: &Wanted, facts: &RailFacts) {
        let bar = &layout.bar;
        self.image.set("aria-label", Some(&facts.sentence(wanted)));
        self.image.set_length("height", layout.height);
        self.bar.set_length("y", bar.top);
        self.bar.set_length("height", bar.height);
        for (rect, (_, _, of)) in self.rects.iter().zip(RECTS) {
            let Span { x, w } = of(bar);
            rect.set_length("x", x);
            rect.set_length("width", w);
        }
        for (path, (_, d)) in self.paths.iter().zip(PATHS) {
            path.set("d", Some(&d(layout)));
        }
        for (slide, pointer) in self.slides.iter().zip([bar.before, bar.pointer]) {
            slide.set("hidden", pointer.is_none().then_some(""));
            if let Some(pointer) = pointer {
                let at = format!("translate({} {})", Px(pointer), Px(bar.top));
                slide.set("transform", Some(&at));
            }
        }
        self.hang(layout, facts.verdict);
    }

    fn hang(&self, layout: &Layout, verdict: Option<Verdict>) {
        let (Some(flag), Some(verdict)) = (&layout.flag, verdict) else {
            self.flag.set("class", Some("rail-furled"));
            self.flag.set("d", Some(&furled(layout)));
            return;
        };
        self.flag.set("class", Some("rail-flag-cloth"));
        self.flag.set("d", Some(&cloth(flag, verdict)));
        self.signs.set("transform", Some(&sign_at(flag)));
    }
}

/// Where the sign stands on the flag, and how large against its own box.
fn sign_at(flag: &Flag) -> String {
    let top = (flag.height - flag.sign) / 2.0;
    // A share needs more than a tenth.
    let thousandths = Px(flag.sign / SIGN_BOX * 100.0).tenths();
    let (whole, rest) = (thousandths / 1000, thousandths % 1000);
    let [left, top] = [flag.sign_left, top].map(Px);
    format!("translate({left} {top})scale({whole}.{rest:03})")
}

/// The fills: bars past the gate, postage diagonal, cut dots.
fn patterns(id: &str) -> El {
    let pattern = |what: &str, width: &str, height: &str| {
        let pattern = svg("pattern").attr("id", &format!("{id}-{what}"));
        pattern
            .attr("width", width)
            .attr("height", height)
            .attr("patternUnits", "userSpaceOnUse")
    };
    let path = |class: &str, d: &str| svg("path").class(class).attr("d", d);
    let dot = svg("circle")
        .class("rail-ink")
        .attr("cx", "3.5")
        .attr("cy", "3.5")
        .attr("r", "1.6");
    svg("defs")
        .with(pattern("over", "8", "9").with(path("rail-pay-bars", "M0 0h8v5.5H0z")))
        .with(pattern("post", "9", "9").with(path("rail-hatch", "M-2 2 2-2M-2 11 11-2M7 11l4-4")))
        .with(pattern("cut", "7", "7").with(dot))
}

/// The flag's outline: a pointed end, a notched end or a straight end.
fn cloth(flag: &Flag, verdict: Verdict) -> String {
    let (post, body, tip) = match flag.side {
        Side::Right => (
            flag.left,
            flag.left + flag.width - flag.tail,
            flag.left + flag.width,
        ),
        Side::Left => (flag.left + flag.width, flag.left + flag.tail, flag.left),
    };
    let [post, body, tip] = [post, body, tip].map(Px);
    let [top, middle, foot] = [1.0, flag.height / 2.0, flag.height - 1.0].map(Px);
    let end = match verdict {
        Verdict::Buy => format!("H{body}L{tip} {middle} {body} {foot}"),
        Verdict::Haggle => format!("H{tip}L{body} {middle} {tip} {foot}"),
        Verdict::Leave => format!("H{body}V{foot}"),
    };
    format!("M{post} {top}{end}H{post}z")
}

/// A flag that is rolled up along the post, tied twice.
fn furled(layout: &Layout) -> String {
    let x = layout.bar.gate;
    let out = if x < layout.bar.length() / 2.0 {
        1.0
    } else {
        -1.0
    };
    let [near, far] = [x + 2.5 * out, x + 12.5 * out].map(Px);
    let high = layout.flag_height;
    let [foot, tie, other] = [high - 2.0, high * 0.3, high * 0.7].map(Px);
    format!("M{near} 2H{far}V{foot}H{near}M{near} {tie}H{far}M{near} {other}H{far}")
}

/// The post from the flag to its foot under the bar.
fn post(layout: &Layout) -> String {
    let bar = &layout.bar;
    let foot = bar.top + bar.height + 5.0;
    let stem = gate(bar, 2.5, 0.0, foot);
    let from = (bar.gate - 8.5).max(0.0);
    let to = (bar.gate + 8.5).min(bar.length().max(17.0));
    let [from, to, foot] = [from, to, foot].map(Px);
    format!("{stem}M{from} {foot}H{to}v4H{from}z")
}

/// An upright at the gate, kept on the page when the gate stands at an end of the bar.
fn gate(bar: &Bar, half: f64, from: f64, to: f64) -> String {
    let middle = bar.gate.clamp(2.5, (bar.length() - 2.5).max(2.5));
    let [left, right, from, to] = [middle - half, middle + half, from, to].map(Px);
    format!("M{left} {from}H{right}V{to}H{left}z")
}

/// A line of paper where what is paid ends and what is kept begins.
fn paper(bar: &Bar) -> String {
    let x = bar.keep.x;
    let is_seen = bar.pointer.is_some() && x > 2.0 && bar.keep.w > 3.0;
    if is_seen {
        across(bar, x)
    } else {
        String::new()
    }
}

/// Lines between the parts.
fn seams(bar: &Bar) -> String {
    let mut path = String::new();
    for x in [bar.aside.x, bar.packing.x, bar.postage.x, bar.cut.x] {
        if x > 2.0 && x < bar.length() - 2.0 {
            path += &across(bar, x);
        }
    }
    path
}

fn across(bar: &Bar, x: f64) -> String {
    let [x, top, height] = [x, bar.top, bar.height].map(Px);
    format!("M{x} {top}v{height}")
}

/// The dashed frame inside the hollow part.
fn dashes(bar: &Bar, span: Span) -> String {
    let inset = 5.0;
    let span = Span {
        x: span.x + inset,
        w: (span.w - inset * 2.0).max(0.0),
    };
    block(span, bar.top + inset, bar.height - inset * 2.0)
}

/// The brick tongue, lower than the bar so that what it runs into stays in sight.
fn tongue(bar: &Bar) -> String {
    let inset = bar.height * 0.22;
    block(bar.short, bar.top + inset, bar.height - inset * 2.0)
}

/// A block; nothing when it is too narrow to be seen.
fn block(Span { x, w }: Span, top: f64, height: f64) -> String {
    if w < 4.0 {
        return String::new();
    }
    let [x, w, top, height] = [x, w, top, height].map(Px);
    format!("M{x} {top}h{w}v{height}h-{w}z")
}

fn tongue_bars(bar: &Bar) -> String {
    let Span { x, w } = bar.short;
    if w < 4.0 {
        return String::new();
    }
    let [x, w] = [x + 1.0, w - 2.0].map(Px);
    let [from, to] = [0.42, 0.58].map(|share| Px(bar.top + bar.height * share));
    format!("M{x} {from}h{w}M{x} {to}h{w}")
}

fn leaders(layout: &Layout) -> String {
    let mut path = String::new();
    for leader in &layout.leaders {
        let ((x, y), (to, end)) = (leader.from, leader.to);
        let [x, y, to, bend, end] = [x, y, to, end - 3.0, end].map(Px);
        // A text takes all that is written to it.
        let _ = write!(path, "M{x} {y}v3L{to} {bend}V{end}");
    }
    path
}
