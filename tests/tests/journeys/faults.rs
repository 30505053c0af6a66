//! What a device can meet that is no fault of its own: a database that a later version has made another, a picture that only another device
//! has, another device that goes by its code. Each is said, and nothing of the book is touched.

use haulwren_tests::browser::{Book, Browser, Engine, Outcome, Setup, wrong};

use crate::common::{DRESS, Stall, serve};
use crate::phone::{self, Phone};
use crate::saturday::save_file;
use crate::two_devices::open_files;

journeys!(a_database_of_a_later_version_is_left_alone => later_in_chromium Chromium, later_in_firefox Firefox, later_in_webkit WebKit);
journeys!(a_picture_of_another_device_is_said_to_be_there => picture_in_chromium Chromium, picture_in_firefox Firefox);

journeys!(two_devices_of_one_code_become_two => code_in_chromium Chromium, code_in_firefox Firefox);

/// Raises the version of the database, as a later app would. From a page that has not opened it.
const LATER: &str = r#"
const name = `haulwren:${new URL("./", location.href).pathname}`;
const request = indexedDB.open(name, 2);
await new Promise((yes, no) => { request.onsuccess = yes; request.onerror = () => no(request.error); });
request.result.close();
"#;

async fn a_database_of_a_later_version_is_left_alone(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    tab.go(&format!("{}rescue.html", stall.url)).await?;
    let before = tab.stored_book().await?;
    tab.ask_later::<()>(LATER, &[]).await?;
    tab.open_app(&stall.url).await?;
    let said = tab.expect_complaint("opening a later book").await?;
    if !said.contains("newer version") || !tab.has_button("Reload").await? {
        return wrong(format!("it said: {said}"));
    }
    // Nothing to type into that would not be kept, and nothing written.
    let types = "return document.querySelector('[data-field], form') !== null";
    if tab.ask::<bool>(types).await? {
        return wrong("the page takes entries beside a book that it can't open");
    }
    let after = tab.stored_book().await?;
    if after.stores != before.stores {
        return wrong("a book of a later version was written to");
    }
    // It can still be saved: the rescue page needs nothing of the app.
    tab.go(&format!("{}rescue.html", stall.url)).await?;
    let offered = "return document.querySelector('a[download]') !== null";
    tab.until("the rescue page's file", offered).await?;
    stall.browser.expect_quiet(tab).await
}

async fn a_picture_of_another_device_is_said_to_be_there(engine: Engine) -> Outcome<()> {
    let server = serve(Setup::dist()?)?;
    let browser = Browser::open(engine).await?;
    let mut phone = Phone::begun()?;
    phone.buys(1)?;
    phone.takes_a_picture()?;
    let tab = browser.tab().await?;
    tab.open_app(&server.url()).await?;
    tab.press("Open a book file").await?;
    phone::bring_in(&tab, &browser.downloads(), &phone.file()?).await?;
    let Some(first) = phone.first() else {
        return wrong("the phone has bought nothing");
    };
    tab.screen(&format!("#/haul/{first}")).await?;
    let said = "return document.querySelector('.photo')?.textContent.includes('This picture is on Phone.') === true";
    tab.until("where the picture is", said).await?;
    tab.expect_running().await?;
    browser.expect_quiet(&tab).await
}

/// One was set up from a copy of the other's storage, and both went on: the same number says two things. The file is refused, and from a
/// reload on this device has a code of its own, under which all stands that it said alone; then both can exchange.
async fn two_devices_of_one_code_become_two(engine: Engine) -> Outcome<()> {
    let stall = Stall::open(engine).await?;
    let tab = &stall.tab;
    tab.weigh_up("6", DRESS).await?;
    tab.buy().await?;
    let copied = tab.stored_book().await?;
    let mut twin = Phone::twin_of(&copied)?;
    tab.weigh_up("5", DRESS).await?;
    tab.buy().await?;
    let before = tab.stored_book().await?;
    tab.screen("#/settings").await?;
    phone::choose(tab, &stall.browser.downloads(), &twin.file()?).await?;
    tab.expect_said(&["two devices use one code"]).await?;
    let said = tab.expect_complaint("a file of the same code").await?;
    if !said.contains("goes by the code of this one") {
        return wrong(format!("it said: {said}"));
    }
    tab.press("Reload").await?;
    tab.open_app(&format!("{}?again", stall.url)).await?;
    tab.expect_bought(2).await?;
    let own = tab.stored_book().await?;
    let (old, new) = (phone::code_in(&before)?, phone::code_in(&own)?);
    let alone = before.changes.len() - copied.changes.len();
    let of_new = |book: &Book| {
        let of_it = |change: &&serde_json::Value| {
            let key = change["k"].as_str();
            key.is_some_and(|k| k.starts_with(&new.to_string()))
        };
        book.changes.iter().filter(of_it).count()
    };
    if old == new || of_new(&own) != alone || own.changes.len() != before.changes.len() {
        return wrong(format!(
            "{} changes of {new}, {alone} were said alone",
            of_new(&own)
        ));
    }
    phone::expect_sound(&own)?;
    // Both have the other's words now.
    open_files(tab).await?;
    phone::bring_in(tab, &stall.browser.downloads(), &twin.file()?).await?;
    tab.screen("#/decide").await?;
    tab.weigh_up("4", DRESS).await?;
    tab.buy().await?;
    tab.expect_bought(3).await?;
    let file = save_file(tab, &stall.browser).await?;
    twin.reads(&file)?;
    let after = tab.stored_book().await?;
    phone::expect_sound(&after)?;
    if twin.said() != after.changes.len() {
        return wrong(format!(
            "{} changes on the twin, {} here",
            twin.said(),
            after.changes.len()
        ));
    }
    stall.expect_sound().await
}
