//! Chromium by hand, headless, with chromedriver attached to its debugging port.

use serde_json::json;

use super::super::failure::{Failure, Outcome};
use super::super::process::Group;
use super::super::profile::Profile;
use super::super::ready;
use super::{Running, Wanted};

/// No sandbox, because tests often run as root in a container; nothing that calls home, and where a flag
/// does not stop it, an address on this machine where nobody listens; windows behind others run at full
/// speed; precise numbers for memory and collection on demand.
const FLAGS: [&str; 22] = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-quic",
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-domain-reliability",
    "--disable-extensions",
    "--disable-sync",
    "--disable-features=AutofillServerCommunication,NetworkTimeServiceQuerying,OptimizationHints",
    "--gaia-url=http://127.0.0.1:9/",
    "--component-updater=url-source=http://127.0.0.1:9/",
    "--apps-gallery-update-url=http://127.0.0.1:9/",
    "--disable-background-timer-throttling",
    "--disable-backgrounding-occluded-windows",
    "--disable-renderer-backgrounding",
    "--js-flags=--expose-gc",
    "--enable-precise-memory-info",
];

pub(super) async fn start(profile: &Profile, trap: u16) -> Outcome<Running> {
    let program = super::find("HAULWREN_CHROMIUM", &["chromium", "chromium-browser"])?;
    let data = profile.data();
    let port_file = data.join("DevToolsActivePort");
    if port_file.exists() {
        // Left by the run before: its port means nothing now.
        let trouble = Failure::system("cannot remove the old port file");
        std::fs::remove_file(&port_file).map_err(trouble)?;
    }
    let mut command = profile.command(&program);
    command
        .args(FLAGS)
        .arg("--remote-debugging-port=0")
        .arg(format!("--user-data-dir={}", data.display()))
        .arg(format!("--proxy-server=http://127.0.0.1:{trap}"))
        .arg("--window-size=1280,900")
        .arg("about:blank");
    let mut browser = Group::start("chromium", &mut command, &profile.log("chromium"))?;
    let port = ready::port_file(&mut browser, &port_file).await?;
    let options = json!({ "debuggerAddress": format!("127.0.0.1:{port}") });
    let wanted = Wanted {
        name: "chromedriver",
        program: super::find("HAULWREN_CHROMEDRIVER", &["chromedriver"])?,
        arguments: Vec::new(),
        env: Vec::new(),
        capabilities: vec![
            ("browserName", json!("chrome")),
            ("goog:chromeOptions", options),
            ("goog:loggingPrefs", json!({ "browser": "ALL" })),
        ],
    };
    let (driver, session) = wanted.open(profile).await?;
    let downloads = json!({ "behavior": "allow", "downloadPath": profile.downloads() });
    session
        .cdp()
        .send_raw("Browser.setDownloadBehavior", downloads)
        .await?;
    Ok(Running {
        session,
        driver,
        browser: Some(browser),
        screen: None,
    })
}
