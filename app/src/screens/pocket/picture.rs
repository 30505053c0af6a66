//! The pocket card as a picture: black on white, in a vector format that any phone and printer shows.

use std::fmt::Write as _;

use haulwren_core::view::Pocket;

use super::{foot, most};
use crate::format;

/// Height of a row, and width of a column, in units of the picture.
const ROW: usize = 34;
const COLUMN: usize = 92;

/// The file's name.
pub fn name(card: &Pocket) -> String {
    format!("haulwren-pocket-card-{}.svg", card.day)
}

/// The picture as text.
pub fn draw(card: &Pocket) -> String {
    let width = (COLUMN * (card.columns.len() + 1)).max(5 * COLUMN) + 24;
    let mut lines = vec![(1, 22, 12, "start", "700", "Pay no more than".to_owned())];
    let at = |column: usize| 12 + COLUMN * (column + 1) - 8;
    let mut texts = String::new();
    let mut heads = vec!["Sells for".to_owned()];
    heads.extend(card.columns.iter().cloned());
    for (column, head) in heads.into_iter().enumerate() {
        lines.push((2, 14, at(column), "end", "400", head));
    }
    let mut row = 3;
    for (price, amounts) in &card.rows {
        let price = format::short(*price, card.currency);
        lines.push((row, 18, at(0), "end", "700", price));
        for (column, amount) in amounts.iter().enumerate() {
            lines.push((row, 18, at(column + 1), "end", "400", most(*amount, card)));
        }
        row += 1;
    }
    for line in foot(card) {
        lines.push((row, 13, 12, "start", "400", line));
        row += 1;
    }
    let mut rules = String::new();
    for line in 2..card.rows.len() + 3 {
        let y = line * ROW + 10;
        // A text takes all that is written to it.
        let _ = write!(rules, "M12 {y}H{}", width - 12);
    }
    for (row, size, x, anchor, weight, text) in lines {
        let (y, text) = (row * ROW, escaped(&text));
        let _ = write!(
            texts,
            "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" font-weight=\"{weight}\" text-anchor=\"{anchor}\">{text}</text>"
        );
    }
    let height = row * ROW;
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\" font-family=\"sans-serif\"><path fill=\"#fff\" d=\"M0 0H{width}V{height}H0z\"/><path stroke=\"#000\" d=\"{rules}\"/>{texts}</svg>\n"
    )
}

/// A text that stands in the picture's markup.
fn escaped(text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;");
    text.replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::escaped;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn a_name_can_hold_any_sign() {
        assert_eq!(escaped("Odds & <ends>"), "Odds &amp; &lt;ends&gt;");
    }
}
