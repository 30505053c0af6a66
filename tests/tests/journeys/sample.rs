//! Sample data: looked at from the first screen, apart from any book, and gone when it is left.

use haulwren_tests::browser::{Browser, Engine, Outcome, QUAYSIDE, Setup, Tab, wrong};

use crate::common::{look_at, serve};

journeys!(look_around => sample_in_chromium Chromium, sample_in_firefox Firefox, sample_in_webkit WebKit);

async fn look_around(engine: Engine) -> Outcome<()> {
    let server = serve(Setup::dist()?)?;
    let browser = Browser::open(engine).await?;
    let tab = browser.tab().await?;
    let url = server.url();
    tab.open_app(&url).await?;
    look_at(&tab, "first").await?;
    enter(&tab).await?;

    // The dress of the sample: keeps 9.90 at 6.00, no more than 7.50.
    tab.weigh_up("6", ["18", "26", "34"]).await?;
    tab.expect_verdict("buy").await?;
    tab.expect_figures(&[("keep", "9.90"), ("ceiling", "7.50")])
        .await?;
    tab.buy().await?;
    // Six things that came with it, and this one.
    tab.expect_bought(7).await?;
    tab.screen("#/settings").await?;
    let can_copy = tab.ask("return !!document.querySelector(\"[data-save-copy]\")");
    if can_copy.await? {
        return wrong("sample data can be saved to a file");
    }

    // Another tab is the trader's own, where nothing has begun.
    let own = browser.new_tab().await?;
    own.open_app(&url).await?;
    own.first_run(&url, &QUAYSIDE).await?;
    own.expect_bought(0).await?;
    own.expect_running().await?;
    own.close().await?;

    tab.focus().await?;
    turn(&tab, "Leave the sample").await?;
    let left = "return document.documentElement.dataset.ready === \"1\"
        && !document.querySelector(\"[data-leave-sample]\")
        && !!document.querySelector(\"button[data-field=ask]\")";
    tab.until("the own book", left).await?;
    tab.expect_bought(0).await?;
    // Looked at again, it is as new.
    tab.screen("#/settings").await?;
    enter(&tab).await?;
    tab.expect_bought(6).await?;
    tab.expect_running().await?;
    browser.expect_quiet(&tab).await
}

/// Looks around in the sample, from the first screen or from Set up.
pub async fn enter(tab: &Tab) -> Outcome<()> {
    turn(tab, "Look around in a sample").await?;
    let laid_out = "return document.documentElement.dataset.ready === \"1\"
        && !!document.querySelector(\"[data-leave-sample]\")
        && !!document.querySelector(\"button[data-field=ask]\")";
    tab.until("the sample", laid_out).await
}

/// Turns to the sample or back, and waits until the page has gone: it is loaded anew, and until then looks much the same.
async fn turn(tab: &Tab, key: &str) -> Outcome<()> {
    tab.run_with("window.__turning = true", &[]).await?;
    tab.press(key).await?;
    tab.until("another page", "return !window.__turning").await
}
