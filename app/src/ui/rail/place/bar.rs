//! The bar itself: one true scale from nothing to all that the buyer pays, and the ends of every part on it.

use super::{Figure, Wanted};

/// A stretch of the bar, in pixels from the left.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Span {
    /// Left end.
    pub x: f64,
    /// Length; 0 when there is none.
    pub w: f64,
}

impl Span {
    /// From one place to another; nothing when they are the wrong way round.
    fn between(from: f64, to: f64) -> Self {
        Self {
            x: from,
            w: (to - from).max(0.0),
        }
    }

    /// Right end.
    pub fn end(self) -> f64 {
        self.x + self.w
    }

    /// The middle.
    pub fn middle(self) -> f64 {
        self.x + self.w / 2.0
    }
}

/// The bar as drawn.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Bar {
    /// Upper edge.
    pub top: f64,
    /// Height with its frame.
    pub height: f64,
    /// The solid part that is paid.
    pub pay: Span,
    /// What is asked past the gate: bars.
    pub over: Span,
    /// What is kept; without an ask, what there is to pay and keep.
    pub keep: Span,
    /// Past all that is left: the brick tongue.
    pub short: Span,
    /// Set aside.
    pub aside: Span,
    /// Packing.
    pub packing: Span,
    /// Postage.
    pub postage: Span,
    /// The venue's cut.
    pub cut: Span,
    /// Middle of the gate's post.
    pub gate: f64,
    /// Tip of the pointer, when there is an ask.
    pub pointer: Option<f64>,
    /// Tip of the hollow pointer, when something was asked before.
    pub before: Option<f64>,
}

impl Bar {
    /// Length of the whole bar.
    pub fn length(&self) -> f64 {
        self.cut.end()
    }

    /// The stretch that a part's label belongs to.
    pub fn span_of(&self, of: Figure) -> Span {
        match of {
            Figure::Pay => self.pay,
            Figure::Keep if self.short.w > 0.0 => self.short,
            Figure::Keep => self.keep,
            Figure::Aside => self.aside,
            Figure::Packing => self.packing,
            Figure::Postage => self.postage,
            Figure::Cut => self.cut,
            Figure::Costs => Span::between(self.packing.x, self.cut.end()),
            Figure::Ceiling | Figure::Ask | Figure::BuyerPays | Figure::LowKeep => Span::default(),
        }
    }

    /// The longest stretch of `span` which the post leaves free, `gap` off it.
    pub fn clear_of_gate(&self, span: Span, gap: f64) -> Span {
        let left = Span::between(span.x, span.end().min(self.gate - gap));
        let right = Span::between(span.x.max(self.gate + gap), span.end());
        if self.gate + gap <= span.x || self.gate - gap >= span.end() {
            span
        } else if left.w > right.w {
            left
        } else {
            right
        }
    }
}

/// The parts along the bar.
pub fn spans(wanted: &Wanted) -> Bar {
    let per = if wanted.total > 0.0 {
        wanted.width / wanted.total
    } else {
        0.0
    };
    let at = |amount: f64| (amount * per).clamp(0.0, wanted.width);
    let [aside, packing, postage, cut] = wanted.tail;
    // From the right end, so that the parts that others take stay whole even when they leave nothing.
    let cut_from = wanted.total - cut;
    let postage_from = cut_from - postage;
    let packing_from = postage_from - packing;
    let left = packing_from - aside;
    let ask = wanted.ask.unwrap_or(0.0);
    let solid = ask.min(wanted.ceiling).max(0.0);
    let short = if ask > left && wanted.ask.is_some() {
        // A loss is never too small to be seen.
        let from = at(left);
        let to = at(ask).max(from + 6.0).min(wanted.width);
        Span::between(from.min(to - 6.0), to)
    } else {
        Span::default()
    };
    Bar {
        pay: Span::between(0.0, at(solid.min(left.max(0.0)))),
        over: Span::between(at(solid), at(ask.min(left))),
        keep: Span::between(at(ask), at(left)),
        short,
        aside: Span::between(at(left), at(packing_from)),
        packing: Span::between(at(packing_from), at(postage_from)),
        postage: Span::between(at(postage_from), at(cut_from)),
        cut: Span::between(at(cut_from), wanted.width),
        gate: at(wanted.ceiling),
        pointer: wanted.ask.map(at),
        before: wanted.before.map(at),
        ..Bar::default()
    }
}

/// The bar at its height.
pub fn finish(spans: Bar, top: f64, height: f64) -> Bar {
    Bar {
        top,
        height,
        ..spans
    }
}
