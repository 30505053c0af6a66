//! While a file is brought in: the storage gets full or gives up, another tab saves and copies, the book moves on. Nothing is lost, nothing
//! of a file that was not taken is in the book, and what the page says is so.

use haulwren_core::book::State;
use haulwren_core::exchange::{Against, BookReader};
use haulwren_tests::browser::{Browser, Engine, Failure, Outcome, Setup, Tab, wrong};
use haulwren_tests::server::Server;
use serde_json::json;

use crate::common::{downloaded, forget_downloads, serve};
use crate::phone::{self, Phone};

journeys!(a_full_storage_leaves_nothing_of_a_file => full_in_chromium Chromium, full_in_firefox Firefox, full_in_webkit WebKit);
journeys!(another_tab_saves_meanwhile => tabs_in_chromium Chromium, tabs_in_firefox Firefox, tabs_in_webkit WebKit);

/// A home computer with the phone's first file in its book, on the page that brings files in; and the phone with more to say.
struct Home {
    tab: Tab,
    browser: Browser,
    server: Server,
    phone: Phone,
}

impl Home {
    async fn set_up(engine: Engine) -> Outcome<Self> {
        let server = serve(Setup::dist()?)?;
        let browser = Browser::open(engine).await?;
        let mut phone = Phone::begun()?;
        phone.buys(3)?;
        let tab = browser.tab().await?;
        tab.open_app(&server.url()).await?;
        tab.press("Open a book file").await?;
        phone::bring_in(&tab, &browser.downloads(), &phone.file()?).await?;
        let named = "return Number(document.documentElement.dataset.saved ?? 0) > 0";
        tab.until("the name of this device", named).await?;
        phone.renames("green bowl")?;
        phone.buys(400)?;
        tab.screen("#/haul/take-home").await?;
        Ok(Self {
            tab,
            browser,
            server,
            phone,
        })
    }

    /// Looks into the phone's file, so that it can be taken.
    async fn look_into(&self) -> Outcome<()> {
        let file = self.phone.file()?;
        phone::choose(&self.tab, &self.browser.downloads(), &file).await?;
        self.tab.element("[data-bring-in]").await.map(drop)
    }

    /// The phone's file is in the book, and everything is as if nothing had been in the way.
    async fn expect_in(&self) -> Outcome<()> {
        let book = self.tab.stored_book().await?;
        if self.phone.said_in(&book)? != self.phone.said() {
            return wrong("not all of the file is in the book");
        }
        phone::expect_sound(&book)?;
        self.tab.expect_bought(403).await?;
        self.tab.expect_running().await
    }
}

/// From the so-manieth put into a store on there is no room; or that put's transaction is given up.
const FAIL: &str = r#"
const [store, time, how] = arguments;
let left = time;
IDBObjectStore.prototype.keptPut ??= IDBObjectStore.prototype.put;
IDBObjectStore.prototype.put = function (row, ...more) {
  if (this.name !== store || --left > 0) return this.keptPut(row, ...more);
  if (how === "full") throw new DOMException("no room", "QuotaExceededError");
  const result = this.keptPut(row, ...more);
  this.transaction.abort();
  return result;
};
"#;
const MEND: &str = "IDBObjectStore.prototype.put = IDBObjectStore.prototype.keptPut;";

async fn a_full_storage_leaves_nothing_of_a_file(engine: Engine) -> Outcome<()> {
    let home = Home::set_up(engine).await?;
    let tab = &home.tab;
    let before = tab.stored_book().await?;
    // In the second batch of what is laid beside, in the note that it begins, and at the commit point, in its first and its last put.
    for (store, time, how) in [
        ("changes", 600, "full"),
        ("changes", 600, "aborted"),
        ("meta", 1, "full"),
        ("meta", 2, "full"),
        ("meta", 6, "full"),
        ("meta", 6, "aborted"),
    ] {
        home.look_into().await?;
        tab.run_with(FAIL, &[json!(store), json!(time), json!(how)])
            .await?;
        tab.tap("[data-bring-in]").await?;
        let said = tab.expect_complaint("bringing a file in").await?;
        tab.run_with(MEND, &[]).await?;
        if !said.contains("not brought in") {
            return wrong(format!("{store} {time} {how}: it said: {said}"));
        }
        // At once, without a start in between: copies and histories read what is stored.
        let book = tab.stored_book().await?;
        if book.changes != before.changes || book.stores["records"] != before.stores["records"] {
            return wrong(format!(
                "{store} {time} {how}: {} changes are stored of {}",
                book.changes.len(),
                before.changes.len()
            ));
        }
    }
    // After the commit point it is in, and the page says what is left to do.
    home.look_into().await?;
    tab.run_with(FAIL, &[json!("records"), json!(600), json!("full")])
        .await?;
    tab.tap("[data-bring-in]").await?;
    let said = tab.expect_complaint("folding a file in").await?;
    if !said.contains("is in the book") || !said.contains("Reload") {
        return wrong(format!("after the commit point it said: {said}"));
    }
    tab.open_app(&home.server.url()).await?;
    home.expect_in().await
}

/// Holds the transaction of the so-manieth change that is laid beside until the page is told to go on. It is not over while reads are
/// asked of it; the app's own commit waits that long.
const HOLD: &str = r#"
const put = IDBObjectStore.prototype.put, commit = IDBTransaction.prototype.commit;
let left = arguments[0], held = null;
IDBObjectStore.prototype.put = function (row, ...more) {
  const result = put.call(this, row, ...more);
  if (this.name === "changes" && row.i !== undefined && --left === 0) {
    held = this.transaction;
    document.documentElement.dataset.held = "1";
    const wait = () => { if (!window.goOn) this.get("none").onsuccess = wait; };
    wait();
  }
  return result;
};
IDBTransaction.prototype.commit = function () { if (this !== held) commit.call(this); };
"#;

async fn another_tab_saves_meanwhile(engine: Engine) -> Outcome<()> {
    let home = Home::set_up(engine).await?;
    let tab = &home.tab;
    let Some(first) = home.phone.first() else {
        return wrong("the phone has bought nothing");
    };
    let other = home.browser.new_window().await?;
    other.open_app(&home.server.url()).await?;

    // The book moves on between looking and taking: it is said, and nothing is taken.
    home.look_into().await?;
    let thing = format!("#/haul/{first}");
    other.screen(&thing).await?;
    phone::call_it(&other, "blue bowl").await?;
    let before = tab.stored_book().await?;
    tab.tap("[data-bring-in]").await?;
    let said = tab.expect_complaint("a book that moved on").await?;
    if !said.contains("moved on") || tab.stored_book().await?.changes != before.changes {
        return wrong(format!("it said: {said}"));
    }

    // In the middle of laying the file beside, the other tab saves a copy and a name.
    home.look_into().await?;
    tab.run_with(HOLD, &[json!(600)]).await?;
    tab.tap("[data-bring-in]").await?;
    let held = "return document.documentElement.dataset.held === \"1\"";
    tab.until("the file to be half laid beside", held).await?;
    let downloads = engine.can().downloads.then(|| home.browser.downloads());
    if let Some(folder) = &downloads {
        forget_downloads(folder)?;
        other.screen("#/haul/take-home").await?;
        other.tap("[data-save-copy]").await?;
    }
    other.expect_bought(3).await?;
    other.screen(&thing).await?;
    let saved = other.saved().await?;
    other.fill("Name", "old blue bowl").await?;
    other.press("Save name").await?;
    tab.run_with("window.goOn = true", &[]).await?;
    tab.element("[data-brought=in]").await?;
    other.saved_beyond(saved).await?;
    if let Some(folder) = &downloads {
        expect_readable(&downloaded(&other, folder).await?)?;
    }

    // Both have everything: the file, and both names, of which a choice is left.
    home.expect_in().await?;
    other.expect_bought(403).await?;
    for window in [tab, &other] {
        window.screen(&thing).await?;
        let name = "return document.querySelector('#thing-name')?.value === 'old blue bowl'";
        window.until("the name that was given last", name).await?;
        window.expect_running().await?;
    }
    let book = tab.stored_book().await?;
    if !before
        .changes
        .iter()
        .all(|change| book.changes.contains(change))
    {
        return wrong("something that was saved before is lost");
    }
    home.browser.expect_quiet(tab).await
}

/// A device that has nothing takes the whole file.
fn expect_readable(file: &str) -> Outcome<()> {
    let unfit = |error: &dyn std::fmt::Debug| Failure::Wrong(format!("the copy: {error:?}"));
    let nobody = "zzzzzzzz".parse().map_err(|error| unfit(&error))?;
    let mut reader = BookReader::new(Against::of(&State::new(nobody)));
    reader
        .push(file.as_bytes())
        .map_err(|error| unfit(&error))?;
    reader.finish().map_err(|error| unfit(&error)).map(drop)
}
