// Keeps one whole version of the app on the device and answers from it. The line below is filled in by the build.
const BUILD = /*@build*/{"version":"dev","files":[]};
const SCOPE = new URL("./", location).pathname;
const PREFIX = `haulwren:${SCOPE}:`;
const NAME = PREFIX + BUILD.version;
const urlOf = (file) => new URL(file.url, location).href;
const KEPT = new Set(BUILD.files.map(urlOf));

addEventListener("install", (event) => event.waitUntil(install()));
addEventListener("activate", (event) => event.waitUntil(activate()));
addEventListener("message", (event) => event.data?.type === "take-over" && skipWaiting());
addEventListener("fetch", (event) => {
  const key = keyOf(event.request);
  if (key) event.respondWith(answer(event.request, key));
});

const ownCaches = async () => (await caches.keys()).filter((name) => name.startsWith(PREFIX));

// All files or none: a half-copied deploy fails here, and the version before stays.
async function install() {
  if (!BUILD.files.length) return;
  const before = await ownCaches();
  const cache = await caches.open(NAME);
  try {
    await Promise.all(BUILD.files.map(async (file) => {
      const response = await reuse(file, before) ?? await load(file);
      await cache.put(urlOf(file), response);
    }));
  } catch (error) {
    if (!before.includes(NAME)) await caches.delete(NAME);
    throw error;
  }
}

// `integrity` makes the browser check the bytes; a redirected answer could never serve a navigation.
async function load(file) {
  const response = await fetch(urlOf(file), { integrity: file.integrity, cache: "reload", redirect: "error", credentials: "same-origin" });
  if (!response.ok || response.redirected) throw new Error(`${file.url}: ${response.status}`);
  return response;
}

// The same bytes from the version before, if they still have the digest that this build expects.
async function reuse(file, names) {
  const [kind, want] = file.integrity.split("-");
  for (const cacheName of names) {
    const found = await caches.match(urlOf(file), { cacheName, ignoreVary: true });
    if (!found) continue;
    const digest = await crypto.subtle.digest(kind.replace("sha", "SHA-"), await found.clone().arrayBuffer());
    if (btoa(String.fromCharCode(...new Uint8Array(digest))) === want) return found;
  }
  return null;
}

async function activate() {
  const old = (await ownCaches()).filter((name) => name !== NAME);
  await Promise.all(old.map((name) => caches.delete(name)));
  // Only the very first visit is claimed, so that it too works without signal; later, a tab changes hands by its trader's tap.
  if (!old.length) await clients.claim();
}

// The address under which a request is kept, or null when it is none of ours.
function keyOf(request) {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin || !url.pathname.startsWith(SCOPE)) return null;
  if (request.mode === "navigate") url.search = "";
  url.hash = "";
  if (url.pathname === `${SCOPE}index.html`) url.pathname = SCOPE;
  return KEPT.has(url.href) ? url.href : null;
}

async function answer(request, key) {
  return await caches.match(key, { cacheName: NAME, ignoreVary: true }) ?? fetch(request);
}
