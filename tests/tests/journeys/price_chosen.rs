//! A price that two devices set differently is chosen beside what alike things are thought to sell for.

use haulwren_tests::browser::{Engine, Outcome, Tab};

use crate::common::{Stall, look_at};
use crate::outing;
use crate::pile::expect_texts;
use crate::saturday::save_file;
use crate::two_devices::{Computer, look_into, open_files, take};

journeys!(a_price => in_chromium Chromium);

/// The one in dispute is called as the others are, but for its capitals.
const JUG: &str = "Enamel Jug";

async fn a_price(engine: Engine) -> Outcome<()> {
    let phone = Stall::open(engine).await?;
    for likely in ["16.50", "19", "14"] {
        outing::thing(&phone.tab, "enamel jug", "2", likely).await?;
    }
    outing::thing(&phone.tab, JUG, "2", "17").await?;
    let computer = Computer::with_book_of(&phone, engine).await?;
    let desk = &computer.tab;

    reprice(&phone.tab, "18").await?;
    reprice(desk, "15").await?;
    let file = save_file(desk, &computer.browser).await?;
    open_files(&phone.tab).await?;
    look_into(&phone.tab, &phone.browser, &file).await?;
    take(&phone.tab).await?;

    phone.tab.screen("#/attention").await?;
    let rungs = ["19.00", "18.00", "16.50", "15.00", "14.00"];
    expect_texts(&phone.tab, ".ladder b:not(.support b)", &rungs).await?;
    expect_texts(&phone.tab, ".ladder .middle", &["middle of 3: 16.50"]).await?;
    look_at(&phone.tab, "price-chosen").await?;
    let before = phone.tab.saved().await?;
    phone.tab.press_in(".choices", "Use 18.00").await?;
    phone.tab.saved_beyond(before).await?;
    phone.expect_sound().await?;
    desk.expect_running().await?;
    computer.browser.expect_quiet(desk).await
}

/// Says anew what the jug sells for.
async fn reprice(tab: &Tab, likely: &str) -> Outcome<()> {
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", JUG).await?;
    tab.tap("[data-correct=\"sells\"]").await?;
    let before = tab.saved().await?;
    tab.fill("Likely", likely).await?;
    tab.press("Save").await?;
    tab.saved_beyond(before).await.map(drop)
}
