//! A trip on paper: its sheet, and the record of what was paid at a stop. What is printed is what the screen says, and nothing else.

use haulwren_tests::browser::{Engine, Outcome, Paper, Tab, wrong};

use crate::common::Stall;
use crate::{outing, pile::texts};

journeys!(printed => in_chromium Chromium, in_firefox Firefox);

/// Every row of the table on the paper, as the words of its cells.
const ROWS: &str = "return [...document.querySelectorAll('.paper tr')].map((row) => [...row.children].map((cell) => cell.innerText.trim()))";

async fn printed(engine: Engine) -> Outcome<()> {
    let mut stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.offline_ready().await?;
    stall.server.stop();
    outing::start_trip(tab, "80", "48210").await?;
    outing::next_sale(tab).await?;
    outing::three_for(tab, "10").await?;
    outing::twelve_for(tab, "10").await?;
    outing::weigh(tab, "brass bookends", "4.50", "28").await?;
    outing::call_it(tab, "brass bookends", true).await?;
    tab.buy().await?;
    tab.screen("#/haul").await?;
    tab.tap(".haul-list a[data-stop]").await?;
    tab.press("Record of what was paid").await?;
    // 10.00 and 10.00 in cash, 4.50 otherwise. The shares of 10.00 over 30, 22 and 18 are 4.29, 3.14 and 2.57.
    let record = [
        ["Lot of 3", "cash", "", "10.00"],
        ["wool duffle coat, child, of which 4.29", "", "30.00", ""],
        ["rain boots, child, of which 3.14", "", "22.00", ""],
        ["tin lantern, of which 2.57", "", "18.00", ""],
        ["Lot of 12", "cash", "", "10.00"],
        ["brass bookends", "another way", "28.00", "4.50"],
    ];
    expect_rows(tab, &record).await?;
    let facts = texts(tab, ".paper dd").await?;
    if facts.get(2..) != Some(&["20.00 USD".to_owned(), "4.50 USD".to_owned()]) {
        return wrong(format!("the record says {facts:?}"));
    }
    expect_on_paper(tab).await?;
    outing::end_trip(tab, "48247").await?;
    tab.press("Sheet of the trip").await?;
    expect_rows(tab, &record).await?;
    let sums = texts(tab, ".paper p").await?;
    if sums != ["Spent 24.50, 16 things, cash left 60.00, driven 37 mi."] {
        return wrong(format!("the sheet says {sums:?}"));
    }
    expect_on_paper(tab).await?;
    stall.expect_sound().await
}

/// The rows on the screen between the headings and the total, which is 24.50.
async fn expect_rows(tab: &Tab, wanted: &[[&str; 4]]) -> Outcome<()> {
    tab.element(".paper .total").await?;
    let rows: Vec<Vec<String>> = tab.ask(ROWS).await?;
    let inner = rows
        .get(1..rows.len().saturating_sub(1))
        .unwrap_or_default();
    let total = rows.last().map(Vec::as_slice).unwrap_or_default();
    if inner != wanted || total != ["Paid", "24.50"] {
        return wrong(format!("the paper on the screen says {rows:#?}"));
    }
    Ok(())
}

/// One page has every row of the screen as a line, all of its words, and no other: neither keys nor tabs.
async fn expect_on_paper(tab: &Tab) -> Outcome<()> {
    let rows: Vec<Vec<String>> = tab.ask(ROWS).await?;
    let text: String = tab
        .ask("return document.querySelector('.paper').innerText")
        .await?;
    let pages = tab.printed(Paper::A4).await?;
    let [page] = &pages[..] else {
        return wrong(format!("it takes {} pages", pages.len()));
    };
    for row in rows {
        let row = row.join(" ");
        let is_line = |line: &String| line.split_whitespace().eq(row.split_whitespace());
        if !page.iter().any(is_line) {
            return wrong(format!("no line {row:?} in {page:#?}"));
        }
    }
    let mut wanted: Vec<&str> = text.split_whitespace().collect();
    let mut found: Vec<&str> = page
        .iter()
        .flat_map(|line| line.split_whitespace())
        .collect();
    wanted.sort_unstable();
    found.sort_unstable();
    if wanted != found {
        return wrong(format!("the paper says {found:?}\nand not {wanted:?}"));
    }
    Ok(())
}
