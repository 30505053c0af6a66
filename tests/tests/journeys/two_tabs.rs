//! Two windows of one profile save at once: no number is left out or drawn twice, and both end up with the
//! same book.

use std::time::Duration;

use haulwren_tests::browser::{Engine, Outcome, Tab, wrong};
use serde_json::json;

use crate::common::Stall;

journeys!(both_save_at_once => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

/// How often each window buys.
const PURCHASES: u64 = 200;
/// All of them take a few seconds where the machine has nothing else to do.
const PATIENCE: Duration = Duration::from_mins(3);

/// Buys so many times, each time waiting only for the save of the time before, and counts on the page.
const BUYER: &str = r#"
const most = arguments[0], root = document.documentElement;
const key = (k) => document.querySelector(`button[data-key="${k}"]`).click();
const idle = () => document.querySelector(`button[data-key="buy"]`).disabled;
const turn = () => new Promise((done) => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); });
const until = async (state) => { while (!state()) await turn(); };
(async () => {
  for (let done = 1; done <= most; done += 1) {
    await until(idle);
    key("3");
    await until(() => !idle());
    key("buy");
    await until(idle);
    root.dataset.bought = String(done);
  }
})();
"#;

async fn both_save_at_once(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let begun = stall.tab.saved().await?;
    let other = stall.browser.new_window().await?;
    other.open_app(&stall.url).await?;
    for tab in [&stall.tab, &other] {
        tab.screen("#/decide").await?;
        tab.element("button[data-key=\"buy\"]").await?;
    }
    for tab in [&stall.tab, &other] {
        tab.run_with(BUYER, &[json!(PURCHASES)]).await?;
    }
    for tab in [&stall.tab, &other] {
        let done = "return Number(document.documentElement.dataset.bought) === arguments[0]";
        tab.until_within(PATIENCE, "all purchases", done, &[json!(PURCHASES)])
            .await?;
    }
    let book = stall.tab.stored_book().await?;
    let end = book.end()?;
    book.expect_folded()?;
    let things = book.things();
    if things.len() as u64 != 2 * PURCHASES {
        return wrong(format!("{} things were stored", things.len()));
    }
    println!("{engine}: {} changes by two windows", end - begun);
    for tab in [&stall.tab, &other] {
        agrees(tab, end, &things).await?;
    }
    stall.expect_sound().await
}

/// The window has read on to the end and shows every thing.
async fn agrees(tab: &Tab, end: u64, things: &[String]) -> Outcome<()> {
    let caught_up = "return Number(document.documentElement.dataset.saved) === arguments[0]";
    tab.until_with("the other window's saves", caught_up, &[json!(end)])
        .await?;
    tab.expect_bought(things.len()).await?;
    if tab.shown_things().await? != things {
        return wrong("a window shows other things than are stored");
    }
    tab.expect_running().await
}
