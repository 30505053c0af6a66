//! Whatever is typed is kept as a draft, or holds a new version back: names, small questions and passphrases too.

use haulwren_tests::browser::{Engine, Outcome, Setup, Tab, wrong};

use crate::common::{DRESS, Stall, alter, copy_of};
use crate::sealed::ask_to_seal;

journeys!(half_typed_is_not_lost => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

const MARK: &str = "document.documentElement.dataset.mark = \"old\"";
const MARKED: &str = "return document.documentElement.dataset.mark === \"old\"";

/// Waits until a draft holds this text on the disk; the driver's limit for scripts ends it.
const WRITTEN: &str = r#"
const wait = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
const db = await wait(indexedDB.open(`haulwren:${new URL("./", location.href).pathname}`));
const drafts = async () => (await wait(db.transaction("meta").objectStore("meta").get("drafts")))?.v ?? "";
while (!(await drafts()).includes(args[0])) await new Promise((done) => setTimeout(done, 20));
db.close();
"#;

async fn half_typed_is_not_lost(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.offline_ready().await?;
    for _ in 0..2 {
        tab.weigh_up("6", DRESS).await?;
        tab.buy().await?;
    }
    a_name(&stall).await?;

    // A new version waits from here on.
    let folder = copy_of(&Setup::dist()?)?;
    alter(folder.path(), "worker.js", |text| {
        text.replacen("\"version\":\"", "\"version\":\"next-", 1)
    })?;
    stall.server.serve_folder(folder.path());
    tab.run_with(MARK, &[]).await?;
    tab.ask_later::<()>("await (await navigator.serviceWorker.ready).update()", &[])
        .await?;
    let waits = "return document.documentElement.dataset.update === \"waiting\"";
    tab.until("the new version to wait", waits).await?;

    // A small question.
    tab.screen("#/devices").await?;
    tab.tap("[data-name-device]").await?;
    tab.fill("Name of this device", "Kitchen comp").await?;
    expect_held(tab, "a small question").await?;
    let typed = tab.field("Name of this device").await?;
    if typed != "Kitchen comp" {
        return wrong(format!("the question now holds {typed:?}"));
    }
    tab.press_in("dialog", "Close").await?;

    // A passphrase.
    passphrase(tab).await?;
    expect_held(tab, "a passphrase").await?;
    let typed = tab.field("Passphrase for this file").await?;
    if typed != "not yet the wh" {
        return wrong(format!("the form now holds {typed:?}"));
    }
    tab.press("Not now").await?;

    // With nothing typed any more the same tap takes it.
    tab.run_with(TAKE, &[]).await?;
    // A page that is just being loaded has no root yet.
    let anew = "const root = document.documentElement; return root?.dataset.mark === undefined && root?.dataset.ready === '1'";
    tab.until("the page to come anew", anew).await?;
    tab.ready().await?;
    tab.expect_bought(2).await?;
    stall.expect_sound().await
}

/// A half-typed name stands after another row was looked at, and after a reload.
async fn a_name(stall: &Stall) -> Outcome<()> {
    let tab = &stall.tab;
    let things = tab.bought().await?;
    let [first, second] = things.as_slice() else {
        return wrong(format!("two things, not {things:?}"));
    };
    tab.screen(&format!("#/haul/{first}")).await?;
    tab.fill("Name", "linen dr").await?;
    tab.screen(&format!("#/haul/{second}")).await?;
    expect_name(tab, "").await?;
    tab.screen(&format!("#/haul/{first}")).await?;
    expect_name(tab, "linen dr").await?;
    // Written a moment after the last key.
    tab.ask_later::<()>(WRITTEN, &["linen dr".into()]).await?;
    tab.open_app(&format!("{}?again", stall.url)).await?;
    tab.screen(&format!("#/haul/{first}")).await?;
    expect_name(tab, "linen dr").await?;
    let before = tab.saved().await?;
    tab.fill("Name", "linen dress").await?;
    tab.press("Save name").await?;
    tab.saved_beyond(before).await?;
    let nothing = "return document.documentElement.dataset.unsaved !== \"1\"";
    tab.until("nothing half-typed", nothing).await
}

async fn expect_name(tab: &Tab, name: &str) -> Outcome<()> {
    let script = "return document.querySelector('#thing-name')?.value === arguments[0]";
    tab.until_with(&format!("the name {name:?}"), script, &[name.into()])
        .await
}

/// Half a passphrase in the form for a sealed file.
async fn passphrase(tab: &Tab) -> Outcome<()> {
    ask_to_seal(tab).await?;
    tab.fill("Passphrase for this file", "not yet the wh").await
}

/// The tap that takes a new version, wherever the trader is.
const TAKE: &str = "dispatchEvent(new Event('haulwren-take-update'))";

async fn expect_held(tab: &Tab, what: &str) -> Outcome<()> {
    tab.run_with("addEventListener('haulwren-update-held', () => { window.__held = true; }, { once: true }); window.__held = false", &[]).await?;
    tab.run_with(TAKE, &[]).await?;
    tab.until(
        &format!("{what} to hold it back"),
        "return window.__held === true",
    )
    .await?;
    if tab.ask::<bool>(MARKED).await? {
        return Ok(());
    }
    wrong(format!("{what} was lost to the new version"))
}
