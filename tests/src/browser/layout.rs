//! Whether a screen fits: nothing wider than the page, nothing over anything that is tapped, no words cut; in the sizes and with the text
//! that people have.

use serde_json::json;

use super::failure::{Outcome, wrong};
use super::tab::Tab;

/// A page and its text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fit {
    /// The phone of the design pictures.
    Phone,
    /// The desktop of the design pictures.
    Desktop,
    /// A small old phone: 320 × 640 CSS pixels.
    Small,
    /// The phone with the browser's text at twice its size.
    LargeText,
}

impl Fit {
    /// All of them. The last is how a tab begins.
    pub const ALL: [Self; 4] = [Self::Desktop, Self::Small, Self::LargeText, Self::Phone];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Phone => "phone",
            Self::Desktop => "desktop",
            Self::Small => "small",
            Self::LargeText => "large-text",
        }
    }
}

/// What does not fit. Every box is first cut to what its scrolling ancestors show; what they hide can be scrolled to. Names that are only
/// for screen readers are left out; so is what lies under an open dialog.
const MISFITS: &str = r#"
const faults = [];
const told = (e) => `<${e.localName} class="${e.className?.baseVal ?? e.className}"> ${(e.getAttribute("aria-label") ?? e.textContent).trim().slice(0, 40)}`;
const shut = [...document.querySelectorAll("dialog[open]")].pop();
const scope = shut ?? document.body;
const hidden = (e) => e.closest(".hidden, [hidden], [aria-hidden=true]") !== null || !e.getClientRects().length || getComputedStyle(e).visibility === "hidden"
  || (e.offsetWidth <= 1 && getComputedStyle(e).overflowX === "hidden");
const scrolls = (e, way) => ["auto", "scroll"].includes(getComputedStyle(e)[way]);
const clips = (e) => getComputedStyle(e).overflowX !== "visible" || getComputedStyle(e).overflowY !== "visible";
const seen = (e) => {
  let { left, top, right, bottom } = e.getBoundingClientRect();
  for (let up = e.parentElement; up && up !== document.documentElement; up = up.parentElement) {
    if (!clips(up)) continue;
    const box = up.getBoundingClientRect();
    [left, top, right, bottom] = [Math.max(left, box.left), Math.max(top, box.top), Math.min(right, box.right), Math.min(bottom, box.bottom)];
  }
  return { left: Math.max(left, 0), top: Math.max(top, 0), right: Math.min(right, innerWidth), bottom: Math.min(bottom, innerHeight) };
};
const sideways = (e) => { for (let up = e.parentElement; up; up = up.parentElement) if (scrolls(up, "overflowX") && up.matches(".paper, .wide-table")) return true; return false; };
const all = [...scope.querySelectorAll("*")].filter((e) => !hidden(e) && !(e instanceof SVGElement && e.localName !== "svg"));
for (const e of all) {
  const box = e.getBoundingClientRect();
  if ((box.right > innerWidth + 0.5 || box.left < -0.5) && !sideways(e)) faults.push(`reaches from ${box.left.toFixed(1)} to ${box.right.toFixed(1)} of ${innerWidth}: ${told(e)}`);
  // Words that stick out of their own box, or are cut by it.
  const style = getComputedStyle(e);
  const words = [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim());
  if (words && style.display !== "inline" && e.clientWidth > 0 && !e.matches("input, textarea, option, select")) {
    if (e.scrollWidth > e.clientWidth + 1) faults.push(`${e.scrollWidth - e.clientWidth} px too wide for its box: ${told(e)}`);
    if (style.overflowY === "hidden" && e.scrollHeight > e.clientHeight + 1) faults.push(`${e.scrollHeight - e.clientHeight} px of its lines are cut: ${told(e)}`);
  }
}
const targets = [...scope.querySelectorAll("button, a[href], summary, select, input:not([type=hidden]), textarea")].filter((e) => !hidden(e));
const boxes = targets.map((e) => [e, seen(e)]).filter(([, b]) => b.right - b.left > 1 && b.bottom - b.top > 1);
boxes.forEach(([one, a], at) => {
  for (const [other, b] of boxes.slice(at + 1)) {
    if (one.contains(other) || other.contains(one)) continue;
    const [wide, tall] = [Math.min(a.right, b.right) - Math.max(a.left, b.left), Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)];
    // Joined keys share their edges.
    if (wide > 3.1 && tall > 3.1) faults.push(`${wide.toFixed(0)} x ${tall.toFixed(0)} px of ${told(one)} and ${told(other)} lie over each other`);
  }
  // A sliver at the edge of what scrolls is no place to press.
  if (a.right - a.left < 6 || a.bottom - a.top < 6) return;
  const on = document.elementFromPoint((a.left + a.right) / 2, (a.top + a.bottom) / 2);
  const own = on && (one.contains(on) || on.contains(one) || [...(one.labels ?? [])].some((label) => label.contains(on)));
  if (!own) faults.push(`${on ? told(on) : "nothing"} lies over ${told(one)}`);
});
const page = document.scrollingElement;
if (page.scrollWidth > innerWidth) faults.push(`the page scrolls sideways by ${page.scrollWidth - innerWidth} px`);
return [...new Set(faults)];
"#;

impl Tab {
    /// Gives the page a size and a text, and waits until it is drawn so.
    ///
    /// # Errors
    /// Where the engine does not speak the devtools protocol.
    pub async fn fit(&self, fit: Fit) -> Outcome<()> {
        let size = if fit == Fit::LargeText { 32 } else { 16 };
        let fonts = json!({ "fontSizes": { "standard": size, "fixed": size * 13 / 16 } });
        self.devtools("Page.setFontSizes", fonts).await?;
        match fit {
            Fit::Phone | Fit::LargeText => self.phone_sized().await?,
            Fit::Desktop => self.desktop_sized().await?,
            Fit::Small => self.small_sized().await?,
        }
        let drawn = "return parseFloat(getComputedStyle(document.documentElement).fontSize) === arguments[0]";
        self.until_with("the text's size", drawn, &[json!(size)])
            .await?;
        // Two frames, so that the layout follows; then whatever slides into its place.
        let framed = "await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
            await Promise.all(document.getAnimations().map((one) => one.finished.catch(() => null))); return true";
        self.ask_later::<bool>(framed, &[]).await.map(drop)
    }

    /// Checks that the present screen fits in the present size.
    ///
    /// # Errors
    /// Lists what does not.
    pub async fn expect_to_fit(&self, screen: &str) -> Outcome<()> {
        let misfits: Vec<String> = self.ask(MISFITS).await?;
        if misfits.is_empty() {
            return Ok(());
        }
        let misfits = misfits.iter().map(|fault| format!("{screen}: {fault}"));
        wrong(misfits.collect::<Vec<_>>().join("\n"))
    }
}
