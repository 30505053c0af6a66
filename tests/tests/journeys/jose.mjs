// Opens a sealed book file by an independent library, or makes one: `node jose.mjs LIBRARY open|seal PASSPHRASE FROM TO`.
//
// What it does is the recipe of the guide: line 1 by the passphrase gives 32 bytes, which are the key of all other lines.

import { readFileSync, writeFileSync } from "node:fs";
import { randomBytes, webcrypto } from "node:crypto";
import { pathToFileURL } from "node:url";

// Older versions of Node have it only here.
globalThis.crypto ??= webcrypto;
const [library, what, passphrase, from, to] = process.argv.slice(2);
const { compactDecrypt, CompactEncrypt } = await import(pathToFileURL(library).href);
const secret = new TextEncoder().encode(passphrase.normalize("NFC"));

async function open(text) {
  const [lock, ...slices] = text.trimEnd().split("\n");
  const way = { keyManagementAlgorithms: ["PBES2-HS512+A256KW"], maxPBES2Count: 2_000_000 };
  const key = (await compactDecrypt(lock, secret, way)).plaintext;
  const plain = [];
  for (const [at, slice] of slices.entries()) {
    const { plaintext, protectedHeader } = await compactDecrypt(slice, key);
    const { n, last } = protectedHeader;
    if (n !== at + 1 || last !== (n === slices.length)) throw new Error(`line ${at + 2} says ${n}, ${last}`);
    plain.push(plaintext);
  }
  return Buffer.concat(plain);
}

async function seal(plain) {
  const key = new Uint8Array(randomBytes(32));
  const head = { alg: "PBES2-HS512+A256KW", enc: "A256GCM" };
  const lock = new CompactEncrypt(key).setProtectedHeader(head).setKeyManagementParameters({
    p2c: 210_000,
    p2s: new Uint8Array(randomBytes(16)),
  });
  const lines = [await lock.encrypt(secret)];
  const size = 1 << 20;
  for (let n = 1; n === 1 || (n - 1) * size < plain.length; n += 1) {
    const slice = new CompactEncrypt(plain.subarray((n - 1) * size, n * size));
    const last = n * size >= plain.length;
    lines.push(await slice.setProtectedHeader({ alg: "dir", enc: "A256GCM", n, last }).encrypt(key));
  }
  return `${lines.join("\n")}\n`;
}

const given = readFileSync(from);
writeFileSync(to, what === "open" ? await open(given.toString()) : await seal(given));
