//! A large stall after a day of sixty things in twelve lots, on one trip with four stops: from the start to the list on Haul, a key press on
//! Decide, and another way to share a lot. The first two stand beside the same stall without the day.

use haulwren_core::book::{Command, LotCommand, Purchase, TripCommand};
use haulwren_core::ledger::Paying;
use haulwren_core::lot::Method;
use haulwren_core::money::Money;
use haulwren_core::view::{DecideDraft, as_bought};
use haulwren_tests::browser::{Browser, Engine, Outcome, Setup, Tab, wrong};

use super::measure::{self, KEYS, STARTS};
use super::stall::Stall;
use super::stats::Times;
use super::venues::{serve, type_shoes, yesterday};
use super::{SLOWER, laid, measured};

/// Lots that lie sorted: their sizes, 55 things in 11; the twelfth is of five unsorted ones.
const SIZES: [usize; 11] = [1, 3, 12, 1, 5, 8, 1, 2, 6, 4, 12];

/// Notes when the list on Haul is there.
const LISTED: &str = r#"
new MutationObserver(() => {
  if (document.querySelector(".haul-list :is([data-rows], .empty)")) window.__listed ??= performance.now();
}).observe(document, { childList: true, subtree: true });
"#;

/// Chooses the first and the second way to share in turn; each time is from the touch to the shares drawn anew after the save.
const SHARE: &str = r#"
const times = [];
const shares = () => [...document.querySelectorAll(".lot-card .lot-row .paid")].map((e) => e.textContent).join();
const frame = () => new Promise((done) => requestAnimationFrame(() => {
  const after = new MessageChannel();
  after.port1.onmessage = done;
  after.port2.postMessage(0);
}));
for (let n = 0; n < args[0]; n += 1) {
  const before = shares();
  const key = document.querySelectorAll(".lot-card .split input")[n % 2];
  await frame();
  const start = performance.now();
  key.click();
  while (shares() === before) await frame();
  times.push(performance.now() - start);
}
return times;
"#;

/// How often another way to share is chosen.
const SHARES: u32 = 20;

/// Buys sixty things, each judged as at the table.
fn live_through(stall: &mut Stall) -> Outcome<()> {
    let start = TripCommand::StartTrip {
        name: String::new(),
        took_out: Some(Money::new(200_00)),
        odometer: Some(48_210),
    };
    stall.tell(&start.into())?;
    let kinds = stall.state.kinds();
    let mut bought = 0;
    for (at, size) in SIZES.iter().enumerate() {
        if at % 3 == 0 {
            let next = TripCommand::NextStop {
                stop: None,
                name: String::new(),
            };
            stall.tell(&next.into())?;
        }
        let mut things = Vec::new();
        for _ in 0..*size {
            bought += 1;
            let draft = DecideDraft {
                name: format!("thing {bought}"),
                ask: (1 + bought % 7).to_string(),
                likely: (12 + bought * 5 % 40).to_string(),
                kind: kinds.get(bought % kinds.len().max(1)).map(|kind| kind.id),
                ..DecideDraft::default()
            };
            match as_bought(&stall.state, &draft, stall.now) {
                Some(thing) => things.push(thing),
                None => return wrong("a thing is not judged"),
            }
        }
        let buy = Purchase {
            extras: Money::ZERO,
            paid: Money::new(i64::try_from(size * 250).unwrap_or(0)),
            things,
            method: Method::ByPrice,
            by: Paying::Cash,
        };
        stall.tell(&Command::Buy(buy))?;
    }
    let unsorted = LotCommand::BuyUnsorted {
        count: 5,
        paid: Money::new(5_00),
        by: Paying::Cash,
        name: String::new(),
    };
    stall.tell(&unsorted.into()).map(drop)
}

pub async fn bench() -> Outcome<()> {
    let mut stall = Stall::new(yesterday()?)?;
    let browser = Browser::open(Engine::Chromium).await?;
    let app = serve(&Setup::dist()?)?;
    let before = measured_with(&browser, &app.url(), &stall, 0).await?;
    live_through(&mut stall)?;
    let after = measured_with(&browser, &app.url(), &stall, SHARES).await?;
    println!(
        "\n60 things in 12 lots, {} changes; Chromium, processor slowed down {SLOWER} times, ms",
        stall.changes.len()
    );
    println!(
        "{:52}{:>18}{:>18}{:>8}",
        "", "with them", "without", "ratio"
    );
    let rows = [
        (format!("start to the list on Haul, {STARTS}"), 0),
        (format!("key on Decide to end of frame callback, {KEYS}"), 1),
        ("to the frame drawn".to_owned(), 2),
        ("what of that is work".to_owned(), 3),
    ];
    for (what, at) in rows {
        let (with, without) = (&after.times[at], &before.times[at]);
        println!(
            "{what:52}{with:>18}{without:>18}{:>8.2}",
            with.ratio(without)
        );
    }
    let what = format!("another way to share, to the shares, {SHARES}");
    println!("{what:52}{:>18}", Times::of(after.shares));
    browser.expect_no_other_host()
}

/// What was measured with one book.
struct Day {
    /// To the list on Haul; of keys on Decide to the end of the frame callback, to the frame drawn, and what of that is work.
    times: [Times; 4],
    /// Of so many changes of the way to share, in ms.
    shares: Vec<f64>,
}

async fn measured_with(browser: &Browser, url: &str, stall: &Stall, shares: u32) -> Outcome<Day> {
    let tab = measured(browser).await?;
    laid::down(&tab, url, stall).await?;
    tab.before_page(LISTED).await?;
    let mut starts = Vec::new();
    for _ in 0..STARTS {
        tab.go("about:blank").await?;
        starts.push(listed(&tab, url).await?);
    }
    let shares = if shares > 0 {
        tab.ask_later(SHARE, &[shares.into()]).await?
    } else {
        Vec::new()
    };
    tab.screen("#/decide").await?;
    type_shoes(&tab).await?;
    let [ended, drawn, work] = measure::turn(&tab).await?;
    Ok(Day {
        times: [Times::of(starts), ended, drawn, work],
        shares,
    })
}

/// Opens Haul, and gives the ms from the start of the navigation to the list.
async fn listed(tab: &Tab, url: &str) -> Outcome<f64> {
    tab.open_app(&format!("{url}#/haul")).await?;
    tab.until("the list", "return window.__listed !== undefined")
        .await?;
    tab.ask("return window.__listed").await
}
