//! Accessibility: the checker's rules, the size of what is tapped and where it lies.

use serde_json::{Value, json};

use super::failure::{Failure, Outcome, wrong};
use super::setup::Setup;
use super::tab::Tab;

/// A colour scheme.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Theme {
    /// Ink on paper.
    Light,
    /// Paper on ink.
    Dark,
}

impl Theme {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Dark, Self::Light];

    /// The name that style sheets have for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }
}

/// The least side of anything that is tapped, in CSS pixels (look.md: 48 both ways).
pub const LEAST_TARGET: f64 = 48.0;
/// Which rules to run: all of WCAG 2 A and AA and the AAA contrast (7:1), by the checker's names.
pub fn contrast_rules() -> Value {
    json!({
        "runOnly": { "type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
        "rules": { "color-contrast-enhanced": { "enabled": true }, "target-size": { "enabled": true } },
        "resultTypes": ["violations"],
    })
}

/// Runs the checker and lists each violation with the elements it is about.
const CHECK: &str = r#"
const result = await window.axe.run(document, args[0]);
return result.violations.flatMap((v) => v.nodes.map((n) => `${v.id} (${v.impact}): ${n.target.join(" ")} - ${n.failureSummary.replace(/\s+/g, " ")}`));
"#;

/// Everything that can be tapped and is too small. A link inside a sentence is exempt (WCAG 2.2, 2.5.8);
/// a check box or radio may be small where its label is the target.
const SMALL: &str = r#"
const least = arguments[0];
const all = [...document.querySelectorAll("button, a[href], summary, select, input:not([type=hidden]), textarea, [role=button], [role=radio], [role=tab], [role=checkbox]")];
const inText = (e) => e.tagName === "A" && getComputedStyle(e).display === "inline" && e.closest("p, li, dd, label");
const size = (e) => {
  const boxes = [e, ...(e.labels ?? [])].map((x) => x.getBoundingClientRect());
  const free = ["checkbox", "radio"].includes(e.type);
  return free ? boxes.reduce((a, b) => (b.width * b.height > a.width * a.height ? b : a)) : boxes[0];
};
return all.filter((e) => e.getClientRects().length && !inText(e) && !e.closest("[aria-hidden=true], [hidden]"))
  .map((e) => [e, size(e)])
  .filter(([, box]) => box.width < least - 0.01 || box.height < least - 0.01)
  .map(([e, box]) => `${e.outerHTML.slice(0, 90)} is ${box.width.toFixed(1)} x ${box.height.toFixed(1)}`);
"#;

impl Tab {
    /// Runs the accessibility checker on the present screen. The script comes through the driver, past
    /// the page's own policy.
    ///
    /// # Errors
    /// Lists what the checker found.
    pub async fn expect_accessible(&self, screen: &str) -> Outcome<()> {
        if !self
            .ask::<bool>("return typeof window.axe === \"object\"")
            .await?
        {
            let script = format!("{}\n;window.axe = window.axe ?? axe;", Setup::axe()?);
            self.run_with(&script, &[]).await?;
        }
        let found: Vec<String> = self.ask_later(CHECK, &[contrast_rules()]).await?;
        if found.is_empty() {
            return Ok(());
        }
        let found = found.iter().map(|fault| format!("{screen}: {fault}"));
        wrong(found.collect::<Vec<_>>().join("\n"))
    }

    /// Runs the checker in both colour schemes; in the engine's own one where schemes cannot be set.
    ///
    /// # Errors
    /// Lists what the checker found.
    pub async fn expect_accessible_in_both(&self, screen: &str) -> Outcome<()> {
        if !self.engine().can().devtools {
            return self.expect_accessible(screen).await;
        }
        let mut found = Vec::new();
        for theme in Theme::ALL {
            self.theme(theme).await?;
            match self
                .expect_accessible(&format!("{screen}, {}", theme.name()))
                .await
            {
                Err(Failure::Wrong(faults)) => found.push(faults),
                other => other?,
            }
        }
        if found.is_empty() {
            return Ok(());
        }
        wrong(found.join("\n"))
    }

    /// Measures everything that can be tapped on the present screen.
    ///
    /// # Errors
    /// Lists what is too small.
    pub async fn expect_targets(&self, screen: &str) -> Outcome<()> {
        let small: Vec<String> = self.ask_with(SMALL, &[json!(LEAST_TARGET)]).await?;
        if small.is_empty() {
            return Ok(());
        }
        let small = small
            .iter()
            .map(|target| format!("{screen}: too small: {target}"));
        wrong(small.collect::<Vec<_>>().join("\n"))
    }

    /// Checks that every such element lies wholly within the thumb's reach from the lower edge.
    ///
    /// # Errors
    /// Says where one lies.
    pub async fn expect_in_reach(&self, css: &str) -> Outcome<()> {
        self.expect_below(css, "240").await
    }

    /// Checks that every such element lies wholly in the lower half of the screen.
    ///
    /// # Errors
    /// Says where one lies.
    pub async fn expect_in_thumbs_half(&self, css: &str) -> Outcome<()> {
        self.expect_below(css, "innerHeight / 2").await
    }

    /// Checks that the upper edge of every such element is at most so far above the screen's lower edge.
    async fn expect_below(&self, css: &str, most: &str) -> Outcome<()> {
        self.element(css).await?;
        let script = format!(
            "return [...document.querySelectorAll(arguments[0])].map((e) => e.getBoundingClientRect())\n\
             .filter((box) => innerHeight - box.top > {most} || box.bottom > innerHeight)\n\
             .map((box) => `${{innerHeight - box.top}} to ${{innerHeight - box.bottom}}`)"
        );
        let far: Vec<String> = self.ask_with(&script, &[json!(css)]).await?;
        if far.is_empty() {
            return Ok(());
        }
        wrong(format!("{css} lies {far:?} above the lower edge"))
    }

    /// Checks that whatever has the focus shows it: an outline at least 2 px wide.
    ///
    /// # Errors
    /// When it does not.
    pub async fn expect_focus_ring(&self) -> Outcome<()> {
        let script = "const s = getComputedStyle(document.activeElement); return s.outlineStyle !== \"none\" && parseFloat(s.outlineWidth) >= 2";
        if self.ask::<bool>(script).await? {
            return Ok(());
        }
        wrong("what has the focus does not show it")
    }
}
