//! The rescue page writes the book to a file without the app, also with the server shut; and it is offered
//! when the app does not start.

use haulwren_tests::browser::{Browser, Engine, Outcome, Setup, check_book_file, wrong};

use crate::common::{DRESS, Stall, copy_of, downloaded, drop_copies, forget_downloads, serve};

journeys!(writes_the_book => in_chromium Chromium, in_firefox Firefox);
journeys!(finds_the_book => finds_in_webkit WebKit);
journeys!(is_offered_when_the_app_does_not_start => offered_in_chromium Chromium,
    offered_in_firefox Firefox, offered_in_webkit WebKit);

journeys!(tries_again => again_in_chromium Chromium);
journeys!(turns_to_the_second_copy => second_in_chromium Chromium);
journeys!(is_offered_when_the_app_falls => fallen_in_chromium Chromium, fallen_in_webkit WebKit);

async fn bought_two(engine: Engine) -> Outcome<Stall> {
    let stall = Stall::open(engine).await?;
    stall.tab.offline_ready().await?;
    for _ in 0..2 {
        stall.tab.weigh_up("6", DRESS).await?;
        stall.tab.buy().await?;
    }
    Ok(stall)
}

async fn writes_the_book(engine: Engine) -> Outcome<()> {
    let mut stall = bought_two(engine).await?;
    let tab = &stall.tab;
    let book = tab.stored_book().await?;
    stall.server.stop();
    tab.go(&format!("{}rescue.html", stall.url)).await?;
    forget_downloads(&stall.browser.downloads())?;
    tab.press("Save the file").await?;
    let text = downloaded(tab, &stall.browser.downloads()).await?;
    if check_book_file(&text)? != book.changes {
        return wrong("the file holds other changes than the book");
    }
    // The page reads only: the book is as it was, and the app still starts.
    let after = tab.stored_book().await?;
    if after.changes != book.changes || after.stores["records"] != book.stores["records"] {
        return wrong("the rescue page has changed the book");
    }
    tab.open_app(&stall.url).await?;
    tab.expect_bought(2).await?;
    stall.expect_sound().await
}

/// Where downloads cannot be had: the page finds the book and offers a file of the right number of changes.
async fn finds_the_book(engine: Engine) -> Outcome<()> {
    let mut stall = bought_two(engine).await?;
    let tab = &stall.tab;
    let count = tab.stored_book().await?.changes.len();
    stall.server.stop();
    tab.go(&format!("{}rescue.html", stall.url)).await?;
    let script = "return document.body.innerText.includes(`${arguments[0]} changes`)";
    tab.until_with("the book's size", script, &[count.into()])
        .await?;
    tab.expect_own_origin().await
}

async fn is_offered_when_the_app_does_not_start(engine: Engine) -> Outcome<()> {
    let folder = copy_of(&Setup::dist()?)?;
    let trouble = haulwren_tests::browser::Failure::system("cannot break the module");
    let entries = std::fs::read_dir(folder.path()).map_err(trouble)?;
    let names = entries
        .flatten()
        .filter_map(|entry| entry.file_name().into_string().ok());
    let Some(module) = names.into_iter().find(|name| name.ends_with("_bg.wasm")) else {
        return wrong("the app has no module");
    };
    let trouble = haulwren_tests::browser::Failure::system("cannot break the module");
    std::fs::write(folder.path().join(&module), b"\0asm not really").map_err(trouble)?;
    drop_copies(folder.path(), &module)?;
    let server = serve(folder.path().to_owned())?;
    let browser = Browser::open(engine).await?;
    let tab = browser.tab().await?;
    tab.go(&server.url()).await?;
    let stopped = "return document.documentElement.dataset.stopped !== undefined";
    tab.until("the page to say that it stopped", stopped)
        .await?;
    tab.expect_complaint("a broken module").await?;
    tab.press("Rescue: save my book").await?;
    let empty = "return document.body.innerText.includes(\"No saved book was found\")";
    tab.until("the rescue page's answer", empty).await?;
    browser.expect_quiet(&tab).await
}

/// Opening the book's database fails so often, and so does asking which are there, as right after a full disk.
const NOT_YET: &str = r#"
const [open, list] = [IDBFactory.prototype.open, IDBFactory.prototype.databases];
let left = LEFT;
const trouble = () => new DOMException("Internal error opening backing store for indexedDB.open.", "UnknownError");
IDBFactory.prototype.databases = function () { return left-- > 0 ? Promise.reject(trouble()) : list.apply(this); };
IDBFactory.prototype.open = function (name, ...more) {
  if (!name.startsWith("haulwren:") || left-- <= 0) return open.call(this, name, ...more);
  const request = { error: trouble() };
  setTimeout(() => request.onerror?.());
  return request;
};
"#;

/// After a full disk the database may open at the second or third time only: the page tries again.
async fn tries_again(engine: Engine) -> Outcome<()> {
    let stall = bought_two(engine).await?;
    let count = stall.tab.stored_book().await?.changes.len();
    let tab = stall.browser.new_tab().await?;
    tab.before_page(&NOT_YET.replace("LEFT", "3")).await?;
    tab.go(&format!("{}rescue.html", stall.url)).await?;
    let script = "return document.body.innerText.includes(`${arguments[0]} changes`) && !document.body.innerText.includes('failed')";
    tab.until_with("the book's size", script, &[count.into()])
        .await
}

/// Where the book itself does not read, that is said, and its second copy is offered.
async fn turns_to_the_second_copy(engine: Engine) -> Outcome<()> {
    let stall = bought_two(engine).await?;
    let book = stall.tab.stored_book().await?;
    let tab = stall.browser.new_tab().await?;
    tab.before_page(&NOT_YET.replace("LEFT", "1e9")).await?;
    tab.go(&format!("{}rescue.html", stall.url)).await?;
    let script = "return document.body.innerText.includes('reading it failed: Internal error') && document.body.innerText.includes('second copy') && document.body.innerText.includes(`${arguments[0]} changes`)";
    tab.until_with("the second copy", script, &[book.changes.len().into()])
        .await?;
    forget_downloads(&stall.browser.downloads())?;
    tab.press("Save the file").await?;
    let text = downloaded(&tab, &stall.browser.downloads()).await?;
    if check_book_file(&text)? != book.changes {
        return wrong("the file holds other changes than the book");
    }
    Ok(())
}

/// A module whose one function traps, by the core specification of WebAssembly: type, function, export `f`, and a body of `unreachable`.
/// Firefox keeps what a test's script does away from the page's own errors, so it can't be tried there.
const TRAP: &str = r"
const bytes = [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 102, 0, 0, 10, 5, 1, 3, 0, 0, 11];
WebAssembly.instantiate(new Uint8Array(bytes)).then(({ instance }) => setTimeout(instance.exports.f));
";

/// A panic is a trap: the page says that it stopped, and what was bought is there after the reload.
async fn is_offered_when_the_app_falls(engine: Engine) -> Outcome<()> {
    let stall = bought_two(engine).await?;
    let tab = &stall.tab;
    tab.run_with(TRAP, &[]).await?;
    let stopped = "return document.querySelector('#boot-panel [href=\"./rescue.html\"]') !== null";
    tab.until("the offer of rescue", stopped).await?;
    tab.press("Reload").await?;
    let again = "return document.documentElement.dataset.ready === '1' && !document.documentElement.dataset.stopped";
    tab.until("the app to run again", again).await?;
    tab.expect_bought(2).await
}
