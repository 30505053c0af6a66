//! Real taps and keys, as a finger or a keyboard gives them.

use std::time::Instant;

use serde_json::json;
use thirtyfour::{By, WebElement};

use super::failure::{Failure, Outcome};
use super::tab::{DEADLINE, PAUSE, Tab};

/// Brings an element into sight, and says whether it stands still: one driver presses where the element was and lets go where it is by
/// then, which is no click at all, and says nothing.
const COME_TO_REST: &str = r#"
const [element] = arguments;
element.scrollIntoView({ block: "nearest", behavior: "instant" });
return !document.getAnimations().some((motion) => motion.playState === "running" && motion.effect?.target?.contains(element));
"#;

impl Tab {
    /// Waits for an element and gives it.
    ///
    /// # Errors
    /// When it does not appear.
    pub async fn element(&self, css: &str) -> Outcome<WebElement> {
        let script = "return document.querySelector(arguments[0]) !== null";
        self.until_with(css, script, &[json!(css)]).await?;
        Ok(self.session().find(By::Css(css)).await?)
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
        let deadline = Instant::now() + DEADLINE;
        loop {
            let answer = self
                .session()
                .execute(COME_TO_REST, vec![element.to_json()?])
                .await?;
            if answer.json() == false && Instant::now() < deadline {
                tokio::time::sleep(PAUSE).await;
                continue;
            }
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
            .session()
            .action_chain()
            .send_keys(keys.as_ref())
            .perform()
            .await?)
    }
}
