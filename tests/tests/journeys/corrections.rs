//! What was judged when a thing was bought stands; what is kept now follows what was paid, its price, its work, on its page and in the totals.

use haulwren_tests::browser::{Engine, Outcome, Tab, wrong};

use crate::common::Stall;
use crate::outing::{self, answer};
use crate::pile::expect_texts;

journeys!(walk => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);
journeys!(of_a_pile => pile_in_chromium Chromium, pile_in_firefox Firefox, pile_in_webkit WebKit);
journeys!(given_back => given_back_in_chromium Chromium);

/// Corrects a figure on the thing's page.
async fn correct(tab: &Tab, figure: &str, texts: &[(&str, &str)]) -> Outcome<()> {
    tab.tap(&format!("[data-correct=\"{figure}\"]")).await?;
    answer(tab, texts).await
}

/// The page's figures now, and what Haul says of all: they are the same, since there is one thing.
async fn expect_now(tab: &Tab, figures: &[&str], totals: [&str; 4]) -> Outcome<()> {
    expect_texts(tab, ".thing-page [data-thing].figures dd", figures).await?;
    let judged = ["10.00", "32.00", "9.80"];
    expect_texts(tab, ".thing-page [data-judged] dd", &judged).await?;
    let page: String = tab.ask("return location.hash").await?;
    tab.screen("#/haul").await?;
    expect_texts(tab, ".haul-list .haul-sums dd", &totals).await?;
    tab.screen(&page).await?;
    tab.element("[data-correct=\"paid\"]").await
}

/// Worked by hand. Quayside leaves 0.65 of a price less 1.00 before the thing is paid for, a quarter set aside; 15 % of the price of it is for
/// what never sells. Of 32.00 that is 19.80, of 40.00 25.00.
async fn walk(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    outing::thing(tab, "denim jacket", "10", "32").await?;
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", "denim jacket").await?;
    tab.element("[data-correct=\"paid\"]").await?;
    let now = ["10.00", "32.00", "9.80", "14.60"];
    expect_now(tab, &now, ["10.00", "1", "14.60", "9.80"]).await?;
    correct(tab, "paid", &[("Paid", "11")]).await?;
    let now = ["11.00", "32.00", "8.80", "13.60"];
    expect_now(tab, &now, ["11.00", "1", "13.60", "8.80"]).await?;
    correct(tab, "sells", &[("Likely", "40")]).await?;
    let now = ["11.00", "40.00", "14.00", "20.00"];
    expect_now(tab, &now, ["11.00", "1", "20.00", "14.00"]).await?;
    tab.press_in(".thing-page", "Add work").await?;
    let work = [("What was done", "zip mended"), ("What it cost", "4")];
    answer(tab, &work).await?;
    let now = ["11.00", "4.00", "40.00", "10.00", "16.00"];
    expect_now(tab, &now, ["11.00", "1", "16.00", "10.00"]).await?;
    // A price that makes no sense is refused, and the sheet stays.
    tab.tap("[data-correct=\"sells\"]").await?;
    tab.fill("Low", "50").await?;
    tab.tap("dialog[open] [data-answer]").await?;
    let refused = "return !!document.querySelector('dialog[open]')?.innerText.includes('The low price is over the likely one.')";
    tab.until("the price to be refused", refused).await?;
    tab.press_in("dialog[open]", "Close").await?;
    let link = "return document.querySelector('.thing-page a.row[href*=\"/lot/\"]') === null";
    if !tab.ask::<bool>(link).await? {
        return wrong("a single thing has a page of a lot");
    }
    stall.expect_sound().await
}

/// Nothing was asked for the things one by one: they are judged by their part, and counted. Weighed at home, their price goes by weight.
async fn of_a_pile(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    for (name, likely) in [("brass scales", "30"), ("tin lantern", "20")] {
        tab.screen("#/decide").await?;
        outing::call_it(tab, name, false).await?;
        tab.type_in("likely", likely).await?;
        tab.key("pile").await?;
    }
    let told = "return document.querySelector('[data-key=\"to-pile-screen\"]').innerText.includes('asked')";
    if tab.ask::<bool>(told).await? {
        return wrong("the pile says what was asked, and nothing was");
    }
    tab.tap("[data-key=\"to-pile-screen\"]").await?;
    tab.screen("#/pile").await?;
    tab.element(".pile-row").await?;
    tab.keys("10").await?;
    tab.buy().await?;
    tab.screen("#/haul").await?;
    // 18.50 and 12.00 less 10.00; if both sell, 7.50 more.
    let totals = ["10.00", "2", "28.00", "20.50"];
    expect_texts(tab, ".haul-list .haul-sums dd", &totals).await?;
    for (name, weight) in [("brass scales", "30"), ("tin lantern", "10")] {
        tab.screen("#/haul").await?;
        tab.press_in(".haul-list", name).await?;
        tab.tap("[data-facts]").await?;
        answer(tab, &[("Weight", weight)]).await?;
        expect_judged(tab, name).await?;
    }
    tab.screen("#/haul").await?;
    let before = tab.saved().await?;
    tab.tap(".haul-list .split .keys > label:nth-of-type(4)")
        .await?;
    tab.saved_beyond(before).await?;
    expect_texts(tab, ".haul-list .lot-row .paid", &["7.50", "2.50"]).await?;
    expect_texts(tab, ".haul-list .haul-sums dd", &totals).await?;
    stall.expect_sound().await
}

/// Its part of 10.00 by price was asked for it, and the verdict on that is kept.
async fn expect_judged(tab: &Tab, name: &str) -> Outcome<()> {
    let judged = match name {
        "brass scales" => ["6.00", "30.00", "12.50"],
        _ => ["4.00", "20.00", "8.00"],
    };
    expect_texts(tab, ".thing-page [data-judged] dd", &judged).await
}

/// Given back for less than was paid: what did not come back is said under the thing's name, without keys that do nothing.
async fn given_back(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    outing::thing(tab, "oil lamp", "6", "30").await?;
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", "oil lamp").await?;
    tab.press_in(".thing-page", "Give it back").await?;
    answer(tab, &[("What came back", "4")]).await?;
    tab.screen("#/haul").await?;
    let rows = ["oil lamp, given back not yet shared"];
    expect_texts(tab, ".haul-list [data-lot] .what", &rows).await?;
    tab.tap(".haul-list a[data-lot]").await?;
    let told = "return !!document.querySelector('.thing-page')?.innerText.includes('2.00 of what was paid did not come back')";
    tab.until("what did not come back to be told", told).await?;
    expect_texts(tab, ".thing-page .form .keys-row .press", &["Paid 2.00"]).await?;
    stall.expect_sound().await
}
