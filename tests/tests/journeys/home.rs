//! At home after the Saturday: its file opened on a fresh device with a large screen, two of the unsorted things sorted out, one moved to
//! another lot, and that lot shared by hand until it adds up.

use std::collections::BTreeSet;

use haulwren_tests::browser::{Browser, Failure, Outcome, Setup, Tab, wrong};
use serde_json::Value;

use crate::common::{Stall, serve};
use crate::outing::answer;
use crate::pile::expect_texts;
use crate::saturday::LIST;
use crate::sent_pictures;

/// Opens the file in a fresh profile, and goes on with it there. `list` is what Haul said on the phone.
pub async fn opens(phone: &Stall, file: &str, list: &str) -> Outcome<()> {
    let mut server = serve(Setup::dist()?)?;
    let browser = Browser::open(phone.tab.engine()).await?;
    let tab = &browser.tab().await?;
    tab.desktop_sized().await?;
    tab.open_app(&server.url()).await?;
    tab.offline_ready().await?;
    server.stop();
    bring_in(tab, &browser, file).await?;
    tab.screen("#/haul").await?;
    tab.until_with(
        "the haul of the phone",
        &format!("return document.querySelector('.haul-list .scroll') !== null && (() => {{ {LIST} }})() === arguments[0]"),
        &[list.into()],
    )
    .await?;
    expect_same_changes(&phone.tab, tab).await?;
    sent_pictures::come_too(phone, tab, &browser, "enamel jug").await?;
    sorts(tab).await?;
    tab.expect_running().await?;
    browser.expect_quiet(tab).await
}

async fn bring_in(tab: &Tab, browser: &Browser, file: &str) -> Outcome<()> {
    tab.press("Open a book file").await?;
    tab.element("[data-bring] input[type=file]").await?;
    let path = browser.downloads().join("book.txt");
    std::fs::write(&path, file).map_err(Failure::system("cannot write the file"))?;
    tab.choose_file("[data-bring] input[type=file]", &path)
        .await?;
    // 1 + 3 + 1 + 1 + 1 things; a lot for each price that was paid.
    let wanted = ["7 things", "6 lots", "1 trip", "2 stops", "1 venue"];
    let told = "return JSON.stringify([...document.querySelectorAll('[data-brought=found] [data-part=new] li')].slice(0, 5).map((e) => e.innerText.trim())) === arguments[0]";
    let wanted = serde_json::to_string(&wanted)?;
    tab.until_with("what the file would bring", told, &[wanted.into()])
        .await?;
    tab.tap("[data-bring-in]").await?;
    tab.element("[data-brought=in]").await
}

/// Every change of the phone is here as it was there; what else is here was said by this device.
async fn expect_same_changes(phone: &Tab, tab: &Tab) -> Outcome<()> {
    let (sent, here) = (phone.stored_book().await?, tab.stored_book().await?);
    here.expect_no_holes()?;
    here.expect_folded()?;
    let sender: BTreeSet<String> = sent.sequences()?.into_keys().collect();
    let is_sent = |change: &&Value| {
        let key = change["k"].as_str().unwrap_or_default();
        key.split('/')
            .next()
            .is_some_and(|device| sender.contains(device))
    };
    let came: Vec<Value> = here.changes.iter().filter(is_sent).cloned().collect();
    if came != sent.changes {
        return wrong(format!(
            "{} changes were sent, {} of them are here, or they differ",
            sent.changes.len(),
            came.len()
        ));
    }
    let own = here.changes.len() - came.len();
    println!("{} changes came, {own} are this device's own", came.len());
    Ok(())
}

/// Two sorted out, one of them moved to the lot of three, and that lot shared by hand.
async fn sorts(tab: &Tab) -> Outcome<()> {
    tab.press_in(".haul-list", "12 things for 10.00").await?;
    for (name, likely) in [("plaster dog", "9"), ("wicker tray", "10")] {
        tab.tap("[data-sort]").await?;
        answer(tab, &[("Name of the thing", name), ("Sells for", likely)]).await?;
    }
    // 10.00 over twelve: 0.83 each and four spare cents, to the first four: 0.84 twice, and 0.84 twice and 0.83 eight times on the rest.
    expect_texts(tab, ".thing-page .lot-row .paid", &["0.84", "0.84"]).await?;
    let left = ["0.84", "0.84", "8.32"];
    expect_texts(tab, ".thing-page .lot-card .paid", &left).await?;
    // The dog of 9.00 leaves 4.85 and the tray of 10.00 leaves 5.50, less 0.84 each; if all sell, 2.85 more.
    let sums = ["35.50", "19", "110.22", "82.77", "without the 10 unsorted"];
    expect_texts(tab, ".haul-list .haul-sums dd", &sums).await?;

    tab.press_in(".thing-page", "wicker tray").await?;
    tab.press_in(".thing-page", "Another lot").await?;
    tab.element("dialog[open] .choice label").await?;
    choose_lot(tab, "wool duffle coat, child").await?;
    answer(tab, &[]).await?;
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", "Lot of 4").await?;
    // 10.00 over 30, 22, 18 and 10 of 80: an eighth of each.
    let shares = ["3.75", "2.75", "2.25", "1.25"];
    expect_texts(tab, ".thing-page .lot-row .paid", &shares).await?;
    by_hand(tab).await
}

/// Chooses the lot of this first thing from the list.
async fn choose_lot(tab: &Tab, first: &str) -> Outcome<()> {
    let script = "const all = [...document.querySelectorAll('dialog[open] .choice label')];
        return all.findIndex((e) => e.innerText.includes(arguments[0]))";
    let at: i64 = tab.ask_with(script, &[first.into()]).await?;
    if at < 0 {
        return wrong(format!("no lot of {first:?} is offered"));
    }
    let css = format!("dialog[open] .choice .keys > label:nth-of-type({})", at + 1);
    tab.tap(&css).await
}

async fn by_hand(tab: &Tab) -> Outcome<()> {
    let before = tab.saved().await?;
    tab.tap(".thing-page .split .keys > label:last-child")
        .await?;
    tab.saved_beyond(before).await?;
    let foot = ".thing-page .adds-up";
    // By hand starts from the shares that stand.
    expect_texts(tab, foot, &["adds up to 10.00"]).await?;
    let shares = [
        ("wool duffle coat, child", "4", "0.25 over"),
        ("rain boots, child", "3.50", "1.00 over"),
        ("tin lantern", "2", "0.75 over"),
        ("wicker tray", "1.20", "0.70 over"),
    ];
    for (name, share, said) in shares {
        tab.press_in(".thing-page .lot-card", &format!("Share of {name}"))
            .await?;
        answer(tab, &[("Share", share)]).await?;
        expect_texts(tab, foot, &[said]).await?;
    }
    // What is missing or over goes to the last: 1.20 - 0.70.
    let before = tab.saved().await?;
    tab.press_in(".thing-page .lot-foot", "Fix last").await?;
    tab.saved_beyond(before).await?;
    expect_texts(tab, foot, &["adds up to 10.00"]).await?;
    let shares = ["4.00", "3.50", "2.00", "0.50"];
    expect_texts(tab, ".thing-page .lot-card .share", &shares).await?;
    let sums = "return document.querySelector('.haul-list .haul-sums').innerText.includes('not yet shared')";
    if tab.ask::<bool>(sums).await? {
        return wrong("the list says that something is not yet shared");
    }
    Ok(())
}
