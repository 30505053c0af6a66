//! Shares said by hand that don't add up: the lot's page is not left unseen, by no way, and nobody is held there for good.

use haulwren_tests::browser::{Engine, Outcome, Tab, wrong};

use crate::common::Stall;
use crate::outing;
use crate::pile::expect_texts;

journeys!(leaving_asks_what_becomes_of_the_rest => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

/// The lot is still there, in the address too, and the question says this.
async fn expect_asked(tab: &Tab, lot: &str, said: &str) -> Outcome<()> {
    tab.element("dialog[open] [data-answer]").await?;
    expect_texts(tab, "dialog[open] h2", &[said]).await?;
    let there = "return location.hash === arguments[0] && document.querySelector('.thing-page .lot-card') !== null";
    tab.until_with("the lot to stay", there, &[lot.into()])
        .await
}

async fn close(tab: &Tab) -> Outcome<()> {
    tab.press_in("dialog[open]", "Close").await?;
    let closed = "return document.querySelector('dialog[open]') === null";
    tab.until("the question to go", closed).await
}

/// Answers, and waits until the way is gone.
async fn go_on(tab: &Tab, choice: &str, to: &str) -> Outcome<()> {
    tab.tick(choice).await?;
    tab.tap("dialog[open] [data-answer]").await?;
    let gone = "return document.documentElement.dataset.at === arguments[0] && location.hash === arguments[0]";
    tab.until_with(to, gone, &[to.into()]).await
}

async fn share(tab: &Tab, of: &str, amount: &str) -> Outcome<()> {
    tab.press_in(".thing-page .lot-card", &format!("Share of {of}"))
        .await?;
    outing::answer(tab, &[("Share", amount)]).await
}

async fn open(tab: &Tab, lot: &str) -> Outcome<()> {
    tab.screen(lot).await?;
    tab.element(".thing-page .lot-row").await.map(drop)
}

async fn leaving_asks_what_becomes_of_the_rest(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    outing::three_for(tab, "10").await?;
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", "Lot of 3").await?;
    tab.element(".thing-page .lot-row").await?;
    let lot: String = tab.ask("return location.hash").await?;
    let before = tab.saved().await?;
    tab.tap(".thing-page .split .keys > label:last-child")
        .await?;
    tab.saved_beyond(before).await?;

    // By hand starts from the shares that stand: 30, 22 and 18 of 70.
    let shares = ["4.29", "3.14", "2.57"];
    expect_texts(tab, ".thing-page .share", &shares).await?;
    expect_texts(tab, ".thing-page .adds-up", &["adds up to 10.00"]).await?;
    share(tab, "wool duffle coat, child", "0").await?;
    // A tab; put away, the lot is still there.
    tab.press_in(".tabs", "Decide").await?;
    expect_asked(tab, &lot, "4.29 not yet shared").await?;
    close(tab).await?;
    // The browser's own way back; what is missing goes to the last, and the way is gone.
    tab.run_with("history.back()", &[]).await?;
    expect_asked(tab, &lot, "4.29 not yet shared").await?;
    go_on(tab, "Fix last", "#/haul").await?;
    expect_texts(tab, ".haul-list .share", &["0.00", "3.14", "6.86"]).await?;

    // Too little, left so: from then on it is not asked about, until it is another amount.
    open(tab, &lot).await?;
    share(tab, "tin lantern", "2").await?;
    tab.press_in(".thing-page", "Haul").await?;
    expect_asked(tab, &lot, "4.86 not yet shared").await?;
    go_on(tab, "Leave it", "#/haul").await?;
    open(tab, &lot).await?;
    tab.screen("#/decide").await?;
    open(tab, &lot).await?;
    share(tab, "rain boots, child", "9").await?;
    tab.press_in(".thing-page", "Haul").await?;
    expect_asked(tab, &lot, "1.00 over").await?;
    go_on(tab, "Fix last", "#/haul").await?;
    expect_texts(tab, ".haul-list .share", &["0.00", "9.00", "1.00"]).await?;

    // So much over that the last can't take it back: there is nothing to fix, and it can be left.
    open(tab, &lot).await?;
    share(tab, "rain boots, child", "12").await?;
    tab.press_in(".thing-page", "Haul").await?;
    expect_asked(tab, &lot, "3.00 over").await?;
    let words = "return [...document.querySelectorAll('dialog[open] .choice label')].map((e) => e.innerText.trim().split('\\n')[0])";
    let choices: Vec<String> = tab.ask(words).await?;
    if choices != ["Leave it"] {
        return wrong(format!("the choices are {choices:?}"));
    }
    go_on(tab, "Leave it", "#/haul").await?;
    stall.expect_sound().await
}
