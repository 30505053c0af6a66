//! A new version waits until the trader takes it, and then takes over once; while a tab holds unsaved
//! input it is held back.

use haulwren_tests::browser::{Engine, Outcome, Setup, Tab, wrong};

use crate::common::{DRESS, Stall, alter, copy_of};

journeys!(waits_for_a_tap => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

/// The name of the button that takes the new version.
const TAKE: &str = "Update";

/// Which versions are kept on the device, by the caches' names, and whether this page was loaded before the
/// mark was set.
const KEPT: &str =
    "return (await caches.keys()).filter((name) => name.startsWith(\"haulwren:\")).sort()";
const MARK: &str = "document.documentElement.dataset.mark = \"old\"";
const MARKED: &str = "return document.documentElement.dataset.mark === \"old\"";

async fn waits_for_a_tap(engine: Engine) -> Outcome<()> {
    let mut stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.offline_ready().await?;
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    let old = kept(tab).await?;

    // The next version, told apart by its name.
    let folder = copy_of(&Setup::dist()?)?;
    alter(folder.path(), "worker.js", |text| {
        text.replacen("\"version\":\"", "\"version\":\"next-", 1)
    })?;
    stall.server.serve_folder(folder.path());
    tab.run_with(MARK, &[]).await?;
    tab.ask_later::<()>("await (await navigator.serviceWorker.ready).update()", &[])
        .await?;
    let waiting = "return document.documentElement.dataset.update === \"waiting\"";
    tab.until("the new version to wait", waiting).await?;
    let both = kept(tab).await?;
    if both.len() != 2 || !old.iter().all(|name| both.contains(name)) {
        return wrong(format!("kept beside {old:?}: {both:?}"));
    }

    // Another tab in the middle of typing holds it back; both pages stay as they are.
    let other = stall.browser.new_tab().await?;
    other.open_app(&stall.url).await?;
    other.run_with(MARK, &[]).await?;
    other.type_in("ask", "7").await?;
    tab.press(TAKE).await?;
    let said = tab
        .expect_said(&["typed", "unsaved", "not saved", "open", "other tab"])
        .await?;
    if kept(tab).await? != both
        || !tab.ask::<bool>(MARKED).await?
        || !other.ask::<bool>(MARKED).await?
    {
        return wrong(format!("it was not held back; it said: {said}"));
    }
    other.choose_field("ask").await?;
    other.key("rub").await?;
    let settled = "return document.documentElement.dataset.unsaved !== \"1\"";
    other.until("nothing unsaved", settled).await?;

    // Now the tap takes it, in both tabs, once, and nothing is lost.
    tab.press(TAKE).await?;
    for each in [tab, &other] {
        let reloaded = "return document.documentElement.dataset.mark === undefined";
        each.until("the page to come anew", reloaded).await?;
        each.ready().await?;
        each.run_with(MARK, &[]).await?;
    }
    let after = kept(tab).await?;
    if after.len() != 1 || old.iter().any(|name| after.contains(name)) {
        return wrong(format!("after the update there are {after:?}"));
    }
    tab.expect_bought(1).await?;
    stall.server.stop();
    let offline = stall.browser.new_tab().await?;
    offline.open_app(&stall.url).await?;
    offline.expect_bought(1).await?;
    // Neither page was loaded a second time meanwhile.
    if !stall.tab.ask::<bool>(MARKED).await? {
        return wrong("the page was loaded twice");
    }
    stall.expect_sound().await
}

async fn kept(tab: &Tab) -> Outcome<Vec<String>> {
    tab.ask_later(KEPT, &[]).await
}
