//! Storage that is missing, blocked, full or lost: a sentence, a screen that goes on, and a copy that can
//! still be saved.

use std::path::Path;

use haulwren_tests::browser::{
    Browser, Engine, Outcome, QUAYSIDE, Setup, Tab, check_book_file, wrong,
};

use crate::common::{DRESS, Stall, downloaded, forget_downloads, look_at, serve};

journeys!(no_storage_from_the_start => from_the_start_in_chromium Chromium);
journeys!(full_in_mid_session => full_in_chromium Chromium, full_in_firefox Firefox, full_in_webkit WebKit);
journeys!(lost_in_mid_session => lost_in_chromium Chromium, lost_in_firefox Firefox, lost_in_webkit WebKit);

/// How a browser may be without storage, before the page runs.
const WITHOUT: [(&str, &str); 3] = [
    (
        "absent",
        "Object.defineProperty(window, 'indexedDB', { value: undefined });",
    ),
    (
        "blocked",
        "IDBFactory.prototype.open = () => { throw new DOMException('not here', 'SecurityError'); };",
    ),
    (
        "full",
        "IDBFactory.prototype.open = () => { throw new DOMException('no room', 'QuotaExceededError'); };",
    ),
];

async fn no_storage_from_the_start(engine: Engine) -> Outcome<()> {
    let server = serve(Setup::dist()?)?;
    let browser = Browser::open(engine).await?;
    for (how, script) in WITHOUT {
        let tab = browser.new_tab().await?;
        tab.before_page(script).await?;
        tab.open_app(&server.url()).await?;
        let said = tab
            .expect_complaint(&format!("opening with storage {how}"))
            .await?;
        if !said.contains("kept") {
            return wrong(format!("storage {how}: {said}"));
        }
        nothing_says_saved(&tab, how).await?;
        // Everything but keeping works: the first run, a verdict, a purchase, its undo, a copy.
        tab.first_run(&server.url(), &QUAYSIDE).await?;
        tab.weigh_up("6", DRESS).await?;
        tab.expect_verdict("buy").await?;
        tab.expect_figures(&[("keep", "9.90")]).await?;
        tab.key("buy").await?;
        tab.expect_bought(1).await?;
        nothing_says_saved(&tab, how).await?;
        let changes = save_copy(&tab, &browser.downloads()).await?;
        if !changes.iter().any(|change| change["kind"] == "thing") {
            return wrong(format!("storage {how}: the copy lacks the purchase"));
        }
        tab.press_in("[data-undo]", "Undo").await?;
        tab.expect_bought(0).await?;
        tab.expect_running().await?;
        if tab.saved().await? != 0 {
            return wrong(format!("storage {how}: something was called saved"));
        }
        browser.expect_quiet(&tab).await?;
        tab.close().await?;
    }
    Ok(())
}

/// Every write fails for want of room, the way browsers tell it: the request's transaction aborts.
const FULL: &str = r#"
IDBObjectStore.prototype.keptPut ??= IDBObjectStore.prototype.put;
IDBObjectStore.prototype.put = function () { throw new DOMException("no room", "QuotaExceededError"); };
"#;
const ROOM: &str = "IDBObjectStore.prototype.put = IDBObjectStore.prototype.keptPut;";

async fn full_in_mid_session(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    let before = tab.stored_book().await?;
    tab.run_with(FULL, &[]).await?;
    tab.weigh_up("4", ["22", "30", "40"]).await?;
    tab.expect_verdict("buy").await?;
    tab.key("buy").await?;
    let said = tab.expect_complaint("buying with a full storage").await?;
    if !said.contains("Not saved") {
        return wrong(format!("it said: {said}"));
    }
    nothing_says_saved(tab, "full").await?;
    if engine == Engine::Chromium {
        look_at(tab, "storage-full").await?;
    }
    // What was typed still stands, and nothing is called bought that is not.
    tab.expect_figures(&[("keep", "14.50")]).await?;
    if tab.saved().await? != before.end()? || tab.stored_book().await?.changes != before.changes {
        return wrong("something was called saved, or stored");
    }
    if engine.can().downloads {
        let changes =
            save_copy_from(tab, "[role=alert]", "Save copy", &stall.browser.downloads()).await?;
        if changes != before.changes {
            return wrong("the copy is not the stored book");
        }
    }
    tab.expect_bought(1).await?;
    tab.screen("#/decide").await?;
    tab.run_with(ROOM, &[]).await?;
    tab.buy().await?;
    tab.expect_bought(2).await?;
    stall.expect_sound().await
}

/// No line on the page says that what is on it is saved.
async fn nothing_says_saved(tab: &Tab, how: &str) -> Outcome<()> {
    let lines = "return [...document.querySelectorAll('.strip, nav, footer, main')].map((e) => e.textContent).join(' ')";
    let said: String = tab.ask(lines).await?;
    let of_it = [
        "Saved on this device",
        "Every save is on this device",
        "saved on this device",
    ];
    match of_it.iter().find(|line| said.contains(**line)) {
        Some(line) => wrong(format!("storage {how}, and it says: {line}")),
        None => Ok(()),
    }
}

/// Transactions fail as they do when the connection is gone: so many of them, from now on.
const LOST: &str = r#"
const kept = IDBDatabase.prototype.keptTransaction ??= IDBDatabase.prototype.transaction;
let left = arguments[0];
IDBDatabase.prototype.transaction = function (...all) {
  if (left-- > 0) throw new DOMException("Connection to the database server lost", "InvalidStateError");
  return kept.apply(this, all);
};
"#;

async fn lost_in_mid_session(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    // Once: the app opens the storage again by itself, and the trader sees nothing of it.
    tab.weigh_up("6", DRESS).await?;
    tab.run_with(LOST, &[1.into()]).await?;
    tab.buy().await?;
    // For good: a sentence, and after a reload everything is there, what was typed included.
    tab.weigh_up("4", ["22", "30", "40"]).await?;
    tab.run_with(LOST, &[1_000_000.into()]).await?;
    let before = tab.saved().await?;
    tab.key("buy").await?;
    let said = tab
        .expect_complaint("buying with a lost connection")
        .await?;
    if tab.saved().await? != before {
        return wrong(format!("something was called saved; it said: {said}"));
    }
    tab.expect_figures(&[("keep", "14.50")]).await?;
    tab.expect_running().await?;
    tab.open_app(&stall.url).await?;
    tab.expect_bought(1).await?;
    stall.expect_sound().await
}

/// Saves a copy by the button on the settings screen and reads it.
async fn save_copy(tab: &Tab, downloads: &Path) -> Outcome<Vec<serde_json::Value>> {
    tab.screen("#/settings").await?;
    save_copy_from(tab, "main", "Save a copy", downloads).await
}

async fn save_copy_from(
    tab: &Tab,
    within: &str,
    button: &str,
    downloads: &Path,
) -> Outcome<Vec<serde_json::Value>> {
    forget_downloads(downloads)?;
    tab.press_in(within, button).await?;
    check_book_file(&downloaded(tab, downloads).await?)
}
