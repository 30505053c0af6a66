//! How each time is taken, by the page's own clock, and how memory is read.

use super::stats::Times;
use haulwren_tests::browser::{Outcome, Tab};
use serde_json::{Value, json};

/// Keys pressed, of each sort.
pub const KEYS: u32 = 200;
/// Keys pressed by one script: each script has to end before the driver gives up, on a busy machine too.
const AT_ONCE: usize = 40;
/// Purchases made.
pub const SAVES: u32 = 60;
/// Starts of each sort.
pub const STARTS: u32 = 5;

/// From one key to the next, in ms: a stroke of an average skilled typist in the keystroke-level model (Card, Moran and Newell 1980,
/// Communications of the ACM 23(7), table of operators: 0.20 s; the value is from memory). No thumb at a table is faster. What a key sets
/// sliding has then come to rest before the next one.
pub const PACE: u32 = 200;
/// No pause at all: each key falls into what the one before set sliding.
const HURRY: u32 = 0;

/// A price as it is typed over one that stands, and rubbed out again: 1, 12, 12., 12.5, 12.50, and back. It never goes, so that the rail
/// stands all the time.
const PRICE: [&str; 8] = ["2", ".", "5", "0", "rub", "rub", "rub", "rub"];
/// A digit that turns the verdict, and the rub-out key that turns it back.
const TURN: [&str; 2] = ["5", "rub"];

/// Notes when the page says that it is ready, and keeps hold of the module's memory. What comes late has no memory of its own: it gets
/// the first module's.
const EARLY: &str = r#"
new MutationObserver(() => {
  if (document.documentElement?.dataset.ready) window.__ready ??= performance.now();
}).observe(document, { attributes: true, subtree: true, attributeFilter: ["data-ready"] });
for (const name of ["instantiate", "instantiateStreaming"]) {
  const kept = WebAssembly[name];
  WebAssembly[name] = async (...all) => {
    const made = await kept.apply(WebAssembly, all);
    const exported = Object.values((made.instance ?? made).exports);
    window.__memory ??= exported.find((one) => one instanceof WebAssembly.Memory);
    return made;
  };
}
"#;

/// Presses keys in turn, so many ms apart at least, each at another moment of a frame, as fingers do. Of each press three times: from the
/// press to the end of the frame callback that follows, the page's own callbacks before it included; to the first task after that, when the
/// frame is drawn; and of that what was work, without the wait for the frame.
const PRESS: &str = r#"
const [from, to, names, pace] = args;
const ends = [], totals = [], works = [];
// When the first callback of a frame begins, the page's own or ours.
let first = null;
const asked = window.requestAnimationFrame;
window.requestAnimationFrame = (callback) => asked.call(window, (at) => { first ??= performance.now(); callback(at); });
const frame = () => new Promise((done) => requestAnimationFrame(() => {
  // What the page does in its frame callback ends with what follows from it: this comes after all that.
  queueMicrotask(() => {
    const ended = performance.now();
    const after = new MessageChannel();
    after.port1.onmessage = () => done([first, ended, performance.now()]);
    after.port2.postMessage(0);
  });
}));
const task = () => new Promise((done) => {
  const next = new MessageChannel();
  next.port1.onmessage = () => done(performance.now());
  next.port2.postMessage(0);
});
const pause = (ms) => new Promise((done) => setTimeout(done, ms));
for (let n = from; n < to; n += 1) {
  const key = document.querySelector(`button[data-key="${names[n % names.length]}"]`);
  await pause(pace);
  await frame();
  // 7 and 17 have no common part: every moment of a frame of 17 ms comes in turn.
  await pause((n * 7) % 17);
  first = null;
  const start = performance.now();
  // What follows from the press before the frame is over when the script that pressed has ended: the next task tells.
  const next = task();
  key.click();
  const [[began, ended, drawn], handled] = await Promise.all([frame(), next]);
  ends.push(ended - start);
  totals.push(drawn - start);
  works.push(Math.min(handled, began) - start + drawn - began);
}
window.requestAnimationFrame = asked;
return [ends, totals, works];
"#;

/// Types an ask and buys; each time is from the press of the key to the mark that says "saved".
const BUY: &str = r#"
const root = document.documentElement, times = [];
const key = (k) => document.querySelector(`button[data-key="${k}"]`);
const turn = () => new Promise((done) => { const c = new MessageChannel(); c.port1.onmessage = done; c.port2.postMessage(0); });
for (let n = 0; n < args[0]; n += 1) {
  key("3").click();
  while (key("buy").disabled) await turn();
  const saved = new Promise((done) => {
    const watch = new MutationObserver(() => { watch.disconnect(); done(); });
    watch.observe(root, { attributeFilter: ["data-saved"] });
  });
  const start = performance.now();
  key("buy").click();
  await saved;
  times.push(performance.now() - start);
  await turn();
}
return times;
"#;

/// Makes the tab slow and lets it time its starts.
pub async fn prepare(tab: &Tab, slower: u32) -> Outcome<()> {
    tab.before_page(EARLY).await?;
    tab.devtools("Emulation.setCPUThrottlingRate", json!({ "rate": slower }))
        .await?;
    Ok(())
}

/// Removes whatever the browser keeps of the site.
pub async fn forget(tab: &Tab, url: &str) -> Outcome<()> {
    tab.go("about:blank").await?;
    let what = json!({ "origin": url.trim_end_matches('/'), "storageTypes": "all" });
    tab.devtools("Storage.clearDataForOrigin", what).await?;
    tab.devtools("Network.clearBrowserCache", json!({})).await?;
    Ok(())
}

/// Opens the site and gives the ms from the start of the navigation to "ready".
pub async fn start(tab: &Tab, url: &str) -> Outcome<f64> {
    tab.open_app(url).await?;
    tab.ask("return window.__ready").await
}

/// Times of key presses: to the end of the frame callback, to the frame drawn, and what of that was work.
pub type Pressed = [Times; 3];

/// Types a price over one that stands, and rubs it out again, as fast as a typist.
pub async fn price(tab: &Tab) -> Outcome<Pressed> {
    press(tab, &PRICE, PACE).await
}

/// Presses a digit and the rub-out key in turn, as fast as a typist.
pub async fn turn(tab: &Tab) -> Outcome<Pressed> {
    press(tab, &TURN, PACE).await
}

/// The same without a pause.
pub async fn hurry(tab: &Tab) -> Outcome<Pressed> {
    press(tab, &TURN, HURRY).await
}

async fn press(tab: &Tab, keys: &[&str], pace: u32) -> Outcome<Pressed> {
    let mut all = [const { Vec::new() }; 3];
    for from in (0..KEYS).step_by(AT_ONCE) {
        let to = from + u32::try_from(AT_ONCE).unwrap_or(KEYS);
        let asked = [json!(from), json!(to.min(KEYS)), json!(keys), json!(pace)];
        let some: [Vec<f64>; 3] = tab.ask_later(PRESS, &asked).await?;
        for (all, some) in all.iter_mut().zip(some) {
            all.extend(some);
        }
    }
    Ok(all.map(Times::of))
}

/// Times of saves.
pub async fn saves(tab: &Tab) -> Outcome<Vec<f64>> {
    tab.ask_later(BUY, &[json!(SAVES)]).await
}

/// Memory in MB: scripts' heap after a forced collection, and the module's own.
pub async fn memory(tab: &Tab) -> Outcome<[f64; 2]> {
    tab.devtools("HeapProfiler.collectGarbage", json!({}))
        .await?;
    tab.devtools("Performance.enable", json!({})).await?;
    let metrics = tab.devtools("Performance.getMetrics", json!({})).await?;
    let named = |metric: &&Value| metric["name"] == "JSHeapUsedSize";
    let all = metrics["metrics"].as_array();
    let heap = all
        .and_then(|all| all.iter().find(named))
        .and_then(|metric| metric["value"].as_f64());
    let module: f64 = tab
        .ask("return window.__memory?.buffer.byteLength ?? 0")
        .await?;
    Ok([heap.unwrap_or(f64::NAN), module].map(|bytes| bytes / 1_000_000.0))
}
