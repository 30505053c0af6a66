//! The stored form: the database's schema and the rows of a fixed scenario against golden texts, and that
//! every save asks for the disk.
//!
//! A book that was stored once is opened by every later version, so these texts change only with a reason.
//! Set `HAULWREN_GOLDEN=write` to write them anew.

use haulwren_tests::browser::{Engine, Outcome, wrong};
use serde_json::Value;

use crate::common::{DRESS, Stall};
use crate::golden;

journeys!(stored_as_the_golden_texts_say => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);
journeys!(every_save_asks_for_the_disk => strict_in_chromium Chromium, strict_in_firefox Firefox,
    strict_in_webkit WebKit);

/// The opened database as text: version, stores with key path, indexes with key path and flags.
const SCHEMA: &str = r#"
const name = `haulwren:${new URL("./", location.href).pathname}`;
const db = await new Promise((yes, no) => { const r = indexedDB.open(name); r.onsuccess = () => yes(r.result); r.onerror = () => no(r.error); });
const lines = [`version ${db.version}`];
const stores = db.transaction([...db.objectStoreNames], "readonly");
for (const name of db.objectStoreNames) {
  const store = stores.objectStore(name);
  lines.push(`store ${name} keyPath ${store.keyPath} autoIncrement ${store.autoIncrement}`);
  for (const each of store.indexNames) {
    const index = store.index(each);
    lines.push(`  index ${each} keyPath ${index.keyPath} unique ${index.unique} multiEntry ${index.multiEntry}`);
  }
}
db.close();
return lines.join("\n") + "\n";
"#;

/// The day as the browser's clock shows it.
const TODAY: &str = r#"
const now = new Date();
return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
"#;

async fn stored_as_the_golden_texts_say(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    let schema: String = tab.ask_later(SCHEMA, &[]).await?;
    golden::compare("schema.txt", &schema)?;
    // Buy, take it back, buy something else for nothing, name it.
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    tab.undo().await?;
    tab.weigh_up("0", ["22", "30", "40"]).await?;
    tab.buy().await?;
    tab.expect_bought(1).await?;
    let before = tab.saved().await?;
    tab.tap("[data-thing]").await?;
    tab.fill("Name", "jug, \"blue\"").await?;
    tab.press("Save name").await?;
    tab.saved_beyond(before).await?;
    // The drafts are empty again, but written a moment later.
    let rows = "return document.documentElement.dataset.unsaved !== \"1\"";
    tab.until("nothing unsaved", rows).await?;
    let mut book = tab.stored_book().await?;
    if let Some(meta) = book.stores.get_mut("meta") {
        // By which kinds and fields the records were folded: another text with each field that comes.
        meta.retain(|row| row["k"] != "drafts" && row["k"] != "fold");
    }
    let day: String = tab.ask(TODAY).await?;
    golden::compare("rows.txt", &golden::rows(&book, &day)?)?;
    stall.expect_sound().await
}

/// Notes the durability that each later write transaction on the changes reads back.
const WATCH: &str = r#"
const seen = [];
const kept = IDBDatabase.prototype.transaction;
IDBDatabase.prototype.transaction = function (stores, mode, ...more) {
  const transaction = kept.call(this, stores, mode, ...more);
  if (mode === "readwrite" && [stores].flat().includes("changes")) {
    seen.push(String(transaction.durability));
    document.documentElement.dataset.durability = JSON.stringify(seen);
  }
  return transaction;
};
"#;

async fn every_save_asks_for_the_disk(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.run_with(WATCH, &[]).await?;
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    tab.undo().await?;
    let seen: String = tab
        .ask("return document.documentElement.dataset.durability ?? \"[]\"")
        .await?;
    let seen: Vec<Value> = serde_json::from_str(&seen)?;
    if seen.len() < 2 || seen.iter().any(|durability| durability != "strict") {
        return wrong(format!("write transactions read back {seen:?}"));
    }
    stall.expect_sound().await
}
