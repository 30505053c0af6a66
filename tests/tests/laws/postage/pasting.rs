//! Laws of pasted tables.

use haulwren_core::measure::WeightUnit;
use haulwren_core::money::{Currency, Money, plain};
use haulwren_core::postage::{Pasted, Step, parse_table};
use proptest::prelude::*;

use super::cards::facts;

fn usd() -> Currency {
    Currency::from_code("USD").unwrap()
}

fn paste(text: &str) -> Pasted {
    parse_table(text, WeightUnit::Ounce, usd())
}

proptest! {
    #![proptest_config(crate::tries(512))]

    #[test]
    fn a_table_that_was_written_reads_back(facts in facts(), mark in prop::sample::select(&['\t', ';', ','][..]), sign in prop::sample::select(&["", "$", "\u{20ac} "][..])) {
        let service = facts.card().services.remove(0);
        let amount = |price: Option<Money>| {
            let price = price.map_or("-".to_owned(), |price| format!("{sign}{}", plain(price, usd())));
            if mark == ',' { price } else { price.replace('.', ",") }
        };
        let mut rows = vec![vec!["weight".to_owned()]];
        rows[0].extend(service.zones.iter().cloned());
        for step in &service.steps {
            let mut row = vec![step.up_to.amount().to_string()];
            row.extend(step.prices.iter().copied().map(amount));
            rows.push(row);
        }
        let lines: Vec<String> = rows.iter().map(|row| row.join(&mark.to_string())).collect();
        let text = lines.join("\n");
        let is_offered = |step: &&Step| step.prices.iter().any(Option::is_some);
        let rows: Vec<Step> = service.steps.iter().filter(is_offered).cloned().collect();
        let pasted = paste(&text);
        prop_assert_eq!(&pasted.zones, &service.zones);
        prop_assert_eq!(pasted.complaints.len(), service.steps.len() - rows.len());
        prop_assert_eq!(pasted.steps, rows);
    }

    /// Every row below the first is read or named, and what is read is fit to be saved.
    #[test]
    fn any_text_is_read_or_named(text in "[a-c0-9.,;\t\"$ \n-]{0,200}") {
        let pasted = paste(&text);
        let rows = text.lines().filter(|line| !line.trim().is_empty()).count();
        if pasted.zones.is_empty() {
            prop_assert!(pasted.steps.is_empty() && pasted.complaints.len() == 1);
        } else {
            prop_assert_eq!(pasted.steps.len() + pasted.complaints.len(), rows - usize::from(pasted.has_heading));
        }
        for fault in &pasted.complaints {
            prop_assert!(fault.row >= 1 && fault.row <= text.lines().count().max(1));
            prop_assert!(crate::is_sentence(&fault.sentence), "{}", fault.sentence);
        }
        for pair in pasted.steps.windows(2) {
            prop_assert!(pair[0].up_to.ticks() < pair[1].up_to.ticks());
        }
        let zones = pasted.zones.len();
        prop_assert!(pasted.steps.iter().all(|step| step.prices.len() == zones));
    }

    #[test]
    fn no_text_at_all_breaks_the_reading(text in any::<String>()) {
        let _ = paste(&text);
    }
}
