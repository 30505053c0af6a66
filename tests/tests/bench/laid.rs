//! Puts a book made here into the app's storage.

use haulwren_core::change::Change;
use haulwren_tests::browser::{Outcome, Tab, wrong};
use serde_json::{Value, json};

use super::stall::Stall;

/// Replaces the stored book by these rows.
const REPLACE: &str = r#"
const name = `haulwren:${new URL("./", location.href).pathname}`;
const wait = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
const db = await wait(indexedDB.open(name));
const transaction = db.transaction(["changes", "records", "meta"], "readwrite", { durability: "strict" });
for (const store of ["changes", "records", "meta"]) transaction.objectStore(store).clear();
for (const row of args[0]) transaction.objectStore("changes").put(row);
for (const row of args[1]) transaction.objectStore("meta").put(row);
await new Promise((yes, no) => { transaction.oncomplete = yes; transaction.onabort = () => no(transaction.error); });
db.close();
"#;

/// Puts the stall into the app's storage in place of what is there, and starts the app anew.
pub async fn down(tab: &Tab, url: &str, stall: &Stall) -> Outcome<()> {
    tab.open_app(url).await?;
    let row = |change: &Change| {
        json!({
            "k": change.key.to_string(),
            "r": change.record().to_string(),
            "s": change.stamp.to_string(),
            "t": change.line(),
        })
    };
    let rows: Vec<Value> = stall.changes.iter().map(row).collect();
    let Some(last) = stall.changes.last() else {
        return wrong("the stall is empty");
    };
    let head = json!({ "seq": last.key.seq, "stamp": last.stamp.to_string() });
    let vector = serde_json::to_string(&stall.state.vector)?;
    // A fold number that never was: the app folds the records at its start.
    let notes: Vec<Value> = [
        ("device", json!(stall.state.me.to_string()).to_string()),
        ("head", head.to_string()),
        ("vector", vector),
        ("fold", "0".to_owned()),
    ]
    .into_iter()
    .map(|(k, v)| json!({ "k": k, "v": v }))
    .collect();
    tab.ask_later::<()>(REPLACE, &[rows.into(), notes.into()])
        .await?;
    tab.go("about:blank").await?;
    tab.open_app(url).await
}
