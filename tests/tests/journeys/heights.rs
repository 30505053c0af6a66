//! Decide on phones of all heights, as a browser leaves them: the verdict, every figure, the venues and all keys are in sight at once, no key moves
//! under the finger while a price is typed, and there is a way to the other screens.

use haulwren_tests::browser::{Browser, Engine, Failure, Fonts, Outcome, Setup, Tab, wrong};
use serde_json::json;

use crate::common::serve;
use crate::sample;

in_fonts!(walk => Chromium, in_chromium Wide, in_tall_letters Tall, in_narrow_letters Narrow);

/// Widths and heights in CSS pixels: some of an installed app, some with a browser's bars.
const PHONES: [(u32, u32); 10] = [
    (430, 870),
    (390, 844),
    (390, 797),
    (412, 774),
    (412, 760),
    (360, 740),
    (412, 732),
    (390, 664),
    (375, 667),
    (360, 640),
];

/// What is not in sight, or not whole.
const HIDDEN: &str = r#"
const hidden = [];
const top = document.querySelector(".decide-top"), foot = top.getBoundingClientRect().bottom;
if (top.scrollHeight > top.clientHeight) hidden.push(`${top.scrollHeight - top.clientHeight} px behind the fields`);
for (const one of document.querySelectorAll(".flag-words, [data-figure], .venue, .cells button, .tray button")) {
  const box = one.getBoundingClientRect();
  const end = one.closest(".decide-top") ? foot : innerHeight;
  if (box.height > 0 && (box.top < 0 || box.bottom > end + 0.5)) hidden.push(`${one.innerText}: ${box.top} to ${box.bottom} of ${end}`);
}
return hidden;
"#;

/// The ways to the other screens that a finger would hit.
const WAYS: &str = r#"
const hit = (e) => {
  const { left, top, width, height } = e.getBoundingClientRect();
  return width >= 48 && height >= 48 && e.contains(document.elementFromPoint(left + width / 2, top + height / 2));
};
return [...document.querySelectorAll("a.tab")].filter(hit).map((e) => e.getAttribute("href"));
"#;

/// How high a key stands over the lower edge.
const FIVE: &str =
    r#"return innerHeight - document.querySelector("[data-key='5']").getBoundingClientRect().top"#;

async fn expect_in_sight(tab: &Tab, at: &str) -> Outcome<()> {
    let none = format!("return (() => {{ {HIDDEN} }})().length === 0");
    match tab.until(&format!("all to be in sight, {at}"), &none).await {
        Err(Failure::Late { .. }) => {
            let hidden: Vec<String> = tab.ask(HIDDEN).await?;
            wrong(format!("{at}: {}", hidden.join("; ")))
        }
        other => other,
    }
}

async fn walk(engine: Engine, fonts: Fonts) -> Outcome<()> {
    let server = serve(Setup::dist()?)?;
    let browser = Browser::open_with(engine, fonts).await?;
    let tab = browser.tab().await?;
    tab.open_app(&server.url()).await?;
    sample::enter(&tab).await?;
    let out =
        format!("return JSON.stringify((() => {{ {WAYS} }})()) === JSON.stringify(arguments[0])");
    for (width, height) in PHONES {
        let at = format!("{width}×{height}");
        tab.sized((width, height)).await?;
        let ways = [json!(["#/decide", "#/haul", "#/settings"])];
        tab.until_with(&format!("the ways out, {at}"), &out, &ways)
            .await?;
        let stood: f64 = tab.ask(FIVE).await?;
        // The longest row under the bar is that of a loss.
        tab.weigh_up("19", ["18", "26", "34"]).await?;
        for (ask, verdict) in [("19", "leave"), ("9", "haggle"), ("6", "buy")] {
            tab.type_in("ask", ask).await?;
            tab.expect_verdict(verdict).await?;
            expect_in_sight(&tab, &format!("{at}, {verdict}")).await?;
        }
        tab.picture(&format!("decide-{width}x{height}-{fonts:?}"))
            .await?;
        let stands: f64 = tab.ask(FIVE).await?;
        if (stands - stood).abs() > 0.5 {
            return wrong(format!(
                "{at}: a key that stood at {stood} stands at {stands} once there is a rail"
            ));
        }
        tab.key("not-now").await?;
        tab.expect_verdict("none").await?;
    }
    tab.expect_running().await
}
