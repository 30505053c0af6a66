//! The haul as a table, saved through the screen, and read back by a library and by a spreadsheet program: equal sums, and no name runs.

use std::path::{Path, PathBuf};

use haulwren_core::exchange::unguard;
use haulwren_tests::browser::{Browser, Engine, Failure, Outcome, Tab, spreadsheet, wrong};
use rust_decimal::Decimal;

use crate::common::{Stall, forget_downloads, whole_download};
use crate::outing;
use crate::pile::texts;
use crate::postage::expect_words;

journeys!(taken_home => in_chromium Chromium, in_firefox Firefox);

/// Names that a spreadsheet would run. The signs, the separators and the quotes: OWASP "CSV Injection"; the program to be started and the
/// link: examples of the same page; the full-width sign: later versions of it, from memory. What a name can't hold, such as a tab or a
/// line's end, can't be typed either.
const NAMES: [&str; 10] = [
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(1+1)",
    "=1+2\";=1+2",
    "=1+2'\" ;,=1+2",
    "=HYPERLINK(\"a.example\",\"here\")",
    "=cmd|' /C calc'!A0",
    "coat;=1+1",
    "\u{ff1d}1+1",
];

async fn taken_home(engine: Engine) -> Outcome<()> {
    let mut stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.offline_ready().await?;
    stall.server.stop();
    outing::start_trip(tab, "80", "").await?;
    outing::three_for(tab, "10").await?;
    // One more for each name, at 1.00, 2.00 and so on to 10.00.
    for (at, name) in NAMES.iter().enumerate() {
        outing::thing(tab, name, &(at + 1).to_string(), "26").await?;
    }
    tab.screen("#/haul").await?;
    // 10.00, and 55 from one to ten.
    let spent = texts(tab, ".haul-list .haul-sums dd").await?;
    if spent.first().is_none_or(|spent| spent != "65.00") {
        return wrong(format!("Haul says {spent:?}"));
    }
    for which in ["today", "all"] {
        let path = saved_table(tab, &stall.browser, which).await?;
        let table = std::fs::read_to_string(&path).map_err(trouble())?;
        expect_day("the library", &rows(&table)?)?;
        let seen = rows(&spreadsheet(&path, false)?)?;
        expect_day("the spreadsheet", &seen)?;
        // A cell that runs shows something else when it shows what it runs.
        if rows(&spreadsheet(&path, true)?)? != seen {
            return wrong("the spreadsheet runs a cell");
        }
    }
    expect_names_would_run(&stall.browser)?;
    stall.expect_sound().await
}

fn trouble() -> impl FnOnce(std::io::Error) -> Failure {
    Failure::system("cannot read or write a table")
}

/// Written without care, some of the names do run: else nothing was shown above.
fn expect_names_would_run(browser: &Browser) -> Outcome<()> {
    let path = browser.downloads().join("careless.csv");
    std::fs::write(&path, "thing\r\n=1+1\r\n@SUM(1+1)\r\n+1+1\r\n").map_err(trouble())?;
    if spreadsheet(&path, true)? == spreadsheet(&path, false)? {
        return wrong("this spreadsheet runs nothing at all");
    }
    Ok(())
}

/// The rows of a table, the headings first.
fn rows(table: &str) -> Outcome<Vec<Vec<String>>> {
    let text = table.trim_start_matches('\u{feff}');
    let mut builder = csv::ReaderBuilder::new();
    let reader = builder.has_headers(false).from_reader(text.as_bytes());
    let mut rows = Vec::new();
    for record in reader.into_records() {
        match record {
            Ok(record) => rows.push(record.iter().map(str::to_owned).collect()),
            Err(error) => return wrong(format!("the table can't be read: {error}")),
        }
    }
    Ok(rows)
}

/// The names as they were typed, in order, and 65.00 in all.
fn expect_day(who: &str, rows: &[Vec<String>]) -> Outcome<()> {
    let headings = rows.first().map(Vec::as_slice).unwrap_or_default();
    let column = |name: &str| headings.iter().position(|cell| cell == name);
    let (Some(thing), Some(paid)) = (column("thing"), column("paid")) else {
        return wrong(format!("{who} finds other columns: {headings:?}"));
    };
    let of_three = outing::THREE.iter().map(|(name, ..)| *name);
    let wanted: Vec<&str> = of_three.chain(NAMES).collect();
    let under = rows.iter().skip(1);
    // The apostrophe that keeps a text a text stays a part of it.
    let found: Vec<String> = under.clone().map(|row| unguard(&row[thing])).collect();
    if found != wanted {
        return wrong(format!("{who} reads the names {found:?}"));
    }
    let amounts: Result<Vec<Decimal>, _> = under.map(|row| row[paid].parse()).collect();
    match amounts.map(|amounts| amounts.iter().sum::<Decimal>()) {
        Ok(sum) if sum == Decimal::from(65) => Ok(()),
        other => wrong(format!("{who} adds up {other:?}")),
    }
}

/// Saves the table by its key.
async fn saved_table(tab: &Tab, browser: &Browser, which: &str) -> Outcome<PathBuf> {
    tab.screen("#/haul/take-home").await?;
    let folder: &Path = &browser.downloads();
    forget_downloads(folder)?;
    tab.tap(&format!("[data-table=\"{which}\"]")).await?;
    expect_words(tab, "The table is among your downloads.").await?;
    whole_download(tab, folder, "csv").await
}
