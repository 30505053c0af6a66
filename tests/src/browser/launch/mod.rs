//! Starting a browser and its driver and opening the session between them.
//!
//! Chromium and Firefox are started by hand and the driver is attached, so that the harness, not the
//! driver, decides when the browser dies and on which profile it comes back.

mod chromium;
mod firefox;
mod webkit;

use std::path::{Path, PathBuf};
use std::time::Duration;

use serde_json::Value;
use thirtyfour::{Capabilities, WebDriver};

use super::engine::Engine;
use super::failure::{Outcome, wrong};
use super::process::{Group, Killer};
use super::profile::Profile;
use super::ready;

/// How long one command to the driver may take; also the limit for scripts.
pub(crate) const COMMAND: Duration = Duration::from_mins(2);
/// How long a browser may take to end in an orderly way.
const FAREWELL: Duration = Duration::from_secs(10);
/// Another program may snatch a free port; then the driver ends at once and gets another.
const PORT_TRIES: usize = 3;

/// A running browser with its driver.
pub(crate) struct Running {
    pub(crate) session: WebDriver,
    /// The driver; in `WebKit` the browser is its child.
    driver: Group,
    browser: Option<Group>,
    screen: Option<Group>,
}

impl Running {
    /// Starts the engine on a profile.
    pub(crate) async fn start(engine: Engine, profile: &Profile, trap: u16) -> Outcome<Self> {
        match engine {
            Engine::Chromium => chromium::start(profile, trap).await,
            Engine::Firefox => firefox::start(profile).await,
            Engine::WebKit => webkit::start(profile, trap).await,
        }
    }

    /// Kills the browser.
    pub(crate) fn killer(&self) -> Killer {
        self.browser.as_ref().unwrap_or(&self.driver).killer()
    }

    /// Ends the browser in an orderly way, then the driver.
    pub(crate) async fn end(self) -> Outcome<()> {
        let Self {
            session,
            driver,
            browser,
            screen,
        } = self;
        match browser {
            Some(browser) => {
                // The session must not be closed by a later drop: its driver is gone by then. An error
                // here only says that it was closed already.
                drop(session.leak());
                browser.end(FAREWELL).await?;
            }
            None => session.quit().await?,
        }
        drop(driver);
        drop(screen);
        Ok(())
    }

    /// Kills everything at once.
    pub(crate) fn kill(self) {
        self.killer().kill();
        drop(self.session.leak());
    }
}

/// Starts a driver that takes `--port=N`, on a free port.
async fn driver(
    name: &str,
    program: &Path,
    profile: &Profile,
    more: &[(&str, String)],
    env: &[(&str, String)],
) -> Outcome<(Group, u16)> {
    let mut trouble = String::new();
    for _ in 0..PORT_TRIES {
        let port = ready::free_port()?;
        let mut command = profile.command(program);
        command.arg(format!("--port={port}"));
        for (option, value) in more {
            command.arg(option);
            if !value.is_empty() {
                command.arg(value);
            }
        }
        command.envs(env.iter().map(|(key, value)| (key, value)));
        let mut group = Group::start(name, &mut command, &profile.log(name))?;
        match ready::driver(&mut group, port).await {
            Ok(()) => return Ok((group, port)),
            Err(problem) => trouble = problem.to_string(),
        }
    }
    wrong(trouble)
}

/// Opens a session with the driver on `port`.
async fn session(port: u16, wanted: &[(&str, Value)]) -> Outcome<WebDriver> {
    let mut capabilities = Capabilities::new();
    for (name, value) in wanted {
        capabilities.set(*name, value)?;
    }
    let timeouts = serde_json::json!({ "script": COMMAND.as_millis(), "pageLoad": 30_000 });
    capabilities.set("timeouts", timeouts)?;
    let session = WebDriver::builder(format!("http://127.0.0.1:{port}"), capabilities)
        .request_timeout(COMMAND)
        .await?;
    Ok(session)
}

/// A program: where its variable says, else the first of these names on the search path.
fn find(variable: &str, names: &[&str]) -> Outcome<PathBuf> {
    if let Some(set) = std::env::var_os(variable) {
        return Ok(PathBuf::from(set));
    }
    let path = std::env::var_os("PATH").unwrap_or_default();
    let found = names
        .iter()
        .flat_map(|name| std::env::split_paths(&path).map(move |folder| folder.join(name)))
        .find(|program| program.is_file());
    found.map_or_else(
        || wrong(format!("{} is not installed; or set {variable}", names[0])),
        Ok,
    )
}
