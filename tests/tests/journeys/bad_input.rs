//! Nonsense in every field: a sentence each time, nothing lost, nothing saved, and the app goes on.

use haulwren_tests::browser::{Engine, Outcome, QUAYSIDE, Setup, Tab, VENUE_FIELDS, wrong};

use crate::common::{DRESS, Stall, serve};

journeys!(in_forms => forms_in_chromium Chromium, forms_in_firefox Firefox, forms_in_webkit WebKit);
journeys!(on_the_keypad => keypad_in_chromium Chromium, keypad_in_firefox Firefox, keypad_in_webkit WebKit);

/// No amount: negative, absurd, too fine, words, signs.
const NO_AMOUNT: [&str; 7] = [
    "-1",
    "1000000000000000000",
    "0.123456",
    "abc",
    "1,5,0",
    "NaN",
    "1e3",
];
/// No percentage.
const NO_PERCENT: [&str; 4] = ["101", "-5", "ten", "1000000000000000000"];

async fn in_forms(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.screen("#/settings/venue/new").await?;
    tab.fill_venue(&QUAYSIDE).await?;
    let [name, percent, flat, postage, packing] = VENUE_FIELDS;
    tab.fill(name, "Townboard").await?;
    refuses(tab, name, &["", "   "], "Townboard").await?;
    refuses(tab, percent, &NO_PERCENT, "10").await?;
    for field in [flat, postage, packing] {
        refuses(tab, field, &NO_AMOUNT, "0.25").await?;
    }
    // With every field in order again it saves; nothing else had got lost meanwhile.
    let before = tab.saved().await?;
    tab.press("Save venue").await?;
    tab.saved_beyond(before).await?;
    stall.expect_sound().await
}

/// Each of these texts in the field is refused with a sentence, and stays as typed; then the good one goes in.
async fn refuses(tab: &Tab, field: &str, texts: &[&str], good: &str) -> Outcome<()> {
    let before = tab.saved().await?;
    for text in texts {
        tab.fill(field, text).await?;
        tab.press("Save venue").await?;
        let what = format!("\"{text}\" as \"{field}\"");
        tab.expect_complaint(&what).await?;
        let stands = tab.field(field).await?;
        if stands != *text {
            return wrong(format!("{what} became \"{stands}\""));
        }
        if tab.saved().await? != before {
            return wrong(format!("{what} was saved"));
        }
        tab.expect_running().await?;
    }
    tab.fill(field, good).await
}

async fn on_the_keypad(engine: Engine) -> Outcome<()> {
    let server = serve(Setup::dist()?)?;
    let browser = haulwren_tests::browser::Browser::open(engine).await?;
    let tab = browser.tab().await?;
    // The first form of all: a bad least keep is told and stays, and nothing begins.
    tab.open_app(&server.url()).await?;
    let least = "Smallest profit worth your time";
    for text in NO_AMOUNT {
        tab.fill(least, text).await?;
        tab.press("Next: your first venue").await?;
        tab.expect_complaint(&format!("\"{text}\" as the least to keep"))
            .await?;
        if tab.field(least).await? != text || tab.saved().await? != 0 {
            return wrong(format!("\"{text}\" was taken, or lost"));
        }
    }
    tab.first_run(&server.url(), &QUAYSIDE).await?;
    let begun = tab.saved().await?;
    // A third decimal, a second point and a nineteenth digit are refused with a sentence each; what was
    // there before the key stays.
    for (keys, one_more, times) in [("6.50", "1", 1), ("6.", ".", 1), ("9999", "9", 15)] {
        tab.type_in("ask", keys).await?;
        for _ in 0..times {
            tab.keys(one_more).await?;
        }
        tab.expect_complaint(&format!("the key {one_more} after {keys}"))
            .await?;
        let shown: String = tab
            .ask("return document.querySelector('[data-field=ask] .n').textContent")
            .await?;
        if !shown.starts_with(keys) {
            return wrong(format!("{keys} became {shown}"));
        }
        tab.expect_running().await?;
    }
    // Letters and signs from a keyboard do nothing.
    tab.type_in("ask", "7").await?;
    tab.send_keys("abc-+e").await?;
    tab.type_in("low", "18").await?;
    tab.send_keys("xyz").await?;
    tab.weigh_up("6", DRESS).await?;
    tab.expect_figures(&[("keep", "9.90")]).await?;
    // Low over likely over high: a sentence instead of a verdict.
    tab.weigh_up("6", ["34", "26", "18"]).await?;
    tab.expect_complaint("low over high").await?;
    tab.expect_verdict("none").await?;
    // As much as fits in a field, everywhere.
    tab.weigh_up("9999999", ["9999999", "9999999", "9999999"])
        .await?;
    tab.tap("button[data-key=\"what\"]").await?;
    tab.fill("Postage, when you know it", "9999999").await?;
    tab.fill("Packing, when you know it", "much").await?;
    tab.expect_complaint("letters for an amount").await?;
    tab.press("Done").await?;
    tab.expect_running().await?;
    if tab.saved().await? != begun {
        return wrong("something was saved that nobody bought");
    }
    browser.expect_quiet(&tab).await
}
