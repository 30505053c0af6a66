//! Real taps and keys, as a finger or a keyboard gives them.

use std::time::Instant;

use serde_json::{Value, json};
use thirtyfour::error::{WebDriverError, WebDriverErrorInner, WebDriverResult};

use super::failure::{Failure, Outcome, wrong};
use super::tab::{DEADLINE, PAUSE, Tab};

/// Brings an element into sight, and says whether it stands still: one driver presses where the element was and lets go where it is by
/// then, which is no click at all, and says nothing.
const COME_TO_REST: &str = r#"
const [element] = arguments;
element.scrollIntoView({ block: "nearest", behavior: "instant" });
return !document.getAnimations().some((motion) => motion.playState === "running" && motion.effect?.target?.contains(element));
"#;

impl Tab {
    /// Waits for an element.
    ///
    /// # Errors
    /// When it does not appear.
    pub async fn element(&self, css: &str) -> Outcome<()> {
        let script = "return document.querySelector(arguments[0]) !== null";
        self.until_with(css, script, &[json!(css)]).await
    }

    /// Taps an element as a finger or mouse would.
    ///
    /// # Errors
    /// When it does not appear or something lies over it.
    pub async fn tap(&self, css: &str) -> Outcome<()> {
        let script = "return document.querySelector(arguments[0])";
        self.tap_found(css, script, &[json!(css)]).await
    }

    /// Waits until a script finds an element, brings it into sight, as a person scrolls to it, and taps it. While it still moves, as a bar
    /// that rises, or something lies over it, or the page puts another in its place, the tap waits, as a person's does.
    pub(crate) async fn tap_found(&self, what: &str, find: &str, with: &[Value]) -> Outcome<()> {
        let deadline = Instant::now() + DEADLINE;
        let is_there = format!("return (function () {{ {find} }}).apply(null, arguments) !== null");
        loop {
            self.until_with(what, &is_there, with).await?;
            let problem = match self.tap_now(find, with).await {
                Ok(true) => return Ok(()),
                Ok(false) => None,
                Err(problem) if passes(&problem) => Some(problem),
                Err(problem) => return Err(Failure::refused(format!("tapping {what}"))(problem)),
            };
            if Instant::now() > deadline {
                return match problem {
                    Some(problem) => Err(Failure::refused(format!("tapping {what}"))(problem)),
                    None => wrong(format!("{what} does not come to rest")),
                };
            }
            tokio::time::sleep(PAUSE).await;
        }
    }

    /// One try; no tap when the element still moves.
    async fn tap_now(&self, find: &str, with: &[Value]) -> WebDriverResult<bool> {
        let element = self.session().execute(find, with.to_vec()).await?;
        let element = element.element()?;
        let rests = self
            .session()
            .execute(COME_TO_REST, vec![element.to_json()?])
            .await?;
        if rests.json() == false {
            return Ok(false);
        }
        element.click().await?;
        Ok(true)
    }

    /// Sends keys to whatever has the focus.
    ///
    /// # Errors
    /// When the browser refuses.
    pub async fn send_keys(&self, keys: impl AsRef<str>) -> Outcome<()> {
        self.focus().await?;
        Ok(self
            .session()
            .action_chain()
            .send_keys(keys.as_ref())
            .perform()
            .await?)
    }
}

/// Whether a tap may go through a moment later: nothing was pressed yet.
fn passes(problem: &WebDriverError) -> bool {
    use WebDriverErrorInner::{
        ElementClickIntercepted, ElementNotInteractable, NoSuchElement, StaleElementReference,
    };
    matches!(
        problem.as_inner(),
        ElementNotInteractable(_)
            | ElementClickIntercepted(_)
            | NoSuchElement(_)
            | StaleElementReference(_)
    )
}
