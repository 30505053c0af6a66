//! Forms and buttons by the words that a person reads: labels and names, never positions or classes.

use serde_json::json;

use super::failure::{Failure, Outcome, wrong};
use super::tab::Tab;

/// The key in the driver's protocol.
const BACKSPACE: &str = "\u{e003}";

/// The control with this accessible name: its label, its own label attribute or its group's; as the third argument the legend of the
/// group that it must stand in.
const BY_LABEL: &str = r#"
const want = arguments[0].toLowerCase();
const text = (e) => (e?.textContent ?? "").trim().replace(/\s+/g, " ").toLowerCase();
const named = (e) => [
  ...[...(e.labels ?? [])].map(text),
  (e.getAttribute("aria-label") ?? "").toLowerCase(),
  ...(e.getAttribute("aria-labelledby") ?? "").split(/\s+/).filter(Boolean).map((id) => text(document.getElementById(id))),
];
const shown = (e) => e.getClientRects().length > 0;
const group = arguments[2]?.toLowerCase();
const within = group ? [...document.querySelectorAll("fieldset")].filter((e) => text(e.querySelector(":scope > legend")) === group) : [document];
const all = within.flatMap((e) => [...e.querySelectorAll("input, select, textarea")]);
const exact = all.filter((e) => named(e).some((name) => name === want));
const near = all.filter((e) => named(e).some((name) => name.startsWith(want)));
return exact.find(shown) ?? near.find(shown) ?? exact[0] ?? near[0] ?? null;
"#;

/// The button, link or tab with this name inside an element.
const BY_NAME: &str = r#"
const [within, want] = [arguments[0], arguments[1].toLowerCase()];
const name = (e) => (e.getAttribute("aria-label") ?? e.textContent ?? "").trim().replace(/\s+/g, " ").toLowerCase();
const shown = (e) => e.getClientRects().length > 0;
const all = [...document.querySelectorAll(within)].flatMap((box) => [...box.querySelectorAll("button, a, summary, [role=button], [role=radio], [role=tab]")]).filter(shown);
return all.find((e) => name(e) === want) ?? all.find((e) => name(e).startsWith(want)) ?? null;
"#;

/// Sentences that tell what is wrong: alerts with words, what describes a field called invalid, and what a
/// key that was not taken gives as its reason.
const COMPLAINTS: &str = r#"
const text = (e) => (e?.textContent ?? "").trim();
const alerts = [...document.querySelectorAll("[role=alert]")].filter((e) => e.getClientRects().length).map(text);
const fields = [...document.querySelectorAll("[aria-invalid=true]")].flatMap((e) =>
  `${e.getAttribute("aria-describedby") ?? ""} ${e.getAttribute("aria-errormessage") ?? ""}`
    .split(/\s+/).filter(Boolean).map((id) => text(document.getElementById(id))));
const keys = [...document.querySelectorAll(".fault[role=status]")].map(text);
return [...new Set([...alerts, ...fields, ...keys])].filter(Boolean);
"#;

impl Tab {
    /// Replaces what a field holds, by real keys; in a list of choices, chooses.
    ///
    /// # Errors
    /// When no field has that label, or the list lacks the choice.
    pub async fn fill(&self, label: &str, text: &str) -> Outcome<()> {
        if self.begin_typing(label, None).await? == "SELECT" {
            return self.choose(label, text).await;
        }
        self.send_keys(format!("{BACKSPACE}{text}")).await
    }

    /// Replaces what a field of a group holds, where several groups have one of that label: the group by its legend.
    ///
    /// # Errors
    /// When no such group has a field of that label.
    pub async fn fill_in(&self, group: &str, label: &str, text: &str) -> Outcome<()> {
        self.begin_typing(label, Some(group)).await?;
        self.send_keys(format!("{BACKSPACE}{text}")).await
    }

    /// Puts the cursor into a field and selects what it holds; gives its tag. In one script, so that the page can't put another field in
    /// its place half-way. Clearing by the driver's own command is no keystroke, and not every page hears of it.
    async fn begin_typing(&self, label: &str, group: Option<&str>) -> Outcome<String> {
        let with = [json!(label), json!(null), json!(group)];
        let found = format!("(function () {{ {BY_LABEL} }}).apply(null, arguments)");
        let is_there = format!("return {found} !== null");
        let what = format!("the field \"{label}\" {}", group.unwrap_or_default());
        self.until_with(what.trim_end(), &is_there, &with).await?;
        let begin = format!(
            "const field = {found};\n\
             field?.focus();\n\
             if (field?.tagName !== \"SELECT\") field?.select();\n\
             return field?.tagName ?? \"\""
        );
        self.ask_with(&begin, &with).await
    }

    /// Chooses a radio or check box by tapping its label.
    ///
    /// # Errors
    /// When there is none of that name.
    pub async fn tick(&self, label: &str) -> Outcome<()> {
        let find = format!(
            "const field = (function () {{ {BY_LABEL} }}).apply(null, arguments);\n\
             return field === null ? null : field.labels[0] ?? field"
        );
        let with = [json!(label), json!(null), json!(null)];
        self.tap_found(&format!("the label \"{label}\""), &find, &with)
            .await
    }

    /// What a field holds now.
    ///
    /// # Errors
    /// When no field has that label.
    pub async fn field(&self, label: &str) -> Outcome<String> {
        let script = format!(
            "const e = (function () {{ {BY_LABEL} }}).apply(null, arguments); return e === null ? null : e.value"
        );
        let value: Option<String> = self.ask_with(&script, &[json!(label)]).await?;
        value.ok_or_else(|| Failure::Wrong(format!("there is no field \"{label}\"")))
    }

    async fn choose(&self, label: &str, text: &str) -> Outcome<()> {
        let script = format!(
            "const e = (function () {{ {BY_LABEL} }}).apply(null, arguments);\n\
             const want = arguments[1].toLowerCase();\n\
             const option = [...e.options].find((o) => o.value.toLowerCase() === want)\n\
               ?? [...e.options].find((o) => o.textContent.trim().toLowerCase().startsWith(want));\n\
             if (!option) return false;\n\
             e.value = option.value;\n\
             e.dispatchEvent(new Event('input', {{ bubbles: true }}));\n\
             e.dispatchEvent(new Event('change', {{ bubbles: true }}));\n\
             return true;"
        );
        if self
            .ask_with::<bool>(&script, &[json!(label), json!(text)])
            .await?
        {
            return Ok(());
        }
        wrong(format!("the list \"{label}\" has no choice \"{text}\""))
    }

    /// Taps the button, link or tab of that name.
    ///
    /// # Errors
    /// When there is none.
    pub async fn press(&self, name: &str) -> Outcome<()> {
        self.press_in("body", name).await
    }

    /// Taps the button, link or tab of that name inside an element.
    ///
    /// # Errors
    /// When there is none.
    pub async fn press_in(&self, within: &str, name: &str) -> Outcome<()> {
        let with = [json!(within), json!(name)];
        self.tap_found(&format!("the button \"{name}\""), BY_NAME, &with)
            .await
    }

    /// Whether a button, link or tab of that name is there.
    ///
    /// # Errors
    /// When a script fails.
    pub async fn has_button(&self, name: &str) -> Outcome<bool> {
        let found = format!("return (function () {{ {BY_NAME} }}).apply(null, arguments) !== null");
        self.ask_with(&found, &[json!("body"), json!(name)]).await
    }

    /// The sentences that tell what is wrong.
    ///
    /// # Errors
    /// When a script fails.
    pub async fn complaints(&self) -> Outcome<Vec<String>> {
        self.ask(COMPLAINTS).await
    }

    /// Waits for a sentence that tells what is wrong, and checks that it is one: more than a code.
    ///
    /// # Errors
    /// At the deadline.
    pub async fn expect_complaint(&self, after: &str) -> Outcome<String> {
        let some =
            format!("return (() => {{ {COMPLAINTS} }})().some((s) => s.split(/\\s+/).length >= 3)");
        self.until(&format!("a sentence after {after}"), &some)
            .await?;
        Ok(self.complaints().await?.join(" / "))
    }

    /// Waits until an alert or status on the page says one of these words, and gives what it says.
    ///
    /// # Errors
    /// At the deadline.
    pub async fn expect_said(&self, words: &[&str]) -> Outcome<String> {
        let said = "[...document.querySelectorAll('[role=alert], [role=status]')].map((e) => e.textContent.trim()).filter((s) => arguments[0].some((word) => s.toLowerCase().includes(word)))";
        let some = format!("return {said}.length > 0");
        self.until_with(
            &format!("one of the words {words:?}"),
            &some,
            &[json!(words)],
        )
        .await?;
        let said: Vec<String> = self
            .ask_with(&format!("return {said}"), &[json!(words)])
            .await?;
        Ok(said.join(" / "))
    }
}
