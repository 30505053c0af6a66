//! Scripts that run before the page's own, where an engine allows that.

use serde_json::json;

use super::failure::Outcome;
use super::tab::Tab;

/// Collects what the page's policy forbade, from the first moment on.
pub(crate) const VIOLATIONS: &str = r#"
window.__violations = [];
document.addEventListener("securitypolicyviolation", (e) =>
  window.__violations.push(`${e.violatedDirective}: ${e.blockedURI} ${e.sourceFile}:${e.lineNumber}`));
"#;

impl Tab {
    /// Runs a script before the page's own, from the next page load on.
    ///
    /// # Errors
    /// Where the engine does not speak the devtools protocol.
    pub async fn before_page(&self, script: &str) -> Outcome<()> {
        self.devtools(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": script }),
        )
        .await?;
        Ok(())
    }

    /// One command of the devtools protocol.
    ///
    /// # Errors
    /// Where the engine does not speak it, or refuses.
    pub async fn devtools(
        &self,
        method: &str,
        with: serde_json::Value,
    ) -> Outcome<serde_json::Value> {
        self.focus().await?;
        Ok(self.session().cdp().send_raw(method, with).await?)
    }
}
