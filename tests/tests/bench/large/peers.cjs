// The same book in two libraries that merge documents, in memory: opening its saved form, and what another device says of some things.
// Nothing is written to a disk here, and nothing is checked. Prints one line of JSON for each library.
const [automergeAt, yjsAt, thingsSaid, ...files] = process.argv.slice(1);
const THINGS = Number(thingsSaid), COUNTS = files.map(Number), IN_LOT = 4, ROUNDS = 5, GROUP = 1000;
const ms = (since) => Number(process.hrtime.bigint() - since) / 1e6;
const now = () => process.hrtime.bigint();
const id = (n) => `01a1fefc-8f93-7101-8101-${String(n).padStart(12, "0")}`;
const thing = (n) => ({ lot: id(1e9 + Math.floor(n / IN_LOT)), name: `thing ${n}`, sells: 900 + (n % 41) * 100, postage: 450, packing: 30 });
const said = (n, round) => [["colour", `colour ${n % 7}`], ["label", `size ${n % 12}`], ["maker", `maker ${n % 300}`], ["name", `thing ${n}, mended`]][round % 4];
const memory = () => { global.gc(); const { heapUsed, external } = process.memoryUsage(); return (heapUsed + external) / 1e6; };

// As many words as the app's book has: each lot, each thing, and so many things said of them later, changes in groups of a thousand.
function told(change) {
  for (let from = 0; from < THINGS; from += GROUP) {
    change((set) => {
      for (let n = from; n < from + GROUP; n += 1) {
        if (n % IN_LOT === 0) set("lots", id(1e9 + n / IN_LOT), { paid: 400 + (n % 17) * 25, bought: n, method: "by_price" });
        set("things", id(n), thing(n));
      }
    });
  }
  let left = THINGS * (ROUNDS + 1) - THINGS - Math.ceil(THINGS / IN_LOT);
  for (let round = 0; left > 0; round += 1) {
    for (let from = 0; from < THINGS && left > 0; from += GROUP) {
      change((_, put) => { for (let n = from; n < from + GROUP && left > 0; n += 1, left -= 1) put(id(n), ...said(n, round)); });
    }
  }
}

function automerge() {
  const A = require(automergeAt);
  let doc = A.from({ lots: {}, things: {} });
  told((tell) => {
    doc = A.change(doc, (d) => tell((table, key, value) => { d[table][key] = value; }, (key, field, value) => { d.things[key][field] = value; }));
  });
  const bytes = A.save(doc);
  let began = now();
  doc = A.load(bytes);
  const open = ms(began);
  const merges = COUNTS.map((count) => {
    let other = A.clone(doc);
    other = A.change(other, (d) => { for (let at = 0; at < count; at += 1) d.things[id(at * Math.floor(THINGS / count))].flaw = `chip ${at}`; });
    const changes = A.getChanges(doc, other);
    A.free?.(other);
    began = now();
    [doc] = A.applyChanges(doc, changes);
    return ms(began);
  });
  return { name: "Automerge", bytes: bytes.length, open, merges, memory: memory() };
}

function yjs() {
  const Y = require(yjsAt);
  const built = new Y.Doc();
  const map = (of) => { const made = new Y.Map(); for (const [key, value] of Object.entries(of)) made.set(key, value); return made; };
  const put = (doc) => (key, field, value) => doc.getMap("things").get(key).set(field, value);
  told((tell) => built.transact(() => tell((table, key, value) => built.getMap(table).set(key, map(value)), put(built))));
  const bytes = Y.encodeStateAsUpdate(built);
  let began = now();
  const doc = new Y.Doc();
  Y.applyUpdate(doc, bytes);
  const open = ms(began);
  const merges = COUNTS.map((count) => {
    const other = new Y.Doc();
    Y.applyUpdate(other, Y.encodeStateAsUpdate(doc));
    other.transact(() => { for (let at = 0; at < count; at += 1) put(other)(id(at * Math.floor(THINGS / count)), "flaw", `chip ${at}`); });
    const update = Y.encodeStateAsUpdate(other, Y.encodeStateVector(doc));
    began = now();
    Y.applyUpdate(doc, update);
    return ms(began);
  });
  return { name: "Yjs", bytes: bytes.length, open, merges, memory: memory() };
}

const which = { automerge, yjs }[process.env.PEER];
console.log(JSON.stringify(which()));
