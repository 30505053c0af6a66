//! The pocket card on paper and as a picture: what is on them is what the screen says, and nothing else; both are read without the app.

use std::path::PathBuf;
use std::time::Instant;

use haulwren_tests::browser::{Browser, DEADLINE, Engine, Failure, Outcome, Paper, Tab, wrong};

use crate::common::Stall;
use crate::postage::expect_words;

journeys!(printed => printed_in_chromium Chromium, printed_in_firefox Firefox);
journeys!(saved_as_a_picture => picture_in_chromium Chromium, picture_in_firefox Firefox);

/// The card as the screen has it: the caption, each row of the table, each line under it.
const CARD: &str = r#"
const words = (e) => e.innerText.trim();
const card = document.querySelector(".pocket-card");
const rows = [...card.querySelectorAll("tr")].map((row) => [...row.children].map(words));
return [[words(card.querySelector("caption"))], ...rows, ...[...card.querySelectorAll("p")].map((p) => [words(p)])];
"#;

/// Opens the card of a book with Quayside and a rough card of four prices.
async fn stall(engine: Engine) -> Outcome<(Stall, Vec<Vec<String>>)> {
    let mut stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.offline_ready().await?;
    stall.server.stop();
    tab.screen("#/settings/card/new").await?;
    tab.fill("Name of the rate card", "Northmail").await?;
    for (row, price) in ["3.80", "4.20", "4.50", "5.50"].iter().enumerate() {
        tab.fill(&format!("Price, row {}", row + 1), price).await?;
    }
    let before = tab.saved().await?;
    tab.press("Save rate card").await?;
    tab.saved_beyond(before).await?;
    tab.screen("#/pocket").await?;
    expect_words(tab, "Pay no more than").await?;
    let card: Vec<Vec<String>> = tab.ask(CARD).await?;
    // Worked by hand, at 4.50 and 5.50 for postage, 10 % and 0.25 of price and postage, packing 0.30, a quarter set aside, 8.00 to keep.
    // 5.00: nothing is left to keep. 25.00 at 12 oz: 29.50 - 3.20 - 4.50 - 0.30 - 6.25 = 15.25, less 8.00 is 7.25. 40.00 at a pound:
    // 45.50 - 4.80 - 5.50 - 0.30 - 10.00 = 24.90, less 8.00 is 16.90. Both down to steps of 0.50.
    for (price, column, wanted) in [("5", 3, "\u{2013}"), ("25", 3, "7.00"), ("40", 4, "16.50")] {
        let row = card.iter().find(|row| row[0] == price);
        let found = row.and_then(|row| row.get(column));
        if found.is_none_or(|found| found != wanted) {
            return wrong(format!("at {price} the card says {row:?}, not {wanted}"));
        }
    }
    if card.len() < 15 || card[1].len() != 5 {
        return wrong(format!("the card has other rows or columns: {card:?}"));
    }
    Ok((stall, card))
}

/// Words in the order in which they are read, whatever lines they stand on.
fn words<'a>(lines: impl IntoIterator<Item = &'a String>) -> Vec<&'a str> {
    lines
        .into_iter()
        .flat_map(|line| line.split_whitespace())
        .collect()
}

async fn printed(engine: Engine) -> Outcome<()> {
    let (stall, card) = stall(engine).await?;
    let tab = &stall.tab;
    for paper in [Paper::A4, Paper::A6] {
        let pages = tab.printed(paper).await?;
        let [page] = &pages[..] else {
            return wrong(format!("{paper:?} takes {} pages", pages.len()));
        };
        // Each row of amounts is a line of the page.
        for row in card.iter().filter(|row| row.len() == 5).skip(1) {
            let row: Vec<&str> = words(row);
            if !page
                .iter()
                .any(|line| line.split_whitespace().eq(row.iter().copied()))
            {
                return wrong(format!("{paper:?}: no line {row:?} in {page:#?}"));
            }
        }
        // All words of the card, and no other: neither keys nor tabs. Headings may take two lines.
        let (mut wanted, mut found) = (words(card.iter().flatten()), words(page));
        wanted.sort_unstable();
        found.sort_unstable();
        if wanted != found {
            return wrong(format!("{paper:?} says {found:?}\nand not {wanted:?}"));
        }
    }
    stall.expect_sound().await
}

/// The texts of a picture, row by row from left to right, whether each lies within it, and its size.
const PICTURE: &str = r#"
const root = document.documentElement;
const { width, height } = root.getBoundingClientRect();
const texts = [...root.querySelectorAll("text")].map((e) => ({ text: e.textContent, box: e.getBBox() }));
const within = ({ box }) => box.x >= 0 && box.y >= 0 && box.x + box.width <= width && box.y + box.height <= height;
const apart = (one, other) => one === other || one.x + one.width <= other.x || other.x + other.width <= one.x || one.y + one.height <= other.y + 4 || other.y + other.height <= one.y + 4;
return {
  kind: root.localName, width, height, view: root.getAttribute("viewBox"),
  texts: texts.map(({ text }) => text),
  outside: texts.filter((one) => !within(one)).map(({ text }) => text),
  over: texts.filter(({ box }) => !texts.every((other) => apart(box, other.box))).map(({ text }) => text),
};
"#;

#[derive(Debug, serde::Deserialize)]
struct Picture {
    kind: String,
    width: f64,
    height: f64,
    view: Option<String>,
    texts: Vec<String>,
    outside: Vec<String>,
    over: Vec<String>,
}

async fn saved_as_a_picture(engine: Engine) -> Outcome<()> {
    let (stall, card) = stall(engine).await?;
    stall.tab.press("Save as a picture").await?;
    stall.tab.expect_said(&["among your downloads"]).await?;
    let file = picture_file(&stall.tab, &stall.browser).await?;
    stall.expect_sound().await?;
    // Without the app: the file alone, in a tab of its own.
    let tab = stall.browser.new_tab().await?;
    tab.go(&format!("file://{}", file.display())).await?;
    let picture: Picture = tab.ask(PICTURE).await?;
    let wanted: Vec<String> = card.into_iter().flatten().collect();
    // 12 units at each side, and 92 for each of five columns; 34 for each of 17 lines, and as much under them.
    let (width, height) = (484.0, 34.0 * 18.0);
    let is_right = picture.kind == "svg"
        && picture.texts == wanted
        && picture.outside.is_empty()
        && picture.over.is_empty()
        && (picture.width, picture.height) == (width, height)
        && picture.view == Some(format!("0 0 {width} {height}"));
    if !is_right {
        return wrong(format!(
            "the picture is not the card {wanted:?} but {picture:?}"
        ));
    }
    Ok(())
}

/// Waits for the picture among the downloads.
async fn picture_file(tab: &Tab, browser: &Browser) -> Outcome<PathBuf> {
    let trouble = || Failure::system("cannot look into the downloads");
    let deadline = Instant::now() + DEADLINE;
    loop {
        for entry in std::fs::read_dir(browser.downloads()).map_err(trouble())? {
            let path = entry.map_err(trouble())?.path();
            let is_picture = path.extension().is_some_and(|end| end == "svg");
            let text = std::fs::read_to_string(&path).unwrap_or_default();
            if is_picture && text.ends_with("</svg>\n") {
                return Ok(path);
            }
        }
        if Instant::now() > deadline {
            return wrong(format!("no picture was saved. {}", tab.standing().await));
        }
        tokio::time::sleep(std::time::Duration::from_millis(20)).await;
    }
}
