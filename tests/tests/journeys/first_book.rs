//! From the first visit to purchases that are still there, and go on, with the server shut.

use haulwren_tests::browser::{Engine, Outcome, wrong};

use crate::common::{DRESS, Stall};

journeys!(walk => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

async fn walk(engine: Engine) -> Outcome<()> {
    let mut stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.offline_ready().await?;

    // Worked by hand. The buyer pays 26.00 + 4.50 = 30.50. The cut is 10 % of that and 0.25: 3.30. Set
    // aside 25 % of the price: 6.50. Before the purchase: 30.50 - 3.30 - 6.50 - 0.30 - 4.50 = 15.90. At
    // an ask of 6.00 that keeps 9.90. The least to keep is 8.00: 15.90 - 8.00 = 7.90, down to the next
    // half coin: no more than 7.50. If it sells low: 22.50 - 2.50 - 4.50 - 0.30 - 4.50 - 6.00 = 4.70.
    tab.weigh_up("6", DRESS).await?;
    tab.expect_verdict("buy").await?;
    tab.expect_figures(&[
        ("keep", "9.90"),
        ("ceiling", "7.50"),
        ("pay", "6.00"),
        ("aside", "6.50"),
        ("packing", "0.30"),
        ("postage", "4.50"),
        ("cut", "3.30"),
        ("buyer-pays", "30.50"),
        ("low-keep", "4.70"),
    ])
    .await?;
    // 12.00 is over the ceiling, but 7.50 is within half of the ask; 20.00 is out of reach.
    tab.type_in("ask", "12").await?;
    tab.expect_verdict("haggle").await?;
    tab.expect_figures(&[("keep", "3.90")]).await?;
    tab.type_in("ask", "20").await?;
    tab.expect_verdict("leave").await?;
    tab.type_in("ask", "6").await?;
    tab.expect_verdict("buy").await?;

    tab.buy().await?;
    tab.undo().await?;
    tab.expect_bought(0).await?;
    tab.screen("#/decide").await?;
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    tab.expect_bought(1).await?;
    let first = tab.bought().await?;
    stall.expect_sound().await?;

    stall.server.stop();
    let tab = stall.browser.new_tab().await?;
    tab.open_app(&stall.url).await?;
    tab.expect_bought(1).await?;
    if tab.bought().await? != first {
        return wrong("another thing than the one that was bought");
    }
    // 30.00 + 4.50 = 34.50; cut 3.45 + 0.25 = 3.70; set aside 7.50; before the purchase 34.50 - 3.70 -
    // 7.50 - 0.30 - 4.50 = 18.50; less 8.00 is 10.50; at 4.00 it keeps 14.50.
    tab.screen("#/decide").await?;
    tab.weigh_up("4", ["22", "30", "40"]).await?;
    tab.expect_verdict("buy").await?;
    tab.expect_figures(&[("keep", "14.50"), ("ceiling", "10.50"), ("cut", "3.70")])
        .await?;
    tab.buy().await?;
    tab.expect_bought(2).await?;
    tab.expect_running().await?;
    stall.browser.expect_quiet(&tab).await?;

    if !engine.can().restart {
        return Ok(());
    }
    let before = tab.stored_book().await?;
    stall.browser.restart().await?;
    let tab = stall.browser.tab().await?;
    tab.open_app(&stall.url).await?;
    tab.expect_bought(2).await?;
    let after = tab.stored_book().await?;
    after.end()?;
    after.expect_folded()?;
    if before.changes != after.changes || tab.bought().await? != after.things() {
        return wrong("the book is not the one from before the restart");
    }
    tab.screen("#/decide").await?;
    tab.weigh_up("6", DRESS).await?;
    tab.expect_verdict("buy").await?;
    tab.buy().await?;
    tab.expect_bought(3).await?;
    stall.browser.expect_quiet(&tab).await
}
