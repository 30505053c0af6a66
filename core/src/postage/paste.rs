//! A table of prices copied from a spreadsheet: the zones' names in the first row, a weight at the head of each row below.

use crate::measure::{Unit, Weight, WeightUnit};
use crate::money::{Currency, Money, parse};

use super::card::{Service, Step};
use super::check::{LONGEST_NAME, MAX_STEPS, MAX_ZONES};

/// What was read, and what was left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pasted {
    /// The zones.
    pub zones: Vec<String>,
    /// Whether the first row named them. Else it was a row of numbers already, and they are numbered.
    pub has_heading: bool,
    /// The rows that could be read, each heavier than the one before.
    pub steps: Vec<Step>,
    /// The rows that could not, each with its number in the text, from 1.
    pub complaints: Vec<RowFault>,
}

/// A row that was left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowFault {
    /// Its number in the text, from 1; empty rows count.
    pub row: usize,
    /// What is wrong with it.
    pub sentence: String,
}

impl Pasted {
    /// A service of what was read. The card's check has the last word on it.
    pub fn service(self, name: &str, unit: WeightUnit) -> Service {
        Service {
            zones: self.zones,
            steps: self.steps,
            ..Service::new(name, unit)
        }
    }
}

/// Reads a table: cells parted by tabs, else by semicolons, else by commas; weights with or without a unit (`unit` where there
/// is none); points or commas before decimals; signs of a currency are dropped; an empty cell or a dash is a zone that isn't
/// offered. Nothing is guessed: a row that can't be read whole is left out and named.
pub fn parse_table(text: &str, unit: WeightUnit, currency: Currency) -> Pasted {
    let mut pasted = Pasted::default();
    let rows = (1..)
        .zip(text.lines())
        .filter(|(_, line)| !line.trim().is_empty());
    let mut rows = rows.peekable();
    let Some((row, head)) = rows.peek().copied() else {
        let sentence = "Paste a table: zones in the first row, weights in the first column.";
        pasted.complain(1, sentence);
        return pasted;
    };
    let mark = ['\t', ';', ',']
        .into_iter()
        .find(|mark| head.contains(*mark));
    let mark = mark.unwrap_or('\t');
    let mut zones = cells(head, mark);
    zones.remove(0);
    // Copied columns often end in empty ones.
    while zones.last().is_some_and(String::is_empty) {
        zones.pop();
    }
    pasted.has_heading = !is_row(head, mark, unit, currency);
    if pasted.has_heading {
        rows.next();
    } else {
        for (at, zone) in zones.iter_mut().enumerate() {
            *zone = format!("Zone {}", at + 1);
        }
    }
    let is_named = |zone: &String| !zone.is_empty() && zone.chars().count() <= LONGEST_NAME;
    if !(1..=MAX_ZONES).contains(&zones.len()) || !zones.iter().all(is_named) {
        pasted.complain(row, "The first row needs headings, e.g. Weight, Price");
        return pasted;
    }
    pasted.zones = zones;
    for (row, line) in rows {
        if pasted.steps.len() == MAX_STEPS {
            pasted.complain(row, &format!("Only {MAX_STEPS} rows are read."));
            break;
        }
        match step(line, mark, unit, currency, &pasted) {
            Ok(step) => pasted.steps.push(step),
            Err(sentence) => pasted.complain(row, &sentence),
        }
    }
    pasted
}

impl Pasted {
    fn complain(&mut self, row: usize, sentence: &str) {
        self.complaints.push(RowFault {
            row,
            sentence: sentence.to_owned(),
        });
    }
}

/// Is the first row one of numbers already: a weight of more than nothing, and prices behind it?
fn is_row(line: &str, mark: char, unit: WeightUnit, currency: Currency) -> bool {
    let cells = cells(line, mark);
    let prices: Vec<_> = cells[1..]
        .iter()
        .map(|cell| price(cell, currency))
        .collect();
    weight(&cells[0], unit).is_ok_and(|weight| weight.ticks() > 0)
        && prices.iter().all(Result::is_ok)
        && prices.iter().flatten().any(Option::is_some)
}

impl Pasted {
    /// What was taken as heading, as a sentence.
    #[must_use]
    pub fn heading(&self) -> String {
        let zones = self.zones.join(", ");
        if self.has_heading {
            format!("Heading: {zones}.")
        } else {
            format!("No heading: the first row is numbers. Its prices are called {zones}.")
        }
    }
}

/// One row, or what is wrong with it.
fn step(
    line: &str,
    mark: char,
    unit: WeightUnit,
    currency: Currency,
    so_far: &Pasted,
) -> Result<Step, String> {
    let mut cells = cells(line, mark);
    let zones = so_far.zones.len();
    while cells.len() > zones + 1 && cells.last().is_some_and(String::is_empty) {
        cells.pop();
    }
    let found = cells.len() - 1;
    if found > zones {
        return Err(format!("{found} prices for {zones} zones."));
    }
    // A row copied without its empty cells at the end.
    cells.resize(zones + 1, String::new());
    let up_to = weight(&cells[0], unit)?;
    if let Some(before) = so_far.steps.last()
        && up_to.ticks() <= before.up_to.ticks()
    {
        return Err(format!(
            "Not heavier than {}, the row before.",
            before.up_to
        ));
    }
    if up_to.ticks() == 0 {
        return Err("A weight of nothing.".to_owned());
    }
    let mut prices = Vec::with_capacity(zones);
    for (cell, zone) in cells[1..].iter().zip(&so_far.zones) {
        let price = price(cell, currency);
        prices.push(price.map_err(|error| format!("Zone {zone}: {error}"))?);
    }
    if prices.iter().all(Option::is_none) {
        return Err("No price in this row.".to_owned());
    }
    Ok(Step { up_to, prices })
}

/// The cells of a row, trimmed. In quotes a separator is text, and two quotes are one.
fn cells(line: &str, mark: char) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    let mut signs = line.chars().peekable();
    while let Some(sign) = signs.next() {
        let at = cells.len() - 1;
        match sign {
            '"' if quoted && signs.peek() == Some(&'"') => {
                signs.next();
                cells[at].push('"');
            }
            '"' if quoted || cells[at].trim().is_empty() => quoted = !quoted,
            _ if sign == mark && !quoted => cells.push(String::new()),
            _ => cells[at].push(sign),
        }
    }
    for cell in &mut cells {
        *cell = cell.trim().to_owned();
    }
    cells
}

/// The ways people write a unit of weight.
const SPELLINGS: [(WeightUnit, &[&str]); 4] = [
    (WeightUnit::Ounce, &["oz", "ozs", "ounce", "ounces"]),
    (WeightUnit::Pound, &["lb", "lbs", "pound", "pounds"]),
    (WeightUnit::Gram, &["g", "gr", "gram", "grams"]),
    (WeightUnit::Kilogram, &["kg", "kgs", "kilo", "kilos"]),
];

fn weight(cell: &str, unit: WeightUnit) -> Result<Weight, String> {
    let small = cell.to_ascii_lowercase();
    let text = ["up to", "\u{2264}", "<="]
        .into_iter()
        .find_map(|head| small.strip_prefix(head))
        .unwrap_or(&small)
        .trim();
    let end = text
        .find(|sign: char| sign.is_ascii_alphabetic() || !sign.is_ascii())
        .unwrap_or(text.len());
    let (number, spelled) = text.split_at(end);
    let spelled = spelled.trim_end_matches('.');
    let unit = if spelled.is_empty() {
        unit
    } else {
        let known = SPELLINGS.iter().find(|(_, all)| all.contains(&spelled));
        known
            .ok_or_else(|| format!("\u{201c}{cell}\u{201d} is not a weight."))?
            .0
    };
    format!("{} {}", number.trim(), unit.symbol())
        .parse()
        .map_err(|error| format!("\u{201c}{cell}\u{201d} is not a weight. {error}"))
}

/// Signs of currencies that may stand beside a price.
const SIGNS: &str = "$\u{a2}\u{a3}\u{a5}\u{20ac}\u{20b9}\u{20bd}\u{20a9}\u{20aa}\u{20ba}\u{20b1}\u{20ab}\u{20a6}\u{e3f}\u{20b4}";

fn price(cell: &str, currency: Currency) -> Result<Option<Money>, String> {
    if matches!(cell, "" | "-" | "\u{2013}" | "\u{2014}" | "n/a" | "N/A") {
        return Ok(None);
    }
    let code = currency.code();
    let bare = cell.strip_prefix(code).unwrap_or(cell);
    let bare = bare.strip_suffix(code).unwrap_or(bare);
    let bare = bare.trim_matches(|sign: char| SIGNS.contains(sign) || sign.is_whitespace());
    parse(bare, currency)
        .map(Some)
        .map_err(|error| format!("\u{201c}{cell}\u{201d} is not a price. {error}"))
}

#[cfg(test)]
#[path = "tests/paste.rs"]
mod tests;
