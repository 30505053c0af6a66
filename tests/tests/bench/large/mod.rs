//! A book of 50,000 things with 300,000 changes: opening it, a save in it, a copy of it, and what another device says of 1,000 and of
//! 10,000 of its things brought in; each beside a page that does only the browser's own part, and the merge beside two libraries that
//! merge documents. The processor is not slowed down here.

mod book;
mod laid;
mod peers;

use std::path::Path;

use haulwren_tests::browser::{Browser, Engine, Outcome, Setup, Tab};
use serde_json::json;

use super::measure::{self, SAVES, STARTS};
use super::stats::Times;
use super::venues::{serve, type_shoes, yesterday};
use book::{CHANGES, FILES, Large, THINGS};

/// The codes of the devices that the files come from.
const DEVICES: [&str; FILES.len()] = ["ijklmnop", "qrstuvwx"];

/// Notes when the book is read to its end.
const WHOLE: &str = r#"
new MutationObserver(() => {
  if (document.documentElement?.dataset.whole) window.__whole ??= performance.now();
}).observe(document, { attributes: true, subtree: true, attributeFilter: ["data-whole"] });
"#;

/// Buys, and puts a strict transaction of as many rows and bytes as a purchase into a database of its own, in turns and each after a frame:
/// a storage that works without a pause answers faster than one that is asked now and then.
const SAVE: &str = r#"
const asked = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
const opening = indexedDB.open("bare", 1);
opening.onupgradeneeded = () => { for (const name of ["records", "changes", "meta"]) opening.result.createObjectStore(name, { keyPath: "k" }); };
const db = await asked(opening), root = document.documentElement, saves = [], puts = [];
const key = (k) => document.querySelector(`button[data-key="${k}"]`);
const frame = () => new Promise((done) => requestAnimationFrame(() => {
  const after = new MessageChannel();
  after.port1.onmessage = done;
  after.port2.postMessage(0);
}));
const idle = async () => { for (const { name } of (await navigator.locks.query()).held) await navigator.locks.request(name, () => {}); };
const save = async () => {
  key("3").click();
  do await frame(); while (key("buy").disabled);
  const saved = new Promise((done) => {
    const watch = new MutationObserver(() => { watch.disconnect(); done(); });
    watch.observe(root, { attributeFilter: ["data-saved"] });
  });
  const start = performance.now();
  key("buy").click();
  await saved;
  saves.push(performance.now() - start);
};
const put = async (n) => {
  await frame();
  const start = performance.now();
  const transaction = db.transaction(["records", "changes", "meta"], "readwrite", { durability: "strict" });
  for (const k of [2 * n, 2 * n + 1]) {
    transaction.objectStore("changes").put({ k, t: "x".repeat(400) });
    transaction.objectStore("records").put({ k, j: "x".repeat(250) });
  }
  for (const k of ["head", "vector"]) transaction.objectStore("meta").put({ k, v: String(n) });
  await new Promise((yes, no) => { transaction.oncomplete = yes; transaction.onabort = () => no(transaction.error); });
  puts.push(performance.now() - start);
};
for (let n = 0; n < args[0]; n += 1) {
  await save();
  await idle();
  await put(n);
}
db.close();
return [saves, puts];
"#;

/// Saves a copy; from the press to the file.
const COPY: &str = r#"
const given = new Promise((done) => { const address = URL.createObjectURL; URL.createObjectURL = (file) => { done(file.size); return address.call(URL, file); }; });
const start = performance.now();
document.querySelector("[data-save-copy]").click();
const size = await given;
return [performance.now() - start, size];
"#;

/// Takes what was found in the chosen file; from the choice to what it brings, and from the press to the word that it is in.
const TAKE: &str = r#"
const until = (is) => new Promise((done) => {
  const look = () => { if (is()) { watch.disconnect(); done(performance.now()); } };
  const watch = new MutationObserver(look);
  watch.observe(document.body, { childList: true, subtree: true });
  look();
});
const key = () => document.querySelector("[data-bring-in]");
const read = await until(key) - window.__chosen;
const start = performance.now();
key().click();
const taken = await until(() => document.querySelector("[data-brought=in]")) - start;
return [read, taken];
"#;

const CHOSEN: &str = r#"addEventListener("change", () => { window.__chosen = performance.now(); }, { capture: true })"#;

pub async fn bench() -> Outcome<()> {
    let book = Large::new(yesterday()?)?;
    let folder = laid::folder(&Setup::dist()?)?;
    book.write(folder.path())?;
    let app = serve(folder.path())?;
    let url = app.url();
    let browser = Browser::open(Engine::Chromium).await?;
    let tab = browser.new_tab().await?;
    measure::prepare(&tab, 1).await?;
    tab.before_page(WHOLE).await?;
    laid::down(&tab, &url).await?;

    let (mut opened, mut bare) = (Vec::new(), Vec::new());
    for _ in 0..STARTS {
        bare.push(laid::read_bare(&tab, &url).await?);
        opened.push(open(&tab, &url).await?);
    }
    let [opened, bare] = [opened, bare].map(Times::of);
    println!("\n{THINGS} things, {CHANGES} changes; Chromium, ms");
    println!("{:52}{:>18}{:>18}{:>8}", "", "app", "beside it", "ratio");
    row(
        &format!("start to all of it read, {STARTS} (bare page)"),
        &opened,
        &bare,
    );
    told_memory(&tab, "it is open").await?;

    type_shoes(&tab).await?;
    let both: [Vec<f64>; 2] = tab.ask_later(SAVE, &[json!(SAVES)]).await?;
    let [saves, puts] = both.map(Times::of);
    row(
        &format!("\"Buy it\" to saved, {SAVES} (a strict put, in turns)"),
        &saves,
        &puts,
    );

    tab.screen("#/settings").await?;
    let [copy, size]: [f64; 2] = tab.ask_later(COPY, &[]).await?;
    println!(
        "{:52}{copy:>18.0}",
        format!("a copy of {:.0} MB", size / 1e6)
    );

    let mut taken = Vec::new();
    for (count, code) in FILES.into_iter().zip(DEVICES) {
        let file = browser.downloads().join(format!("{count}.txt"));
        book.write_file(count, code, &file)?;
        let [read, took] = bring_in(&tab, &url, &file).await?;
        let what = format!("{count} changes of another device: read, then taken");
        println!("{what:52}{:>18}", format!("{read:.0} + {took:.0}"));
        taken.push(read + took);
    }
    println!(
        "{:52}{:>18.1}",
        "the ten times more, times longer",
        taken[1] / taken[0]
    );
    told_memory(&tab, "they are in").await?;
    peers::bench()?;
    browser.expect_no_other_host()
}

fn row(what: &str, app: &Times, other: &Times) {
    println!("{what:52}{app:>18}{other:>18}{:>8.2}", app.ratio(other));
}

async fn told_memory(tab: &Tab, when: &str) -> Outcome<()> {
    let [heap, module] = measure::memory(tab).await?;
    println!("memory when {when}: scripts {heap:.1} MB after collection, module {module:.1} MB");
    Ok(())
}

/// Opens the app, and gives the ms from the start of the navigation until all is read.
async fn open(tab: &Tab, url: &str) -> Outcome<f64> {
    tab.go("about:blank").await?;
    tab.open_app(url).await?;
    laid::until_long(tab, "the whole book", "return window.__whole !== undefined").await?;
    tab.ask("return window.__whole").await
}

/// Brings in a file by the key on Set up. The two times: read, and taken.
async fn bring_in(tab: &Tab, url: &str, file: &Path) -> Outcome<[f64; 2]> {
    open(tab, url).await?;
    tab.screen("#/settings").await?;
    tab.run_with(CHOSEN, &[]).await?;
    tab.choose_file("[data-bring] input[type=file]", file)
        .await?;
    tab.ask_later(TAKE, &[]).await
}
