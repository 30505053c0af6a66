//! Accessibility: the checker's rules, the size of what is tapped and where it lies.

use serde_json::{Value, json};

use super::failure::{Outcome, wrong};
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
/// The main action lies within this distance of the lower edge, in CSS pixels: the thumb's reach.
pub const THUMB: f64 = 240.0;

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
        wrong(format!(
            "{screen} in {}: {}",
            self.engine(),
            found.join("\n")
        ))
    }

    /// Runs the checker in both colour schemes; in the engine's own one where schemes cannot be set.
    ///
    /// # Errors
    /// Lists what the checker found.
    pub async fn expect_accessible_in_both(&self, screen: &str) -> Outcome<()> {
        if !self.engine().can().devtools {
            return self.expect_accessible(screen).await;
        }
        for theme in Theme::ALL {
            self.theme(theme).await?;
            self.expect_accessible(&format!("{screen}, {}", theme.name()))
                .await?;
        }
        Ok(())
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
        wrong(format!("too small on {screen}: {}", small.join("\n")))
    }

    /// Checks that an element lies wholly within the thumb's reach from the lower edge.
    ///
    /// # Errors
    /// Says where it lies.
    pub async fn expect_in_reach(&self, css: &str) -> Outcome<()> {
        self.element(css).await?;
        let script = "const box = document.querySelector(arguments[0]).getBoundingClientRect(); return [innerHeight - box.top, innerHeight - box.bottom]";
        let (top, bottom): (f64, f64) = self.ask_with(script, &[json!(css)]).await?;
        if top <= THUMB && bottom >= 0.0 {
            return Ok(());
        }
        wrong(format!(
            "{css} reaches from {top} to {bottom} above the lower edge"
        ))
    }
}
