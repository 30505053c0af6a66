//! What the caller hands to the browser tests through the environment, and repeatable chance.

use std::path::PathBuf;
use std::time::{SystemTime, UNIX_EPOCH};

use super::failure::{Failure, Outcome};

/// The environment of a run.
pub struct Setup;

impl Setup {
    /// The folder with the built app.
    ///
    /// # Errors
    /// When `HAULWREN_DIST` is not set.
    pub fn dist() -> Outcome<PathBuf> {
        folder("HAULWREN_DIST")
    }

    /// The second build, which says "saved" before it is.
    ///
    /// # Errors
    /// When `HAULWREN_DIST_PUBLISH_FIRST` is not set.
    pub fn dist_publish_first() -> Outcome<PathBuf> {
        folder("HAULWREN_DIST_PUBLISH_FIRST")
    }

    /// The text of the accessibility checker.
    ///
    /// # Errors
    /// When `HAULWREN_AXE` is not set or cannot be read.
    pub fn axe() -> Outcome<String> {
        let path = folder("HAULWREN_AXE")?;
        let trouble = Failure::system(format!("cannot read {}", path.display()));
        std::fs::read_to_string(&path).map_err(trouble)
    }

    /// Where pictures go; `None` when nobody asked for any.
    pub fn shots() -> Option<PathBuf> {
        std::env::var_os("HAULWREN_SHOTS").map(PathBuf::from)
    }

    /// Whether the long versions run.
    pub fn long() -> bool {
        std::env::var_os("HAULWREN_LONG").is_some()
    }
}

fn folder(name: &str) -> Outcome<PathBuf> {
    std::env::var_os(name).map(PathBuf::from).ok_or_else(|| {
        Failure::Wrong(format!(
            "{name} is not set; `cargo xtask test` builds the app and sets it"
        ))
    })
}

/// Numbers that look random and repeat with the seed (xorshift, 64 bit).
pub struct Chance {
    seed: u64,
    state: u64,
}

impl Chance {
    /// Takes the seed from `HAULWREN_SEED`, else from the clock, and prints it.
    ///
    /// # Errors
    /// When the seed given is no number.
    pub fn new() -> Outcome<Self> {
        let seed = if let Ok(text) = std::env::var("HAULWREN_SEED") {
            let unfit = |problem| Failure::Wrong(format!("HAULWREN_SEED is no seed: {problem}"));
            text.parse().map_err(unfit)?
        } else {
            let now = SystemTime::now().duration_since(UNIX_EPOCH);
            now.map_or(1, |since| u64::from(since.subsec_nanos()) ^ since.as_secs())
        };
        println!("HAULWREN_SEED={seed}");
        Ok(Self {
            seed,
            state: seed | 1,
        })
    }

    /// The seed.
    pub fn seed(&self) -> u64 {
        self.seed
    }

    /// A number from 1 to `most`.
    pub fn upto(&mut self, most: u64) -> u64 {
        self.state ^= self.state << 13;
        self.state ^= self.state >> 7;
        self.state ^= self.state << 17;
        self.state % most + 1
    }
}
