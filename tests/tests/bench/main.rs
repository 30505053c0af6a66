//! Times in Chromium on a processor slowed down four times, as on a modest phone: from a key to the end of
//! its frame, from an empty browser to a ready screen, the same with the server shut, and from "Buy it" to
//! "saved". Each stands beside a bare page that does only the browser's own part of it, in the same run, so
//! that the ratio says what the app adds on whatever machine this runs.
//!
//! Then a large stall, with a peer in JavaScript beside the app, the same stall after a day of sixty things, and a book of 50,000 things.
//! The words `keys`, `venues`, `day` and `large` run those
//! parts alone.
//!
//! It only measures. `cargo xtask bench` builds the app and runs it.

mod bare;
mod day;
mod laid;
mod large;
mod measure;
mod peer;
mod stall;
mod stats;
mod venues;

use std::process::ExitCode;

use haulwren_tests::browser::{Browser, Engine, Failure, Outcome, QUAYSIDE, Setup, Tab};
use haulwren_tests::server::{Options, Server};

use measure::{KEYS, Pressed, SAVES, STARTS};
use stats::Times;

/// How many times slower the processor is made.
const SLOWER: u32 = 4;

fn main() -> ExitCode {
    let mut failure = None;
    haulwren_tests::browser::run(async {
        failure = all().await.err();
        Ok(())
    });
    match failure {
        None => {
            println!("\ntest result: ok");
            ExitCode::SUCCESS
        }
        Some(failure) => {
            eprintln!("{failure}\n\ntest result: FAILED");
            ExitCode::FAILURE
        }
    }
}

async fn all() -> Outcome<()> {
    let words: Vec<String> = std::env::args().collect();
    let asked = |word: &str| words.iter().any(|each| each == word);
    let is_all = !["keys", "venues", "day", "large"]
        .iter()
        .any(|part| asked(part));
    if is_all || asked("keys") {
        bench().await?;
    }
    if is_all || asked("venues") {
        venues::bench().await?;
    }
    if is_all || asked("day") {
        day::bench().await?;
    }
    if is_all || asked("large") {
        large::bench().await?;
    }
    Ok(())
}

async fn bench() -> Outcome<()> {
    let bare = bare::write()?;
    let bare = site(bare.path(), "bare page").await?;
    let app = site(&Setup::dist()?, "app").await?;
    println!("\nChromium, processor slowed down {SLOWER} times, ms");
    println!(
        "{:44}{:>20}{:>20}{:>8}",
        "", "app, median (p95)", "bare, median (p95)", "ratio"
    );
    let mut rows = Vec::new();
    for (what, (app, bare)) in SORTS.iter().zip(app.keys.iter().zip(&bare.keys)) {
        rows.push((format!("{what}, {KEYS}"), &app[0], &bare[0]));
        rows.push(("  to the frame drawn".to_owned(), &app[1], &bare[1]));
        rows.push(("  of that work, no wait".to_owned(), &app[2], &bare[2]));
    }
    let rest = [
        (
            format!("\"Buy it\" to saved, {SAVES}"),
            &app.saves,
            &bare.saves,
        ),
        (
            format!("first visit to ready, {STARTS}"),
            &app.cold,
            &bare.cold,
        ),
        (
            format!("ready with server shut, {STARTS}"),
            &app.shut,
            &bare.shut,
        ),
    ];
    rows.extend(rest);
    for (what, app, bare) in rows {
        println!("{what:44}{app:>20}{bare:>20}{:>8.1}", app.ratio(bare));
    }
    for (name, site) in [("app", &app), ("bare page", &bare)] {
        let [heap, module] = site.memory;
        println!(
            "memory of the {name}: scripts {heap:.1} MB after collection, module {module:.1} MB"
        );
    }
    Ok(())
}

/// The sorts of keys, each from the press to the end of the frame callback that follows.
const SORTS: [&str; 3] = [
    "key of a price to end of frame callback",
    "key that turns the verdict",
    "the same without a pause",
];

/// What was measured on one site.
struct Measured {
    /// A price, a verdict that turns, and that without a pause.
    keys: [Pressed; SORTS.len()],
    saves: Times,
    cold: Times,
    shut: Times,
    /// In MB: scripts' heap after a forced collection; the module's memory, which never shrinks and so is
    /// its peak.
    memory: [f64; 2],
}

/// Measures one site in a browser of its own.
async fn site(folder: &std::path::Path, name: &str) -> Outcome<Measured> {
    let trouble = Failure::system(format!("cannot serve the {name}"));
    let mut server = Server::start(Options::new(folder)).map_err(trouble)?;
    let url = server.url();
    let browser = Browser::open(Engine::Chromium).await?;
    let tab = measured(&browser).await?;
    let mut cold = Vec::new();
    for _ in 0..STARTS {
        measure::forget(&tab, &url).await?;
        cold.push(measure::start(&tab, &url).await?);
    }
    if name == "app" {
        tab.first_run(&url, &QUAYSIDE).await?;
        tab.weigh_up("1", ["18", "26", "34"]).await?;
        tab.expect_verdict("buy").await?;
    }
    tab.offline_ready().await?;
    let price = measure::price(&tab).await?;
    if name == "app" {
        tab.type_in("ask", "6").await?;
    }
    let turn = measure::turn(&tab).await?;
    let hurry = measure::hurry(&tab).await?;
    let saves = measure::saves(&tab).await?;
    let memory = measure::memory(&tab).await?;
    server.stop();
    let mut shut = Vec::new();
    for _ in 0..STARTS {
        shut.push(measure::start(&measured(&browser).await?, &url).await?);
    }
    browser.expect_no_other_host()?;
    Ok(Measured {
        keys: [price, turn, hurry],
        saves: Times::of(saves),
        cold: Times::of(cold),
        shut: Times::of(shut),
        memory,
    })
}

/// A new tab in which the processor is slow and starts are timed.
async fn measured(browser: &Browser) -> Outcome<Tab> {
    let tab = browser.new_tab().await?;
    measure::prepare(&tab, SLOWER).await?;
    Ok(tab)
}
