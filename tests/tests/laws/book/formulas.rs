//! Tables for spreadsheets, read by a library of its own: every word comes back, and nothing is in them that a spreadsheet would run.

use haulwren_core::exchange::{Csv, guard, unguard};
use proptest::collection::vec;
use proptest::prelude::*;

/// What begins a formula, and ways to put it behind something. The first three, the signs and the separators: OWASP "CSV Injection". The
/// null character: OWASP ASVS 5.0, 1.2.10. Line feed and full-width forms: later versions of that page, from memory.
const PAYLOADS: [&str; 22] = [
    "=1+1",
    "=1+2\";=1+2",
    "=1+2'\" ;,=1+2",
    "+1+1",
    "-1+1",
    "@SUM(1+1)",
    "\t=1+1",
    "\r=1+1",
    "\n=1+1",
    "\0=1+1",
    "\u{ff1d}1+1",
    "\u{ff0b}1+1",
    "\u{ff0d}1+1",
    "\u{ff20}SUM(1+1)",
    "=HYPERLINK(\"a.example\",\"here\")",
    "=cmd|' /C calc'!A0",
    " =1+1",
    "\"=1+1",
    "coat;=1+1",
    "coat\n=1+1",
    "coat\t@SUM(1+1)",
    "coat;\"=1+1\"",
];

/// Cells as a spreadsheet takes them that splits at this sign. Where it is not the sign that the table was written with, the quotes may
/// be taken for quotes, since some cells begin with one, or for plain text.
fn cells_split_at(text: &str, separator: u8) -> Vec<String> {
    let mut builder = csv::ReaderBuilder::new();
    builder
        .delimiter(separator)
        .has_headers(false)
        .flexible(true);
    let mut found = Vec::new();
    let quotings: &[bool] = if separator == b',' {
        &[true]
    } else {
        &[true, false]
    };
    for quoting in quotings {
        let reader = builder.quoting(*quoting).from_reader(text.as_bytes());
        for record in reader.into_records() {
            found.extend(record.unwrap().iter().map(str::to_owned));
        }
    }
    found
}

/// Whether a spreadsheet may run a cell. Numbers are not run.
fn runs(cell: &str) -> bool {
    let begins = cell.trim_start_matches(['"', ' ']);
    begins.starts_with([
        '=', '+', '-', '@', '\0', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}',
    ])
}

/// The cells of a row that may run, whichever sign it is split at.
fn running(write: fn(&mut Csv, &str), payload: &str) -> Vec<String> {
    let mut csv = Csv::new(false);
    csv.plain("2026-11-21");
    write(&mut csv, payload);
    csv.plain("end");
    csv.end_row();
    let text = csv.finish();
    let cells = b",;\t".iter().flat_map(|sign| cells_split_at(&text, *sign));
    cells.filter(|cell| runs(cell)).collect()
}

#[test]
fn no_payload_runs_however_the_table_is_split() {
    for payload in PAYLOADS {
        assert!(
            !running(Csv::plain, payload).is_empty(),
            "{payload:?} is harmless"
        );
        assert_eq!(
            running(Csv::text, payload),
            Vec::<String>::new(),
            "{payload:?}"
        );
        assert_eq!(unguard(&guard(payload)), payload);
    }
}

proptest! {
    #![proptest_config(crate::tries(256))]

    #[test]
    fn any_words_come_back(table in vec(vec(prop_oneof![any::<String>(), "[-=+@;'\"\t\r\n ,a]{0,8}"], 3), 1..6)) {
        let mut csv = Csv::new(false);
        for row in &table {
            for cell in row {
                csv.text(cell);
            }
            csv.end_row();
        }
        let text = csv.finish();
        prop_assert!(text.ends_with("\r\n"));
        let mut builder = csv::ReaderBuilder::new();
        let reader = builder.has_headers(false).from_reader(text.as_bytes());
        let found: Vec<Vec<String>> = reader
            .into_records()
            .map(|record| record.unwrap().iter().map(unguard).collect())
            .collect();
        prop_assert_eq!(found, table);
    }

    /// Guarding puts apostrophes in, and nothing else; a second time puts in as many again.
    #[test]
    fn guarding_only_adds_apostrophes(text in prop_oneof![any::<String>(), "[-=;'\"\t\n a]{0,9}"]) {
        let (once, twice) = (guard(&text), guard(&guard(&text)));
        prop_assert_eq!(twice.len() - once.len(), once.len() - text.len());
        prop_assert_eq!(once.replace('\'', ""), text.replace('\'', ""));
        prop_assert_eq!(unguard(&once), text);
    }
}
