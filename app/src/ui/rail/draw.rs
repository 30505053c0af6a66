//! The rail's picture: bar, gate, pointer, flag and leaders. Its elements stay the same while amounts change, so that
//! parts can slide; the words are laid over it by the parent, as buttons.

use haulwren_core::appraise::Verdict;
use std::fmt::Write as _;

use leptos::prelude::*;

use super::place::{Bar, Flag, Layout, Side, Span};
use crate::ui::el::{El, svg};
use crate::ui::verdict::{name as name_of, sign};

/// The picture of `layout`. `name` is the sentence that is read out; `id` makes the pattern names of this rail its own.
pub fn picture(
    layout: Memo<Option<Layout>>,
    verdict: Signal<Option<Verdict>>,
    name: Signal<String>,
    id: &'static str,
) -> El {
    let bar = Memo::new(move |_| layout.with(|l| l.as_ref().map(|l| l.bar).unwrap_or_default()));
    let path = move |class: &str, d: fn(&Bar) -> Option<String>| {
        svg("path").class(class).attr_of("d", move || bar.with(d))
    };
    let whole = move |class: &str, d: fn(&Layout) -> String| {
        svg("path")
            .class(class)
            .attr_of("d", move || layout.with(|l| l.as_ref().map(d)))
    };
    let part = move |class: &str, of: fn(&Bar) -> Span| {
        let rect = svg("rect").class(class);
        rect.attr_of("x", move || Some(px(bar.with(of).x)))
            .attr_of("y", move || Some(px(bar.with(|b| b.top))))
            .attr_of("width", move || Some(px(bar.with(of).w)))
            .attr_of("height", move || Some(px(bar.with(|b| b.height))))
    };
    let filled =
        move |what: &str, of| part("rail-pattern", of).attr("fill", &format!("url(#{id}-{what})"));
    let frame = part("rail-frame", |b| Span {
        x: 1.0,
        w: (b.length() - 2.0).max(0.0),
    });
    let slide = move || {
        let (x, y) = bar.with(|b| (b.pointer.unwrap_or(0.0), b.top));
        Some(format!("translate({} {})", px(x), px(y)))
    };
    let pointer = path("rail-pointer", |b| {
        b.pointer.map(|_| "M-9 -14H9L0 -1z".to_owned())
    });
    let flag = move || {
        layout.with(|l| {
            let l = l.as_ref()?;
            Some(match (&l.flag, verdict.get()) {
                (Some(flag), Some(verdict)) => flag_picture(flag, verdict),
                _ => svg("path").class("rail-furled").attr("d", &furled(l)),
            })
        })
    };
    svg("svg")
        .class("rail-picture")
        .attr("role", "img")
        .attr_of("aria-label", move || Some(name.get()))
        .attr("width", "100%")
        .attr_of("height", move || {
            Some(px(layout.with(|l| l.as_ref().map_or(0.0, |l| l.height))))
        })
        .with(patterns(id))
        .with(part("rail-ground", |b| Span {
            x: 0.0,
            w: b.length(),
        }))
        .with(part("rail-pay", |b| b.pay))
        .with(filled("over", |b| b.over))
        .with(part("rail-keep", |b| b.keep))
        .with(part("rail-cell", |b| b.aside))
        .with(path("rail-dash", |b| dashes(b, b.aside)))
        .with(part("rail-packing", |b| b.packing))
        .with(filled("post", |b| b.postage))
        .with(filled("cut", |b| b.cut))
        .with(path("rail-short", tongue))
        .with(path("rail-short-bars", tongue_bars))
        .with(path("rail-paper", paper))
        .with(path("rail-seams", |b| Some(seams(b))))
        .with(frame)
        .with(whole("rail-leader", leaders))
        .with(
            svg("g")
                .class("rail-pointer-slide")
                .attr_of("transform", slide)
                .with(pointer),
        )
        .with(path("rail-gate-gap", |b| {
            Some(gate(b, 5.5, b.top + 2.0, b.top + b.height - 2.0))
        }))
        .with(whole("rail-gate", post))
        .with(svg("g").show(flag))
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

fn flag_picture(flag: &Flag, verdict: Verdict) -> El {
    let class = format!("rail-flag tone-{}", name_of(verdict));
    let top = (flag.height - flag.sign) / 2.0;
    let scale = flag.sign / 44.0;
    let place = format!(
        "translate({} {}) scale({scale:.3})",
        px(flag.sign_left),
        px(top)
    );
    let sign = (flag.sign > 0.0).then(|| svg("g").attr("transform", &place).with(sign(verdict)));
    let cloth = svg("path")
        .class("rail-flag-cloth")
        .attr("d", &cloth(flag, verdict));
    svg("g").class(&class).with(cloth).with(sign)
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
    let (top, foot) = (1.0, flag.height - 1.0);
    let middle = flag.height / 2.0;
    let end = match verdict {
        Verdict::Buy => format!("H{body:.1}L{tip:.1} {middle:.1} {body:.1} {foot:.1}"),
        Verdict::Haggle => format!("H{tip:.1}L{body:.1} {middle:.1} {tip:.1} {foot:.1}"),
        Verdict::Leave => format!("H{body:.1}V{foot:.1}"),
    };
    format!("M{post:.1} {top:.1}{end}H{post:.1}z")
}

/// A flag that is rolled up along the post, tied twice.
fn furled(layout: &Layout) -> String {
    let x = layout.bar.gate;
    let to_right = x < layout.bar.length() / 2.0;
    let (near, far) = if to_right {
        (x + 2.5, x + 12.5)
    } else {
        (x - 2.5, x - 12.5)
    };
    let foot = layout.flag_height - 2.0;
    let (tie, other) = (layout.flag_height * 0.3, layout.flag_height * 0.7);
    format!(
        "M{near:.1} 2H{far:.1}V{foot:.1}H{near:.1}M{near:.1} {tie:.1}H{far:.1}M{near:.1} {other:.1}H{far:.1}"
    )
}

/// The post from the flag to its foot under the bar.
fn post(layout: &Layout) -> String {
    let bar = &layout.bar;
    let foot = bar.top + bar.height + 5.0;
    let stem = gate(bar, 2.5, 0.0, foot);
    let (from, to) = (
        (bar.gate - 8.5).max(0.0),
        (bar.gate + 8.5).min(bar.length().max(17.0)),
    );
    format!("{stem}M{from:.1} {foot:.1}H{to:.1}v4H{from:.1}z")
}

/// An upright at the gate, kept on the page when the gate stands at an end of the bar.
fn gate(bar: &Bar, half: f64, from: f64, to: f64) -> String {
    let middle = bar.gate.clamp(2.5, (bar.length() - 2.5).max(2.5));
    format!(
        "M{:.1} {from:.1}h{:.1}V{to:.1}h-{:.1}z",
        middle - half,
        half * 2.0,
        half * 2.0
    )
}

/// A line of paper where what is paid ends and what is kept begins.
fn paper(bar: &Bar) -> Option<String> {
    let x = bar.keep.x;
    (bar.pointer.is_some() && x > 2.0 && bar.keep.w > 3.0)
        .then(|| format!("M{x:.1} {:.1}v{:.1}", bar.top, bar.height))
}

/// Lines between the parts.
fn seams(bar: &Bar) -> String {
    let within = |x: &f64| *x > 2.0 && *x < bar.length() - 2.0;
    let ends = [bar.aside.x, bar.packing.x, bar.postage.x, bar.cut.x]
        .into_iter()
        .filter(within);
    ends.fold(String::new(), |mut path, x| {
        let _ = write!(path, "M{x:.1} {:.1}v{:.1}", bar.top, bar.height);
        path
    })
}

/// The dashed frame inside the hollow part.
fn dashes(bar: &Bar, span: Span) -> Option<String> {
    let inset = 5.0;
    let (w, h) = (span.w - inset * 2.0, bar.height - inset * 2.0);
    (w > 4.0).then(|| {
        format!(
            "M{:.1} {:.1}h{w:.1}v{h:.1}h-{w:.1}z",
            span.x + inset,
            bar.top + inset
        )
    })
}

/// The brick tongue, lower than the bar so that what it runs into stays in sight.
fn tongue(bar: &Bar) -> Option<String> {
    let Span { x, w } = bar.short;
    let inset = bar.height * 0.22;
    let high = bar.height - inset * 2.0;
    (w > 0.0).then(|| format!("M{x:.1} {:.1}h{w:.1}v{high:.1}h-{w:.1}z", bar.top + inset))
}

fn tongue_bars(bar: &Bar) -> Option<String> {
    let Span { x, w } = bar.short;
    let (from, to) = (bar.top + bar.height * 0.42, bar.top + bar.height * 0.58);
    (w > 4.0).then(|| {
        let (x, w) = (x + 1.0, w - 2.0);
        format!("M{x:.1} {from:.1}h{w:.1}M{x:.1} {to:.1}h{w:.1}")
    })
}

fn leaders(layout: &Layout) -> String {
    layout
        .leaders
        .iter()
        .fold(String::new(), |mut path, leader| {
            let ((x, y), (to, end)) = (leader.from, leader.to);
            let _ = write!(path, "M{x:.1} {y:.1}v3L{to:.1} {:.1}V{end:.1}", end - 3.0);
            path
        })
}

fn px(length: f64) -> String {
    format!("{length:.1}")
}
