//! A browser that throws the book's database away, as one family does when its log does not read back after a kill: everything saved
//! comes back from the second copy at the next start.

use haulwren_tests::browser::{Engine, Outcome, wrong};
use serde_json::{Value, json};

use crate::common::{DRESS, Stall};

journeys!(a_book_thrown_away_comes_back => in_chromium Chromium);
journeys!(a_book_that_lost_its_end_gets_it_back => end_in_chromium Chromium);
journeys!(a_second_copy_thrown_away_is_made_again => made_again_in_chromium Chromium);

const THROW_AWAY: &str = r"
const asked = indexedDB.deleteDatabase(args[0]);
return new Promise((done) => {
  asked.onsuccess = () => done(true);
  asked.onerror = asked.onblocked = () => done(false);
});
";

/// Takes the book back to how it stood after so many of this device's changes: later rows and what its notes say of them.
const LOSE_END: &str = r"
const [name, last, notes] = args;
const asked = (request) => new Promise((ok, no) => { request.onsuccess = () => ok(request.result); request.onerror = () => no(request.error); });
const db = await asked(indexedDB.open(name));
const stores = db.transaction(['changes', 'meta'], 'readwrite');
for (const key of await asked(stores.objectStore('changes').getAllKeys())) {
  if (Number(key.split('/')[1]) > last) stores.objectStore('changes').delete(key);
}
for (const row of notes) stores.objectStore('meta').put(row);
await new Promise((ok) => { stores.oncomplete = ok; });
db.close();
return true;
";

const DROP_COPIES: &str = r"
const names = await navigator.storageBuckets.keys();
await Promise.all(names.map((name) => navigator.storageBuckets.delete(name)));
return names.length === 1;
";

async fn bought_two(engine: Engine) -> Outcome<Stall> {
    let stall = Stall::open(engine).await?;
    for _ in 0..2 {
        stall.tab.weigh_up("6", DRESS).await?;
        stall.tab.buy().await?;
    }
    Ok(stall)
}

/// Runs a script beside the closed book, on a page of the same host that opens nothing.
async fn beside(stall: &Stall, script: &str) -> Outcome<()> {
    beside_with(stall, script, &["haulwren:/".into()]).await
}

async fn beside_with(stall: &Stall, script: &str, with: &[Value]) -> Outcome<()> {
    let tab = &stall.tab;
    tab.go(&format!("{}manifest.webmanifest", stall.url))
        .await?;
    if tab.ask_later::<bool>(script, with).await? {
        return Ok(());
    }
    wrong("the browser would not throw it away")
}

async fn a_book_thrown_away_comes_back(engine: Engine) -> Outcome<()> {
    let stall = bought_two(engine).await?;
    let tab = &stall.tab;
    let before = tab.stored_book().await?;
    beside(&stall, THROW_AWAY).await?;
    // The rescue page finds it there too, without the app.
    tab.go(&format!("{}rescue.html", stall.url)).await?;
    let script = "return document.body.innerText.includes(`${arguments[0]} changes`) && document.body.innerText.includes('second copy')";
    tab.until_with("the second copy", script, &[before.changes.len().into()])
        .await?;
    tab.open_app(&stall.url).await?;
    tab.expect_said(&["it is back"]).await?;
    let after = tab.stored_book().await?;
    if after.changes != before.changes || after.stores["records"] != before.stores["records"] {
        return wrong("what came back is not what was saved");
    }
    tab.expect_bought(2).await?;
    // And it goes on from there: the next save follows the last one.
    tab.screen("#/decide").await?;
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    tab.stored_book().await?.expect_folded()?;
    stall.expect_sound().await
}

async fn a_second_copy_thrown_away_is_made_again(engine: Engine) -> Outcome<()> {
    let stall = bought_two(engine).await?;
    let tab = &stall.tab;
    beside(&stall, DROP_COPIES).await?;
    tab.open_app(&stall.url).await?;
    let before = tab.stored_book().await?;
    beside(&stall, THROW_AWAY).await?;
    tab.open_app(&stall.url).await?;
    let after = tab.stored_book().await?;
    if after.changes != before.changes {
        let (there, here) = (before.changes.len(), after.changes.len());
        return wrong(format!(
            "of {there} changes the second copy gave back {here}"
        ));
    }
    tab.expect_bought(2).await
}

async fn a_book_that_lost_its_end_gets_it_back(engine: Engine) -> Outcome<()> {
    let stall = bought_two(engine).await?;
    let tab = &stall.tab;
    let earlier = tab.stored_book().await?;
    let notes: Vec<&Value> = earlier.stores["meta"]
        .iter()
        .filter(|row| row["k"] == "head" || row["k"] == "vector")
        .collect();
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    let before = tab.stored_book().await?;
    let back = json!(earlier.end()?);
    beside_with(&stall, LOSE_END, &["haulwren:/".into(), back, json!(notes)]).await?;
    tab.open_app(&stall.url).await?;
    tab.expect_said(&["it is back", "2 changes"]).await?;
    let after = tab.stored_book().await?;
    if after.changes != before.changes {
        return wrong("the end that came back is not the one that was lost");
    }
    after.expect_folded()?;
    tab.expect_bought(3).await
}
