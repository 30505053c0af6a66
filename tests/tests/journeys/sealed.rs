//! A sealed file from the phone to the computer, and what changed there back; by our own code, and by a library that is not ours.

use std::path::{Path, PathBuf};

use haulwren_tests::browser::{
    Browser, Engine, Failure, Jose, Outcome, Setup, Tab, check_book_file, jose, wrong,
};
use serde_json::Value;

use crate::common::{DRESS, Stall, downloaded, forget_downloads, look_at, serve};
use crate::two_devices::{look_into, take};

journeys!(walk => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);

const WORDS: &str = "otter brass ferry l\u{e4}mp";

async fn walk(engine: Engine) -> Outcome<()> {
    let phone = Stall::open(engine).await?;
    phone.tab.weigh_up("6", DRESS).await?;
    phone.tab.buy().await?;
    let sealed = sends_sealed(&phone).await?;
    let plain = opens_elsewhere(&phone, &sealed)?;
    if check_book_file(&plain)? != phone.tab.stored_book().await?.changes {
        return wrong("the sealed file holds other changes than the book");
    }

    let server = serve(Setup::dist()?)?;
    let browser = Browser::open(engine).await?;
    let computer = browser.tab().await?;
    computer.desktop_sized().await?;
    computer.open_app(&server.url()).await?;
    computer.press("Open a book file").await?;
    opens_sealed(&computer, &browser, &sealed).await?;
    takes_what_others_sealed(&computer, &browser, &plain).await?;
    let back = sends_back(&computer, &browser).await?;

    let tab = &phone.tab;
    tab.screen("#/settings").await?;
    let before = check_book_file(&plain)?.len();
    look_into(tab, &phone.browser, &back).await?;
    take(tab).await?;
    let here = tab.stored_book().await?.changes.len();
    let came = check_book_file(&back)?.len();
    if here != before + came {
        return wrong(format!("{before} changes and {came} came to {here}"));
    }
    computer.expect_running().await?;
    browser.expect_quiet(&computer).await?;
    phone.expect_sound().await
}

/// Sends by a passphrase, typed wrong the second time at first.
async fn sends_sealed(phone: &Stall) -> Outcome<String> {
    let tab = &phone.tab;
    ask_to_seal(tab).await?;
    tab.fill("Passphrase for this file", WORDS).await?;
    tab.fill("The same again", "otter brass ferry").await?;
    tab.tap("[data-seal]").await?;
    tab.expect_said(&["the two are not the same"]).await?;
    tab.fill("The same again", WORDS).await?;
    let gone = "return !document.querySelector('main').textContent.includes('not the same')";
    tab.until("the complaint is gone once it is typed anew", gone)
        .await?;
    if tab.engine() == Engine::Chromium {
        look_at(tab, "send-passphrase").await?;
    }
    tab.tap("[data-seal]").await?;
    tab.expect_said(&["it holds the whole book"]).await?;
    if tab.engine() == Engine::Chromium {
        look_at(tab, "send-ready").await?;
    }
    let file = handed_over(tab, &phone.browser.downloads()).await?;
    if !file.starts_with("eyJ") || file.contains("dress") {
        return wrong("the file is not sealed");
    }
    // The way is remembered: a reload, and one tap asks for the passphrase.
    tab.open_app(&format!("{}#/settings", phone.url)).await?;
    tab.press("Send to another device").await?;
    tab.fill("Passphrase for this file", "").await?;
    Ok(file)
}

/// The form that asks for a passphrase.
pub async fn ask_to_seal(tab: &Tab) -> Outcome<()> {
    tab.screen("#/settings").await?;
    tab.press_in(
        "[data-how]",
        "How: what changed, no pictures, no passphrase",
    )
    .await?;
    tab.tap("[data-how] fieldset:nth-of-type(3) label:last-child")
        .await?;
    tab.press("Send to another device").await
}

/// The file that the first key hands over.
pub async fn handed_over(tab: &Tab, folder: &Path) -> Outcome<String> {
    forget_downloads(folder)?;
    let downloads = tab.engine().can().downloads;
    if !downloads {
        tab.note_given().await?;
    }
    tab.tap("[data-hand-over]").await?;
    tab.expect_said(&["among your downloads"]).await?;
    if downloads {
        downloaded(tab, folder).await
    } else {
        tab.given().await
    }
}

/// The recipe of the guide, by another library.
fn opens_elsewhere(phone: &Stall, sealed: &str) -> Outcome<String> {
    let folder = phone.browser.downloads();
    let (from, to) = (folder.join("sealed.txt"), folder.join("opened.txt"));
    write(&from, sealed)?;
    jose(Jose::Open, WORDS, &from, &to)?;
    let trouble = Failure::system("cannot read what was opened");
    std::fs::read_to_string(&to).map_err(trouble)
}

fn write(path: &Path, text: &str) -> Outcome<()> {
    std::fs::write(path, text).map_err(Failure::system("cannot write a file"))
}

/// Chooses a file on the page.
async fn choose(tab: &Tab, browser: &Browser, file: &str) -> Outcome<()> {
    let path: PathBuf = browser.downloads().join("chosen.txt");
    write(&path, file)?;
    tab.choose_file("[data-bring] input[type=file]", &path)
        .await
}

/// A wrong passphrase, then the right one.
async fn opens_sealed(tab: &Tab, browser: &Browser, sealed: &str) -> Outcome<()> {
    choose(tab, browser, sealed).await?;
    tab.fill("Passphrase of this file", "otter brass ferry lamp")
        .await?;
    tab.tap("[data-unlock]").await?;
    tab.expect_said(&["wrong passphrase, or line 1 of the file is damaged"])
        .await?;
    if tab.engine() == Engine::Chromium {
        look_at(tab, "locked").await?;
    }
    // As another keyboard writes it: two signs for one, and a blank at the end.
    tab.fill("Passphrase of this file", "otter brass ferry la\u{308}mp ")
        .await?;
    tab.tap("[data-unlock]").await?;
    tab.element("[data-brought=found]").await?;
    take(tab).await?;
    tab.tap("[data-close-import]").await
}

/// A file that another library sealed: nothing in it is new by now. Then the same with its slice bent.
async fn takes_what_others_sealed(tab: &Tab, browser: &Browser, plain: &str) -> Outcome<()> {
    let folder = browser.downloads();
    let (from, to) = (folder.join("plain.txt"), folder.join("theirs.txt"));
    write(&from, plain)?;
    jose(Jose::Seal, "a b c d", &from, &to)?;
    let trouble = Failure::system("cannot read what was sealed");
    let theirs = std::fs::read_to_string(&to).map_err(trouble)?;
    for (file, said) in [
        (theirs.clone(), "nothing in it is new"),
        (bent(&theirs), "line 2 of the file was altered on its way"),
    ] {
        choose(tab, browser, &file).await?;
        tab.fill("Passphrase of this file", "a b c d").await?;
        tab.tap("[data-unlock]").await?;
        tab.expect_said(&[said]).await?;
        if said.starts_with("nothing") {
            tab.press_in("[data-bring]", "Not now").await?;
        }
    }
    Ok(())
}

/// The file with a character in the middle of its last line replaced.
fn bent(file: &str) -> String {
    let first = file.find('\n').unwrap_or(0);
    let at = first + (file.len() - first) / 2;
    let with = if file[at..].starts_with('A') {
        "B"
    } else {
        "A"
    };
    [&file[..at], with, &file[at + 1..]].concat()
}

/// What the computer says goes back in two taps, and nothing that the phone has.
async fn sends_back(tab: &Tab, browser: &Browser) -> Outcome<String> {
    tab.screen("#/decide").await?;
    tab.weigh_up("4", ["22", "30", "40"]).await?;
    tab.buy().await?;
    tab.screen("#/settings").await?;
    let device = |change: &Value| {
        let key = change["k"].as_str().unwrap_or_default();
        key.split('/').next().unwrap_or_default().to_owned()
    };
    let all = tab.stored_book().await?.changes;
    // The last word is the computer's own: it has just bought.
    let last = all.iter().max_by_key(|change| change["stamp"].as_str());
    let own = device(last.unwrap_or(&Value::Null));
    let others = |change: &&Value| change["kind"] == "device" && device(change) != own;
    let phone = all.iter().find(others);
    let phone = phone.and_then(|change| change["set"]["name"].as_str());
    tab.press_in(
        "[data-send]",
        &format!("Send to {}", phone.unwrap_or_default()),
    )
    .await?;
    tab.expect_said(&["what changed since"]).await?;
    let file = handed_over(tab, &browser.downloads()).await?;
    let changes = check_book_file(&file)?;
    if changes.is_empty() || changes.iter().any(|change| device(change) != own) {
        return wrong(format!(
            "{} changes go back, not all of them the computer's",
            changes.len()
        ));
    }
    Ok(file)
}
