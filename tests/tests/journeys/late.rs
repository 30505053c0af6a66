//! What a first verdict does not need comes late, in a module of its own: it opens from a cold link, with the server shut, and when that
//! module could not be fetched at first; and a verdict stands without it.

use std::path::{Path, PathBuf};

use haulwren_tests::browser::{Browser, Engine, Failure, Outcome, QUAYSIDE, Setup, Tab, wrong};

use crate::common::{DRESS, Stall, copy_of, drop_copies, look_at, serve};

journeys!(opens_from_a_cold_link => cold_in_chromium Chromium, cold_in_firefox Firefox, cold_in_webkit WebKit);
journeys!(is_asked_for_again => again_in_chromium Chromium, again_in_firefox Firefox, again_in_webkit WebKit);
journeys!(waits_for_its_looks => looks_in_chromium Chromium);

async fn opens_from_a_cold_link(engine: Engine) -> Outcome<()> {
    let mut stall = Stall::open(engine).await?;
    stall.tab.offline_ready().await?;
    stall.server.stop();
    let cold = stall.browser.new_tab().await?;
    cold.open_app(&format!("{}#/settings/venue/new", stall.url))
        .await?;
    cold.fill("Name of the venue", "Townboard").await?;
    if !asked_by_the_page(&cold).await? {
        return wrong("what comes late is not where this journey looks for it");
    }
    stall.expect_sound().await
}

/// Tells the page of a loaded style sheet only when it is let in.
const HOLD_SHEET: &str = r#"
const listen = EventTarget.prototype.addEventListener;
EventTarget.prototype.addEventListener = function (type, heard, ...more) {
  if (type !== "load" || this.localName !== "link") return listen.call(this, type, heard, ...more);
  window.letIn = () => heard.call(this, new Event("load"));
};
"#;

/// Fetches what comes late as the page would, and lets two frames go by.
const TAKE_ITS_TIME: &str = r#"
const known = await (await fetch("./worker.js")).text();
const module = known.match(/settings-[\w-]+\.wasm/)[0];
await (await fetch(`./${module}`)).arrayBuffer();
await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
return document.querySelector("[data-opening]") !== null && document.querySelector("[data-late]") === null;
"#;

/// A late screen that is opened while another one still waits for the style sheet waits too: nothing is drawn without it.
async fn waits_for_its_looks(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = stall.browser.new_tab().await?;
    tab.before_page(HOLD_SHEET).await?;
    tab.open_app(&format!("{}#/haul", stall.url)).await?;
    let held = "return window.letIn !== undefined";
    tab.until("the late style sheet to be asked for", held)
        .await?;
    tab.press("Set up").await?;
    let at = "return document.documentElement.dataset.at === '#/settings'";
    tab.until("Set up", at).await?;
    if !tab.ask_later::<bool>(TAKE_ITS_TIME, &[]).await? {
        return wrong("a late screen was drawn before its style sheet stood");
    }
    tab.run_with("window.letIn()", &[]).await?;
    tab.screen("#/settings").await?;
    let sheets: (usize, usize) = tab
        .ask("return [document.querySelectorAll('[data-late]').length, document.querySelectorAll('link[href=\"./late.css\"]').length]")
        .await?;
    if sheets != (1, 1) {
        return wrong(format!("{sheets:?} late style sheets stand on the page"));
    }
    tab.expect_running().await?;
    stall.expect_sound().await
}

/// Whether this page has fetched the late module. The worker's own fetches don't count.
async fn asked_by_the_page(tab: &Tab) -> Outcome<bool> {
    let script = "return performance.getEntriesByType('resource').some((entry) => /\\/settings-\\w+\\.wasm$/.test(entry.name))";
    tab.ask(script).await
}

async fn is_asked_for_again(engine: Engine) -> Outcome<()> {
    let dist = Setup::dist()?;
    let folder = copy_of(&dist)?;
    let module = late_module(&dist)?;
    let missing = folder.path().join(&module);
    std::fs::remove_file(&missing).map_err(Failure::system("cannot take the module out"))?;
    drop_copies(folder.path(), &module)?;
    let server = serve(folder.path().to_owned())?;
    let browser = Browser::open(engine).await?;
    let tab = browser.tab().await?;
    tab.open_app(&server.url()).await?;
    tab.fill("Currency of your book", "USD").await?;
    tab.fill("Smallest profit worth your time", "8").await?;
    tab.press("Next: your first venue").await?;
    tab.expect_said(&["does not open"]).await?;
    if engine == Engine::Chromium {
        look_at(&tab, "late-missing").await?;
    }
    // The rest of the app works meanwhile.
    tab.press("Haul").await?;
    tab.press("Set up").await?;
    tab.expect_said(&["does not open"]).await?;
    std::fs::copy(dist.join(&module), &missing)
        .map_err(Failure::system("cannot put the module back"))?;
    tab.press("Try again").await?;
    tab.press("Add a venue").await?;
    tab.fill_venue(&QUAYSIDE).await?;
    tab.press("Save venue").await?;
    tab.screen("#/decide").await?;
    tab.weigh_up("6", DRESS).await?;
    tab.expect_running().await?;

    // And once more without it: a verdict, and a purchase, need nothing that comes late.
    std::fs::remove_file(&missing).map_err(Failure::system("cannot take the module out"))?;
    let without = browser.new_tab().await?;
    without.open_app(&server.url()).await?;
    without.weigh_up("6", DRESS).await?;
    without.expect_verdict("buy").await?;
    without.buy().await?;
    without.expect_running().await
}

fn late_module(dist: &Path) -> Outcome<String> {
    let trouble = || Failure::system("cannot look into the build");
    for entry in std::fs::read_dir(dist).map_err(trouble())? {
        let name = PathBuf::from(entry.map_err(trouble())?.file_name());
        let is_wasm = name.extension().is_some_and(|end| end == "wasm");
        match name.to_str() {
            Some(name) if is_wasm && name.starts_with("settings-") => return Ok(name.to_owned()),
            _ => {}
        }
    }
    wrong("the build has no module for Set up")
}
