//! Starting a browser and its driver and opening the session between them.
//!
//! Chromium and Firefox are started by hand and the driver is attached, so that the harness, not the
//! driver, decides when the browser dies and on which profile it comes back.

mod chromium;
mod firefox;
mod webkit;

use std::future::IntoFuture;
use std::path::PathBuf;
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
/// How long opening a session may take; it is a second or two.
const OPENING: Duration = Duration::from_secs(30);
/// How often to try in all.
const TRIES: usize = 3;

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

/// A driver to start and the session to open with it.
struct Wanted<'a> {
    name: &'a str,
    program: PathBuf,
    arguments: Vec<String>,
    env: Vec<(&'a str, String)>,
    capabilities: Vec<(&'a str, Value)>,
}

impl Wanted<'_> {
    /// Starts the driver on a free port and opens the session. Again with another port when one of the
    /// ports involved was snatched: the driver then ends at once, or waits for a browser that it cannot
    /// reach.
    async fn open(&self, profile: &Profile) -> Outcome<(Group, WebDriver)> {
        let mut trouble = String::new();
        for _ in 0..TRIES {
            let port = ready::free_port()?;
            let mut command = profile.command(&self.program);
            command
                .arg(format!("--port={port}"))
                .args(&self.arguments)
                .envs(self.env.iter().map(|(key, value)| (key, value)));
            let mut driver = Group::start(self.name, &mut command, &profile.log(self.name))?;
            let opened = match ready::driver(&mut driver, port).await {
                Ok(()) => self.session(port).await,
                Err(problem) => Err(problem),
            };
            match opened {
                Ok(session) => return Ok((driver, session)),
                Err(problem) => trouble = format!("{problem}\n{}", driver.printed()),
            }
            println!("{} again: {trouble}", self.name);
        }
        wrong(format!("{} opens no session: {trouble}", self.name))
    }

    async fn session(&self, port: u16) -> Outcome<WebDriver> {
        let mut capabilities = Capabilities::new();
        for (name, value) in &self.capabilities {
            capabilities.set(*name, value)?;
        }
        let timeouts = serde_json::json!({ "script": COMMAND.as_millis(), "pageLoad": 30_000 });
        capabilities.set("timeouts", timeouts)?;
        let opening = WebDriver::builder(format!("http://127.0.0.1:{port}"), capabilities)
            .request_timeout(COMMAND)
            .into_future();
        match tokio::time::timeout(OPENING, opening).await {
            Ok(session) => Ok(session?),
            Err(_) => wrong(format!("no session after {} s", OPENING.as_secs())),
        }
    }
}

/// A program: where its variable says, else the first of these names on the search path.
pub(super) fn find(variable: &str, names: &[&str]) -> Outcome<PathBuf> {
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
