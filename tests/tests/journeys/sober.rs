//! A verdict does not flatter: what nobody said is missing or named, work comes off, and a look at another venue holds for one thing alone.

use haulwren_tests::browser::{Engine, Outcome, Tab, VenueForm};
use serde_json::json;

use crate::common::{DRESS, Stall};

journeys!(no_minimum => no_minimum_in_chromium Chromium, no_minimum_in_firefox Firefox, no_minimum_in_webkit WebKit);
journeys!(unsaid => unsaid_in_chromium Chromium, unsaid_in_firefox Firefox, unsaid_in_webkit WebKit);
journeys!(elsewhere => elsewhere_in_chromium Chromium, elsewhere_in_firefox Firefox, elsewhere_in_webkit WebKit);
journeys!(again => again_in_chromium Chromium, again_in_firefox Firefox, again_in_webkit WebKit);

const TOWNBOARD: VenueForm = VenueForm {
    name: "Townboard",
    arrangement: "In person",
    percent: "",
    base: "the price",
    flat: "",
    postage: "",
    packing: "",
};

/// Post included, and nothing said of the postage.
const MARLPOST: VenueForm = VenueForm {
    name: "Marlpost",
    arrangement: "Post included",
    percent: "15",
    base: "the price",
    flat: "",
    postage: "",
    packing: "",
};

/// Waits until some element of a kind holds a text.
async fn until_says(tab: &Tab, css: &str, text: &str) -> Outcome<()> {
    let script = "return [...document.querySelectorAll(arguments[0])].some((one) => one.innerText.replace(/\\s+/g, ' ').includes(arguments[1]))";
    let what = format!("{css} to say {text}");
    tab.until_with(&what, script, &[json!(css), json!(text)])
        .await
}

/// A card's small line.
async fn until_card(tab: &Tab, venue: &str, line: &str) -> Outcome<()> {
    const CARD: &str = "return [...document.querySelectorAll('label.venue')].some((card) => card.querySelector('.name').textContent.includes(arguments[0]) && card.querySelector('small').textContent === arguments[1])";
    let what = format!("{venue} to say {line}");
    tab.until_with(&what, CARD, &[json!(venue), json!(line)])
        .await
}

/// 11.50 asked for what sells at 20, with no minimum set.
async fn no_minimum(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.screen("#/settings").await?;
    tab.fill("The least you keep", "").await?;
    let before = tab.saved().await?;
    tab.press("Save rules").await?;
    tab.saved_beyond(before).await?;
    tab.screen("#/decide").await?;
    tab.weigh_up("10", ["20"; 3]).await?;
    tab.expect_verdict("buy").await?;
    until_says(tab, ".flag-second", "no minimum").await?;
    until_says(tab, "[data-key=buy][data-verdict-key=buy]", "Buy it").await?;
    tab.tap("[data-key=why]").await?;
    until_says(tab, ".reasons li", "No minimum is set: any profit counts.").await?;
    until_says(tab, "dialog .support", "as suggested").await?;
    stall.expect_sound().await
}

/// Postage that nobody said is missing where the trader pays it; work comes off before buying.
async fn unsaid(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.weigh_up("6", DRESS).await?;
    tab.expect_verdict("buy").await?;
    tab.tap("[data-key=what]").await?;
    tab.fill("What the work costs", "4").await?;
    tab.press("Done").await?;
    // 15.90 less 4.00 of work and 8.00 to keep: no more than 3.50, within half of 6.00 by 3.90.
    tab.expect_verdict("haggle").await?;
    until_says(tab, "[data-key=buy][data-verdict-key=haggle]", "Buy it").await?;
    tab.key("clear-all").await?;
    stall.add_venue(&MARLPOST).await?;
    tab.weigh_up("6", DRESS).await?;
    until_card(tab, "Marlpost", "post not said").await?;
    tab.tick("Marlpost").await?;
    tab.expect_verdict("none").await?;
    until_says(tab, ".rail-empty", "Type what it costs to post.").await?;
    stall.expect_sound().await
}

/// A venue is chosen for one thing alone, and the flag says where else the ask passes.
async fn elsewhere(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    stall.add_venue(&TOWNBOARD).await?;
    tab.weigh_up("9", DRESS).await?;
    tab.expect_verdict("haggle").await?;
    until_says(tab, ".flag-second", "11.50 on Townboard").await?;
    tab.tick("Townboard").await?;
    tab.expect_verdict("buy").await?;
    until_card(tab, "Townboard", "this thing only").await?;
    tab.buy().await?;
    tab.weigh_up("9", DRESS).await?;
    tab.expect_verdict("haggle").await?;
    until_card(tab, "Townboard", "in person").await?;
    stall.expect_sound().await
}

/// What was passed by is opened again; one key clears all.
async fn again(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.weigh_up("9", DRESS).await?;
    let before = tab.saved().await?;
    tab.key("not-now").await?;
    tab.saved_beyond(before).await?;
    until_says(tab, ".lately", "passed, asked 9.00").await?;
    tab.tap("[data-again]").await?;
    tab.expect_verdict("haggle").await?;
    tab.key("clear-all").await?;
    tab.expect_verdict("none").await?;
    until_says(tab, ".lately", "passed, asked 9.00").await?;
    stall.expect_sound().await
}
