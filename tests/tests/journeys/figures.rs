//! Every figure opens: on Decide and on the pile each amount that was worked out is touched, the sheet opens with the lines behind it,
//! the lines sum to the amount that was touched, and it closes again.

use haulwren_tests::browser::{Engine, MARLPOST, Outcome, Tab, wrong};
use serde::Deserialize;

use crate::common::{DRESS, Stall};

journeys!(walk => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

/// All that is shown and was worked out: the parts of the rail, the gate, the ends, what the pile says beside its things and under them;
/// by name, with its amount. What is touched next is marked.
const SHOWN: &str = r#"
const amount = (e) => (e.querySelector("b") ?? e).innerText.match(/\d[\d,]*\.\d\d/g)?.pop() ?? null;
const all = [...document.querySelectorAll("[data-figure], [data-sum]")].filter((e) => e.getClientRects().length && !e.closest("dialog"));
all.forEach((e, at) => { if (at === arguments[0]) e.dataset.walk = ""; else delete e.dataset.walk; });
return all.map((e) => ({ name: e.dataset.figure ?? `sum ${e.dataset.sum}`, amount: amount(e), text: e.innerText.trim(), opens: e.tagName === "BUTTON" }));
"#;

/// The lines in the open sheet and their sum, in minor units; a loss is under nothing.
const LINES: &str = r#"
const minor = (text) => {
  const found = text.match(/(\u2212?)(\d[\d,]*)\.(\d\d)/);
  return found === null ? null : (found[1] ? -1 : 1) * Number(found[2].replaceAll(",", "") + found[3]);
};
const sheet = document.querySelector("dialog[open]");
const cells = (part) => [...sheet.querySelectorAll(`.why-lines ${part} td`)].map((e) => minor(e.innerText));
return { lines: cells("tbody"), sum: cells("tfoot"), labels: [...sheet.querySelectorAll(".why-lines th")].map((e) => e.innerText.trim()), text: sheet.innerText };
"#;

/// Amounts on the screen that are neither a figure nor known as what was typed (fields, asks, what things sell for, the pointer to the
/// ask), as a key that leads on (the pile, "Buy it"), as the flag, which opens the reasons, seen or said aloud, or as a venue's card, which puts its figures
/// on the rail.
const LOOSE: &str = r#"
const known = "[data-figure], [data-sum], [data-field], [data-asked], .pile-row .what, .of-ask, [data-key], [data-verdict], label.venue, [aria-live], dialog, .rail-probe, svg";
const words = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
const loose = [];
while (words.nextNode()) {
  const on = words.currentNode.parentElement;
  if (/\d\.\d\d/.test(words.currentNode.data) && on.getClientRects().length && !on.closest(known)) loose.push(on.outerHTML);
}
return loose;
"#;

/// An amount on the screen.
#[derive(Debug, Deserialize)]
struct Shown {
    name: String,
    amount: Option<String>,
    text: String,
    opens: bool,
}

/// What the sheet says.
#[derive(Debug, Deserialize)]
struct Sheet {
    lines: Vec<Option<i64>>,
    sum: Vec<Option<i64>>,
    labels: Vec<String>,
    text: String,
}

/// Touches every figure of the screen. Names are those that must be among them.
async fn all_open(tab: &Tab, screen: &str, names: &[&str]) -> Outcome<()> {
    let loose: Vec<String> = tab.ask(LOOSE).await?;
    if !loose.is_empty() {
        return wrong(format!("{screen}: amounts that open nothing: {loose:?}"));
    }
    let mut found = Vec::new();
    loop {
        let at = found.len();
        let all: Vec<Shown> = tab.ask_with(SHOWN, &[at.into()]).await?;
        let Some(one) = all.into_iter().nth(at) else {
            break;
        };
        expect_opens(tab, screen, &one).await?;
        found.push(one.name);
    }
    match names
        .iter()
        .find(|name| !found.iter().any(|one| one == *name))
    {
        Some(name) => wrong(format!(
            "{screen}: the figure {name} is not shown, but {found:?}"
        )),
        None => Ok(()),
    }
}

async fn expect_opens(tab: &Tab, screen: &str, one: &Shown) -> Outcome<()> {
    let what = format!("{screen}: {} ({})", one.name, one.text.replace('\n', " "));
    if !one.opens {
        return wrong(format!("{what} is no button"));
    }
    tab.tap("[data-walk]").await?;
    if let Err(missed) = tab.element("dialog[open] h2").await {
        return wrong(format!("{what} opens no sheet: {missed}"));
    }
    let sheet: Sheet = tab.ask(LINES).await?;
    if sheet.sum.is_empty() && one.name == "ceiling" && one.amount.as_deref() == Some("0.00") {
        // Nothing is the most to pay where a rule breaks even for nothing: that rule is what stands behind it.
        if !sheet
            .text
            .contains("Even for nothing it breaks your rules.")
        {
            return wrong(format!("{what} opens no lines, but {:?}", sheet.text));
        }
        return close(tab).await;
    }
    let lines: Option<Vec<i64>> = sheet.lines.iter().copied().collect();
    let (Some(lines), [Some(sum)]) = (lines, &sheet.sum[..]) else {
        return wrong(format!("{what} opens no lines, but {:?}", sheet.text));
    };
    if lines.is_empty() || lines.iter().sum::<i64>() != *sum {
        return wrong(format!(
            "{what}: the lines {lines:?} come to {sum}, it says"
        ));
    }
    // The rail says "Short by" or "you lose" where the sheet says "loss"; both give the amount.
    let shown = one
        .amount
        .as_deref()
        .map(|text| text.replace(['.', ','], ""));
    let shown: Option<i64> = shown.and_then(|digits| digits.parse().ok());
    match shown {
        Some(shown) if shown == sum.abs() => {}
        // In place of an amount: what is left even for nothing.
        None if one.text == "worth nothing" => {}
        _ => return wrong(format!("{what}: the lines come to {sum}")),
    }
    if sheet.labels.iter().any(String::is_empty) {
        return wrong(format!("{what}: a line has no words: {:?}", sheet.text));
    }
    close(tab).await
}

async fn close(tab: &Tab) -> Outcome<()> {
    tab.press_in("dialog[open]", "Close").await?;
    let closed = "return document.querySelector('dialog[open]') === null";
    tab.until("the sheet to close", closed).await
}

/// Touches the flag: the sheet gives reasons, the deciding one among them.
async fn verdict_opens(tab: &Tab, verdict: &str) -> Outcome<()> {
    tab.expect_verdict(verdict).await?;
    tab.tap(&format!("button[data-verdict=\"{verdict}\"]"))
        .await?;
    tab.element("dialog[open] .reasons .deciding").await?;
    close(tab).await
}

/// What Decide shows of every thing that is posted.
const RAIL: [&str; 7] = [
    "ceiling",
    "buyer-pays",
    "keep",
    "aside",
    "packing",
    "postage",
    "cut",
];

async fn walk(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    stall.add_venue(&MARLPOST).await?;

    let with_low = [&RAIL[..], &["low-keep"]].concat();
    let bought = [&with_low[..], &["pay"]].concat();
    tab.weigh_up("6", DRESS).await?;
    tab.key("rub").await?;
    tab.expect_figures(&[("ceiling", "7.50")]).await?;
    all_open(tab, "Decide without an ask", &with_low).await?;
    for (ask, verdict) in [("6", "buy"), ("12", "haggle"), ("20", "leave")] {
        tab.type_in("ask", ask).await?;
        verdict_opens(tab, verdict).await?;
        all_open(tab, &format!("Decide, {verdict}"), &bought).await?;
    }
    // Each venue's card says what is kept there. Touched, it is judged on, and the lines of that open on the rail.
    tab.type_in("ask", "6").await?;
    venue_cards_open(tab).await?;
    tab.tick("Quayside").await?;
    // 9.00: less than 8.00 is kept even for nothing.
    tab.weigh_up("1", ["7", "9", "11"]).await?;
    verdict_opens(tab, "leave").await?;
    all_open(tab, "Decide, not even free", &bought).await?;

    for (ask, likely) in [("6", "26"), ("3", "22"), ("2", "9")] {
        tab.weigh_up(ask, [likely; 3]).await?;
        tab.key("pile").await?;
    }
    tab.tap("[data-key=\"to-pile-screen\"]").await?;
    tab.screen("#/pile").await?;
    let pile = [&RAIL[..], &["up-to", "sum Asked", "sum Up to"]].concat();
    all_open(tab, "Pile without a price", &pile).await?;
    let paid = [&pile[..], &["pay"]].concat();
    for (says, verdict) in [("10", "buy"), ("17", "haggle"), ("40", "leave")] {
        tab.choose_field("says").await?;
        tab.keys(says).await?;
        verdict_opens(tab, verdict).await?;
        all_open(tab, &format!("Pile, {verdict}"), &paid).await?;
    }
    stall.expect_sound().await
}

/// The venue cards, and the kept amounts on them.
const CARDS: &str = r#"
return [...document.querySelectorAll("label.venue")].map((e) => [e.querySelector(".name").innerText.trim(), e.querySelector("b").innerText.match(/\d[\d,]*\.\d\d/)?.[0] ?? ""]);
"#;

async fn venue_cards_open(tab: &Tab) -> Outcome<()> {
    let cards: Vec<(String, String)> = tab.ask(CARDS).await?;
    if cards.len() != 2 {
        return wrong(format!("there are {} venue cards", cards.len()));
    }
    for (name, keep) in cards {
        tab.tick(&name).await?;
        tab.expect_figures(&[("keep", &keep)]).await?;
        all_open(tab, &format!("Decide on {name}"), &RAIL).await?;
    }
    Ok(())
}
