//! One started browser with its own fresh profile, its tabs, its death and its return.

use std::path::PathBuf;

use thirtyfour::WebDriver;

use super::engine::Engine;
use super::failure::{Outcome, wrong};
use super::inject;
use super::launch::Running;
use super::process::Killer;
use super::profile::Profile;
use super::tab::Tab;
use super::trap::Trap;
use crate::fonts::Fonts;

/// A browser. Dropping it kills it with everything it started and removes its profile.
pub struct Browser {
    engine: Engine,
    fonts: Fonts,
    // Before the profile, so that the browser dies first and its folder is removed afterwards.
    running: Option<Running>,
    trap: Trap,
    profile: Profile,
}

impl Browser {
    /// Starts an engine on a fresh profile.
    ///
    /// # Errors
    /// When a program is missing or does not come up.
    pub async fn open(engine: Engine) -> Outcome<Self> {
        Self::open_with(engine, Fonts::default()).await
    }

    /// Starts an engine that draws with these fonts, on a fresh profile.
    ///
    /// # Errors
    /// When a program or the fonts are missing, or it does not come up.
    pub async fn open_with(engine: Engine, fonts: Fonts) -> Outcome<Self> {
        let trap = Trap::set()?;
        let profile = Profile::fresh(engine, fonts, trap.port())?;
        let mut browser = Self {
            engine,
            fonts,
            running: None,
            trap,
            profile,
        };
        browser.launch().await?;
        Ok(browser)
    }

    /// Starts an engine on a fresh profile that lies on a disk of its own of so many MiB. `None` where no such disk can be had.
    ///
    /// # Errors
    /// When a program is missing or does not come up.
    pub async fn open_on_small_disk(engine: Engine, mebibytes: u32) -> Outcome<Option<Self>> {
        let trap = Trap::set()?;
        let fonts = Fonts::default();
        let profile = Profile::on(engine, fonts, trap.port(), Some(mebibytes))?;
        if profile.disk().is_none() {
            return Ok(None);
        }
        let mut browser = Self {
            engine,
            fonts,
            running: None,
            trap,
            profile,
        };
        browser.launch().await?;
        Ok(Some(browser))
    }

    /// Fills the small disk to the last byte but so many.
    ///
    /// # Errors
    /// When there is none, or it cannot be written to.
    pub fn fill_disk(&self, but: u64) -> Outcome<()> {
        match self.profile.disk() {
            Some(disk) => disk.fill(but),
            None => wrong("this browser has no disk of its own"),
        }
    }

    /// Makes room on the small disk again.
    ///
    /// # Errors
    /// When there is none, or it cannot be written to.
    pub fn free_disk(&self) -> Outcome<()> {
        match self.profile.disk() {
            Some(disk) => disk.free(),
            None => wrong("this browser has no disk of its own"),
        }
    }

    /// Which engine this is.
    pub fn engine(&self) -> Engine {
        self.engine
    }

    /// The tab that is open after a start.
    ///
    /// # Errors
    /// When the browser is not running.
    pub async fn tab(&self) -> Outcome<Tab> {
        let session = &self.running()?.session;
        self.prepare(session.window().await?).await
    }

    /// Opens one more tab of the same profile; a window where the engine does not draw new tabs.
    ///
    /// # Errors
    /// When the browser is not running or refuses.
    pub async fn new_tab(&self) -> Outcome<Tab> {
        if !self.engine.can().draws_new_tabs {
            return self.new_window().await;
        }
        let handle = self.open_session().await?.new_tab().await?;
        self.prepare(handle).await
    }

    /// Opens one more window of the same profile, in which the page runs at full speed beside others.
    ///
    /// # Errors
    /// When the browser is not running or refuses.
    pub async fn new_window(&self) -> Outcome<Tab> {
        let handle = self.open_session().await?.new_window().await?;
        self.prepare(handle).await
    }

    /// Kills the browser from any thread.
    ///
    /// # Errors
    /// When the browser is not running.
    pub fn killer(&self) -> Outcome<Killer> {
        Ok(self.running()?.killer())
    }

    /// Ends the browser in an orderly way and starts it again on the same profile. Tabs from before are
    /// dead.
    ///
    /// # Errors
    /// When the engine cannot do that, or does not come up again.
    pub async fn restart(&mut self) -> Outcome<()> {
        if let Some(running) = self.running.take() {
            running.end().await?;
        }
        self.launch().await
    }

    /// Starts the browser again on the same profile after it was killed, and makes sure that nothing of
    /// it is left first.
    ///
    /// # Errors
    /// When the engine cannot do that, or does not come up again.
    pub async fn restart_after_kill(&mut self) -> Outcome<()> {
        if let Some(running) = self.running.take() {
            running.kill();
        }
        self.launch().await
    }

    /// Ends the browser in an orderly way.
    ///
    /// # Errors
    /// When it does not answer.
    pub async fn close(mut self) -> Outcome<()> {
        match self.running.take() {
            Some(running) => running.end().await,
            None => Ok(()),
        }
    }

    /// Where downloads land; in `WebKit` nothing does.
    pub fn downloads(&self) -> PathBuf {
        self.profile.downloads()
    }

    /// Checks that nothing in this browser has asked for anything at another host.
    ///
    /// # Errors
    /// Names what was asked for.
    pub fn expect_no_other_host(&self) -> Outcome<()> {
        let caught = self.trap.caught();
        if caught.is_empty() {
            return Ok(());
        }
        wrong(format!("requests to other hosts: {caught:?}"))
    }

    async fn launch(&mut self) -> Outcome<()> {
        let running = Running::start(self.engine, &self.profile, self.trap.port()).await?;
        self.running = Some(running);
        Ok(())
    }

    /// Makes sure that commands go to some tab that is still open.
    async fn open_session(&self) -> Outcome<&WebDriver> {
        let session = &self.running()?.session;
        if let Some(first) = session.windows().await?.into_iter().next() {
            session.switch_to_window(first).await?;
        }
        Ok(session)
    }

    async fn prepare(&self, handle: thirtyfour::WindowHandle) -> Outcome<Tab> {
        let session = self.running()?.session.clone();
        let tab = Tab::new(self.engine, self.fonts, session, handle);
        tab.focus().await?;
        tab.phone_sized().await?;
        if self.engine.can().devtools {
            tab.before_page(inject::VIOLATIONS).await?;
        }
        Ok(tab)
    }

    fn running(&self) -> Outcome<&Running> {
        match &self.running {
            Some(running) => Ok(running),
            None => wrong("the browser is not running"),
        }
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        if let Some(running) = self.running.take() {
            running.kill();
        }
    }
}
