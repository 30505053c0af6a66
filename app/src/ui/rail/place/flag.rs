//! The verdict flag: on the side of the post with more room, in the largest size that fits there.

use super::{Bar, Measure, Sizes, Wanted};

/// A side of the post.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Side {
    /// Left of it.
    Left,
    /// Right of it.
    Right,
}

/// The flag, placed.
#[derive(Clone, PartialEq, Debug)]
pub struct Flag {
    /// The side that it flies to.
    pub side: Side,
    /// Left edge with the free end.
    pub left: f64,
    /// Width with the free end.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// Length of the free end's point or notch.
    pub tail: f64,
    /// Size of the sign; 0 when there is no room for it.
    pub sign: f64,
    /// Left edge of the sign.
    pub sign_left: f64,
    /// Left edge of the words.
    pub text_left: f64,
    /// Size of the word.
    pub word: f64,
    /// Size of the second line.
    pub second: f64,
    /// The second line, cut in two where it had to be.
    pub lines: Vec<String>,
}

/// Sizes to try, largest first: word, sign, second line, in CSS pixels at usual text size.
const SIZES: [(f64, f64, f64); 6] = [
    (50.0, 44.0, 17.0),
    (42.0, 38.0, 16.0),
    (35.0, 34.0, 15.0),
    (32.0, 32.0, 15.0),
    (28.0, 26.0, 14.0),
    (26.0, 0.0, 14.0),
];
/// Height of a line of the word, as the style sheet has it: room for what hangs under its letters.
const WORD_LINE: f64 = 1.06;

/// Hangs the flag.
pub fn hang(wanted: &Wanted, bar: &Bar, sizes: &Sizes, measure: Measure<'_>) -> Option<Flag> {
    let (word, second, rough) = wanted.flag.as_ref()?;
    let side = if bar.gate <= wanted.width / 2.0 {
        Side::Right
    } else {
        Side::Left
    };
    let post = 2.5;
    let room = match side {
        Side::Right => wanted.width - bar.gate - post,
        Side::Left => bar.gate - post,
    };
    let s = sizes.scale;
    let tail = 16.0 * s;
    let whole: Vec<String> = second.iter().cloned().collect();
    let cut = second.as_deref().map_or_else(Vec::new, cut_in_two);
    let mut best = None;
    'sizes: for (word_size, sign, second_size) in SIZES {
        for lines in [&whole, &cut] {
            let high = word_size * WORD_LINE + second_size * 1.15 * count(lines);
            if high * s > sizes.flag - 4.0 {
                continue;
            }
            let mark = rough
                .as_ref()
                .map_or(0.0, |text| measure(text, 14.0 * s, true) + 18.0 * s);
            let wide = measure(word, word_size * s, true) + mark;
            let wide = lines
                .iter()
                .map(|line| measure(line, second_size * s, true))
                .fold(wide, f64::max);
            let before = if sign > 0.0 {
                (10.0 + sign + 10.0) * s
            } else {
                10.0 * s
            };
            let width = before + wide + 8.0 * s + tail;
            let flag = (
                word_size * s,
                sign * s,
                second_size * s,
                lines.clone(),
                width,
                before,
            );
            let fits = width <= room;
            best = Some(flag);
            if fits {
                break 'sizes;
            }
        }
    }
    let (word, sign, second, lines, width, before) = best?;
    // What fits nowhere lies across the post, still whole: in letters so large that not even all of the bar is room for it, in smaller ones.
    let longest = lines
        .iter()
        .map(|line| measure(line, second, true))
        .fold(0.0, f64::max);
    let second = if width > wanted.width && longest > 0.0 {
        second * (1.0 - (width - wanted.width) / longest).max(0.5)
    } else {
        second
    };
    let width = width.min(wanted.width);
    let left = match side {
        Side::Right => (bar.gate + post).min(wanted.width - width),
        Side::Left => (bar.gate - post - width).max(0.0),
    };
    let body = if side == Side::Left {
        left + tail
    } else {
        left
    };
    Some(Flag {
        side,
        left,
        width,
        height: sizes.flag,
        tail,
        sign,
        sign_left: body + 10.0 * s,
        text_left: body + before,
        word,
        second,
        lines,
    })
}

fn count(lines: &[String]) -> f64 {
    f64::from(u32::try_from(lines.len()).unwrap_or(u32::MAX))
}

/// The text in two lines, cut at the space nearest to its middle, after a comma where there is one.
fn cut_in_two(text: &str) -> Vec<String> {
    let middle = text.len() / 2;
    let cut = text.find(", ").map(|at| at + 1).or_else(|| {
        text.match_indices(' ')
            .map(|(at, _)| at)
            .min_by_key(|at| at.abs_diff(middle))
    });
    match cut {
        Some(at) => vec![text[..at].to_owned(), text[at + 1..].to_owned()],
        None => vec![text.to_owned()],
    }
}
