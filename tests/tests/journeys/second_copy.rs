//! A browser that throws the book's database away, as one family does when its log does not read back after a kill: everything saved
//! comes back from the second copy at the next start.

use haulwren_tests::browser::{Engine, Outcome, wrong};

use crate::common::{DRESS, Stall};

journeys!(a_book_thrown_away_comes_back => in_chromium Chromium);
journeys!(a_second_copy_thrown_away_is_made_again => made_again_in_chromium Chromium);

const THROW_AWAY: &str = r"
const asked = indexedDB.deleteDatabase(args[0]);
return new Promise((done) => {
  asked.onsuccess = () => done(true);
  asked.onerror = asked.onblocked = () => done(false);
});
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
    let tab = &stall.tab;
    tab.go(&format!("{}manifest.webmanifest", stall.url))
        .await?;
    if tab
        .ask_later::<bool>(script, &["haulwren:/".into()])
        .await?
    {
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
