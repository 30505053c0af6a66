//! Rate cards: rough by six numbers, full by a pasted table, a tried parcel, and all of it still there with the server shut; a container
//! and a kind, saved and undone.

use haulwren_tests::browser::{Engine, Outcome, Tab, wrong};

use crate::common::{Stall, look_at};

journeys!(walk => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

/// As from a spreadsheet, but parted by semicolons: a typed tab would leave the field. Rows end with the driver's key for Enter. The
/// third row can't be read.
const TABLE: &str =
    "oz;2;3;5\u{e007}12;3.50;4.00;4.50\u{e007}heavy;1;2;3\u{e007}1 lb;4.50;5.00;5.50";

/// Waits until some words stand on the screen.
pub async fn expect_words(tab: &Tab, words: &str) -> Outcome<()> {
    let script = format!("return document.querySelector('main').innerText.includes({words:?})");
    tab.until(&format!("the words \"{words}\""), &script).await
}

/// Looks at a screen in one engine: the sheets are the same in each.
async fn look(tab: &Tab, screen: &str) -> Outcome<()> {
    if tab.engine() == Engine::Chromium {
        look_at(tab, screen).await?;
    }
    Ok(())
}

async fn expect_field(tab: &Tab, label: &str, text: &str) -> Outcome<()> {
    let found = tab.field(label).await?;
    if found == text {
        return Ok(());
    }
    wrong(format!("\"{label}\" holds \"{found}\" and not \"{text}\""))
}

async fn walk(engine: Engine) -> Outcome<()> {
    let mut stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.offline_ready().await?;
    tab.screen("#/settings/card/new").await?;
    tab.fill("Name of the rate card", "Northmail").await?;
    tab.press("Save rate card").await?;
    expect_words(tab, "Type a price for four to six of the weights.").await?;
    for (row, price) in ["3.80", "4.20", "4.50", "5.50"].iter().enumerate() {
        tab.fill(&format!("Price, row {}", row + 1), price).await?;
    }
    // Up to 12 oz is the third step.
    tab.fill("Weight, all in", "11.9").await?;
    expect_words(tab, "0.1 oz under the next step, which costs 1.00 more.").await?;
    look(tab, "card-rough").await?;
    tab.press("Save rate card").await?;
    expect_words(tab, "No container yet").await?;

    tab.press("Northmail").await?;
    tab.tick("Full").await?;
    tab.press("Paste from a spreadsheet").await?;
    tab.fill("The table", TABLE).await?;
    expect_words(tab, "Row 3: \u{201c}heavy\u{201d} is not a weight.").await?;
    look(tab, "card-paste").await?;
    tab.press("Take 2 rows").await?;
    expect_field(tab, "Price, row 2, zone 3", "5.00").await?;
    for (zone, share) in [("2", "20"), ("3", "30"), ("5", "50")] {
        tab.fill(&format!("Percent to zone {zone}"), share).await?;
    }
    // 20, 30 and 50 percent of 3.50, 4.00 and 4.50: 0.70 + 1.20 + 2.25.
    tab.fill("Weight, all in", "9").await?;
    expect_words(tab, "Expected over the zones 4.15, to the far zone 4.50.").await?;
    look(tab, "card-full").await?;
    tab.press("Save rate card").await?;

    expect_words(tab, "No container yet").await?;
    tab.press("Add a container").await?;
    tab.fill("Name of the container", "Padded mailer").await?;
    for (label, text) in [
        ("Its own weight", "1"),
        ("Length", "14"),
        ("Width", "12"),
        ("Height", "3"),
        ("What one costs", "0.30"),
    ] {
        tab.fill(label, text).await?;
    }
    tab.press("Save container").await?;
    expect_words(tab, "Mailer, 14 x 12 x 3 in inside, weighs 1 oz").await?;
    look(tab, "postage").await?;
    tab.press("Dress").await?;
    expect_words(tab, "One of it goes into: Padded mailer.").await?;
    look(tab, "kind").await?;
    tab.fill("What one weighs", "9.5").await?;
    tab.press("Save kind").await?;
    expect_words(tab, "9.5 oz, 13 x 10 x 2 in").await?;
    tab.press("Undo").await?;
    expect_words(tab, "12 oz, 13 x 10 x 2 in").await?;
    stall.expect_sound().await?;

    stall.server.stop();
    let tab = stall.browser.new_tab().await?;
    tab.open_app(&stall.url).await?;
    tab.screen("#/settings/postage").await?;
    expect_words(&tab, "Padded mailer").await?;
    tab.press("Northmail").await?;
    expect_field(&tab, "Price, row 2, zone 3", "5.00").await?;
    expect_field(&tab, "Percent to zone 5", "50").await?;
    tab.expect_running().await?;
    stall.browser.expect_quiet(&tab).await
}
