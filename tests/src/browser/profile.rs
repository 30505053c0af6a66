//! A browser's own fresh folder: profile, home, logs. Gone when dropped.

use std::path::{Path, PathBuf};
use std::process::Command;

use super::engine::Engine;
use super::failure::{Failure, Outcome};
use super::small_disk::SmallDisk;
use crate::fonts::Fonts;

/// Settings that keep Firefox from calling home, restoring windows and asking questions; the last one is
/// the port of the trap.
const FIREFOX: &str = r#"
user_pref("marionette.port", 0);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.sessionstore.resume_from_crash", false);
user_pref("browser.startup.page", 0);
user_pref("toolkit.startup.max_resumed_crashes", -1);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("app.update.enabled", false);
user_pref("app.update.url", "http://127.0.0.1:9/");
user_pref("media.gmp-manager.updateEnabled", false);
user_pref("media.gmp-manager.url", "http://127.0.0.1:9/");
user_pref("media.gmp-manager.url.override", "http://127.0.0.1:9/");
user_pref("media.gmp-provider.enabled", false);
user_pref("app.normandy.enabled", false);
user_pref("extensions.update.enabled", false);
user_pref("extensions.getAddons.cache.enabled", false);
user_pref("extensions.systemAddon.update.enabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("services.settings.server", "http://127.0.0.1:9/v1");
user_pref("browser.safebrowsing.update.enabled", false);
user_pref("browser.region.network.url", "");
user_pref("browser.topsites.contile.enabled", false);
user_pref("browser.newtabpage.enabled", false);
user_pref("dom.push.connection.enabled", false);
user_pref("network.trr.mode", 5);
user_pref("browser.download.useDownloadDir", true);
user_pref("browser.download.folderList", 2);
user_pref("dom.min_background_timeout_value", 4);
user_pref("network.proxy.type", 1);
user_pref("network.proxy.http", "127.0.0.1");
user_pref("network.proxy.ssl", "127.0.0.1");
"#;

/// Settings that keep Chromium from fetching word lists for its spelling check, which no flag does.
const CHROMIUM: &str = r#"{"browser":{"enable_spellchecking":false},"spellcheck":{"dictionaries":[],"use_spelling_service":false}}"#;

/// The folders of one browser.
pub(crate) struct Profile {
    // Before the folder that it lies in.
    disk: Option<SmallDisk>,
    root: tempfile::TempDir,
    fonts: PathBuf,
}

impl Profile {
    /// Makes the folders, with settings where the engine reads them from there.
    pub(crate) fn fresh(engine: Engine, fonts: Fonts, trap: u16) -> Outcome<Self> {
        Self::on(engine, fonts, trap, None)
    }

    /// The same on a disk of its own of so many MiB, where one can be had.
    pub(crate) fn on(
        engine: Engine,
        fonts: Fonts,
        trap: u16,
        mebibytes: Option<u32>,
    ) -> Outcome<Self> {
        let trouble = || Failure::system("cannot make a profile");
        let root = tempfile::Builder::new()
            .prefix("haulwren-browser-")
            .tempdir()
            .map_err(trouble())?;
        let fonts = fonts
            .configure(root.path())
            .map_err(Failure::system("cannot configure the fonts"))?;
        let mut profile = Self {
            disk: None,
            root,
            fonts,
        };
        for part in ["data", "home", "logs", "downloads"] {
            std::fs::create_dir(profile.root.path().join(part)).map_err(trouble())?;
        }
        profile.disk = mebibytes.and_then(|size| SmallDisk::over(&profile.data(), size));
        if engine == Engine::Chromium {
            let first = profile.data().join("Default");
            std::fs::create_dir(&first).map_err(trouble())?;
            std::fs::write(first.join("Preferences"), CHROMIUM).map_err(trouble())?;
        }
        if engine == Engine::Firefox {
            let downloads = profile.downloads();
            let downloads = downloads.display();
            let text = format!(
                "{FIREFOX}user_pref(\"network.proxy.http_port\", {trap});\n\
                 user_pref(\"network.proxy.ssl_port\", {trap});\n\
                 user_pref(\"browser.download.dir\", \"{downloads}\");\n"
            );
            std::fs::write(profile.data().join("user.js"), text).map_err(trouble())?;
        }
        Ok(profile)
    }

    /// The disk of its own, where it has one.
    pub(crate) fn disk(&self) -> Option<&SmallDisk> {
        self.disk.as_ref()
    }

    /// The profile proper.
    pub(crate) fn data(&self) -> PathBuf {
        self.root.path().join("data")
    }

    /// Where downloads land.
    pub(crate) fn downloads(&self) -> PathBuf {
        self.root.path().join("downloads")
    }

    /// The log of one of the programs.
    pub(crate) fn log(&self, name: &str) -> PathBuf {
        self.root.path().join("logs").join(name)
    }

    /// A command that finds an empty home of its own.
    pub(crate) fn command(&self, program: &Path) -> Command {
        let home = self.root.path().join("home");
        let mut command = Command::new(program);
        command
            .env("HOME", &home)
            .env("XDG_CONFIG_HOME", home.join("config"))
            .env("XDG_CACHE_HOME", home.join("cache"))
            .env("XDG_DATA_HOME", home.join("data"))
            .env("FONTCONFIG_FILE", &self.fonts)
            .env_remove("http_proxy")
            .env_remove("https_proxy")
            .env_remove("HTTP_PROXY")
            .env_remove("HTTPS_PROXY")
            .env_remove("all_proxy")
            .env_remove("ALL_PROXY");
        command
    }
}
