//! The peer's page: the same stall and the same keys in JavaScript, with decimal.js for the sums. It stands beside the app in one run, and
//! must come to the same figures.

use haulwren_core::stamp::At;
use haulwren_tests::browser::{Failure, Outcome, Tab, wrong};
use serde_json::Value;

use super::stall::{NUMBERS, Stall, Typed};

const PAGE: &str = r#"<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Peer</title></head>
<body><main></main><script src="./decimal.js"></script><script src="./peer.js"></script><script src="./page.js"></script></body></html>
"#;

/// Keys that type the ask, a rail of figures for the best venue, and a card for each venue.
const SCRIPT: &str = r#"
fetch("./stall.json").then((answer) => answer.json()).then((stall) => {
  const main = document.querySelector("main");
  const add = (tag, attribute, value) => {
    const made = main.appendChild(document.createElement(tag));
    made.setAttribute(attribute, value);
    return made;
  };
  const figures = ["keep", "low", "ceiling", "shown", "open", "cut", "aside", "packing", "in", "out", "verdict"];
  const rail = figures.map((name) => add("output", "data-figure", name));
  const cards = stall.venues.map((_, at) => add("output", "class", "venue"));
  const amount = (minor) => typeof minor === "number" ? (minor / 100).toFixed(2) : minor ?? "";
  let ask = "6";
  const show = () => {
    const typed = { kind: "Shoes", ask: Number(ask) * 100, low: 4500, likely: 6000 };
    const all = appraise(stall, typed);
    figures.forEach((name, at) => { rail[at].textContent = amount(all[0][name]); });
    cards.forEach((card, at) => { card.textContent = `${all[at].name} ${amount(all[at].keep)}`; });
  };
  for (const key of [..."123456789", "rub"]) {
    add("button", "data-key", key).onclick = () => {
      ask = key === "rub" ? ask.slice(0, -1) : ask + key;
      show();
    };
  }
  show();
  window.stall = stall;
  document.documentElement.dataset.ready = "1";
});
"#;

/// Writes the page into a folder of its own, gone when dropped.
pub fn write() -> Outcome<tempfile::TempDir> {
    let Some(decimal) = std::env::var_os("HAULWREN_DECIMAL") else {
        return wrong(
            "HAULWREN_DECIMAL is not set; `cargo xtask bench` brings decimal.js and sets it",
        );
    };
    let trouble = || Failure::system("cannot write the peer's page");
    let folder = tempfile::tempdir().map_err(trouble())?;
    for (name, text) in [
        ("index.html", PAGE),
        ("page.js", SCRIPT),
        ("peer.js", include_str!("peer.js")),
        ("stall.json", NUMBERS),
    ] {
        std::fs::write(folder.path().join(name), text).map_err(trouble())?;
    }
    std::fs::copy(decimal, folder.path().join("decimal.js")).map_err(trouble())?;
    Ok(folder)
}

/// What the peer makes of things.
pub async fn judged(tab: &Tab, things: &[Typed]) -> Outcome<Vec<Value>> {
    let told: Vec<Value> = things.iter().map(Typed::told).collect();
    let script = "return args[0].map((typed) => appraise(stall, typed))";
    tab.ask_later(script, &[told.into()]).await
}

/// Things of every kind at many prices, asks on both sides of what they are worth.
pub fn things() -> Vec<Typed> {
    let mut all = Vec::new();
    for kind in ["Shoes", "Book", "Bag", "Toy or game"] {
        // Where terms change, a unit under and over that, and many between.
        let edges = [
            499, 500, 999, 1000, 1001, 1499, 1500, 1999, 2000, 2499, 2500, 3000, 5000, 7500,
        ];
        let between = (1..40).map(|n| n * n * 17 + n * 23);
        for likely in edges.into_iter().chain(between) {
            for (low, ask) in [
                (likely, 0),
                (likely / 2, likely / 9),
                (likely * 7 / 10, likely / 3),
            ] {
                all.push(Typed {
                    kind,
                    ask,
                    low,
                    likely,
                });
            }
        }
    }
    all
}

/// Checks that core and peer come to the same figures, to the cent.
pub async fn expect_same(tab: &Tab, stall: &Stall, now: At) -> Outcome<usize> {
    let things = things();
    let found = judged(tab, &things).await?;
    let mut compared = 0;
    for (typed, peers) in things.iter().zip(&found) {
        let ours = stall.judged(typed, now)?;
        if ours != *peers {
            let pair = ours
                .as_array()
                .into_iter()
                .flatten()
                .zip(peers.as_array().into_iter().flatten());
            let differ: Vec<_> = pair.filter(|(ours, peers)| ours != peers).take(2).collect();
            return wrong(format!(
                "{} is judged differently: ours, the peer's: {differ:#?}",
                typed.told()
            ));
        }
        compared += ours.as_array().map_or(0, Vec::len);
    }
    Ok(compared)
}
