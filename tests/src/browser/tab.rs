//! One window or tab: going somewhere, running scripts, waiting for states, real taps and keys.

use std::time::Duration;

use serde_json::json;
use thirtyfour::{WebDriver, WindowHandle};

use super::engine::Engine;
use super::failure::{Outcome, wrong};
use crate::fonts::Fonts;

/// How long a state may take to come, on a busy machine. Most come in a few milliseconds.
pub const DEADLINE: Duration = Duration::from_secs(20);
/// Between two looks at a state.
pub(crate) const PAUSE: Duration = Duration::from_millis(15);

/// How the page stands, for a failure's text.
pub(crate) const STANDING: &str = r#"
const root = document.documentElement;
const marks = Object.entries(root.dataset).map(([key, value]) => `data-${key}=${value}`).join(" ");
return `${location.href} [${marks}]\n${(document.body?.innerText ?? "").slice(0, 1200)}`;
"#;

/// A tab of a running browser.
#[derive(Debug, Clone)]
pub struct Tab {
    engine: Engine,
    fonts: Fonts,
    session: WebDriver,
    handle: WindowHandle,
}

impl Tab {
    pub(crate) fn new(
        engine: Engine,
        fonts: Fonts,
        session: WebDriver,
        handle: WindowHandle,
    ) -> Self {
        Self {
            engine,
            fonts,
            session,
            handle,
        }
    }

    /// Which engine this tab runs in.
    pub fn engine(&self) -> Engine {
        self.engine
    }

    /// What its pages are drawn with.
    pub fn fonts(&self) -> Fonts {
        self.fonts
    }

    pub(crate) fn session(&self) -> &WebDriver {
        &self.session
    }

    /// Makes this the tab that commands go to. Every method does it by itself.
    ///
    /// # Errors
    /// When the tab is gone.
    pub async fn focus(&self) -> Outcome<()> {
        Ok(self.session.switch_to_window(self.handle.clone()).await?)
    }

    /// Closes the tab.
    ///
    /// # Errors
    /// When it is gone already.
    pub async fn close(self) -> Outcome<()> {
        self.focus().await?;
        Ok(self.session.close_window().await?)
    }

    /// Opens an address and waits until its page has loaded.
    ///
    /// # Errors
    /// When it does not load.
    pub async fn go(&self, address: &str) -> Outcome<()> {
        self.focus().await?;
        Ok(self.session.goto(address).await?)
    }

    /// Opens the app and waits until it says that it is ready.
    ///
    /// # Errors
    /// When it stops or does not become ready.
    pub async fn open_app(&self, address: &str) -> Outcome<()> {
        self.go(address).await?;
        self.ready().await
    }

    /// Waits for the app's own word that the book is open and a screen is drawn.
    ///
    /// # Errors
    /// When it stops or does not become ready.
    pub async fn ready(&self) -> Outcome<()> {
        let script =
            "const d = document.documentElement.dataset; return Boolean(d.ready || d.stopped)";
        self.until("the app to be ready", script).await?;
        self.expect_running().await
    }

    /// Goes to one of the app's screens, `#/haul` for one, without loading the page again.
    ///
    /// # Errors
    /// When a script fails.
    pub async fn screen(&self, route: &str) -> Outcome<()> {
        self.run_with("location.hash = arguments[0]", &[json!(route)])
            .await?;
        // Drawn, and come where it comes late.
        let script = "return document.documentElement.dataset.at === arguments[0]
            && !document.querySelector(\"[data-opening]\")";
        self.until_with(&format!("the screen {route}"), script, &[json!(route)])
            .await
    }

    /// Checks that the app has not said that it stopped.
    ///
    /// # Errors
    /// Gives the app's own words.
    pub async fn expect_running(&self) -> Outcome<()> {
        let said: Option<String> = self
            .ask("return document.documentElement.dataset.stopped ?? null")
            .await?;
        match said {
            None => Ok(()),
            Some(words) => wrong(format!(
                "the app stopped: {words}\n{}",
                self.standing().await
            )),
        }
    }

    /// The highest sequence number of this device that the app calls saved; 0 before the first.
    ///
    /// # Errors
    /// When the mark is no number.
    pub async fn saved(&self) -> Outcome<u64> {
        self.ask("return Number(document.documentElement.dataset.saved ?? 0)")
            .await
    }

    /// Where the tab is, its marks and the words on it.
    pub async fn standing(&self) -> String {
        let page = self.ask::<String>(STANDING).await;
        let mut text =
            page.unwrap_or_else(|problem| format!("(the page does not answer: {problem})"));
        if self.engine.can().devtools
            && let Ok(log) = self.session.browser_log().await
        {
            for entry in log {
                text.push_str("\nconsole: ");
                text.push_str(&entry.message);
            }
        }
        text
    }
}
