//! Over the bar: "No more than" at the gate, "Asking" at its pointer, "Buyer pays" at the end. The post runs through this row.

use super::{Bar, Figure, Label, Lean, Measure, Row, Sizes, TAP, Wanted};

/// The labels, their upper edges counted from the bar's, and the height of a line that had to be added.
pub fn above(wanted: &Wanted, bar: &Bar, sizes: &Sizes, measure: Measure<'_>) -> (Vec<Label>, f64) {
    let s = sizes.scale;
    let row = InRow {
        height: (46.0 * s).max(TAP),
        lift: 3.0 * s,
    };
    let wants_right = wanted.ask.is_none_or(|ask| ask <= wanted.ceiling);

    let wide = sizes.words(&wanted.limit, sizes.head, measure).max(TAP);
    let limit = beside_gate(wanted, bar, sizes, wide, wants_right);
    let lean = if limit > bar.gate {
        Lean::Left
    } else {
        Lean::Right
    };
    let limit = row.label(Figure::Ceiling, limit, wide, lean, sizes.head);

    let wide = sizes.words(&wanted.buyer, sizes.small, measure).max(TAP);
    let (buyer, extra) = end_of_rail(wanted, bar, sizes, &row, &limit, wide);
    // The pointer stands under the row's free places; where there is none, the row makes way.
    let is_under = |label: &Label, x: f64| {
        label.row == Row::Above
            && x + 10.0 > label.left
            && x - 10.0 < label.left + label.width
            && label.top > -sizes.flag
    };
    let mut labels = vec![limit, buyer];
    let lifts = bar
        .pointer
        .is_some_and(|x| labels.iter().any(|label| is_under(label, x)));
    // Two pointers find no free places: then the whole row stands over them.
    let lift = if lifts || bar.before.is_some() {
        12.0
    } else {
        0.0
    };
    for label in &mut labels {
        label.top -= lift;
    }
    if let Some(mut asking) = at_pointer(wanted, bar, sizes, &row, &labels, measure) {
        if bar.before.is_some() {
            asking.top -= lift;
        }
        labels.push(asking);
    }
    let extra = extra + lift;
    (labels, extra)
}

struct InRow {
    height: f64,
    lift: f64,
}

impl InRow {
    fn label(&self, of: Figure, left: f64, width: f64, lean: Lean, size: f64) -> Label {
        let top = -self.height - self.lift;
        Label {
            of,
            left,
            top,
            width,
            height: self.height,
            lean,
            row: Row::Above,
            size,
        }
    }
}

/// The left edge of "No more than": on the side of the post where the pointer is not, if it fits there.
fn beside_gate(wanted: &Wanted, bar: &Bar, sizes: &Sizes, wide: f64, wants_right: bool) -> f64 {
    let right = bar.gate + POST + sizes.gap;
    let left = bar.gate - POST - sizes.gap - wide;
    let fits_right = right + wide <= wanted.width;
    if left >= 0.0 && !(wants_right && fits_right) {
        left
    } else if fits_right {
        right
    } else {
        left.max(0.0)
    }
}

/// "Buyer pays": at the rail's end in the row; else beside the post opposite the flag; else next to "No more than";
/// else on a line of its own.
fn end_of_rail(
    wanted: &Wanted,
    bar: &Bar,
    sizes: &Sizes,
    row: &InRow,
    limit: &Label,
    wide: f64,
) -> (Label, f64) {
    let label = |left, lean| row.label(Figure::BuyerPays, left, wide, lean, sizes.small);
    let limit_end = limit.left + limit.width;
    let taken = limit_end.max(bar.gate + POST);
    if taken + sizes.gap <= wanted.width - wide {
        return (label(wanted.width - wide, Lean::Right), 0.0);
    }
    let flag_flies_left = wanted.flag.is_some() && bar.gate > wanted.width / 2.0;
    if flag_flies_left && bar.gate + POST + sizes.gap + wide <= wanted.width {
        let up = sizes.flag + sizes.above - 2.0;
        return (
            Label {
                top: -up,
                ..label(wanted.width - wide, Lean::Right)
            },
            0.0,
        );
    }
    if limit.left - sizes.gap * 2.0 - wide >= 0.0 && limit.left < bar.gate {
        return (label(limit.left - sizes.gap * 2.0 - wide, Lean::Right), 0.0);
    }
    let left = if bar.gate > wanted.width / 2.0 {
        0.0
    } else {
        wanted.width - wide
    };
    let lean = if left > 0.0 { Lean::Right } else { Lean::Left };
    (
        Label {
            top: -sizes.above - row.height,
            ..label(left.max(0.0), lean)
        },
        row.height,
    )
}

/// "Asking" beside its pointer. Left out when both sides are taken: the pointer stays, and the amount stands in its
/// own field below.
fn at_pointer(
    wanted: &Wanted,
    bar: &Bar,
    sizes: &Sizes,
    row: &InRow,
    others: &[Label],
    measure: Measure<'_>,
) -> Option<Label> {
    let (words, x) = (wanted.asking.as_ref()?, bar.pointer?);
    let s = sizes.scale;
    let size = 22.0 * s;
    let wide = sizes.words(words, size, measure);
    let tip = 12.0 * s;
    let top = -row.height - 1.0;
    let is_free = |from: f64| {
        let to = from + wide;
        let clear_of = |other: &Label| {
            other.top + other.height <= top
                || from >= other.left + other.width + 6.0
                || to + 6.0 <= other.left
        };
        from >= 0.0
            && to <= wanted.width
            && (to <= bar.gate - POST - 2.0 || from >= bar.gate + POST + 2.0)
            && others.iter().all(clear_of)
    };
    let before = (x - tip - wide, Lean::Right);
    let after = (x + tip, Lean::Left);
    // Lifted over both pointers, it may also stand over its own, as far as the post.
    let to_post = (bar.gate - POST - 4.0 - wide, Lean::Right);
    let from_post = (bar.gate + POST + 4.0, Lean::Left);
    let order = match (x <= bar.gate, bar.before) {
        (true, None) => [before, after, before],
        (true, Some(_)) => [before, to_post, after],
        (false, None) => [after, before, after],
        (false, Some(_)) => [after, from_post, before],
    };
    let (left, lean) = order.into_iter().find(|(left, _)| is_free(*left))?;
    Some(Label {
        top,
        ..row.label(Figure::Ask, left, wide, lean, size)
    })
}

/// Half the post's width.
const POST: f64 = 2.5;
