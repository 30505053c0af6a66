//! Where everything on the price rail goes, worked out from amounts and measured words: pure, so that it can be tried
//! without a browser. Lengths are CSS pixels from the rail's upper left corner.

mod above;
mod bar;
mod below;
mod flag;
mod spread;

pub use bar::{Bar, Span};
pub use below::Leader;
pub use flag::{Flag, Side};

/// Width of a text at a size in CSS pixels, bold or not.
pub type Measure<'a> = &'a dyn Fn(&str, f64, bool) -> f64;

/// What a label on the rail stands for.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Figure {
    /// The greatest ask at which every house rule holds.
    Ceiling,
    /// What the seller asks.
    Ask,
    /// All that the buyer pays.
    BuyerPays,
    /// What the thing costs.
    Pay,
    /// What is left of the sale; negative is shown as a loss.
    Keep,
    /// Allowances for offers, returns and things that never sell.
    Aside,
    /// Packing material.
    Packing,
    /// Postage.
    Postage,
    /// The venue's cut.
    Cut,
    /// Packing, postage and cut in one, where the bar is too narrow for all three.
    Costs,
    /// What is left if it sells at the low price.
    LowKeep,
}

/// One label: a word over an amount.
#[derive(Clone, PartialEq, Debug)]
pub struct Words {
    /// What it stands for.
    pub of: Figure,
    /// The word.
    pub word: String,
    /// The amount.
    pub amount: String,
}

/// The amounts in minor units and the words to be placed.
#[derive(Clone, PartialEq, Debug)]
pub struct Wanted {
    /// Width of the rail.
    pub width: f64,
    /// Size of the text against its usual size.
    pub scale: f64,
    /// How much higher than [`LEAST`] the rail may be, in CSS pixels at the usual text size.
    pub spare: f64,
    /// All that the buyer pays.
    pub total: f64,
    /// What the seller asks, when it is known.
    pub ask: Option<f64>,
    /// What was asked before, when there is a pointer to it.
    pub before: Option<f64>,
    /// The ceiling.
    pub ceiling: f64,
    /// Set aside, packing, postage and cut, in the order of the rail.
    pub tail: [f64; 4],
    /// The words of every part to be named, in the order of the rail.
    pub parts: Vec<Words>,
    /// "No more than".
    pub limit: Words,
    /// "Asking", when it is known.
    pub asking: Option<Words>,
    /// "Buyer pays".
    pub buyer: Words,
    /// The lines about the low price: its words and amount, and how many go lower.
    pub low: Option<(Words, String)>,
    /// The flag's word, second line and rough mark, when there is a verdict.
    pub flag: Option<(String, Option<String>, Option<String>)>,
}

/// Which way the text of a label leans.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Lean {
    /// Starts at the left edge.
    Left,
    /// In the middle.
    Middle,
    /// Ends at the right edge.
    Right,
}

/// Where a label lies, which decides its look.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Row {
    /// Over the bar.
    Above,
    /// In its part of the bar.
    Inside,
    /// Under the bar, at a leader.
    Below,
    /// On a line of its own.
    Line,
}

/// A placed label.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Label {
    /// What it stands for.
    pub of: Figure,
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// Which way its text leans.
    pub lean: Lean,
    /// Where it lies.
    pub row: Row,
    /// Size of the amount's text.
    pub size: f64,
}

/// The whole rail, placed.
#[derive(Clone, PartialEq, Debug)]
pub struct Layout {
    /// Height of all that is placed; a list may follow under it.
    pub height: f64,
    /// The bar.
    pub bar: Bar,
    /// The flag, when there is a verdict.
    pub flag: Option<Flag>,
    /// Height of the flag, kept free even while it is furled.
    pub flag_height: f64,
    /// The labels.
    pub labels: Vec<Label>,
    /// The lines from parts to their labels.
    pub leaders: Vec<Leader>,
    /// Parts that found no room and go to a list under the rail.
    pub listed: Vec<Figure>,
}

/// Heights of flag and bar where there is little room, and where there is enough.
const LOW_FLAG: f64 = 56.0;
const FULL_FLAG: f64 = 78.0;
const LOW_BAR: f64 = 40.0;
const FULL_BAR: f64 = 76.0;
/// The row over the bar.
const ABOVE: f64 = 51.0;
/// Leaders and labels under the bar.
const BELOW: f64 = 62.0;

/// The least height of a rail whose rows are not crowded, in CSS pixels at the usual text size.
pub const LEAST: f64 = LOW_FLAG + ABOVE + LOW_BAR + BELOW;

/// Sizes of one rail.
#[derive(Clone, Copy, Debug)]
struct Sizes {
    scale: f64,
    word: f64,
    small: f64,
    head: f64,
    keep: f64,
    flag: f64,
    above: f64,
    bar: f64,
    gap: f64,
}

impl Sizes {
    fn of(wanted: &Wanted) -> Self {
        let s = wanted.scale;
        // The bar first: what it has over its least it gives back where a row is crowded.
        let bar = (LOW_BAR + wanted.spare).clamp(LOW_BAR, FULL_BAR);
        let flag = (LOW_FLAG + wanted.spare - (FULL_BAR - LOW_BAR)).clamp(LOW_FLAG, FULL_FLAG);
        Self {
            scale: s,
            word: 13.0 * s,
            small: 17.0 * s,
            head: 28.0 * s,
            keep: (bar - 20.0).min(28.0) * s,
            flag: flag * s,
            above: ABOVE * s,
            bar: bar * s,
            gap: 8.0 * s.min(1.5),
        }
    }

    /// The width that a word over an amount takes, without room around it.
    fn words(&self, words: &Words, size: f64, measure: Measure<'_>) -> f64 {
        measure(&words.word, self.word, false).max(measure(&words.amount, size, true))
    }
}

/// Least height and width of what can be touched.
const TAP: f64 = 48.0;

/// Places everything.
pub fn place(wanted: &Wanted, measure: Measure<'_>) -> Layout {
    let mut sizes = Sizes::of(wanted);
    let spans = bar::spans(wanted);
    let flag = flag::hang(wanted, &spans, &sizes, measure);
    let (mut labels, extra) = above::above(wanted, &spans, &sizes, measure);
    let bar_top = sizes.flag + extra + sizes.above;
    // What a crowded row takes, the bar gives back, so that nothing below moves.
    sizes.bar = (sizes.bar - extra).max(LOW_BAR * sizes.scale);
    for label in &mut labels {
        label.top += bar_top;
    }
    let below = below::below(wanted, &spans, &sizes, bar_top, measure);
    labels.extend(below.labels);
    Layout {
        height: below.height,
        bar: bar::finish(spans, bar_top, below.bar),
        flag,
        flag_height: sizes.flag,
        labels,
        leaders: below.leaders,
        listed: below.listed,
    }
}

#[cfg(test)]
mod tests;
