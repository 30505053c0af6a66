//! The haul as a table, read by a library of its own: what was spent is all in it, and every fact is the haul's.

use super::device::Device;
use super::program::programs;
use haulwren_core::book::{Bought, Command, LotCommand, Purchase};
use haulwren_core::exchange::{COLUMNS, take_home, unguard};
use haulwren_core::ledger::Paying;
use haulwren_core::lot::Method;
use haulwren_core::money::Money;
use haulwren_core::stamp::At;
use haulwren_core::view::haul;
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
        let all = rows(&text);
        let haul = haul(&device.state).unwrap();
        let sum = |name: &str| all.iter().filter(|row| !row[name].is_empty()).map(|row| minor(&row[name])).sum::<i64>();
        // Whatever was spent is in it, and nothing twice.
        let reckoning = device.state.reckoning();
        prop_assert_eq!(sum("paid"), haul.sums.spent.minor());
        prop_assert_eq!(sum("work"), reckoning.work.minor());
        let sum_of = |of: &str, name: &str| all.iter().filter(|row| row["stands_for"] == of).map(|row| minor(&row[name])).sum::<i64>();
        prop_assert_eq!(sum_of("not sorted yet", "paid"), reckoning.on_unsorted.minor());
        prop_assert_eq!(sum_of("not yet shared", "paid") + sum_of("work on no thing", "work"), reckoning.not_yet_shared.minor());
        let count: usize = all.iter().map(|row| row["things"].parse::<usize>().unwrap()).sum();
        let unsorted: usize = device.state.lots().iter().map(|lot| lot.split.unsorted.len()).sum();
        prop_assert_eq!(count, haul.rows.len() + unsorted);
        lots_add_up(&all)?;
        // The things come first; what is on none has no thing's name and no verdict.
        let (rows, rests) = all.split_at(haul.rows.len());
        prop_assert!(rows.iter().all(|row| row["stands_for"] == "thing" && row["things"] == "1"));
        for rest in rests {
            prop_assert!(rest["stands_for"] != "thing" && rest["id"].is_empty() && rest["verdict"].is_empty());
        }
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
        let mut days: Vec<&str> = all.iter().map(|row| row["day"].as_str()).collect();
        days.sort_unstable();
        days.dedup();
        let of_day = |day: &&str| self::rows(&take_home(&device.state, Some(day.parse().unwrap()), mark).unwrap());
        prop_assert_eq!(days.iter().flat_map(of_day).count(), all.len());
    }
}

/// The rows of a lot come to what was paid for it and on top, and are as many things as it has.
fn lots_add_up(rows: &[BTreeMap<String, String>]) -> Result<(), TestCaseError> {
    let mut lots: BTreeMap<&str, Vec<&BTreeMap<String, String>>> = BTreeMap::new();
    for row in rows.iter().filter(|row| !row["lot_paid"].is_empty()) {
        lots.entry(&row["lot"]).or_default().push(row);
    }
    for of_lot in lots.values() {
        let one = of_lot[0];
        let on_top = Some(&one["lot_on_top"]).filter(|cell| !cell.is_empty());
        let total = minor(&one["lot_paid"]) + on_top.map_or(0, |cell| minor(cell));
        let paid: i64 = of_lot.iter().map(|row| minor(&row["paid"])).sum();
        prop_assert_eq!(paid, total);
        let things = of_lot.iter().map(|row| row["things"].parse::<usize>());
        prop_assert_eq!(
            things.sum::<Result<usize, _>>().unwrap().to_string(),
            one["lot_things"].as_str()
        );
    }
    Ok(())
}

#[test]
fn what_is_on_no_thing_has_a_row_of_its_own() {
    let mut device = Device::begun();
    let run = |device: &mut Device, command: LotCommand| {
        let edits = device.decide(&command.into()).unwrap();
        device.commit(edits);
    };
    let paid = Money::new(1000);
    run(
        &mut device,
        LotCommand::BuyUnsorted {
            count: 12,
            paid,
            by: Paying::Cash,
            name: "=Box".to_owned(),
        },
    );
    let lot = device.state.lots()[0].id;
    let extras = Money::new(100);
    run(&mut device, LotCommand::SetExtras { lot, extras });
    let things = vec![Bought {
        name: "Jug".to_owned(),
        ..Bought::default()
    }];
    run(&mut device, LotCommand::Sort { lot, things });
    let shown = |device: &Device| -> Vec<[String; 5]> {
        let rows = rows(&take_home(&device.state, None, false).unwrap());
        let names = ["thing", "paid", "lot_things", "stands_for", "things"];
        rows.iter()
            .map(|row| names.map(|name| row[name].clone()))
            .collect()
    };
    let cells = |row: [&str; 5]| row.map(str::to_owned);
    // 11.00 over twelve: 0.91 2/3 each, the spare cents to the first eight.
    assert_eq!(
        shown(&device),
        [
            cells(["Jug", "0.92", "12", "thing", "1"]),
            cells([
                "'=Box: 11 things not sorted yet",
                "10.08",
                "12",
                "not sorted yet",
                "11"
            ]),
        ]
    );
    // By hand starts from the shares that stand: what was not sorted is on no thing.
    let method = Method::ByHand;
    run(&mut device, LotCommand::SetMethod { lot, method });
    assert_eq!(
        shown(&device)[1..],
        [
            cells([
                "'=Box: 11 things not sorted yet",
                "0.00",
                "12",
                "not sorted yet",
                "11"
            ]),
            cells([
                "'=Box: not yet shared",
                "10.08",
                "12",
                "not yet shared",
                "0"
            ]),
        ]
    );
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
