//! Puts the large book into the app's storage, and reads it there as a bare page would.

use std::path::Path;
use std::time::{Duration, Instant};

use haulwren_tests::browser::{Failure, Outcome, Tab, wrong};
use serde_json::json;

/// Rows laid down by one script: each has to end before the driver gives up.
const PIECE: usize = 10_000;

/// How long a book of this size may take, on a busy machine.
const LONG: Duration = Duration::from_mins(8);

const BARE: &str = r#"<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Bare</title><script type="module" src="./read.js"></script></head><body></body></html>
"#;

/// Reads the records in pages, and each text in them.
const READ: &str = r#"
const wait = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
const db = await wait(indexedDB.open(`haulwren:${new URL("./", location.href).pathname}`));
const all = [];
for (let from = ""; ;) {
  const rows = await wait(db.transaction("records").objectStore("records").getAll(IDBKeyRange.lowerBound(from, true), 2000));
  for (const row of rows) all.push(JSON.parse(row.j));
  if (rows.length < 2000) break;
  from = rows[rows.length - 1].k;
}
db.close();
window.__read = performance.now();
window.__all = all;
"#;

/// Replaces rows of a store by those of a file, from one line to another. Gives how many lines there are.
const LAY: &str = r#"
const [store, from, to] = args;
const wait = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
window.__lines ??= {};
const lines = window.__lines[store] ??= (await (await fetch(`./${store}.txt`)).text()).split("\n").slice(0, -1);
const db = await wait(indexedDB.open(`haulwren:${new URL("./", location.href).pathname}`));
const done = (transaction) => new Promise((yes, no) => { transaction.oncomplete = yes; transaction.onabort = () => no(transaction.error); });
if (from === 0) {
  const transaction = db.transaction(store, "readwrite");
  transaction.objectStore(store).clear();
  await done(transaction);
}
const row = {
  changes: (t) => { const { k, kind, id, stamp } = JSON.parse(t); return { k, r: `${kind}/${id}`, s: stamp, t }; },
  records: (line) => { const [k, j] = line.split("\t"); return { k, j }; },
}[store];
for (let at = from; at < Math.min(to, lines.length); at += 5000) {
  const transaction = db.transaction(store, "readwrite", { durability: "relaxed" });
  for (const line of lines.slice(at, Math.min(at + 5000, to))) transaction.objectStore(store).put(row(line));
  await done(transaction);
}
db.close();
return lines.length;
"#;

const NOTES: &str = r#"
const wait = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
const notes = await (await fetch("./notes.json")).json();
const db = await wait(indexedDB.open(`haulwren:${new URL("./", location.href).pathname}`));
const transaction = db.transaction("meta", "readwrite", { durability: "strict" });
for (const [k, v] of Object.entries(notes)) transaction.objectStore("meta").put({ k, v });
await new Promise((yes, no) => { transaction.oncomplete = yes; transaction.onabort = () => no(transaction.error); });
db.close();
"#;

/// Whether the second copy has what the book has.
const AGREED: &str = r#"
const wait = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
if (!navigator.storageBuckets) return true;
const [name] = await navigator.storageBuckets.keys();
if (!name) return false;
const bucket = await navigator.storageBuckets.open(name);
const vector = async (db) => { const row = await wait(db.transaction("meta").objectStore("meta").get("vector")); db.close(); return row?.v; };
const ours = await vector(await wait(indexedDB.open(`haulwren:${new URL("./", location.href).pathname}`)));
return await vector(await wait(bucket.indexedDB.open("copy"))) === ours;
"#;

/// A folder with the app and the bare page, gone when dropped.
pub fn folder(dist: &Path) -> Outcome<tempfile::TempDir> {
    let trouble = || Failure::system("cannot copy the app");
    let folder = tempfile::tempdir().map_err(trouble())?;
    copy(dist, folder.path()).map_err(trouble())?;
    for (name, text) in [("bare.html", BARE), ("read.js", READ)] {
        std::fs::write(folder.path().join(name), text).map_err(trouble())?;
    }
    Ok(folder)
}

fn copy(from: &Path, to: &Path) -> std::io::Result<()> {
    for entry in std::fs::read_dir(from)? {
        let (entry, to) = (entry?, to);
        let to = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            std::fs::create_dir(&to)?;
            copy(&entry.path(), &to)?;
        } else {
            std::fs::copy(entry.path(), to)?;
        }
    }
    Ok(())
}

/// Waits as long as a large book may take.
pub async fn until_long(tab: &Tab, what: &str, script: &str) -> Outcome<()> {
    tab.until_within(LONG, what, script, &[]).await
}

/// Puts the written rows into the storage in place of what is there. Afterwards the second copy has them too.
pub async fn down(tab: &Tab, url: &str) -> Outcome<()> {
    tab.open_app(url).await?;
    for store in ["changes", "records"] {
        let mut from = 0;
        loop {
            let with = [json!(store), json!(from), json!(from + PIECE)];
            let all: usize = tab.ask_later(LAY, &with).await?;
            from += PIECE;
            if from >= all {
                break;
            }
        }
    }
    tab.ask_later::<()>(NOTES, &[]).await?;
    tab.go("about:blank").await?;
    tab.open_app(url).await?;
    let deadline = Instant::now() + LONG;
    while !tab.ask_later::<bool>(AGREED, &[]).await? {
        if Instant::now() > deadline {
            return wrong("the second copy does not get the book");
        }
        tokio::time::sleep(Duration::from_millis(200)).await;
    }
    Ok(())
}

/// Reads the records on the bare page; the ms from the start of its navigation.
pub async fn read_bare(tab: &Tab, url: &str) -> Outcome<f64> {
    tab.go(&format!("{url}bare.html")).await?;
    until_long(tab, "the records", "return window.__read !== undefined").await?;
    tab.ask("return window.__read").await
}
