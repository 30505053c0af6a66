//! Killed in the middle of writing: everything that the page had called saved is there afterwards.
//!
//! This proves order and atomicity. What the system had taken over survives a killed browser anyway;
//! that each write also asks for the disk is checked where the durability is read back.

use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use haulwren_tests::browser::{
    Browser, Chance, DEADLINE, Engine, Failure, Killer, Outcome, QUAYSIDE, Setup, Tab, wrong,
};
use haulwren_tests::server::Options;

use crate::common;

journeys!(nothing_acknowledged_is_lost => in_chromium Chromium, in_firefox Firefox);
journeys!(a_build_that_says_saved_too_early_is_found_out => too_early_in_chromium Chromium);

/// Rounds against the build that says "saved" too early: one of them must find a loss.
const TOO_EARLY_ROUNDS: u64 = 6;
/// The kill comes at most so many acknowledgements after the start of a round.
const MOST_ACKS: u64 = 25;

/// Buys without end, as fast as the page can, and tells the server at the very moment at which the page
/// says "saved". At most four messages are under way at once.
const BUYER: &str = r#"
const root = document.documentElement;
const button = (k) => document.querySelector(`button[data-key="${k}"]`);
const saved = () => Number(root.dataset.saved ?? 0);
const turn = () => new Promise((done) => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); });
let told = saved(), underWay = 0;
new MutationObserver(() => {
  if (saved() <= told) return;
  told = saved();
  underWay += 1;
  fetch(`/__ack/${told}`, { method: "POST" }).finally(() => { underWay -= 1; });
}).observe(root, { attributeFilter: ["data-saved"] });
(async () => {
  for (;;) {
    const before = saved();
    button("3").click();
    while (button("buy").disabled) await turn();
    button("buy").click();
    while (saved() === before || underWay > 3) await turn();
  }
})();
"#;

/// What the server heard, and when it is to kill.
#[derive(Default)]
struct Heard {
    highest: u64,
    count: u64,
    kill_at: u64,
    killer: Option<Killer>,
}

type Shared = Arc<Mutex<Heard>>;

fn lock(heard: &Shared) -> std::sync::MutexGuard<'_, Heard> {
    heard.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Notes an acknowledged number; kills on the spot, before the page gets its answer, when it is time.
fn hear(heard: &Shared, text: &str) {
    let mut heard = lock(heard);
    let number = text
        .parse()
        .unwrap_or_else(|_| panic!("{text:?} is no sequence number"));
    heard.highest = heard.highest.max(number);
    heard.count += 1;
    if heard.count >= heard.kill_at
        && let Some(killer) = heard.killer.take()
    {
        killer.kill();
    }
}

/// Starts the buyer and waits until the server has killed the browser.
async fn buy_until_killed(tab: &Tab, browser: &Browser, heard: &Shared, acks: u64) -> Outcome<()> {
    {
        let mut heard = lock(heard);
        heard.kill_at = heard.count + acks;
        heard.killer = Some(browser.killer()?);
    }
    tab.screen("#/decide").await?;
    tab.type_in("likely", "26").await?;
    tab.type_in("ask", "3").await?;
    tab.run_with(BUYER, &[]).await?;
    let deadline = Instant::now() + DEADLINE;
    while lock(heard).killer.is_some() {
        if Instant::now() > deadline {
            return Err(Failure::Late {
                what: format!("{acks} acknowledgements"),
                seconds: DEADLINE.as_secs(),
                seen: tab.standing().await,
            });
        }
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
    Ok(())
}

/// One profile, many rounds. Gives how many numbers were lost in the worst round.
async fn rounds(engine: Engine, options: Options, count: u64, stop_at_loss: bool) -> Outcome<u64> {
    let mut chance = Chance::new()?;
    let heard = Shared::default();
    let listener = Arc::clone(&heard);
    let server = common::start(options.on_ack(move |text| hear(&listener, text)))?;
    let mut browser = Browser::open(engine).await?;
    let mut tab = browser.tab().await?;
    tab.first_run(&server.url(), &QUAYSIDE).await?;
    for round in 1..=count {
        buy_until_killed(&tab, &browser, &heard, chance.upto(MOST_ACKS)).await?;
        browser.restart_after_kill().await?;
        tab = browser.tab().await?;
        tab.open_app(&server.url()).await?;
        let book = tab.stored_book().await?;
        let end = book.end()?;
        let acknowledged = lock(&heard).highest;
        println!("{engine} round {round}: {acknowledged} acknowledged, {end} stored");
        if end < acknowledged {
            if stop_at_loss {
                return Ok(acknowledged - end);
            }
            let seed = chance.seed();
            return wrong(format!(
                "{acknowledged} was called saved, {end} is stored (seed {seed})"
            ));
        }
        book.expect_folded()?;
        let shown = tab.bought().await?;
        if shown != book.things() {
            let stored = book.things().len();
            return wrong(format!(
                "the screen shows {} things, the book has {stored}",
                shown.len()
            ));
        }
        if tab.saved().await? != end {
            return wrong(format!(
                "{end} is stored, but the page says {}",
                tab.saved().await?
            ));
        }
    }
    Ok(0)
}

async fn nothing_acknowledged_is_lost(engine: Engine) -> Outcome<()> {
    let count = match engine {
        _ if Setup::long() => 200,
        Engine::Firefox => 4,
        _ => 12,
    };
    rounds(engine, Options::new(Setup::dist()?), count, false).await?;
    Ok(())
}

/// The proof that these rounds can fail: a build that publishes before it commits loses something.
async fn a_build_that_says_saved_too_early_is_found_out(engine: Engine) -> Outcome<()> {
    let options = Options::new(Setup::dist_publish_first()?);
    let lost = rounds(engine, options, TOO_EARLY_ROUNDS, true).await?;
    if lost == 0 {
        return wrong(format!("{TOO_EARLY_ROUNDS} rounds found no loss"));
    }
    Ok(())
}
