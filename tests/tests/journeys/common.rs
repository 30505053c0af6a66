//! What several journeys begin with.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use haulwren_tests::browser::{
    Browser, DEADLINE, Engine, Failure, Fonts, Outcome, QUAYSIDE, Setup, Tab, Theme, VenueForm,
    wrong,
};
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
        Self::open_with(engine, Fonts::default()).await
    }

    /// The same, drawn with these fonts.
    pub async fn open_with(engine: Engine, fonts: Fonts) -> Outcome<Self> {
        let server = serve(Setup::dist()?)?;
        let browser = Browser::open_with(engine, fonts).await?;
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

    /// Enters one more venue, and goes back to Decide.
    pub async fn add_venue(&self, venue: &VenueForm) -> Outcome<()> {
        self.tab.screen("#/settings/venue/new").await?;
        self.tab.fill_venue(venue).await?;
        let before = self.tab.saved().await?;
        self.tab.press("Save venue").await?;
        self.tab.saved_beyond(before).await?;
        self.tab.screen("#/decide").await
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

/// Removes every file from the downloads folder: browsers write a second file over the first of that name.
pub fn forget_downloads(folder: &Path) -> Outcome<()> {
    for path in downloads(folder)? {
        let trouble = Failure::system(format!("cannot remove {}", path.display()));
        std::fs::remove_file(&path).map_err(trouble)?;
    }
    Ok(())
}

/// Waits for a downloaded text file and reads it once its last line is whole.
pub async fn downloaded(tab: &Tab, folder: &Path) -> Outcome<String> {
    let path = whole_download(tab, folder, "txt").await?;
    let trouble = Failure::system(format!("cannot read {}", path.display()));
    std::fs::read_to_string(&path).map_err(trouble)
}

/// Waits for a downloaded file of lines, by the end of its name, until its last line is whole.
pub async fn whole_download(tab: &Tab, folder: &Path, end: &str) -> Outcome<PathBuf> {
    let deadline = Instant::now() + DEADLINE;
    while Instant::now() < deadline {
        // Browsers write under other names until a download is whole.
        let ends = |path: &PathBuf| path.extension().is_some_and(|found| found == end);
        if let Some(path) = downloads(folder)?.into_iter().find(ends) {
            let trouble = Failure::system(format!("cannot read {}", path.display()));
            if std::fs::read(&path).map_err(trouble)?.ends_with(b"\n") {
                return Ok(path);
            }
        }
        tokio::time::sleep(Duration::from_millis(20)).await;
    }
    Err(Failure::Late {
        what: "a downloaded file".to_owned(),
        seconds: DEADLINE.as_secs(),
        seen: tab.standing().await,
    })
}

fn downloads(folder: &Path) -> Outcome<Vec<PathBuf>> {
    let trouble = || Failure::system("cannot look into the downloads");
    let entries = std::fs::read_dir(folder).map_err(trouble())?;
    entries
        .map(|entry| Ok(entry.map_err(trouble())?.path()))
        .collect()
}

/// A copy of a folder, to be changed. Gone when dropped.
pub fn copy_of(folder: &Path) -> Outcome<tempfile::TempDir> {
    let trouble = || Failure::system("cannot copy the app");
    let copy = tempfile::tempdir().map_err(trouble())?;
    copy_into(folder, copy.path()).map_err(trouble())?;
    Ok(copy)
}

fn copy_into(from: &Path, to: &Path) -> std::io::Result<()> {
    for entry in std::fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            std::fs::create_dir(&target)?;
            copy_into(&entry.path(), &target)?;
        } else {
            std::fs::copy(entry.path(), &target)?;
        }
    }
    Ok(())
}

/// Changes one file of a copied app, and drops its compressed copies, which would be served instead.
pub fn alter(folder: &Path, name: &str, change: impl FnOnce(String) -> String) -> Outcome<()> {
    let trouble = || Failure::system(format!("cannot change {name}"));
    let path = folder.join(name);
    let before = std::fs::read_to_string(&path).map_err(trouble())?;
    let after = change(before.clone());
    if after == before {
        return wrong(format!("{name} is as it was"));
    }
    std::fs::write(&path, after).map_err(trouble())?;
    drop_copies(folder, name)
}

/// Removes the compressed copies of a file.
pub fn drop_copies(folder: &Path, name: &str) -> Outcome<()> {
    for ending in ["br", "gz"] {
        let copy = folder.join(format!("{name}.{ending}"));
        if copy.exists() {
            std::fs::remove_file(&copy)
                .map_err(Failure::system(format!("cannot change {name}")))?;
        }
    }
    Ok(())
}

/// Looks at a screen: pictures when somebody asked for them, the accessibility checker in both themes, and the size of targets.
pub async fn look_at(tab: &Tab, screen: &str) -> Outcome<()> {
    if tab.engine().can().devtools {
        tab.pictures(screen).await?;
        tab.theme(Theme::Light).await?;
    }
    tab.expect_accessible_in_both(screen).await?;
    tab.expect_targets(screen).await
}
