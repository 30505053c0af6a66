//! After any edit the page of each thing, the totals and the table to take home say the same of what is kept now.

use super::device::Device;
use super::program::programs;
use haulwren_core::book::{Sales, State};
use haulwren_core::exchange::take_home;
use haulwren_core::money::Money;
use haulwren_core::view::{haul, trip};
use proptest::prelude::*;

/// Minor units, from what stands in the cell; nothing where it is empty.
fn minor(cell: &str) -> i64 {
    let digits: String = cell.chars().filter(|sign| *sign != '.').collect();
    if digits.is_empty() {
        0
    } else {
        digits.parse().unwrap()
    }
}

/// What all pages together say is kept: with the cushion, and if all sell.
fn of_pages(state: &State) -> (Money, Money) {
    let sales = Sales::of(state);
    let mut sums = (Money::ZERO, Money::ZERO);
    for (id, _) in state.things() {
        if let Some(now) = sales.of_thing(id) {
            sums = (sums.0.plus(now.keep), sums.1.plus(now.if_sold));
        }
    }
    sums
}

proptest! {
    #![proptest_config(crate::tries(64))]

    #[test]
    fn page_total_and_table_agree_after_any_edit(program in programs(24)) {
        let mut device = Device::begun();
        for timed in &program {
            // A refusal is a fine answer.
            drop(device.run(timed));
            let state = &device.state;
            let (keep, if_sold) = of_pages(state);
            let view = haul(state).unwrap();
            prop_assert_eq!((view.sums.keep, view.sums.if_sold), (keep, if_sold));
            prop_assert!(view.sums.if_sold >= view.sums.keep);
        }
        let state = &device.state;
        let view = haul(state).unwrap();
        let text = take_home(state, None, false).unwrap();
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let headings = reader.headers().unwrap().clone();
        let at = |name: &str| headings.iter().position(|heading| heading == name).unwrap();
        let (keep, if_sold) = (at("keep_now"), at("keep_if_sold"));
        let mut of_table = (0, 0);
        let mut told = 0;
        for row in reader.records() {
            let row = row.unwrap();
            of_table = (of_table.0 + minor(&row[keep]), of_table.1 + minor(&row[if_sold]));
            told += usize::from(!row[keep].is_empty());
        }
        prop_assert_eq!(of_table, (view.sums.keep.minor(), view.sums.if_sold.minor()));
        // What has no estimate is counted, and nothing else is left out but what the trader keeps.
        let in_lots: usize = state.lots().iter().map(|lot| lot.things.len()).sum();
        let kept = state.lots().iter().flat_map(|lot| lot.split.shares.clone()).filter(|share| share.kept).count();
        prop_assert_eq!(told + kept + view.sums.no_estimate, in_lots);
        if let Some(head) = &view.trip {
            let page = trip(state, head.id).unwrap();
            prop_assert_eq!(page.sums, head.sums);
        }
    }
}
