//! How each line says it was worked out.

use super::*;

#[test]
fn a_line_says_how_it_was_worked_out() {
    let table = [(0, "10", 0), (50_00, "6", 1_00)];
    let tiers = Amount::Tiers {
        by: Period::Year,
        steps: steps(&[(0, "12", 0)]),
    };
    let schedule = Schedule {
        charges: vec![
            percent("10", Base::PriceAndPost),
            flat(25),
            brackets(&table),
            slices(&table),
            Charge::new("Tiers", Base::Price, tiers),
            Charge {
                most: Some(m(1_00)),
                ..percent("10", Base::OrderTotal(rate("10")))
            },
            slices(&[(90_00, "5", 0)]),
        ],
        groups: vec![group(&[1, 2], None, Some(5_00))],
    };
    let settled = settle(&schedule, &sale(60_00, 4_50));
    let said: Vec<String> = settled
        .lines
        .iter()
        .map(|line| line.working(usd()).unwrap_or_default())
        .collect();
    assert_eq!(
        said,
        [
            "10 % of 64.50",
            "",
            "from 50.00: 6 % of 60.00 + 1.00",
            "10 % of 50.00 + 6 % of 10.00 + 1.00",
            "from 0.00 a year: 12 % of 60.00",
            "10 % of 70.95, at most 1.00",
            "0.00",
            "together 6.70, at most 5.00",
        ]
    );
}
