// Writes the book to a file when the app itself does not start. Reads only; makes, upgrades and deletes nothing.
const path = new URL("./", document.baseURI).pathname;
const base = `haulwren:${path}`;
const out = document.querySelector("#books");
const COPY = `${base}:copy-`;
const PAGE = 2000;

const make = (name, text, more) => Object.assign(document.createElement(name), { textContent: text }, more);
const say = (text, bad) => out.append(make("p", text, { className: bad ? "bad" : "" }));
const asked = (request) => new Promise((yes, no) => {
  request.onsuccess = () => yes(request.result);
  request.onerror = () => no(request.error);
});

// Opens what is there. Were it to be made first, the browser asks for an upgrade: then the attempt is taken back.
async function open(name, from) {
  const request = from.open(name);
  request.onupgradeneeded = () => request.transaction.abort();
  try {
    return await asked(request);
  } catch (error) {
    if (error.name === "AbortError") return null;
    throw error;
  }
}

async function all(store) {
  const rows = [];
  for (let range, page; ; range = IDBKeyRange.lowerBound(page.at(-1).k, true)) {
    page = await asked(store.getAll(range, PAGE));
    rows.push(...page);
    if (page.length < PAGE) return rows;
  }
}

const told = ({ message }) => message.replace(/\.$/, "");
const parsed = (text) => { try { return JSON.parse(text); } catch { return null; } };

// What a reader takes: of each device what stands before a change that does not read, and nothing that rests on what is left out.
function whole(rows) {
  const reach = {}, said = [];
  for (const row of rows) {
    const [of, seq] = row.k.split("/"), change = parsed(row.t);
    if (change?.k !== row.k || Number(seq) !== (reach[of] ?? 0) + 1) continue;
    reach[of] = Number(seq);
    said.push({ ...row, of, seq: Number(seq), seen: Object.entries(change.seen ?? {}) });
  }
  const rests = ({ of, seq, seen }) => seq <= reach[of] && seen.some(([other, last]) => last > (reach[other] ?? 0));
  for (let gone = said.find(rests); gone; gone = said.find(rests)) reach[gone.of] = gone.seq - 1;
  return said.filter(({ of, seq }) => seq <= reach[of]);
}

// One book as the lines of a book file, without the trailer.
async function read(db) {
  const stores = db.transaction(["changes", "meta"]);
  const meta = stores.objectStore("meta");
  const noted = async (key) => JSON.parse((await asked(meta.get(key)))?.v ?? "null");
  const [device, imports] = [await noted("device"), await noted("imports") ?? {}];
  // An import that was cut off before it was settled, or is being taken out again, is no part of the book.
  const found = (await all(stores.objectStore("changes"))).filter(({ i }) => i === undefined || !["staging", "undoing"].includes(imports[i]));
  const rows = whole(found), have = {};
  for (const { k } of rows) {
    const [of, seq] = k.split("/");
    have[of] = Math.max(have[of] ?? 0, Number(seq));
  }
  const books = {};
  for (const { t } of rows.filter(({ r }) => r.startsWith("book/")).sort((a, b) => (a.s < b.s ? -1 : 1))) {
    const { id, set } = JSON.parse(t);
    books[id] = { ...books[id], ...set };
  }
  const book = Object.keys(books).sort().find((id) => books[id].currency && !books[id].gone);
  const sender = device ?? Object.keys(have)[0];
  const header = { format: "haulwren-book", version: 1, book, currency: books[book]?.currency, sender, have };
  return { count: rows.length, lost: found.length - rows.length, whole: Boolean(book), lines: [JSON.stringify(header), ...rows.map(({ t }) => t)] };
}

async function digest(text) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function fileOf({ count, lines }) {
  const text = lines.join("\n");
  const sha256 = await digest(text);
  const now = new Date();
  const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
  return new File([`${text}\n${JSON.stringify({ count, sha256 })}\n`], `haulwren-book-${day}.txt`, { type: "text/plain" });
}

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

// After a full disk some browsers open a database at the second or third time only.
async function again(task) {
  for (const ms of [300, 900, 2000]) {
    try { return await task(); } catch { await pause(ms); }
  }
  return task();
}

// The book in a database, or null when there is none.
async function load(name, from) {
  const db = await open(name, from);
  if (!db) return null;
  try {
    if (!db.objectStoreNames.contains("changes") || !db.objectStoreNames.contains("meta")) return null;
    const book = await read(db);
    return book.count ? book : null;
  } finally {
    db.close();
  }
}

async function show(book, title) {
  out.append(make("h2", title));
  if (!book.whole) say("Its own name and currency were not found. The file keeps every change, but Haulwren may refuse it until these are added.", true);
  if (book.lost) say(`${book.lost} ${book.lost === 1 ? "change does" : "changes do"} not read, or rest on one that does not. They stay on this device, and are not in the file.`, true);
  const file = await fileOf(book);
  say(`${book.count} ${book.count === 1 ? "change" : "changes"}, ${Math.ceil(file.size / 1024)} kB.`);
  out.append(make("a", "Save the file", { className: "go", href: URL.createObjectURL(file), download: file.name }));
  if (navigator.canShare?.({ files: [file] })) {
    out.append(make("button", "Share the file", { type: "button", onclick: () => navigator.share({ files: [file] }).catch((error) => error.name === "AbortError" || say(`Sharing failed: ${error.message}`, true)) }));
  }
}

// The second copies, which the app keeps where the browser has buckets for them, or since the storage failed: as ways to load them, the
// newest first.
async function copies(names) {
  const number = (name) => Number(/-(\d{1,9})$/.exec(name)?.[1] ?? 0);
  const own = names.filter((name) => name.startsWith(COPY)).map((name) => [number(name), () => load(name, indexedDB)]);
  const buckets = navigator.storageBuckets;
  const first = `haulwren-${(await digest(path)).slice(0, 32)}`;
  const kept = ((await buckets?.keys()) ?? []).filter((key) => key === first || key.startsWith(`${first}-`));
  own.push(...kept.map((key) => [key === first ? 0 : number(key), async () => load("copy", (await buckets.open(key)).indexedDB)]));
  return own.sort(([one], [other]) => other - one).map(([, way]) => way);
}

async function main() {
  if (!window.indexedDB) return say("This browser gives this page no storage: it is off, or blocked in this kind of window. Open Haulwren where you used it before.", true);
  if (!window.crypto?.subtle) return say("This address is not secure (no https), so the browser refuses the check sum that a book file needs. Open it over https.", true);
  let names = [base], found = 0, most = 0;
  try {
    if (indexedDB.databases) names = (await again(() => indexedDB.databases())).map(({ name }) => name);
  } catch (error) {
    say(`The browser does not say which books are here: ${told(error)}.`, true);
  }
  for (const name of names.filter((name) => name === base || (name.startsWith(`${base}:`) && !name.startsWith(COPY))).sort()) {
    const title = name === base ? "Your book" : `Another book, ${name.slice(base.length + 1)}`;
    try {
      const book = await again(() => load(name, indexedDB));
      if (!book) continue;
      found += 1;
      if (name === base) most = book.count;
      await show(book, title);
    } catch (error) {
      found += 1;
      say(`${title} is here, but reading it failed: ${told(error)}. Close other Haulwren tabs, make room on the device, reload this page, and try again.`, true);
    }
  }
  for (const way of await copies(names)) {
    try {
      const book = await again(way);
      // Only what the book itself does not give.
      if (!book || book.count <= most) continue;
      [found, most] = [found + 1, book.count];
      await show(book, "Your book, from its second copy");
    } catch (error) {
      found += 1;
      say(`A second copy of your book is here, but reading it failed: ${told(error)}.`, true);
    }
  }
  if (!found) say("No saved book was found in this browser for this address. Books of another browser, or of the installed app, are kept apart: open this page there.");
}

main().catch((error) => say(`The browser refuses to open its storage: ${told(error)}. Private windows and blocked site data do that.`, true)).finally(() => {
  out.firstElementChild.remove();
  out.removeAttribute("aria-busy");
});
