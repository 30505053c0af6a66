//! Scripts in a tab, and waiting until one says that a state has come.

use std::time::{Duration, Instant};

use serde::de::DeserializeOwned;
use serde_json::Value;

use super::failure::{Failure, Outcome, wrong};
use super::tab::{DEADLINE, PAUSE, STANDING, Tab};

impl Tab {
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
        let answer = self.session().execute(script, with.to_vec()).await?;
        Ok(serde_json::from_value(answer.json().clone())?)
    }

    /// Runs a function body for its effect.
    ///
    /// # Errors
    /// When the script throws.
    pub async fn run_with(&self, script: &str, with: &[Value]) -> Outcome<()> {
        self.focus().await?;
        self.session().execute(script, with.to_vec()).await?;
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
        let answer = self.session().execute_async(whole, with.to_vec()).await?;
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
        // A page that is just being left answers with nothing.
        while self.ask_with::<Option<bool>>(script, with).await? != Some(true) {
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
        Ok(self.session().enter_frame(0).await?)
    }

    /// As [`Tab::ask`], in the frame that was entered.
    ///
    /// # Errors
    /// When the script throws or returns something else.
    pub async fn ask_here<T: DeserializeOwned>(&self, script: &str) -> Outcome<T> {
        let answer = self.session().execute(script, Vec::new()).await?;
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
}
