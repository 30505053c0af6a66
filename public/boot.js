// Starts the app, tells when that fails, and carries updates from the worker to the trader's tap.
const root = document.documentElement;
const scope = new URL("./", document.baseURI);
const tag = document.querySelector("script[data-wasm]");
const channel = new BroadcastChannel(`haulwren:${scope.pathname}:tabs`);
const HOUR = 3_600_000;
let registration, reloading = false, bootStopped = false;

try {
  const theme = localStorage.getItem(`haulwren:${scope.pathname}:theme`);
  if (theme) root.dataset.theme = theme;
} catch { /* This browser keeps nothing for us: as the device has it. */ }

const make = (name, text, more) => Object.assign(document.createElement(name), { textContent: text }, more);

// ---- Start ----

function stop(reason) {
  if (root.dataset.ready || root.dataset.stopped) return;
  bootStopped = true;
  root.dataset.stopped = String(reason?.message ?? reason ?? "unknown");
}

// The app fell: a trap in the module, at whatever time. Its place in the module tells its makers what fell.
function fall(trap) {
  const place = /wasm-function\[\d+\](:0x[\da-f]+)?/.exec(trap.stack)?.[0];
  root.dataset.stopped ||= [trap.message, place].filter(Boolean).join(", ");
  bootStopped = false;
}

const notice = (reason) => (reason?.name === "RuntimeError" ? fall : stop)(reason);

function panel() {
  document.querySelector("#boot-panel")?.remove();
  const box = make("section", "", { id: "boot-panel" });
  box.setAttribute("role", "alert");
  const why = root.dataset.stopped;
  box.append(
    make("p", why ? "Haulwren has stopped. What was saved is still on this device." : "Haulwren is taking long to start. Your book is still on this device."),
    make("p", why && why !== "1" ? why : "", { className: "why", hidden: !why || why === "1" }),
    make("button", "Reload", { className: "go", type: "button", onclick: reload }),
    make("a", "Rescue: save my book", { href: "./rescue.html" }),
  );
  document.body.append(box);
}

function watch() {
  if (root.dataset.ready && (bootStopped || !root.dataset.stopped)) {
    // It came after all: a slow phone, or a failure that the app got over.
    delete root.dataset.stopped;
    bootStopped = false;
    document.querySelector("#boot-panel")?.remove();
  } else if (root.dataset.stopped) {
    const frame = document.querySelector("#frame");
    frame?.setAttribute("aria-busy", "false");
    frame?.querySelector("[role=status]")?.replaceChildren("Your book is not open");
    panel();
  }
}

async function start() {
  new MutationObserver(watch).observe(root, { attributeFilter: ["data-ready", "data-stopped"] });
  addEventListener("error", (e) => notice(e.error ?? e.message));
  addEventListener("unhandledrejection", (e) => notice(e.reason));
  setTimeout(() => root.dataset.ready || panel(), 10_000);
  try {
    const app = await import(new URL(tag.dataset.js, scope));
    await app.default({ module_or_path: new URL(tag.dataset.wasm, scope) });
  } catch (e) {
    notice(e);
  }
  // Also after a failure: a mended version can only come through the worker.
  await register();
}

// ---- Worker and updates ----

async function register() {
  const workers = navigator.serviceWorker;
  if (!workers) {
    root.dataset.offline = "none"; // No https: the browser keeps no copy of the app.
    return;
  }
  let controlled = workers.controller !== null;
  workers.addEventListener("controllerchange", () => {
    if (controlled) taken();
    controlled = true;
    offlineReady();
  });
  try {
    registration = await workers.register("./worker.js", { scope: "./", updateViaCache: "none" });
  } catch (e) {
    root.dataset.offline = "none";
    console.warn("The worker did not register", e);
    return;
  }
  registration.addEventListener("updatefound", () => follow(registration.installing));
  follow(registration.installing);
  if (registration.active && registration.waiting) announce();
  offlineReady();
  let last = Date.now();
  document.addEventListener("visibilitychange", () => {
    if (document.hidden || Date.now() - last < HOUR) return;
    last = Date.now();
    registration.update().catch(() => { /* No signal, or the old one still serves: asked again later. */ });
  });
}

function follow(worker) {
  worker?.addEventListener("statechange", () => {
    if (worker.state === "installed" && registration.active) announce();
    if (worker.state === "activated") offlineReady();
  });
}

function announce() {
  root.dataset.update = "waiting";
  dispatchEvent(new CustomEvent("haulwren-update"));
}

async function offlineReady() {
  const worker = navigator.serviceWorker.controller;
  if (worker?.state === "activating") {
    worker.addEventListener("statechange", offlineReady, { once: true });
  } else if (worker?.state === "activated") {
    const stored = (await caches.keys()).some((name) => name.startsWith(`haulwren:${scope.pathname}:`));
    if (stored) root.dataset.offline = "ready";
  }
}

// A new worker rules. A tab that holds unsaved input keeps running and reloads at the trader's next tap.
function taken() {
  if (holds()) {
    root.dataset.update = "taken";
    dispatchEvent(new CustomEvent("haulwren-update-held"));
  } else if (!reloading) {
    reloading = true;
    location.reload();
  }
}

// What the app keeps as a draft marks the page. Whatever else is typed, in a small question or a passphrase, holds too, as long as it stands
// in its field and nothing was saved since, nor a draft begun or given up.
const before = new WeakMap();
let typed = new Set();
addEventListener("focusin", ({ target }) => before.has(target) || before.set(target, target.value));
addEventListener("input", ({ target }) => typed.add(target));
new MutationObserver(() => { typed = new Set(); }).observe(root, { attributeFilter: ["data-saved", "data-unsaved"] });
const stands = (field) => field.isConnected && !["file", "search"].includes(field.type) && field.value !== (before.get(field) ?? "");
const holds = () => !root.dataset.stopped && (root.dataset.unsaved === "1" || [...typed].some(stands));

channel.addEventListener("message", ({ data }) => {
  if (data?.q === "unsaved?" && holds()) channel.postMessage({ a: "unsaved", id: data.id });
});

// Whether any tab, this one included, holds input that is not saved yet.
async function anyUnsaved() {
  if (holds()) return true;
  const id = Math.random();
  return new Promise((answer) => {
    const hear = ({ data }) => data?.a === "unsaved" && data.id === id && done(true);
    const done = (found) => { channel.removeEventListener("message", hear); answer(found); };
    channel.addEventListener("message", hear);
    channel.postMessage({ q: "unsaved?", id });
    setTimeout(() => done(holds()), 400);
  });
}

async function take() {
  if (await anyUnsaved()) {
    dispatchEvent(new CustomEvent("haulwren-update-held"));
    return false;
  }
  if (registration?.waiting) registration.waiting.postMessage({ type: "take-over" });
  else taken();
  return true;
}
addEventListener("haulwren-take-update", take);

// Reload alone never brings a waiting version: take it along when there is one.
async function reload() {
  if (!(registration?.waiting && await take())) location.reload();
}

if (window.top === window.self) {
  start();
} else {
  const say = make("div", "", { className: "say" });
  say.append(
    make("h1", "Haulwren"),
    make("p", "Haulwren does not run inside another page, because that page could trick you into tapping something."),
    make("a", "Open it in its own tab", { href: scope.href, target: "_blank", rel: "noopener", className: "go" }),
  );
  document.body.replaceChildren(say);
}
