//! Tables as comma-separated values (RFC 4180), safe to open in a spreadsheet.
//!
//! Written by hand, since reading back is not needed here: the tests read it with a library of its own.
//!
//! **Formulas.** A spreadsheet runs a cell that begins like a formula, and the names in a book come from anywhere. Sources: OWASP "CSV
//! Injection" (a cell begins with `=`, `+`, `-`, `@`, tab or carriage return; mind separators and quotes too); OWASP ASVS 5.0, 1.2.10
//! (the null character as well; escaped by a leading single quote); later versions of the former, from memory (line feed; full-width
//! forms). The rule here, which [`unguard`] takes back exactly:
//!
//! - It is for words that people wrote ([`Csv::text`]). Numbers and days that the program writes ([`Csv::plain`]) stay as they are, so a
//!   loss of `-4.10` is a number.
//! - A cell's *starts* are its beginning and every place after a semicolon, tab, carriage return or line feed: there a spreadsheet begins
//!   a new cell when it takes another separator than the comma, and then the quotes around this one do not count either.
//! - Where a start is followed by a character that begins a formula, however many quotes, apostrophes, spaces and byte order marks stand in
//!   between, one apostrophe is put in at the start. Tab, carriage return and line feed count as such only at the cell's beginning.
//! - Read back: where a start is followed by an apostrophe, and further on, past the same characters, by one that begins a formula, that
//!   apostrophe is left out.

/// A table that is being written, cell by cell.
#[derive(Clone, Debug, Default)]
pub struct Csv {
    text: String,
    in_row: bool,
}

impl Csv {
    /// An empty table. With a mark, it opens with the byte order mark of UTF-8: spreadsheets then read accents rightly, while some other
    /// programs take it for a part of the first heading.
    #[must_use]
    pub fn new(mark: bool) -> Self {
        let text = if mark { "\u{feff}" } else { "" }.to_owned();
        Self {
            text,
            in_row: false,
        }
    }

    /// The next cell of the row, with words that a person wrote.
    pub fn text(&mut self, cell: &str) {
        self.plain(&guard(cell));
    }

    /// The next cell of the row, with what the program itself wrote: a number, a day, an id; or with nothing.
    pub fn plain(&mut self, cell: &str) {
        if self.in_row {
            self.text.push(',');
        }
        self.in_row = true;
        let quoted = |sign: char| matches!(sign, ',' | '"' | '\r' | '\n' | ';' | '\t');
        let at_ends = cell.starts_with(' ') || cell.ends_with(' ');
        if at_ends || cell.contains(quoted) {
            self.text.push('"');
            self.text.push_str(&cell.replace('"', "\"\""));
            self.text.push('"');
        } else {
            self.text.push_str(cell);
        }
    }

    /// Ends the row.
    pub fn end_row(&mut self) {
        self.text.push_str("\r\n");
        self.in_row = false;
    }

    /// The whole table.
    #[must_use]
    pub fn finish(self) -> String {
        self.text
    }
}

/// Whether a spreadsheet takes a cell that begins so for a formula, or may.
fn begins_formula(sign: char) -> bool {
    // The last five: full-width forms, and the true minus.
    let signs = "=+-@\0\u{ff1d}\u{ff0b}\u{ff0d}\u{ff20}\u{2212}";
    signs.contains(sign)
}

/// What ends a cell, when not the comma does.
fn separates(sign: char) -> bool {
    matches!(sign, ';' | '\t' | '\r' | '\n')
}

/// What a spreadsheet may pass over at the beginning of a cell.
fn is_passed_over(sign: char) -> bool {
    matches!(sign, '\'' | '"' | ' ' | '\u{a0}' | '\u{feff}')
}

/// Where the starts of a text are that a formula may begin at, in bytes.
fn dangers(text: &str) -> Vec<usize> {
    let is_danger = |at: usize| {
        let after = text[at..].trim_start_matches(is_passed_over);
        // What separates begins a start of its own. It counts only where it comes first of all.
        after.starts_with(begins_formula)
            || (at == 0 && after.starts_with(|sign| sign != ';' && separates(sign)))
    };
    let mut dangers = Vec::new();
    if is_danger(0) {
        dangers.push(0);
    }
    for (at, _) in text.match_indices(separates) {
        if is_danger(at + 1) {
            dangers.push(at + 1);
        }
    }
    dangers
}

/// The words of a cell made harmless: see the head of this module.
#[must_use]
pub fn guard(text: &str) -> String {
    let mut guarded = String::with_capacity(text.len() + 1);
    let mut done = 0;
    for at in dangers(text) {
        guarded.push_str(&text[done..at]);
        guarded.push('\'');
        done = at;
    }
    guarded.push_str(&text[done..]);
    guarded
}

/// The words that [`guard`] made harmless.
#[must_use]
pub fn unguard(cell: &str) -> String {
    let mut text = String::with_capacity(cell.len());
    let mut done = 0;
    for at in dangers(cell) {
        if cell[at..].starts_with('\'') {
            text.push_str(&cell[done..at]);
            done = at + 1;
        }
    }
    text.push_str(&cell[done..]);
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_quoted_where_they_must_be() {
        let mut csv = Csv::new(false);
        for cell in ["Coat", "red, \"new\"", "two\r\nlines", "", "a;b"] {
            csv.text(cell);
        }
        csv.end_row();
        csv.plain("-4.10");
        csv.text(" ends ");
        csv.end_row();
        let expected =
            "Coat,\"red, \"\"new\"\"\",\"two\r\nlines\",,\"a;b\"\r\n-4.10,\" ends \"\r\n";
        assert_eq!(csv.finish(), expected);
        assert_eq!(Csv::new(true).finish(), "\u{feff}");
    }

    #[test]
    fn what_begins_a_formula_gets_an_apostrophe_and_loses_it_again() {
        let check = |text: &str, guarded: &str| {
            assert_eq!(guard(text), guarded);
            assert_eq!(unguard(guarded), text);
        };
        for plain in [
            "Coat",
            "",
            "'90s shirt",
            "6 - 8",
            "a=b",
            "5;6",
            "\"quoted\"",
            "it's",
        ] {
            check(plain, plain);
        }
        check("=1+1", "'=1+1");
        check("'=1+1", "''=1+1");
        check("-5 C bag", "'-5 C bag");
        check(" \"=1", "' \"=1");
        check("\t=1", "'\t'=1");
        check("coat;=1;'=2;b", "coat;'=1;''=2;b");
        check("a\r\n\n-b", "a\r\n\n'-b");
        check("\u{ff1d}1", "'\u{ff1d}1");
        // Written elsewhere, and so never guarded.
        assert_eq!(unguard("=1"), "=1");
    }
}
