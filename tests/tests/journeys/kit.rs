//! That the checks of the kit itself can fail.

use std::fs;

use haulwren_tests::browser::{Browser, Engine, Failure, Outcome, check_book_file, wrong};

use crate::common::serve;

journeys!(a_request_elsewhere_is_caught => elsewhere_in_chromium Chromium, elsewhere_in_firefox Firefox,
    elsewhere_in_webkit WebKit);

/// A page without a policy that asks another host for something, from itself and from a worker.
const PAGE: &str = "<!doctype html><title>Calls home</title><script>\n\
    fetch('http://page.invalid/').catch(() => {});\n\
    new Worker('worker.js').onmessage = () => { document.title = 'asked'; };\n\
    </script>";
const WORKER: &str = "fetch('http://worker.invalid/').catch(() => {}).then(() => postMessage(0));";

async fn a_request_elsewhere_is_caught(engine: Engine) -> Outcome<()> {
    let trouble = || Failure::system("cannot write the page");
    let folder = tempfile::tempdir().map_err(trouble())?;
    fs::write(folder.path().join("index.html"), PAGE).map_err(trouble())?;
    fs::write(folder.path().join("worker.js"), WORKER).map_err(trouble())?;
    let server = serve(folder.path().to_owned())?;
    let browser = Browser::open(engine).await?;
    let tab = browser.tab().await?;
    browser.expect_no_other_host()?;
    tab.go(&server.url()).await?;
    tab.until("the worker's answer", "return document.title === 'asked'")
        .await?;
    let Err(Failure::Wrong(caught)) = browser.expect_no_other_host() else {
        return wrong("nothing was caught");
    };
    for host in ["page.invalid", "worker.invalid"] {
        if !caught.contains(host) {
            return wrong(format!("{host} was not caught: {caught}"));
        }
    }
    Ok(())
}

#[test]
fn a_book_file_is_refused_when_a_change_is_altered_or_missing() {
    // The digest was made by another program: printf '%s\n%s' of the first two lines into sha256sum.
    let lines = [
        r#"{"format":"haulwren-book","version":1}"#,
        r#"{"k":"abcdefgh/0000000001"}"#,
    ];
    let digest = "8b21f5d253ae7ea65a4fa55c9374b8a35368f05cd0f345f08be3db7aafa57ca8";
    let file = |count: usize, middle: &str| {
        format!(
            "{}\n{middle}{{\"count\":{count},\"sha256\":\"{digest}\"}}\n",
            lines[0]
        )
    };
    let whole = file(1, &format!("{}\n", lines[1]));
    assert_eq!(
        check_book_file(&whole).map(|changes| changes.len()).ok(),
        Some(1)
    );
    assert!(check_book_file(&file(1, "{\"k\":\"abcdefgh/0000000002\"}\n")).is_err());
    assert!(check_book_file(&file(0, "")).is_err());
}
