//! A bare page that does only the browser's part: draws a keypad, shows a typed text, writes one strict
//! transaction a purchase, keeps itself for use with the server shut. No app, no module.

use haulwren_tests::browser::{Failure, Outcome};

const PAGE: &str = r#"<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Bare</title><script type="module" src="./bare.js"></script></head>
<body><output></output>
<button data-key="0">0</button><button data-key="2">2</button><button data-key="3">3</button><button data-key="5">5</button><button data-key=".">.</button>
<button data-key="rub">rub</button><button data-key="buy">buy</button>
</body></html>
"#;

/// As many rows and as many bytes as a purchase in the app: two changes, two records, two notes.
const SCRIPT: &str = r#"
const root = document.documentElement, out = document.querySelector("output");
const asked = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
const opening = indexedDB.open("bare", 1);
opening.onupgradeneeded = () => { for (const name of ["records", "changes", "meta"]) opening.result.createObjectStore(name, { keyPath: "k" }); };
const db = await asked(opening);
let saved = 0;
function save() {
  const transaction = db.transaction(["records", "changes", "meta"], "readwrite", { durability: "strict" });
  for (const k of [saved + 1, saved + 2]) {
    transaction.objectStore("changes").put({ k, t: "x".repeat(400) });
    transaction.objectStore("records").put({ k, j: "x".repeat(250) });
  }
  transaction.objectStore("meta").put({ k: "head", v: String(saved + 2) });
  transaction.objectStore("meta").put({ k: "vector", v: String(saved + 2) });
  transaction.oncomplete = () => { saved += 2; root.dataset.saved = String(saved); };
}
document.addEventListener("click", ({ target }) => {
  const key = target.dataset.key;
  if (key === "buy") save();
  else if (key === "rub") out.textContent = out.textContent.slice(0, -1);
  else if (key) out.textContent += key;
});
root.dataset.ready = "1";
await navigator.serviceWorker.register("./worker.js");
await navigator.serviceWorker.ready;
root.dataset.offline = "ready";
"#;

const WORKER: &str = r#"
addEventListener("install", (e) => e.waitUntil(caches.open("bare").then((kept) => kept.addAll(["./", "./bare.js"]))));
addEventListener("activate", (e) => e.waitUntil(clients.claim()));
addEventListener("fetch", (e) => e.respondWith(caches.match(e.request).then((found) => found ?? fetch(e.request))));
"#;

/// Writes the page into a folder of its own, gone when dropped.
pub fn write() -> Outcome<tempfile::TempDir> {
    let trouble = || Failure::system("cannot write the bare page");
    let folder = tempfile::tempdir().map_err(trouble())?;
    for (name, text) in [
        ("index.html", PAGE),
        ("bare.js", SCRIPT),
        ("worker.js", WORKER),
    ] {
        std::fs::write(folder.path().join(name), text).map_err(trouble())?;
    }
    Ok(folder)
}
