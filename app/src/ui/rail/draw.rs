//! The rail's picture: bar, gate, pointer, flag and leaders. Its elements stay the same while amounts change, so that
//! parts can slide; the words are laid over it by the parent, as buttons.

use haulwren_core::appraise::Verdict;
use std::fmt::Write as _;

use leptos::prelude::*;

use super::place::{Bar, Flag, Layout, Side, Span};
use crate::ui::verdict::{name as name_of, sign};

/// The picture of `layout`. `name` is the sentence that is read out.
#[component]
pub fn Picture(
    /// What to draw.
    layout: Memo<Option<Layout>>,
    /// The verdict.
    verdict: Signal<Option<Verdict>>,
    /// The sentence that is read out.
    name: Signal<String>,
    /// A word that makes the pattern names of this rail its own.
    id: &'static str,
) -> impl IntoView {
    let bar = Memo::new(move |_| layout.with(|l| l.as_ref().map(|l| l.bar).unwrap_or_default()));
    let part = move |class: &'static str, fill: Option<String>, of: fn(&Bar) -> Span| {
        let span = Memo::new(move |_| bar.with(of));
        view! {
            <rect
                class=class
                fill=fill
                x=move || px(span.get().x)
                y=move || px(bar.with(|b| b.top))
                width=move || px(span.get().w)
                height=move || px(bar.with(|b| b.height))
            />
        }
    };
    let fill = move |what: &str| Some(format!("url(#{id}-{what})"));
    view! {
        <svg
            class="rail-picture"
            role="img"
            aria-label=name
            width="100%"
            height=move || px(layout.with(|l| l.as_ref().map_or(0.0, |l| l.height)))
        >
            <Patterns id />
            <rect
                class="rail-ground"
                x="0"
                width="100%"
                y=move || px(bar.with(|b| b.top))
                height=move || px(bar.with(|b| b.height))
            />
            {part("rail-pay", None, |b| b.pay)}
            {part("rail-pattern", fill("over"), |b| b.over)}
            {part("rail-keep", None, |b| b.keep)}
            {part("rail-cell", None, |b| b.aside)}
            <path class="rail-dash" d=move || bar.with(|b| dashes(b, b.aside)) />
            {part("rail-packing", None, |b| b.packing)}
            {part("rail-pattern", fill("post"), |b| b.postage)}
            {part("rail-pattern", fill("cut"), |b| b.cut)}
            <path class="rail-short" d=move || bar.with(tongue) />
            <path class="rail-short-bars" d=move || bar.with(tongue_bars) />
            <path class="rail-paper" d=move || bar.with(paper) />
            <path class="rail-seams" d=move || bar.with(seams) />
            <rect
                class="rail-frame"
                x="1"
                width=move || px(layout.with(|l| l.as_ref().map_or(0.0, |_| bar.with(Bar::length) - 2.0)).max(0.0))
                y=move || px(bar.with(|b| b.top + 1.0))
                height=move || px(bar.with(|b| (b.height - 2.0).max(0.0)))
            />
            <path class="rail-leader" d=move || layout.with(|l| l.as_ref().map(leaders)) />
            <g class="rail-pointer-slide" transform=move || {
                bar.with(|b| format!("translate({} {})", px(b.pointer.unwrap_or(0.0)), px(b.top)))
            }>
                <path class="rail-pointer" d=move || bar.with(|b| b.pointer.map(|_| "M-9 -14H9L0 -1z")) />
            </g>
            <path class="rail-gate-gap" d=move || bar.with(|b| gate(b, 5.5, b.top + 2.0, b.top + b.height - 2.0)) />
            <path class="rail-gate" d=move || layout.with(|l| l.as_ref().map(post)) />
            {move || layout.with(|l| {
                let l = l.as_ref()?;
                Some(match (&l.flag, verdict.get()) {
                    (Some(flag), Some(verdict)) => flag_picture(flag, verdict).into_any(),
                    _ => view! { <path class="rail-furled" d=furled(l) /> }.into_any(),
                })
            })}
        </svg>
    }
}

/// The fills: bars past the gate, postage diagonal, cut dots.
#[component]
fn Patterns(id: &'static str) -> impl IntoView {
    view! {
        <defs>
            <pattern id=format!("{id}-over") width="8" height="9" patternUnits="userSpaceOnUse">
                <path class="rail-pay-bars" d="M0 0h8v5.5H0z" />
            </pattern>
            <pattern id=format!("{id}-post") width="9" height="9" patternUnits="userSpaceOnUse">
                <path class="rail-hatch" d="M-2 2 2-2M-2 11 11-2M7 11l4-4" />
            </pattern>
            <pattern id=format!("{id}-cut") width="7" height="7" patternUnits="userSpaceOnUse">
                <circle class="rail-ink" cx="3.5" cy="3.5" r="1.6" />
            </pattern>
        </defs>
    }
}

fn flag_picture(flag: &Flag, verdict: Verdict) -> impl IntoView {
    let class = format!("rail-flag tone-{}", name_of(verdict));
    let scale = flag.sign / 44.0;
    let top = (flag.height - flag.sign) / 2.0;
    let place = format!(
        "translate({} {}) scale({scale:.3})",
        px(flag.sign_left),
        px(top)
    );
    view! {
        <g class=class>
            <path class="rail-flag-cloth" d=cloth(flag, verdict) />
            {(flag.sign > 0.0).then(|| view! { <g transform=place>{sign(verdict)}</g> })}
        </g>
    }
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
