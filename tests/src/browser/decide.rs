//! At the table: the keypad, the figures and the verdict, by the marks that the page carries for us.

use serde_json::json;

use super::failure::{Failure, Outcome};
use super::tab::Tab;

/// The amount in an element: its last number with decimals, else its last number, minus and all.
const FIGURE: &str = r#"
const found = [...document.querySelectorAll(`[data-figure="${arguments[0]}"]`)];
const seen = found.find((e) => e.getClientRects().length) ?? found[0];
if (!seen) return null;
const all = seen.textContent.match(/[\u2212-]?\d[\d,]*(\.\d+)?/g) ?? [];
const amount = all.filter((n) => n.includes(".")).pop() ?? all.pop();
return amount === undefined ? null : amount.replace("\u2212", "-").replaceAll(",", "");
"#;

/// Waits for a frame. A window under another one may have none: what is typed there is shown a little later all the same.
const FRAME: &str = "await Promise.race([new Promise(requestAnimationFrame), new Promise((done) => setTimeout(done, 500))]);";

impl Tab {
    /// Taps the keypad's keys for an amount such as `7.50`, and waits for the frame that shows it.
    ///
    /// # Errors
    /// When a key is not there.
    pub async fn keys(&self, amount: &str) -> Outcome<()> {
        for key in amount.chars() {
            self.key(&key.to_string()).await?;
        }
        self.ask_later(FRAME, &[]).await
    }

    /// Taps one key: a digit, `.`, `.50`, `rub`, `next`, `buy` or `cover`; once it can be pressed, which for "Buy it" is a frame after
    /// what is typed.
    ///
    /// # Errors
    /// When it is not there.
    pub async fn key(&self, key: &str) -> Outcome<()> {
        self.tap(&format!("button[data-key=\"{key}\"]:enabled"))
            .await
    }

    /// Taps a field cell and types an amount into it, in place of what it held.
    ///
    /// # Errors
    /// When the cell or a key is not there.
    pub async fn type_in(&self, field: &str, amount: &str) -> Outcome<()> {
        self.choose_field(field).await?;
        self.keys(amount).await
    }

    /// Taps a field cell; the first digit then replaces what it holds.
    ///
    /// # Errors
    /// When the cell is not there.
    pub async fn choose_field(&self, field: &str) -> Outcome<()> {
        let cell = format!("button[data-field=\"{field}\"]");
        self.tap(&cell).await?;
        let chosen = format!("{cell}[aria-pressed=\"true\"]");
        self.element(&chosen).await
    }

    /// Types the ask and what the thing sells for: low, likely, high.
    ///
    /// # Errors
    /// As [`Tab::type_in`].
    pub async fn weigh_up(&self, ask: &str, sells_for: [&str; 3]) -> Outcome<()> {
        for (field, amount) in ["low", "likely", "high"].into_iter().zip(sells_for) {
            self.type_in(field, amount).await?;
        }
        self.type_in("ask", ask).await
    }

    /// The amount that a figure shows now.
    ///
    /// # Errors
    /// When a script fails.
    pub async fn figure(&self, name: &str) -> Outcome<Option<String>> {
        self.ask_with(FIGURE, &[json!(name)]).await
    }

    /// Waits until these figures show these amounts.
    ///
    /// # Errors
    /// At the deadline, with the figure that differs.
    pub async fn expect_figures(&self, wanted: &[(&str, &str)]) -> Outcome<()> {
        for (name, amount) in wanted {
            let same =
                format!("return (() => {{ {FIGURE} }}).apply(null, arguments) === arguments[1]");
            let what = format!("the figure {name} to be {amount}");
            match self
                .until_with(&what, &same, &[json!(name), json!(amount)])
                .await
            {
                Err(Failure::Late {
                    what,
                    seconds,
                    seen,
                }) => {
                    let shown = self.figure(name).await?;
                    let what = format!("{what} (it shows {shown:?})");
                    return Err(Failure::Late {
                        what,
                        seconds,
                        seen,
                    });
                }
                other => other?,
            }
        }
        Ok(())
    }

    /// Waits until the flag shows this verdict: `buy`, `haggle`, `leave` or `none`.
    ///
    /// # Errors
    /// At the deadline.
    pub async fn expect_verdict(&self, verdict: &str) -> Outcome<()> {
        let script = "return document.querySelector(`[data-verdict=\"${arguments[0]}\"]`) !== null";
        self.until_with(&format!("the verdict {verdict}"), script, &[json!(verdict)])
            .await
    }

    /// Taps "Buy it" and waits until the purchase is saved. Gives the highest sequence number then.
    ///
    /// # Errors
    /// When nothing is saved.
    pub async fn buy(&self) -> Outcome<u64> {
        let before = self.saved().await?;
        self.key("buy").await?;
        self.saved_beyond(before).await
    }

    /// Taps the undo bar's "Undo" and waits until that is saved.
    ///
    /// # Errors
    /// When there is no undo bar, or nothing is saved.
    pub async fn undo(&self) -> Outcome<u64> {
        let before = self.saved().await?;
        self.press_in("[data-undo]", "Undo").await?;
        self.saved_beyond(before).await
    }

    /// Waits until more is saved than before.
    ///
    /// # Errors
    /// At the deadline.
    pub async fn saved_beyond(&self, before: u64) -> Outcome<u64> {
        let script = "return Number(document.documentElement.dataset.saved ?? 0) > arguments[0]";
        self.until_with("the save", script, &[json!(before)])
            .await?;
        self.saved().await
    }

    /// The things on the screen of what was bought, by id, sorted. Goes to that screen.
    ///
    /// # Errors
    /// When a script fails.
    pub async fn bought(&self) -> Outcome<Vec<String>> {
        self.screen("#/haul").await?;
        self.shown_things().await
    }

    /// The things that the present screen shows as bought, by id, sorted, each once.
    ///
    /// # Errors
    /// When a script fails.
    pub async fn shown_things(&self) -> Outcome<Vec<String>> {
        let script = "return [...new Set([...document.querySelectorAll(\"[data-thing]\")].map((e) => e.dataset.thing))].sort()";
        self.ask(script).await
    }

    /// Waits until the screen of what was bought shows so many things.
    ///
    /// # Errors
    /// At the deadline.
    pub async fn expect_bought(&self, count: usize) -> Outcome<()> {
        self.screen("#/haul").await?;
        let script = "return new Set([...document.querySelectorAll(\"[data-thing]\")].map((e) => e.dataset.thing)).size === arguments[0]";
        self.until_with(
            &format!("{count} bought things on the screen"),
            script,
            &[json!(count)],
        )
        .await
    }
}
