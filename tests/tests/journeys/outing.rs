//! The acts of a day out: a trip with its stops and purse, things and lots bought on it. Several journeys are made of them.

use std::path::Path;

use haulwren_tests::browser::{Outcome, Tab};

/// Three things for one price: name, ask and what each sells for.
pub const THREE: [(&str, &str, &str); 3] = [
    ("wool duffle coat, child", "8", "30"),
    ("rain boots, child", "4", "22"),
    ("tin lantern", "2", "18"),
];

/// Waits until the question is put, answers its texts by their labels, and waits for the save. An empty text is left as it is.
pub async fn answer(tab: &Tab, texts: &[(&str, &str)]) -> Outcome<()> {
    tab.element("dialog[open] [data-answer]").await?;
    let before = tab.saved().await?;
    for (label, text) in texts {
        tab.fill(label, text).await?;
    }
    tab.tap("dialog[open] [data-answer]").await?;
    tab.saved_beyond(before).await.map(drop)
}

/// Starts a trip from Haul with so much cash.
pub async fn start_trip(tab: &Tab, cash: &str, odometer: &str) -> Outcome<()> {
    tab.screen("#/haul").await?;
    tab.tap("[data-start-trip]").await?;
    let texts = [("Cash in the pocket", cash), ("Odometer", odometer)];
    answer(tab, &texts).await
}

/// The next sale: one tap on Haul.
pub async fn next_sale(tab: &Tab) -> Outcome<()> {
    tab.screen("#/haul").await?;
    let before = tab.saved().await?;
    tab.tap(".haul-tray [data-next-sale]").await?;
    tab.saved_beyond(before).await.map(drop)
}

/// Says what the thing at hand is, and whether it is paid for otherwise than in cash.
pub async fn call_it(tab: &Tab, name: &str, otherwise: bool) -> Outcome<()> {
    tab.tap("[data-key=\"what\"]").await?;
    tab.fill("Name of the thing", name).await?;
    if otherwise {
        tab.tick("otherwise").await?;
    }
    tab.press_in("dialog[open]", "Done").await?;
    let closed = "return document.querySelector('dialog[open]') === null";
    tab.until("the sheet to close", closed).await
}

/// Weighs a thing up on Decide by its likely price, without buying it.
pub async fn weigh(tab: &Tab, name: &str, ask: &str, likely: &str) -> Outcome<()> {
    tab.screen("#/decide").await?;
    call_it(tab, name, false).await?;
    tab.type_in("likely", likely).await?;
    tab.type_in("ask", ask).await
}

/// Buys a thing for what is asked.
pub async fn thing(tab: &Tab, name: &str, ask: &str, likely: &str) -> Outcome<()> {
    weigh(tab, name, ask, likely).await?;
    tab.buy().await.map(drop)
}

/// Lays three things on the pile and buys them for one price.
pub async fn three_for(tab: &Tab, paid: &str) -> Outcome<()> {
    for (name, ask, likely) in THREE {
        weigh(tab, name, ask, likely).await?;
        tab.key("pile").await?;
    }
    tab.tap("[data-key=\"to-pile-screen\"]").await?;
    tab.screen("#/pile").await?;
    tab.element(".pile-row").await?;
    tab.keys(paid).await?;
    tab.buy().await.map(drop)
}

/// Buys twelve things unseen, to be sorted at home.
pub async fn twelve_for(tab: &Tab, paid: &str) -> Outcome<()> {
    tab.screen("#/haul").await?;
    tab.press_in(".haul-tray", "Lot").await?;
    tab.tap("[data-count=\"12\"]").await?;
    tab.keys(paid).await?;
    tab.buy().await?;
    tab.element(".haul-list [data-lot]").await
}

/// A free find: a name, and what it sells for.
pub async fn free_find(tab: &Tab, name: &str, likely: &str) -> Outcome<()> {
    tab.screen("#/haul").await?;
    tab.tap("[data-free]").await?;
    tab.keys(likely).await?;
    call_it(tab, name, false).await?;
    tab.expect_verdict("buy").await?;
    tab.buy().await.map(drop)
}

/// A picture of what was bought right before.
pub async fn photo(tab: &Tab, picture: &Path) -> Outcome<()> {
    let before = tab.saved().await?;
    tab.choose_file("[data-undo] input[data-photo]", picture)
        .await?;
    tab.saved_beyond(before).await.map(drop)
}

/// Counts the purse.
pub async fn count_cash(tab: &Tab, counted: &str) -> Outcome<()> {
    tab.screen("#/haul").await?;
    tab.tap(".haul-list [data-purse]").await?;
    answer(tab, &[("How much", counted)]).await
}

/// Ends the trip on its own page.
pub async fn end_trip(tab: &Tab, odometer: &str) -> Outcome<()> {
    tab.screen("#/haul/trips").await?;
    tab.tap("[data-trip]").await?;
    tab.tap("[data-end-trip]").await?;
    answer(tab, &[("Odometer", odometer)]).await
}
