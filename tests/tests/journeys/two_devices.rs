//! One book on a phone and a computer, carried by files both ways: what one device said comes to the other, what both said differently is
//! settled by the trader, an import is undone as a whole, and at the end both have the same.

use std::path::Path;

use haulwren_tests::browser::{Browser, Engine, Failure, Outcome, Setup, Tab, wrong};
use haulwren_tests::server::Server;
use serde_json::Value;

use crate::common::{Stall, look_at, serve};
use crate::outing;
use crate::pile::expect_texts;
use crate::saturday::save_file;

journeys!(one_book => in_chromium Chromium, in_firefox Firefox, in_webkit WebKit);
journeys!(two_books => joined_in_chromium Chromium, joined_in_firefox Firefox);

/// A computer with an own profile and nothing on it yet.
pub struct Computer {
    pub tab: Tab,
    pub browser: Browser,
    server: Server,
}

impl Computer {
    async fn open(engine: Engine) -> Outcome<Self> {
        let server = serve(Setup::dist()?)?;
        let browser = Browser::open(engine).await?;
        let tab = browser.tab().await?;
        tab.desktop_sized().await?;
        Ok(Self {
            tab,
            browser,
            server,
        })
    }

    /// One that took the phone's book over from a file.
    pub async fn with_book_of(phone: &Stall, engine: Engine) -> Outcome<Self> {
        let computer = Self::open(engine).await?;
        let desk = &computer.tab;
        desk.open_app(&computer.server.url()).await?;
        desk.press("Open a book file").await?;
        let file = save_file(&phone.tab, &phone.browser).await?;
        look_into(desk, &computer.browser, &file).await?;
        take(desk).await?;
        Ok(computer)
    }
}

async fn one_book(engine: Engine) -> Outcome<()> {
    let phone = Stall::open(engine).await?;
    a_day(&phone.tab).await?;
    let computer = Computer::with_book_of(&phone, engine).await?;
    let desk = &computer.tab;

    // Apart: both rename the dress, only the computer the scarf.
    rename(&phone.tab, "linen wrap dress", "linen dress, mint").await?;
    rename(desk, "linen wrap dress", "linen dress, green").await?;
    rename(desk, "silk scarf", "silk scarf, dots").await?;

    let file = save_file(desk, &computer.browser).await?;
    open_files(&phone.tab).await?;
    look_into(&phone.tab, &phone.browser, &file).await?;
    // Its name stands in the file only.
    phone.tab.expect_said(&["from computer 2"]).await?;
    expect_part(
        &phone.tab,
        "changed",
        &["silk scarf: Name silk scarf to silk scarf, dots"],
    )
    .await?;
    let choice = "linen dress, mint: Name linen dress, mint or linen dress, green";
    expect_part(&phone.tab, "needs your choice", &[choice]).await?;
    if engine == Engine::Chromium {
        let into_sight = "document.querySelector('[data-brought]').scrollIntoView()";
        phone.tab.run_with(into_sight, &[]).await?;
        look_at(&phone.tab, "brought").await?;
    }
    take(&phone.tab).await?;

    // Taken out again as a whole, then in once more.
    undo_import(&phone.tab).await?;
    phone.tab.screen("#/haul").await?;
    let names = ["silk scarf", "linen dress, mint"];
    expect_texts(
        &phone.tab,
        ".haul-list [data-thing] .what > span:first-child",
        &names,
    )
    .await?;
    phone.tab.stored_book().await?.expect_folded()?;
    open_files(&phone.tab).await?;
    look_into(&phone.tab, &phone.browser, &file).await?;
    take(&phone.tab).await?;

    told_in_haul(&phone.tab).await?;
    settle(&phone.tab, "linen dress, mint").await?;
    let file = save_file(&phone.tab, &phone.browser).await?;
    open_files(desk).await?;
    look_into(desk, &computer.browser, &file).await?;
    take(desk).await?;
    beside_the_list(desk).await?;
    expect_equal(&phone.tab, desk).await?;
    phone.expect_sound().await?;
    desk.expect_running().await?;
    computer.browser.expect_quiet(desk).await
}

/// A day with a purse, two sales and two things.
async fn a_day(tab: &Tab) -> Outcome<()> {
    outing::start_trip(tab, "80", "48210").await?;
    outing::next_sale(tab).await?;
    outing::thing(tab, "linen wrap dress", "6", "26").await?;
    outing::next_sale(tab).await?;
    outing::thing(tab, "silk scarf", "5", "24").await?;
    outing::end_trip(tab, "48247").await
}

/// The list says what the file did, and the thing in dispute has its choices where it is looked at.
async fn told_in_haul(tab: &Tab) -> Outcome<()> {
    tab.screen("#/haul").await?;
    let marks = ["changed", "needs your choice"];
    expect_texts(tab, ".rows .effect", &marks).await?;
    if tab.engine() == Engine::Chromium {
        look_at(tab, "import").await?;
    }
    tab.press_in(".haul-list", "linen dress, green").await?;
    tab.element("[data-dispute=name] [data-choice]").await?;
    if tab.engine() == Engine::Chromium {
        look_at(tab, "choose").await?;
    }
    tab.screen("#/haul").await
}

/// On a wide window what the file brought stands beside the list until it is closed.
async fn beside_the_list(desk: &Tab) -> Outcome<()> {
    desk.screen("#/haul").await?;
    expect_texts(desk, ".rows .effect", &["changed"]).await?;
    let parts = ["1"];
    expect_texts(desk, "[data-import] [data-part=changed] h3 b", &parts).await?;
    desk.tap("[data-import] [data-close-import]").await?;
    let closed = "return document.querySelector('[data-import], .effect') === null";
    desk.until("nothing said of the file", closed).await
}

/// Two books that were both used are joined: all of both is there, and the settings of the one here hold.
async fn two_books(engine: Engine) -> Outcome<()> {
    let phone = Stall::open(engine).await?;
    outing::thing(&phone.tab, "enamel jug", "2", "16").await?;
    let other = Stall::open(engine).await?;
    outing::thing(&other.tab, "wool cardigan", "3", "26").await?;
    let file = save_file(&other.tab, &other.browser).await?;
    open_files(&phone.tab).await?;
    look_into(&phone.tab, &phone.browser, &file).await?;
    phone.tab.expect_said(&["another book"]).await?;
    take(&phone.tab).await?;
    let file = save_file(&phone.tab, &phone.browser).await?;
    open_files(&other.tab).await?;
    look_into(&other.tab, &other.browser, &file).await?;
    take(&other.tab).await?;
    for tab in [&phone.tab, &other.tab] {
        tab.screen("#/haul").await?;
        tab.expect_bought(2).await?;
        // Both books had a venue of one name. No rule says whether it is one: nothing else needs the trader.
        tab.screen("#/attention").await?;
        let told = ["Two venues are called Quayside."];
        expect_texts(tab, "[data-needs] > p", &told).await?;
    }
    expect_equal(&phone.tab, &other.tab).await?;
    phone.expect_sound().await?;
    other.expect_sound().await
}

/// The screen on which files are opened.
pub async fn open_files(tab: &Tab) -> Outcome<()> {
    tab.screen("#/settings").await?;
    tab.element("[data-bring] input[type=file]").await
}

/// Chooses a file, and waits until it is told what it would do.
pub async fn look_into(tab: &Tab, browser: &Browser, file: &str) -> Outcome<()> {
    let path = browser.downloads().join("other.txt");
    write(&path, file)?;
    tab.element("[data-bring] input[type=file]").await?;
    tab.choose_file("[data-bring] input[type=file]", &path)
        .await?;
    tab.element("[data-brought=found]").await
}

fn write(path: &Path, text: &str) -> Outcome<()> {
    std::fs::write(path, text).map_err(Failure::system("cannot write the file"))
}

/// Takes it, and waits until it is in.
pub async fn take(tab: &Tab) -> Outcome<()> {
    tab.tap("[data-bring-in]").await?;
    tab.element("[data-brought=in]").await
}

async fn undo_import(tab: &Tab) -> Outcome<()> {
    let before = tab.stored_book().await?.changes.len();
    tab.run_with("window.__before = true", &[]).await?;
    tab.tap("[data-undo-import]").await?;
    let anew =
        "return window.__before === undefined && document.documentElement.dataset.ready === '1'";
    tab.until("the page to be read anew", anew).await?;
    let after = tab.stored_book().await?.changes.len();
    if after >= before {
        return wrong(format!(
            "{before} changes before the undo, {after} after it"
        ));
    }
    Ok(())
}

async fn expect_part(tab: &Tab, part: &str, lines: &[&str]) -> Outcome<()> {
    let css = format!("[data-brought] [data-part=\"{part}\"] li");
    let script = "return JSON.stringify([...document.querySelectorAll(arguments[0])].map((e) => e.textContent.trim().replace(/\\s+/g, ' '))) === arguments[1]";
    let lines = serde_json::to_string(lines)?;
    tab.until_with(
        &format!("what is {part}"),
        script,
        &[css.into(), lines.into()],
    )
    .await
}

pub async fn rename(tab: &Tab, from: &str, to: &str) -> Outcome<()> {
    tab.screen("#/haul").await?;
    tab.press_in(".haul-list", from).await?;
    tab.element("#thing-name").await?;
    let before = tab.saved().await?;
    tab.fill("Name", to).await?;
    tab.press("Save name").await?;
    tab.saved_beyond(before).await.map(drop)
}

/// Settles what two devices said differently: from Set up to what needs the trader, and the choice.
async fn settle(tab: &Tab, choice: &str) -> Outcome<()> {
    tab.screen("#/settings").await?;
    tab.tap("[data-needs]").await?;
    tab.screen("#/attention").await?;
    tab.element("[data-choice]").await?;
    if tab.engine() == Engine::Chromium {
        look_at(tab, "attention").await?;
    }
    let before = tab.saved().await?;
    tab.press_in(".choices", &format!("Use {choice}")).await?;
    tab.saved_beyond(before).await?;
    let nothing = "return document.querySelector('.attention .empty') !== null";
    tab.until("nothing that needs the trader", nothing).await
}

/// Both hold the same changes and the same records, and nothing in dispute.
async fn expect_equal(one: &Tab, other: &Tab) -> Outcome<()> {
    let (one, other) = (one.stored_book().await?, other.stored_book().await?);
    one.expect_no_holes()?;
    if one.changes != other.changes {
        return wrong(format!(
            "{} changes on one device, {} on the other, or they differ",
            one.changes.len(),
            other.changes.len()
        ));
    }
    if one.stores["records"] != other.stores["records"] {
        return wrong("the records of the two devices differ");
    }
    let disputed = |row: &&Value| {
        row["j"]
            .as_str()
            .is_some_and(|json| json.contains("\"disputes\""))
    };
    match one.stores["records"].iter().find(disputed) {
        Some(row) => wrong(format!("something is in dispute: {row}")),
        None => Ok(()),
    }
}
