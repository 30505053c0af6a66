//! How the book is kept on a device: that no copy left it for long is said, what does not read back is mended or open for reading only, and
//! everything of ours can be taken off.

use haulwren_tests::browser::{Engine, Outcome, Tab, check_book_file, wrong};
use serde_json::json;

use crate::common::{DRESS, Stall, downloaded, forget_downloads, look_at};
use crate::outing;
use crate::saturday::save_file;

journeys!(a_copy_is_due => due_in_chromium Chromium);
journeys!(damage_is_mended => mended_in_chromium Chromium, mended_in_firefox Firefox);
journeys!(opens_for_reading_only => reading_in_firefox Firefox);
journeys!(takes_everything_off => erased_in_chromium Chromium, erased_in_firefox Firefox);
journeys!(an_earlier_value_is_used_again => again_in_chromium Chromium);

/// Changes one row of the book's database, past the app. The arguments: store, key, field, text.
const PUT: &str = r#"
const [store, key, field, text] = args;
const wait = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
const db = await wait(indexedDB.open(`haulwren:${new URL("./", location.href).pathname}`));
const transaction = db.transaction([store], "readwrite");
const rows = transaction.objectStore(store);
const row = (await wait(rows.getAll())).find(({ k }) => k.startsWith(key)) ?? { k: key };
await wait(rows.put({ ...row, [field]: text }));
await new Promise((done) => { transaction.oncomplete = done; });
db.close();
return row.k;
"#;

async fn bought_one(engine: Engine) -> Outcome<Stall> {
    let stall = Stall::open(engine).await?;
    stall.tab.weigh_up("6", DRESS).await?;
    stall.tab.buy().await?;
    Ok(stall)
}

async fn put(tab: &Tab, store: &str, key: &str, field: &str, text: &str) -> Outcome<String> {
    let with = [json!(store), json!(key), json!(field), json!(text)];
    tab.ask_later(PUT, &with).await
}

/// Loads the page anew, and waits until it is open.
async fn reload(tab: &Tab, url: &str) -> Outcome<()> {
    tab.go("about:blank").await?;
    tab.open_app(url).await
}

async fn a_copy_is_due(engine: Engine) -> Outcome<()> {
    let stall = bought_one(engine).await?;
    let tab = &stall.tab;
    let nine_days: u64 = tab.ask("return Date.now() - 9 * 24 * 3600 * 1000").await?;
    let copied = format!(r#"{{"at":{nine_days},"way":"downloaded","whole":true,"head":1}}"#);
    put(tab, "meta", "copied", "v", &copied).await?;
    reload(tab, &stall.url).await?;
    let due =
        "return document.querySelector('.strip .due')?.textContent.includes('9 days ago') === true";
    tab.until("that a copy is due", due).await?;
    look_at(tab, "due-decide").await?;
    tab.screen("#/haul").await?;
    look_at(tab, "due-haul").await?;
    save_file(tab, &stall.browser).await?;
    let gone = "return document.querySelector('.strip .due') === null";
    tab.until("that nothing is due", gone).await?;
    stall.expect_sound().await
}

/// A record that does not read back is folded anew from its changes; a change that does not is put back from the second copy, where there
/// is one.
async fn damage_is_mended(engine: Engine) -> Outcome<()> {
    let stall = bought_one(engine).await?;
    let tab = &stall.tab;
    let before = tab.stored_book().await?;
    put(tab, "records", "thing/", "j", "{\"set\":").await?;
    tab.go(&stall.url).await?;
    tab.expect_said(&["it is mended"]).await?;
    tab.expect_bought(1).await?;
    if engine == Engine::Chromium {
        let key = put(tab, "changes", "", "t", "{").await?;
        build_anew(tab).await?;
        tab.expect_said(&["it is mended"]).await?;
        tab.expect_bought(1).await?;
        println!("{key} was put back");
    }
    let after = tab.stored_book().await?;
    if after.changes != before.changes || after.stores["records"] != before.stores["records"] {
        return wrong("the mended book is another one");
    }
    stall.expect_sound().await
}

/// A change that nothing can mend: the rest is there to be looked at and copied, nothing is saved beside it.
async fn opens_for_reading_only(engine: Engine) -> Outcome<()> {
    let stall = bought_one(engine).await?;
    let tab = &stall.tab;
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    let before = tab.stored_book().await?.changes;
    let Some(last) = before.last().and_then(|change| change["k"].as_str()) else {
        return wrong("nothing is stored");
    };
    put(tab, "changes", last, "t", "{").await?;
    build_anew(tab).await?;
    tab.expect_said(&["open for reading only"]).await?;
    tab.screen("#/decide").await?;
    tab.weigh_up("6", DRESS).await?;
    tab.key("buy").await?;
    tab.expect_said(&["not saved"]).await?;
    // Both ways out hold all but the damaged one.
    let folder = stall.browser.downloads();
    tab.screen("#/haul/take-home").await?;
    forget_downloads(&folder)?;
    tab.tap("[data-save-copy]").await?;
    let copy = check_book_file(&downloaded(tab, &folder).await?)?;
    if copy[..] != before[..before.len() - 1] {
        return wrong(format!(
            "{} of {} changes in the copy",
            copy.len(),
            before.len()
        ));
    }
    stall.expect_sound().await?;
    tab.go(&format!("{}rescue.html", stall.url)).await?;
    forget_downloads(&folder)?;
    tab.press("Save the file").await?;
    let rescued = check_book_file(&downloaded(tab, &folder).await?)?;
    if rescued != copy {
        return wrong("the rescue page has written something else");
    }
    // The way on that the page names: erased here, the book can be opened anew from elsewhere.
    tab.open_app(&stall.url).await?;
    erase(tab).await
}

async fn build_anew(tab: &Tab) -> Outcome<()> {
    tab.screen("#/devices").await?;
    tab.run_with("window.__before = true", &[]).await?;
    tab.tap("[data-build-anew]").await?;
    let anew =
        "return window.__before === undefined && document.documentElement.dataset.ready === '1'";
    tab.until("the page to be read anew", anew).await
}

async fn takes_everything_off(engine: Engine) -> Outcome<()> {
    let stall = bought_one(engine).await?;
    let tab = &stall.tab;
    tab.offline_ready().await?;
    tab.screen("#/devices").await?;
    tab.element("[data-room]").await?;
    if engine == Engine::Chromium {
        look_at(tab, "devices").await?;
    }
    tab.tap("[data-erase]").await?;
    tab.element("dialog[open] [data-answer]").await?;
    // First the way that changes nothing, which is the one that stands.
    tab.tap("dialog[open] [data-answer]").await?;
    let closed = "return document.querySelector('dialog[open]') === null";
    tab.until("the question to close", closed).await?;
    erase(tab).await?;
    // Not from a second copy either.
    reload(tab, &stall.url).await?;
    tab.until("the first start", BEGUN).await?;
    stall.expect_sound().await
}

const BEGUN: &str = "return document.querySelector('[data-begin]') !== null";

/// Takes everything off this device, and waits for the first start.
async fn erase(tab: &Tab) -> Outcome<()> {
    tab.screen("#/devices").await?;
    tab.tap("[data-erase]").await?;
    tab.tap("dialog[open] .choice .keys > label:nth-of-type(2)")
        .await?;
    tab.tap("dialog[open] [data-answer]").await?;
    tab.until("the first start", BEGUN).await?;
    let after = tab.stored_book().await?;
    if !after.changes.is_empty() || !after.stores["records"].is_empty() {
        return wrong("something of the book is still there");
    }
    Ok(())
}

async fn an_earlier_value_is_used_again(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    outing::thing(tab, "tin lantern", "4", "18").await?;
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", "tin lantern").await?;
    tab.element("#thing-name").await?;
    let before = tab.saved().await?;
    tab.fill("Name", "brass lantern").await?;
    tab.press("Save name").await?;
    tab.saved_beyond(before).await?;
    let before = tab.saved().await?;
    tab.press_in(".thing-page .history", "Use again: Name, tin lantern")
        .await?;
    tab.saved_beyond(before).await?;
    let name = "return document.querySelector('.haul-list [data-thing]')?.textContent.includes('tin lantern') === true";
    tab.until("the earlier name", name).await?;
    stall.expect_sound().await
}
