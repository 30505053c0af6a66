//! The haul as a table, read by a library of its own: equal sums, every word back, and nothing that a spreadsheet would run.

use super::device::Device;
use super::program::programs;
use haulwren_core::book::{Bought, Command, Purchase};
use haulwren_core::exchange::{COLUMNS, Csv, guard, take_home, unguard};
use haulwren_core::money::Money;
use haulwren_core::stamp::At;
use haulwren_core::view::haul;
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::BTreeMap;

/// The rows under the heading.
fn rows(text: &str) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(text.trim_start_matches('\u{feff}').as_bytes());
    reader.deserialize().map(Result::unwrap).collect()
}

/// Minor units, from what stands in the cell.
fn minor(cell: &str) -> i64 {
    let (whole, part) = cell.split_once('.').expect("a point");
    assert_eq!(part.len(), 2, "{cell}");
    format!("{whole}{part}").parse().unwrap()
}

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

proptest! {
    #![proptest_config(crate::tries(64))]

    #[test]
    fn the_table_says_what_the_haul_says(program in programs(24), mark in any::<bool>()) {
        let mut device = Device::begun();
        for timed in &program {
            // A refusal is a fine answer.
            drop(device.run(timed));
        }
        let text = take_home(&device.state, None, mark).unwrap();
        prop_assert_eq!(text.starts_with('\u{feff}'), mark);
        let rows = rows(&text);
        let haul = haul(&device.state).unwrap();
        prop_assert_eq!(rows.len(), haul.rows.len());
        let sum = |name: &str| rows.iter().filter(|row| !row[name].is_empty()).map(|row| minor(&row[name])).sum::<i64>();
        // What was paid and what work cost, less what is on things that are not sorted yet and on none.
        let all = device.state.reckoning();
        prop_assert_eq!(sum("paid") + sum("work"), all.on_things.minor());
        prop_assert_eq!(all.on_things.plus(all.on_unsorted).plus(all.not_yet_shared), haul.spent.plus(all.work));
        let expected: Money = haul.rows.iter().filter_map(|row| Some(row.expected.as_ref()?.keep)).sum();
        prop_assert_eq!(sum("keep_expected"), expected.minor());
        for (row, shown) in rows.iter().zip(haul.rows.iter().rev()) {
            prop_assert_eq!(row.len(), COLUMNS.len());
            prop_assert_eq!(&row["id"], &shown.id.to_string());
            prop_assert_eq!(unguard(&row["thing"]), shown.name.as_str());
            prop_assert_eq!(&row["day"], &shown.bought.and_then(At::day).unwrap().to_string());
            prop_assert_eq!(!row["to_settle"].is_empty(), shown.disputed);
            prop_assert_eq!(row["sells_likely"].is_empty(), shown.sells.is_none());
            prop_assert_eq!(row["verdict"].is_empty(), shown.expected.is_none());
        }
        // Day by day it is the same rows.
        let mut days: Vec<_> = haul.rows.iter().filter_map(|row| row.bought?.day()).collect();
        days.sort_unstable();
        days.dedup();
        let by_day = days.iter().flat_map(|day| self::rows(&take_home(&device.state, Some(*day), mark).unwrap()));
        prop_assert_eq!(by_day.count(), rows.len());
    }
}

#[test]
fn a_lot_is_shared_over_its_rows_and_adds_up() {
    let mut device = Device::begun();
    let thing = |name: &str| Bought {
        name: name.to_owned(),
        ..Bought::default()
    };
    let things = ["=coat", "Lamp", "Jug"].map(thing);
    let buy = Purchase {
        things: things.into(),
        ..Purchase::of_one(Money::new(1000), Bought::default())
    };
    let edits = device.decide(&Command::Buy(buy)).unwrap();
    device.commit(edits);
    let rows = rows(&take_home(&device.state, None, false).unwrap());
    let of = |name: &str| rows.iter().map(|row| row[name].clone()).collect::<Vec<_>>();
    assert_eq!(of("thing"), ["'=coat", "Lamp", "Jug"]);
    assert_eq!(of("paid"), ["3.34", "3.33", "3.33"]);
    assert_eq!(of("lot_paid"), ["10.00"; 3]);
    assert_eq!(of("lot_things"), ["3"; 3]);
    assert_eq!(of("currency"), ["USD"; 3]);
    assert!(of("lot").iter().all(|lot| *lot == rows[0]["lot"]));
}
