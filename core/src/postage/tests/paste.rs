//! Tables as they are pasted.

use super::*;

fn usd() -> Currency {
    Currency::from_code("USD").unwrap()
}

/// The zones, the rows and the complaints of a table, as text.
fn show(text: &str) -> String {
    let pasted = parse_table(text, WeightUnit::Ounce, usd());
    let mut shown = vec![format!("[{}]", pasted.zones.join("|"))];
    for step in &pasted.steps {
        let price = |price: &Option<Money>| price.map_or("-".to_owned(), |p| p.minor().to_string());
        let prices: Vec<String> = step.prices.iter().map(price).collect();
        shown.push(format!("{}: {}", step.up_to, prices.join(" ")));
    }
    for RowFault { row, sentence } in &pasted.complaints {
        shown.push(format!("!{row} {sentence}"));
    }
    shown.join(" ")
}

fn check(text: &str, expected: &str) {
    assert_eq!(show(text), expected, "{text:?}");
}

#[test]
fn tables_are_read_whichever_way_they_are_parted() {
    let expected = "[2|5] 8 oz: 350 400 16 oz: 450 -";
    check("weight\t2\t5\n8\t3.50\t4.00\n16\t4.50\t\n", expected);
    check("weight;2;5\r\n8;3,50;4,00\r\n16;4,50;-\r\n", expected);
    check("weight,2,5\n8,3.50,4\n16,4.50,n/a", expected);
    check("\n,2,5\n\n8,$3.50,\"4,00\"\n16, 4.50 $\n", expected);
    check(
        "\t2\t5\t\t\n8\t3.50\t4.00\t\t\n16\tUSD 4.50\t\u{2013}",
        expected,
    );
    check(
        "oz\t\"Zone \"\"A\"\"\"\n8\t\u{a3}1",
        "[Zone \"A\"] 8 oz: 100",
    );
}

#[test]
fn weights_may_bring_their_own_unit() {
    check(
        "\tall\nup to 8 oz\t3\n1 lb.\t4\n2 LBS\t5\n\u{2264} 1 kg\t6\n1,5kg\t7",
        "[all] 8 oz: 300 1 lb: 400 2 lb: 500 1 kg: 600 1.5 kg: 700",
    );
}

#[test]
fn bad_rows_are_named_and_left_out_and_the_rest_is_kept() {
    check(
        "\t2\t5\n8\t3.50\t4.00\nheavy\t1\t2\n12 st\t1\t2\n8\t5\t6\n16\tfive\t6\n16\t5\t6\t7\n16\t\t\n16\t-1\t2\n16\t5.123\t6\n16\t5\t6",
        "[2|5] 8 oz: 350 400 16 oz: 500 600 \
         !3 \u{201c}heavy\u{201d} is not a weight. \
         !4 \u{201c}12 st\u{201d} is not a weight. \
         !5 Not heavier than 8 oz, the row before. \
         !6 Zone 2: \u{201c}five\u{201d} is not a price. Numbers only, e.g. 3.50 \
         !7 3 prices for 2 zones. \
         !8 No price in this row. \
         !9 Zone 2: \u{201c}-1\u{201d} is not a price. This can’t be less than nothing. \
         !10 Zone 2: \u{201c}5.123\u{201d} is not a price. Use at most 2 decimals.",
    );
    check(
        "\tall\n0\t1\n1 oz\t1,234.50\n2\t3",
        "[all] 2 oz: 300 !2 A weight of nothing. \
         !3 Zone all: \u{201c}1,234.50\u{201d} is not a price. Use one point only, and no commas between thousands.",
    );
}

#[test]
fn a_table_without_zones_is_not_read() {
    let none = "Paste a table: zones in the first row, weights in the first column.";
    check("", &format!("[] !1 {none}"));
    check(" \n\n", &format!("[] !1 {none}"));
    let unnamed = "The first row needs headings, e.g. Weight, Price";
    check("8 3.50\n16 4.50", &format!("[] !1 {unnamed}"));
    check("\n\ta\t\tb\n8\t1\t2\t3", &format!("[] !2 {unnamed}"));
    let many = "\tz".repeat(21);
    check(&many, &format!("[] !1 {unnamed}"));
}

#[test]
fn rows_beyond_the_most_are_said_once() {
    let rows = (1..=MAX_STEPS + 5).map(|ounces| format!("{ounces}\t1"));
    let text: Vec<String> = std::iter::once("\tall".to_owned()).chain(rows).collect();
    let pasted = parse_table(&text.join("\n"), WeightUnit::Ounce, usd());
    assert_eq!(pasted.steps.len(), MAX_STEPS);
    assert_eq!(pasted.complaints.len(), 1);
    assert_eq!(pasted.complaints[0].row, MAX_STEPS + 2);
    let service = pasted.service("Parcel", WeightUnit::Ounce);
    assert_eq!((service.zones.len(), service.steps.len()), (1, MAX_STEPS));
}

/// The first row of numbers once became the zones' names ("3.49").
#[test]
fn a_table_without_headings_keeps_its_first_row() {
    check("8\t3.49\n16\t4.49", "[Zone 1] 8 oz: 349 16 oz: 449");
    check(
        "8 oz;3.49;4\n16 oz;4.49;5",
        "[Zone 1|Zone 2] 8 oz: 349 400 16 oz: 449 500",
    );
    let said = |text| parse_table(text, WeightUnit::Ounce, usd()).heading();
    assert_eq!(
        said("8\t3.49\n16\t4.49"),
        "No heading: the first row is numbers. Its prices are called Zone 1."
    );
    assert_eq!(said("oz\t2\t5\n8\t3\t4"), "Heading: 2, 5.");
}

/// "1,000" in grams was once one gram.
#[test]
fn thousands_in_a_row_are_refused_with_their_row() {
    let pasted = parse_table("g\tall\n500\t3\n1,000\t4", WeightUnit::Gram, usd());
    let faults: Vec<&str> = pasted
        .complaints
        .iter()
        .map(|fault| fault.sentence.as_str())
        .collect();
    assert_eq!(pasted.steps.len(), 1);
    assert_eq!(
        faults,
        [
            "\u{201c}1,000\u{201d} is not a weight. That could be thousands or decimals. Type 1000 for 1,000, or a point before decimals."
        ]
    );
}
