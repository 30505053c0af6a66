//! That nothing leaves for another host, and that the page's own policy forbade nothing.

use super::failure::{Outcome, wrong};
use super::instance::Browser;
use super::tab::Tab;

/// Everything this page has loaded from elsewhere, by its own list.
const ELSEWHERE: &str = r#"
return performance.getEntriesByType("resource").map((e) => e.name)
  .filter((name) => /^[a-z]+:\/\//.test(name) && new URL(name).origin !== location.origin);
"#;

impl Tab {
    /// Checks the page's own list of loaded resources and what its policy forbade.
    ///
    /// # Errors
    /// Names what was loaded from elsewhere or forbidden.
    pub async fn expect_own_origin(&self) -> Outcome<()> {
        let elsewhere: Vec<String> = self.ask(ELSEWHERE).await?;
        if !elsewhere.is_empty() {
            return wrong(format!("loaded from elsewhere: {elsewhere:?}"));
        }
        let forbidden: Vec<String> = self.ask("return window.__violations ?? []").await?;
        if !forbidden.is_empty() {
            return wrong(format!("the policy forbade: {forbidden:?}"));
        }
        Ok(())
    }
}

impl Browser {
    /// Checks a tab and all that the browser has asked for, in the page, its workers and anywhere else.
    ///
    /// # Errors
    /// Names what went elsewhere.
    pub async fn expect_quiet(&self, tab: &Tab) -> Outcome<()> {
        tab.expect_own_origin().await?;
        self.expect_no_other_host()
    }
}
