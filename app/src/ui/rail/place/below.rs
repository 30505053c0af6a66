//! In and under the bar: a part wide enough carries its own word and amount, the others get a leader, and what finds no
//! room even there goes to a list.

use super::spread::spread;
use super::{Bar, Figure, Label, Lean, Measure, Row, Sizes, TAP, Wanted, Words};

/// A line from a part to its label: three points.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Leader {
    /// The part.
    pub of: Figure,
    /// Where it leaves the bar.
    pub from: (f64, f64),
    /// Where it meets the label.
    pub to: (f64, f64),
}

/// What lies in and under the bar.
pub struct Below {
    pub labels: Vec<Label>,
    pub leaders: Vec<Leader>,
    pub listed: Vec<Figure>,
    pub height: f64,
    pub bar: f64,
}

/// Places it under a bar that starts at `top`.
pub fn below(wanted: &Wanted, bar: &Bar, sizes: &Sizes, top: f64, measure: Measure<'_>) -> Below {
    let s = sizes.scale;
    let inside = |words: &Words| {
        let size = if words.of == Figure::Keep {
            sizes.keep
        } else {
            sizes.small
        };
        // Patterns are dark: their words stand on a plate, which needs room around it.
        let room = match words.of {
            Figure::Pay | Figure::Keep => 6.0,
            Figure::Aside => 16.0,
            _ => 28.0,
        };
        let span = bar.clear_of_gate(bar.span_of(words.of), 5.5);
        let fits = |size| sizes.words(words, size, measure) + room * s <= span.w;
        let size = if fits(size) { size } else { sizes.small };
        let is_tongue = words.of == Figure::Keep && bar.short.w > 0.0;
        // The tongue lies in the part that is set aside.
        let is_crossed = words.of == Figure::Aside && bar.short.w > 0.0;
        (fits(size) && span.w >= TAP && !is_tongue && !is_crossed).then_some((span, size))
    };
    let mut labels = Vec::new();
    let mut outside: Vec<&Words> = Vec::new();
    for words in &wanted.parts {
        match inside(words) {
            Some((span, size)) => labels.push(Label {
                of: words.of,
                left: span.x,
                top,
                width: span.w,
                height: 0.0,
                lean: Lean::Middle,
                row: Row::Inside,
                size,
            }),
            None => outside.push(words),
        }
    }

    let anchor = |words: &Words| bar.clear_of_gate(bar.span_of(words.of), 0.0).middle();
    outside.sort_by(|a, b| anchor(a).total_cmp(&anchor(b)));
    let boxes: Vec<(f64, f64)> = outside
        .iter()
        .map(|words| {
            (
                anchor(words),
                (sizes.words(words, sizes.small, measure) + 2.0).max(TAP),
            )
        })
        .collect();
    let line = |text: &String| measure(text, 14.0 * s, true);
    let caption = wanted.low.iter().map(line).fold(0.0, f64::max);
    let beside = caption + sizes.gap * 2.0;
    let free = boxes
        .iter()
        .all(|(anchor, _)| *anchor >= beside.min(wanted.width));
    let shared = if free && caption > 0.0 {
        spread(&boxes, sizes.gap, beside, wanted.width)
    } else {
        None
    };
    let is_shared = shared.is_some();
    let placed = shared.or_else(|| spread(&boxes, sizes.gap.min(6.0), 0.0, wanted.width));

    let caption_line = if caption > 0.0 && !is_shared {
        TAP - 12.0
    } else {
        0.0
    };
    let height = if wanted.compact {
        sizes.bar
    } else {
        (sizes.bar - caption_line).max(40.0 * s)
    };
    for label in &mut labels {
        label.height = height;
    }
    let foot = top + height;
    let row_top = foot + 14.0 * s;
    let row_height = (36.0 * s).max(TAP);
    let mut leaders = Vec::new();
    let mut listed = Vec::new();
    if let Some(lefts) = placed {
        for ((words, (from, width)), left) in outside.iter().zip(&boxes).zip(lefts) {
            labels.push(Label {
                of: words.of,
                left,
                top: row_top,
                width: *width,
                height: row_height,
                lean: Lean::Middle,
                row: Row::Below,
                size: sizes.small,
            });
            leaders.push(Leader {
                of: words.of,
                from: (*from, foot + 2.0),
                to: (left + width / 2.0, row_top + 3.0),
            });
        }
    } else {
        listed.extend(outside.iter().map(|words| words.of));
    }

    let has_row = !leaders.is_empty() || is_shared;
    let mut end = if has_row {
        row_top + row_height
    } else {
        foot + 14.0 * s
    };
    if caption > 0.0 {
        let whole: f64 = wanted.low.iter().map(line).sum::<f64>() + 4.0 * s;
        let (left, width, top, tall) = if is_shared {
            (0.0, caption, row_top, row_height)
        } else if whole <= wanted.width {
            (
                0.0,
                whole,
                if has_row { end - 12.0 } else { foot + 8.0 },
                TAP,
            )
        } else {
            (0.0, wanted.width, end, (44.0 * s).max(TAP))
        };
        labels.push(Label {
            of: Figure::LowKeep,
            left,
            top,
            width,
            height: tall,
            lean: Lean::Left,
            row: Row::Line,
            size: 14.0 * s,
        });
        end = end.max(top + tall);
    }
    Below {
        labels,
        leaders,
        listed,
        height: end,
        bar: height,
    }
}
