//! How each time is taken, by the page's own clock, and how memory is read.

use super::stats::Times;
use haulwren_tests::browser::{Outcome, Tab};
use serde_json::{Value, json};

/// Keys pressed.
pub const KEYS: u32 = 200;
/// Purchases made.
pub const SAVES: u32 = 60;
/// Starts of each sort.
pub const STARTS: u32 = 5;

/// Notes when the page says that it is ready, and keeps hold of the module's memory.
const EARLY: &str = r#"
new MutationObserver(() => {
  if (document.documentElement?.dataset.ready) window.__ready ??= performance.now();
}).observe(document, { attributes: true, subtree: true, attributeFilter: ["data-ready"] });
for (const name of ["instantiate", "instantiateStreaming"]) {
  const kept = WebAssembly[name];
  WebAssembly[name] = async (...all) => {
    const made = await kept.apply(WebAssembly, all);
    window.__memory = (made.instance ?? made).exports.memory;
    return made;
  };
}
"#;

/// Presses a digit and the rub-out key in turn, each at another moment of a frame, as fingers do. Of each press two times: from the press
/// to the first task after the frame callback that follows; and of that what was work, without the wait for the frame.
const PRESS: &str = r#"
const totals = [], works = [];
const frame = () => new Promise((done) => requestAnimationFrame(() => {
  const began = performance.now();
  const after = new MessageChannel();
  after.port1.onmessage = () => done(began);
  after.port2.postMessage(0);
}));
const pause = (ms) => new Promise((done) => setTimeout(done, ms));
for (let n = 0; n < args[0]; n += 1) {
  const key = document.querySelector(`button[data-key="${n % 2 ? "rub" : "5"}"]`);
  await frame();
  // 7 and 17 have no common part: every moment of a frame of 17 ms comes in turn.
  await pause((n * 7) % 17);
  const start = performance.now();
  key.click();
  const handled = performance.now();
  const began = await frame();
  const end = performance.now();
  totals.push(end - start);
  works.push(handled - start + end - began);
}
return [totals, works];
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

/// Times of key presses: to the end of the frame, and what of that was work.
pub async fn keys(tab: &Tab) -> Outcome<[Times; 2]> {
    let times: [Vec<f64>; 2] = tab.ask_later(PRESS, &[json!(KEYS)]).await?;
    Ok(times.map(Times::of))
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
