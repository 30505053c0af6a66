//! One window or tab: going somewhere, running scripts, waiting for states, real taps and keys.

use std::time::{Duration, Instant};

use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use thirtyfour::{By, WebDriver, WebElement, WindowHandle};

use super::engine::Engine;
use super::failure::{Failure, Outcome, wrong};

/// How long a state may take to come, on a busy machine. Most come in a few milliseconds.
pub const DEADLINE: Duration = Duration::from_secs(20);
/// Between two looks at a state.
const PAUSE: Duration = Duration::from_millis(15);

/// How the page stands, for a failure's text.
const STANDING: &str = r#"
const root = document.documentElement;
const marks = Object.entries(root.dataset).map(([key, value]) => `data-${key}=${value}`).join(" ");
return `${location.href} [${marks}]\n${(document.body?.innerText ?? "").slice(0, 1200)}`;
"#;

/// A tab of a running browser.
#[derive(Debug, Clone)]
pub struct Tab {
    engine: Engine,
    session: WebDriver,
    handle: WindowHandle,
}

impl Tab {
    pub(crate) fn new(engine: Engine, session: WebDriver, handle: WindowHandle) -> Self {
        Self {
            engine,
            session,
            handle,
        }
    }

    /// Which engine this tab runs in.
    pub fn engine(&self) -> Engine {
        self.engine
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
        let script = "return location.hash === arguments[0]";
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

    /// Runs a function body and gives what it returns.
    ///
    /// # Errors
    /// When the script throws or returns something else.
    pub async fn ask<T: DeserializeOwned>(&self, script: &str) -> Outcome<T> {
        self.ask_with(script, &[]).await
    }

    /// Runs a function body with arguments and gives what it returns.
    ///
    /// # Errors
    /// When the script throws or returns something else.
    pub async fn ask_with<T: DeserializeOwned>(&self, script: &str, with: &[Value]) -> Outcome<T> {
        self.focus().await?;
        let answer = self.session.execute(script, with.to_vec()).await?;
        Ok(serde_json::from_value(answer.json().clone())?)
    }

    /// Runs a function body for its effect.
    ///
    /// # Errors
    /// When the script throws.
    pub async fn run_with(&self, script: &str, with: &[Value]) -> Outcome<()> {
        self.focus().await?;
        self.session.execute(script, with.to_vec()).await?;
        Ok(())
    }

    /// Runs the body of an async function and gives what its promise comes to.
    ///
    /// # Errors
    /// When the promise fails or gives something else.
    pub async fn ask_later<T: DeserializeOwned>(&self, script: &str, with: &[Value]) -> Outcome<T> {
        let whole = format!(
            "const done = arguments[arguments.length - 1];\n\
             (async (...args) => {{ {script} }})(...[...arguments].slice(0, -1))\n\
             .then((ok) => done({{ ok }}), (no) => done({{ no: String(no?.stack ?? no) }}));"
        );
        self.focus().await?;
        let answer = self.session.execute_async(whole, with.to_vec()).await?;
        let answer = answer.json();
        if let Some(no) = answer.get("no") {
            return wrong(format!("a script in the page failed: {no}"));
        }
        let ok = answer.get("ok").cloned().unwrap_or(Value::Null);
        Ok(serde_json::from_value(ok)?)
    }

    /// Waits until a script returns true.
    ///
    /// # Errors
    /// At the deadline, saying how the page stands; or when the script throws.
    pub async fn until(&self, what: &str, script: &str) -> Outcome<()> {
        self.until_with(what, script, &[]).await
    }

    /// Waits until a script with arguments returns true.
    ///
    /// # Errors
    /// At the deadline, saying how the page stands; or when the script throws.
    pub async fn until_with(&self, what: &str, script: &str, with: &[Value]) -> Outcome<()> {
        self.until_within(DEADLINE, what, script, with).await
    }

    /// Waits so long until a script with arguments returns true.
    ///
    /// # Errors
    /// At the deadline, saying how the page stands; or when the script throws.
    pub async fn until_within(
        &self,
        patience: Duration,
        what: &str,
        script: &str,
        with: &[Value],
    ) -> Outcome<()> {
        let deadline = Instant::now() + patience;
        while !self.ask_with::<bool>(script, with).await? {
            if Instant::now() > deadline {
                return Err(Failure::Late {
                    what: what.to_owned(),
                    seconds: patience.as_secs(),
                    seen: self.standing().await,
                });
            }
            tokio::time::sleep(PAUSE).await;
        }
        Ok(())
    }

    /// Turns to the first frame in the page, until the next command that is not one of those "here".
    ///
    /// # Errors
    /// When there is no frame.
    pub async fn enter_frame(&self) -> Outcome<()> {
        self.element("iframe").await?;
        Ok(self.session.enter_frame(0).await?)
    }

    /// As [`Tab::ask`], in the frame that was entered.
    ///
    /// # Errors
    /// When the script throws or returns something else.
    pub async fn ask_here<T: DeserializeOwned>(&self, script: &str) -> Outcome<T> {
        let answer = self.session.execute(script, Vec::new()).await?;
        Ok(serde_json::from_value(answer.json().clone())?)
    }

    /// As [`Tab::until`], in the frame that was entered.
    ///
    /// # Errors
    /// At the deadline, or when the script throws.
    pub async fn until_here(&self, what: &str, script: &str) -> Outcome<()> {
        let deadline = Instant::now() + DEADLINE;
        while !self.ask_here::<bool>(script).await? {
            if Instant::now() > deadline {
                return Err(Failure::Late {
                    what: what.to_owned(),
                    seconds: DEADLINE.as_secs(),
                    seen: self.ask_here(STANDING).await?,
                });
            }
            tokio::time::sleep(PAUSE).await;
        }
        Ok(())
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

    /// Waits for an element and gives it.
    ///
    /// # Errors
    /// When it does not appear.
    pub async fn element(&self, css: &str) -> Outcome<WebElement> {
        let script = "return document.querySelector(arguments[0]) !== null";
        self.until_with(css, script, &[json!(css)]).await?;
        Ok(self.session.find(By::Css(css)).await?)
    }

    /// Taps an element as a finger or mouse would.
    ///
    /// # Errors
    /// When it does not appear or something lies over it.
    pub async fn tap(&self, css: &str) -> Outcome<()> {
        let element = self.element(css).await?;
        self.tap_element(&element, css).await
    }

    /// Brings an element into sight, as a person scrolls to it, and taps it. While it still moves, as a bar
    /// that rises, or something lies over it, the tap waits, as a person's does.
    pub(crate) async fn tap_element(&self, element: &WebElement, what: &str) -> Outcome<()> {
        use thirtyfour::error::WebDriverErrorInner::{
            ElementClickIntercepted, ElementNotInteractable,
        };
        let script = "arguments[0].scrollIntoView({ block: \"nearest\", behavior: \"instant\" })";
        let deadline = Instant::now() + DEADLINE;
        loop {
            self.session
                .execute(script, vec![element.to_json()?])
                .await?;
            let Err(problem) = element.click().await else {
                return Ok(());
            };
            let passes = matches!(
                problem.as_inner(),
                ElementNotInteractable(_) | ElementClickIntercepted(_)
            );
            if !passes || Instant::now() > deadline {
                return Err(Failure::refused(format!("tapping {what}"))(problem));
            }
            tokio::time::sleep(PAUSE).await;
        }
    }

    /// Sends keys to whatever has the focus.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn send_keys(&self, keys: impl AsRef<str>) -> Outcome<()> {
        self.focus().await?;
        Ok(self
            .session
            .action_chain()
            .send_keys(keys.as_ref())
            .perform()
            .await?)
    }
}
