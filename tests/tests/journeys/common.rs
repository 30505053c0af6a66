//! What several journeys begin with.

use std::path::PathBuf;

use haulwren_tests::browser::{Browser, Engine, Failure, Outcome, QUAYSIDE, Setup, Start, Tab};
use haulwren_tests::server::{Options, Server};

/// Low, likely and high of the summer dress that the worked sums are about.
pub const DRESS: [&str; 3] = ["18", "26", "34"];

/// A served app, a browser with a fresh profile, and a first tab with a book in it.
pub struct Stall {
    // Dropped in this order: the browser before the server it talks to.
    pub tab: Tab,
    pub browser: Browser,
    pub server: Server,
    pub url: String,
}

impl Stall {
    /// Serves the built app, opens it, goes through the first run with Quayside as the venue.
    pub async fn open(engine: Engine) -> Outcome<Self> {
        Self::open_with(engine, Start::default()).await
    }

    /// As [`Stall::open`], starting the browser in the given way.
    pub async fn open_with(engine: Engine, start: Start) -> Outcome<Self> {
        let server = serve(Setup::dist()?)?;
        let browser = Browser::open_with(engine, start).await?;
        let tab = browser.tab().await?;
        let url = server.url();
        tab.first_run(&url, &QUAYSIDE).await?;
        Ok(Self {
            tab,
            browser,
            server,
            url,
        })
    }

    /// Checks what must hold at the end of every journey: the app runs, and nothing went elsewhere.
    pub async fn expect_sound(&self) -> Outcome<()> {
        self.tab.expect_running().await?;
        self.browser.expect_quiet(&self.tab).await
    }
}

/// Serves a folder on a free port.
pub fn serve(folder: PathBuf) -> Outcome<Server> {
    start(Options::new(folder))
}

/// Starts a server.
pub fn start(options: Options) -> Outcome<Server> {
    Server::start(options).map_err(Failure::system("cannot serve the app"))
}
