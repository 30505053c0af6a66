//! A key press on Decide with twelve venues and six rate cards: to the end of its frame beside a bare page, and to the last figure that it
//! changes beside the peer.

use std::time::{SystemTime, UNIX_EPOCH};

use haulwren_core::stamp::At;
use haulwren_tests::browser::{Browser, Engine, Failure, Outcome, Setup, Tab, wrong};
use haulwren_tests::server::{Options, Server};
use serde_json::{Value, json};

use super::measure::{self, KEYS};
use super::stall::{Stall, Typed};
use super::stats::Times;
use super::{SLOWER, bare, laid, measured, peer};

/// Presses digits and the rub-out key in turn; each time is from the press to the last figure that it changed. Some rounds go before those
/// that count.
const CHANGE: &str = r#"
const times = [];
const frame = () => new Promise((done) => requestAnimationFrame(() => {
  const after = new MessageChannel();
  after.port1.onmessage = done;
  after.port2.postMessage(0);
}));
let last = null;
const of = ({ target }) => (target.nodeType === Node.TEXT_NODE ? target.parentElement : target)?.closest("[data-figure], .venue, .venues");
new MutationObserver((all) => { if (all.some(of)) last = performance.now(); })
  .observe(document.querySelector("main"), { subtree: true, childList: true, characterData: true, attributes: true });
for (let n = -args[1]; n < args[0]; n += 1) {
  const name = n % 2 ? "rub" : 1 + ((n >> 1) + 900) % 9;
  const key = document.querySelector(`button[data-key="${name}"]`);
  await frame();
  last = null;
  const start = performance.now();
  key.click();
  await frame();
  if (last === null) throw new Error(`no figure changed at the key ${name}`);
  if (n >= 0) times.push(last - start);
}
return times;
"#;

/// The peer's sums alone, for the same asks.
const SUMS: &str = r#"
const times = [];
const turn = () => new Promise((done) => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); });
for (let n = -args[1]; n < args[0]; n += 1) {
  const typed = { kind: "Shoes", ask: n % 2 ? 600 : 6100 + 100 * (((n >> 1) + 900) % 9), low: 4500, likely: 6000 };
  await turn();
  const start = performance.now();
  appraise(stall, typed);
  if (n >= 0) times.push(performance.now() - start);
}
return times;
"#;

/// Rounds that don't count: even, so that the ask is what it was before.
const WARM: u32 = 40;

/// Every venue's card: its name, and what is kept there in minor units.
const CARDS: &str = r#"
const minor = (text) => (text.includes("\u2212") ? -1 : 1) * Number(text.replace(/[^0-9]/g, ""));
return [...document.querySelectorAll("label.venue")].map((e) =>
  [e.querySelector(".name").textContent.trim(), minor(e.querySelector("b").textContent)]);
"#;

pub async fn bench() -> Outcome<()> {
    let now = yesterday()?;
    let stall = Stall::new(now)?;
    let bare = bare::write()?;
    let peers = peer::write()?;
    let (bare, app, peers) = (
        serve(bare.path())?,
        serve(&Setup::dist()?)?,
        serve(peers.path())?,
    );
    let browser = Browser::open(Engine::Chromium).await?;

    let tab = measured(&browser).await?;
    tab.open_app(&bare.url()).await?;
    let bare_price = measure::price(&tab).await?;
    let bare_keys = measure::turn(&tab).await?;

    let theirs = measured(&browser).await?;
    theirs.open_app(&peers.url()).await?;
    let compared = peer::expect_same(&theirs, &stall, now).await?;

    let tab = measured(&browser).await?;
    set_up(&tab, &app.url(), &stall).await?;
    for ask in [600, 6300, 600] {
        tab.type_in("ask", &(ask / 100).to_string()).await?;
        expect_on_page(&tab, &theirs, &stall, ask, now).await?;
    }
    // A price within the ceiling, typed to its end; then one that turns the verdict at each key.
    tab.type_in("ask", "1").await?;
    let price = measure::price(&tab).await?;
    tab.type_in("ask", "6").await?;
    let keys = measure::turn(&tab).await?;
    let rounds = [json!(KEYS), json!(WARM)];
    let ours: Vec<f64> = tab.ask_later(CHANGE, &rounds).await?;
    // Such a key changes every sum, and the order of the venues. The high price stays over it.
    tab.type_in("high", "9999").await?;
    tab.type_in("likely", "60").await?;
    let sells = measure::turn(&tab).await?;
    tab.close().await?;
    let drawn: Vec<f64> = theirs.ask_later(CHANGE, &rounds).await?;
    let sums: Vec<f64> = theirs.ask_later(SUMS, &rounds).await?;
    let [ours, drawn, sums] = [ours, drawn, sums].map(Times::of);

    println!("\n12 venues, 6 rate cards; Chromium, processor slowed down {SLOWER} times, ms");
    println!("{:52}{:>18}{:>18}{:>8}", "", "app", "beside it", "ratio");
    for (what, beside, app, other) in [
        (
            "key of a price to end of frame callback",
            "bare page",
            &price[0],
            &bare_price[0],
        ),
        (
            "the same, when it turns the verdict",
            "bare page",
            &keys[0],
            &bare_keys[0],
        ),
        (
            "the same, of what it sells for",
            "bare page",
            &sells[0],
            &bare_keys[0],
        ),
        ("to the frame drawn", "bare page", &keys[1], &bare_keys[1]),
        (
            "of that work, no wait",
            "bare page",
            &keys[2],
            &bare_keys[2],
        ),
        ("key to the last figure", "peer, decimal.js", &ours, &drawn),
        ("key to the last figure", "peer's sums alone", &ours, &sums),
    ] {
        let what = format!("{what}, {KEYS} ({beside})");
        println!("{what:52}{app:>18}{other:>18}{:>8.2}", app.ratio(other));
    }
    println!(
        "app and peer gave the same figures to the cent: {compared} appraisals of a thing on a venue, and every card on the page"
    );
    browser.expect_no_other_host()
}

/// A day ago by the clock.
pub fn yesterday() -> Outcome<At> {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    let ms = since
        .ok()
        .and_then(|since| u64::try_from(since.as_millis()).ok());
    // A day ago, so that the terms hold whatever zone the browser's clock is in.
    ms.map_or_else(
        || wrong("the clock is before 1970"),
        |ms| Ok(At(ms - 86_400_000, 0)),
    )
}

/// Serves a folder.
pub fn serve(folder: &std::path::Path) -> Outcome<Server> {
    Server::start(Options::new(folder)).map_err(Failure::system("cannot serve the pages"))
}

/// Lays the stall down, and types a thing.
async fn set_up(tab: &Tab, url: &str, stall: &Stall) -> Outcome<()> {
    laid::down(tab, url, stall).await?;
    type_shoes(tab).await?;
    let all = "return document.querySelectorAll('label.venue').length === 12";
    tab.until("twelve venues", all).await
}

/// Types the thing that the benches are about.
pub async fn type_shoes(tab: &Tab) -> Outcome<()> {
    tab.tap("[data-key=\"what\"]").await?;
    tab.press_in("dialog[open]", "Shoes").await?;
    tab.weigh_up("6", ["45", "60", "75"]).await
}

/// Checks every card on the app's page, and their order, against the peer.
async fn expect_on_page(app: &Tab, theirs: &Tab, stall: &Stall, ask: i64, now: At) -> Outcome<()> {
    let typed = Typed {
        kind: "Shoes",
        ask,
        low: 4500,
        likely: 6000,
    };
    let peers = peer::judged(theirs, &[typed]).await?.remove(0);
    if stall.judged(&typed, now)? != peers {
        return wrong(format!("core and peer differ at an ask of {ask}"));
    }
    // Cards by their order on the page, best first; those that keep the same stand in the book's order, as the peer's do.
    let seen: Value = app.ask(CARDS).await?;
    let cards = peers.as_array().into_iter().flatten();
    let wanted: Value = cards.map(|one| json!([one["name"], one["keep"]])).collect();
    if seen != wanted {
        return wrong(format!(
            "at an ask of {ask} the page shows {seen} and not {wanted}"
        ));
    }
    Ok(())
}
