//! In and under the bar: a part wide enough carries its own word and amount, the others get a leader, and what finds no
//! room even there goes to a list.

use super::spread::spread;
use super::{Bar, Figure, LOW_BAR, Label, Lean, Measure, Row, Sizes, Span, TAP, Wanted, Words};

/// A line from a part to its label.
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
    let (inside, outside): (Vec<_>, Vec<_>) = wanted
        .parts
        .iter()
        .map(|words| (words, room_inside(words, bar, sizes, measure)))
        .partition(|(_, room)| room.is_some());
    let caption = Caption::of(wanted, sizes, measure);
    let outside: Vec<&Words> = outside.into_iter().map(|(words, _)| words).collect();
    let row = under(&outside, caption.as_ref(), wanted, bar, sizes, measure);

    let height = if caption.is_none() || row.beside_caption {
        sizes.bar
    } else {
        (sizes.bar - CAPTION_ROW).max(LOW_BAR * s)
    };
    let foot = top + height;
    let row_top = foot + 14.0 * s;
    let row_height = (36.0 * s).max(TAP);
    let has_row = !row.placed.is_empty() || row.beside_caption;
    // The room that only fingers need may reach into what follows.
    let end = if has_row {
        row_top + row_height - 8.0
    } else {
        foot + 14.0 * s
    };

    let mut labels: Vec<Label> = inside
        .into_iter()
        .filter_map(|(words, room)| room.map(|room| (words, room)))
        .map(|(words, (span, size))| Label {
            of: words.of,
            left: span.x,
            top: top - (TAP - height).max(0.0) / 2.0,
            width: span.w,
            height: height.max(TAP),
            lean: Lean::Middle,
            row: Row::Inside,
            size: size.min(height - 18.0 * s),
        })
        .collect();
    let mut leaders = Vec::new();
    for placed in &row.placed {
        let at = Label {
            top: row_top,
            height: row_height,
            ..*placed
        };
        labels.push(at);
        let from = (anchor(bar, at.of), foot + 2.0);
        leaders.push(Leader {
            of: at.of,
            from,
            to: (at.left + at.width / 2.0, row_top + 3.0),
        });
    }
    let mut total = end;
    if let Some(caption) = caption {
        let label = caption.label(wanted, &row, (row_top, row_height), (end, has_row), sizes);
        total =
            total.max(label.top + label.height - if label.row == Row::Line { 10.0 } else { 8.0 });
        labels.push(label);
    }
    Below {
        labels,
        leaders,
        listed: row.listed,
        height: total,
        bar: height,
    }
}

/// What a caption on a line of its own takes from the bar, so that the rail stays as high as it is.
const CAPTION_ROW: f64 = TAP - 22.0;

/// The stretch of the bar and the size of the amount, when the part can carry its own words.
fn room_inside(
    words: &Words,
    bar: &Bar,
    sizes: &Sizes,
    measure: Measure<'_>,
) -> Option<(Span, f64)> {
    // Patterns are dark: their words stand on a plate, which needs room around it.
    let around = match words.of {
        Figure::Pay | Figure::Keep => 6.0,
        Figure::Aside => 16.0,
        _ => 28.0,
    };
    // The tongue is too low for words, and lies in the part that is set aside.
    let is_crossed = bar.short.w > 0.0 && matches!(words.of, Figure::Keep | Figure::Aside);
    let span = bar.clear_of_gate(bar.span_of(words.of), 5.5);
    let wished = if words.of == Figure::Keep {
        sizes.keep
    } else {
        sizes.small
    };
    let fits = |size: &f64| sizes.words(words, *size, measure) + around * sizes.scale <= span.w;
    let size = [wished, sizes.small].into_iter().find(fits)?;
    (!is_crossed && span.w >= TAP).then_some((span, size))
}

fn anchor(bar: &Bar, of: Figure) -> f64 {
    bar.clear_of_gate(bar.span_of(of), 0.0).middle()
}

/// The row of labels under the bar; their upper edges and heights are not set yet.
struct Under {
    placed: Vec<Label>,
    listed: Vec<Figure>,
    beside_caption: bool,
}

fn under(
    outside: &[&Words],
    caption: Option<&Caption>,
    wanted: &Wanted,
    bar: &Bar,
    sizes: &Sizes,
    measure: Measure<'_>,
) -> Under {
    // They come in the rail's order; only the tongue may reach past parts that come after it.
    let mut sorted: Vec<&Words> = Vec::with_capacity(outside.len());
    for words in outside {
        let comes_after = |other: &&Words| anchor(bar, other.of) > anchor(bar, words.of);
        let place = sorted.iter().position(comes_after).unwrap_or(sorted.len());
        sorted.insert(place, words);
    }
    let boxes: Vec<(f64, f64)> = sorted
        .iter()
        .map(|words| {
            let width = sizes.words(words, sizes.small, measure) + 2.0;
            (anchor(bar, words.of), width.max(TAP))
        })
        .collect();
    // Beside the caption where all parts lie to its right; else over the whole width.
    let beside = caption.map(|caption| caption.widest + sizes.gap);
    let shared = beside
        .filter(|beside| boxes.iter().all(|(anchor, _)| anchor >= beside))
        .and_then(|beside| spread(&boxes, 6.0, beside, wanted.width));
    let beside_caption = shared.is_some();
    let over_all = |gap: &f64| spread(&boxes, *gap, 0.0, wanted.width);
    let lefts = shared.or_else(|| [6.0, 2.0].iter().find_map(over_all));
    let Some(lefts) = lefts else {
        let listed = sorted.iter().map(|words| words.of).collect();
        return Under {
            placed: Vec::new(),
            listed,
            beside_caption,
        };
    };
    let label = |((words, (_, width)), left): ((&&Words, &(f64, f64)), f64)| Label {
        of: words.of,
        left,
        top: 0.0,
        width: *width,
        height: 0.0,
        lean: Lean::Middle,
        row: Row::Below,
        size: sizes.small,
    };
    let placed = sorted.iter().zip(&boxes).zip(lefts).map(label).collect();
    Under {
        placed,
        listed: Vec::new(),
        beside_caption,
    }
}

/// The sentences about the low price.
struct Caption {
    /// Width of the longest.
    widest: f64,
    /// Width of all on one line.
    whole: f64,
}

impl Caption {
    fn of(wanted: &Wanted, sizes: &Sizes, measure: Measure<'_>) -> Option<Self> {
        let (words, rest) = wanted.low.as_ref()?;
        let size = 14.0 * sizes.scale;
        let space = measure("n", size, false) * 0.6;
        let first = measure(&words.word, size, false) + space + measure(&words.amount, size, true);
        let second = measure(rest, size, false);
        Some(Self {
            widest: first.max(second) + 2.0,
            whole: first + space + second + 4.0,
        })
    }

    fn label(
        &self,
        wanted: &Wanted,
        row: &Under,
        (row_top, row_height): (f64, f64),
        (end, has_row): (f64, bool),
        sizes: &Sizes,
    ) -> Label {
        let s = sizes.scale;
        let (width, top, height, at) = if row.beside_caption {
            (self.widest, row_top, row_height, Row::Below)
        } else if self.whole <= wanted.width {
            (
                self.whole,
                if has_row { end - 4.0 } else { end - 8.0 },
                TAP,
                Row::Line,
            )
        } else {
            (wanted.width, end, (44.0 * s).max(TAP), Row::Line)
        };
        Label {
            of: Figure::LowKeep,
            left: 0.0,
            top,
            width,
            height,
            lean: Lean::Left,
            row: at,
            size: 14.0 * s,
        }
    }
}
