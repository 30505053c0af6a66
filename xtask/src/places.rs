//! Where things lie: the workspace, what cargo builds, and the tools kept between checkouts.

use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::fail::{Done, Fail, While, fail};
use crate::run::{cargo, read};

/// The folders of this checkout and of this machine.
pub struct Places {
    /// Top of the workspace.
    pub root: PathBuf,
    /// Cargo's target folder, wherever it was set to.
    pub target: PathBuf,
    /// Tools by version, kept in the person's home so that a fresh checkout does not compile them again.
    pub tools: PathBuf,
}

impl Places {
    /// Asks cargo and the environment.
    ///
    /// # Errors
    /// When this is no workspace or the person has no home folder.
    pub fn find() -> Done<Self> {
        // Told by cargo at the start and not when compiled: two checkouts may share one target folder.
        let here = std::env::var_os("CARGO_MANIFEST_DIR").unwrap_or_else(|| ".".into());
        let here = Path::new(&here);
        let arguments = ["metadata", "--no-deps", "--format-version", "1"];
        let about: Value = serde_json::from_str(&read(&mut cargo(here, &arguments))?)
            .or_fail("reading what cargo says about the workspace")?;
        let path = |key: &str| {
            let text = about[key].as_str().map(PathBuf::from);
            text.ok_or_else(|| Fail(format!("cargo does not say its {key}")))
        };
        Ok(Self {
            root: path("workspace_root")?,
            target: path("target_directory")?,
            tools: tools()?,
        })
    }

    /// The app as it is served.
    pub fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }

    /// The modules of the last build before their names were taken out: what a first verdict needs, and what comes late.
    pub fn named_wasm(&self) -> [PathBuf; 2] {
        ["haulwren", "settings"].map(|word| self.target.join(format!("{word}-named.wasm")))
    }

    /// The version of a package in the lock file.
    ///
    /// # Errors
    /// When the lock file cannot be read or does not name it.
    pub fn locked_version(&self, package: &str) -> Done<String> {
        let path = self.root.join("Cargo.lock");
        let text = std::fs::read_to_string(path).or_fail("reading Cargo.lock")?;
        let lock: toml::Table = text.parse().or_fail("Cargo.lock is no TOML")?;
        let packages = lock.get("package").and_then(toml::Value::as_array);
        let found = packages.into_iter().flatten().find_map(|entry| {
            let name = entry.get("name")?.as_str()?;
            let version = entry.get("version")?.as_str()?;
            (name == package).then(|| version.to_owned())
        });
        found.ok_or_else(|| Fail(format!("Cargo.lock does not name {package}")))
    }
}

fn tools() -> Done<PathBuf> {
    if let Some(set) = std::env::var_os("HAULWREN_TOOLS") {
        return std::path::absolute(set).or_fail("HAULWREN_TOOLS");
    }
    match std::env::home_dir() {
        Some(home) => Ok(home.join(".cache/haulwren-tools")),
        None => fail("no home folder is known: set HAULWREN_TOOLS to a folder for the build tools"),
    }
}
