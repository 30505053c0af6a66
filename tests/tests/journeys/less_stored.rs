//! The storage gives less than the page knows: a copy holds what can still be had and is counted before it is called one; and a book that was
//! lost under the page is saved before anything is loaded anew.

use haulwren_tests::browser::{Engine, Outcome, Tab, check_book_file, wrong};
use serde_json::Value;

use crate::common::{DRESS, Stall, downloaded, forget_downloads};

journeys!(a_copy_holds_what_the_page_knows => in_chromium Chromium, in_firefox Firefox);
journeys!(a_copy_that_lacks_something_says_so => short_in_chromium Chromium, short_in_firefox Firefox);
journeys!(a_book_lost_under_the_page_is_saved_first => lost_in_chromium Chromium, lost_in_firefox Firefox);

/// Loses, of some stores, every row whose key is a number greater than the last, in the book's database and in its second copy.
const LOSE: &str = r"
const [stores, last] = args;
const asked = (request) => new Promise((ok, no) => { request.onsuccess = () => ok(request.result); request.onerror = () => no(request.error); });
const lose = async (db) => {
  const names = stores.filter((name) => db.objectStoreNames.contains(name));
  const all = db.transaction(names, 'readwrite');
  for (const name of names) {
    for (const key of await asked(all.objectStore(name).getAllKeys())) {
      const number = Number(String(key).split('/')[1]);
      if (!(number <= last)) all.objectStore(name).delete(key);
    }
  }
  await new Promise((ok) => { all.oncomplete = ok; });
  db.close();
};
await lose(await asked(indexedDB.open(`haulwren:${new URL('./', location.href).pathname}`)));
const buckets = navigator.storageBuckets;
for (const key of (await buckets?.keys()) ?? []) {
  await lose(await asked((await buckets.open(key)).indexedDB.open('copy')));
}
return true;
";

async fn lose(tab: &Tab, stores: &[&str], last: u64) -> Outcome<()> {
    tab.ask_later::<bool>(LOSE, &[serde_json::json!(stores), last.into()])
        .await
        .map(drop)
}

async fn bought_two(engine: Engine) -> Outcome<Stall> {
    let stall = Stall::open(engine).await?;
    for _ in 0..2 {
        stall.tab.weigh_up("6", DRESS).await?;
        stall.tab.buy().await?;
    }
    Ok(stall)
}

/// What the header of a file claims, summed over all devices.
fn claimed(file: &str) -> Outcome<u64> {
    let header: Value = serde_json::from_str(file.lines().next().unwrap_or_default())?;
    let have = header["have"].as_object().cloned().unwrap_or_default();
    Ok(have.values().filter_map(Value::as_u64).sum())
}

/// All was saved since the page was opened: the file holds it though the storage gives nothing any more.
async fn a_copy_holds_what_the_page_knows(engine: Engine) -> Outcome<()> {
    let stall = bought_two(engine).await?;
    let tab = &stall.tab;
    let book = tab.stored_book().await?;
    lose(tab, &["changes"], 0).await?;
    let folder = stall.browser.downloads();
    forget_downloads(&folder)?;
    tab.screen("#/settings").await?;
    tab.tap("[data-save-copy]").await?;
    let file = downloaded(tab, &folder).await?;
    let changes = check_book_file(&file)?;
    if changes != book.changes || claimed(&file)? != changes.len() as u64 {
        return wrong(format!(
            "{} changes of {}: {file}",
            changes.len(),
            book.changes.len()
        ));
    }
    tab.expect_said(&["among your downloads"]).await?;
    stall.expect_sound().await
}

/// After a reload the page knows no more than what is stored, and of that the end is gone.
async fn a_copy_that_lacks_something_says_so(engine: Engine) -> Outcome<()> {
    let stall = bought_two(engine).await?;
    let tab = &stall.tab;
    let all = tab.stored_book().await?.changes.len();
    tab.open_app(&format!("{}?again#/settings", stall.url))
        .await?;
    let left = all as u64 - 3;
    lose(tab, &["changes"], left).await?;
    let folder = stall.browser.downloads();
    forget_downloads(&folder)?;
    tab.tap("[data-save-copy]").await?;
    let said = tab.expect_complaint("a copy that lacks something").await?;
    if !said.contains("3 changes are not in it") {
        return wrong(format!("it said: {said}"));
    }
    let file = downloaded(tab, &folder).await?;
    let held = check_book_file(&file)?.len() as u64;
    if held != left || claimed(&file)? != left {
        return wrong(format!(
            "{held} of {left} changes, {} claimed",
            claimed(&file)?
        ));
    }
    let success =
        "return document.querySelector('main').textContent.includes('among your downloads')";
    if tab.ask::<bool>(success).await? {
        return wrong("it is called a copy all the same");
    }
    stall.expect_sound().await
}

/// The database is empty under an open page, and so is the second copy: memory has the last of it.
async fn a_book_lost_under_the_page_is_saved_first(engine: Engine) -> Outcome<()> {
    let stall = bought_two(engine).await?;
    let tab = &stall.tab;
    let book = tab.stored_book().await?;
    lose(tab, &["changes", "records", "meta"], 0).await?;
    tab.weigh_up("4", DRESS).await?;
    tab.key("buy").await?;
    let said = tab.expect_complaint("buying after all was lost").await?;
    let (copy, reload) = (said.find("Save a copy"), said.find("reload"));
    if copy.is_none() || copy > reload || !tab.has_button("Save copy").await? {
        return wrong(format!("it said: {said}"));
    }
    let folder = stall.browser.downloads();
    forget_downloads(&folder)?;
    tab.press_in("[role=alert]", "Save copy").await?;
    let changes = check_book_file(&downloaded(tab, &folder).await?)?;
    if changes != book.changes {
        return wrong(format!(
            "the copy holds {} changes of {}",
            changes.len(),
            book.changes.len()
        ));
    }
    tab.press_in("[role=alert]", "Reload").await?;
    tab.ready().await?;
    stall.expect_sound().await
}
