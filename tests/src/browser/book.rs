//! The stored book, read past the app straight from the browser's database, and book files read by a
//! reader of our own.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;
use sha2::{Digest, Sha256};

use super::failure::{Failure, Outcome, wrong};
use super::tab::Tab;

/// Reads all four stores of this scope's database in one transaction; nothing if there is none.
const READ: &str = r#"
const name = `haulwren:${new URL("./", location.href).pathname}`;
if (!(await indexedDB.databases()).some((d) => d.name === name)) return null;
const wait = (request) => new Promise((yes, no) => { request.onsuccess = () => yes(request.result); request.onerror = () => no(request.error); });
const db = await wait(indexedDB.open(name));
try {
  const names = [...db.objectStoreNames];
  const transaction = db.transaction(names, "readonly");
  const stores = await Promise.all(names.map((store) => wait(transaction.objectStore(store).getAll())));
  const plain = (row) => row.b === undefined ? row : { ...row, b: row.b.size ?? row.b.byteLength };
  return Object.fromEntries(names.map((store, n) => [store, stores[n].map(plain)]));
} finally { db.close(); }
"#;

/// The four stores as they lie in the database.
#[derive(Debug, Clone, Default)]
pub struct Book {
    /// Rows of each store in key order.
    pub stores: BTreeMap<String, Vec<Value>>,
    /// The change lines, parsed, in key order.
    pub changes: Vec<Value>,
}

impl Tab {
    /// Reads the stored book.
    ///
    /// # Errors
    /// When there is no database or a change line is not JSON.
    pub async fn stored_book(&self) -> Outcome<Book> {
        let stores: Option<BTreeMap<String, Vec<Value>>> = self.ask_later(READ, &[]).await?;
        let Some(stores) = stores else {
            return wrong("there is no database of that name");
        };
        let mut changes = Vec::new();
        for row in stores.get("changes").into_iter().flatten() {
            let line = row["t"].as_str().unwrap_or_default();
            let change: Value = serde_json::from_str(line)?;
            if change["k"] != row["k"] {
                return wrong(format!("row {} holds the change {}", row["k"], change["k"]));
            }
            changes.push(change);
        }
        Ok(Book { stores, changes })
    }
}

impl Book {
    /// The sequence numbers of each device, in order.
    ///
    /// # Errors
    /// When a key is not `device/seq`.
    pub fn sequences(&self) -> Outcome<BTreeMap<String, Vec<u64>>> {
        let mut found = BTreeMap::<String, Vec<u64>>::new();
        for change in &self.changes {
            let key = change["k"].as_str().unwrap_or_default();
            let parts = key.split_once('/');
            let Some((device, Ok(number))) = parts.map(|(d, n)| (d, n.parse())) else {
                return wrong(format!("a change has the key {key:?}"));
            };
            found.entry(device.to_owned()).or_default().push(number);
        }
        Ok(found)
    }

    /// Checks that each device's numbers run 1, 2, 3… without a hole or a double, and gives how far.
    ///
    /// # Errors
    /// Names the first number that is out of order.
    pub fn expect_no_holes(&self) -> Outcome<BTreeMap<String, u64>> {
        let mut ends = BTreeMap::new();
        for (device, numbers) in self.sequences()? {
            for (expected, number) in (1..).zip(&numbers) {
                if *number != expected {
                    return wrong(format!(
                        "device {device}: {number} stands where {expected} should"
                    ));
                }
            }
            ends.insert(device, numbers.len() as u64);
        }
        Ok(ends)
    }

    /// The highest own number; 0 in an empty book. For books that only one device has written.
    ///
    /// # Errors
    /// When there are holes, or more than one device.
    pub fn end(&self) -> Outcome<u64> {
        let ends = self.expect_no_holes()?;
        if ends.len() > 1 {
            return wrong(format!("several devices have written: {ends:?}"));
        }
        Ok(ends.into_values().next().unwrap_or(0))
    }

    /// The ids of the things that the changes made and did not take back, sorted. The last change of
    /// `gone` counts; enough for books of one device.
    pub fn things(&self) -> Vec<String> {
        let mut there = BTreeSet::new();
        for change in self
            .changes
            .iter()
            .filter(|change| change["kind"] == "thing")
        {
            let id = change["id"].as_str().unwrap_or_default().to_owned();
            if change["set"]["gone"] == Value::Bool(true) {
                there.remove(&id);
            } else {
                there.insert(id);
            }
        }
        there.into_iter().collect()
    }

    /// Checks that every change is folded into a stored record, and every record comes from a change.
    ///
    /// # Errors
    /// Names the records that differ.
    pub fn expect_folded(&self) -> Outcome<()> {
        let key = |kind: &Value, id: &Value| {
            format!(
                "{}/{}",
                kind.as_str().unwrap_or_default(),
                id.as_str().unwrap_or_default()
            )
        };
        let wanted: BTreeSet<_> = self
            .changes
            .iter()
            .map(|c| key(&c["kind"], &c["id"]))
            .collect();
        let records = self.stores.get("records").into_iter().flatten();
        let found: BTreeSet<_> = records
            .filter_map(|row| row["k"].as_str())
            .map(str::to_owned)
            .collect();
        if wanted == found {
            return Ok(());
        }
        let differ: Vec<_> = wanted.symmetric_difference(&found).collect();
        wrong(format!("changes and records differ in {differ:?}"))
    }
}

/// Checks a book file: header, the change count and the SHA-256 of all lines before the trailer. Gives
/// the changes in the order of their keys; the file has them in whatever order their devices allow.
///
/// # Errors
/// Names what is not as the format says.
pub fn check_book_file(text: &str) -> Outcome<Vec<Value>> {
    let lines: Vec<_> = text
        .strip_suffix('\n')
        .unwrap_or(text)
        .split('\n')
        .collect();
    let [header, changes @ .., trailer] = lines.as_slice() else {
        return wrong(format!("a book file of {} lines", lines.len()));
    };
    let parsed: Value = serde_json::from_str(header)?;
    if parsed["format"] != "haulwren-book" || parsed["version"] != 1 {
        return wrong(format!("not the header of a book file: {header}"));
    }
    let parsed: Value = serde_json::from_str(trailer)?;
    if parsed["count"] != changes.len() {
        return wrong(format!(
            "{} changes, but the trailer says {}",
            changes.len(),
            parsed["count"]
        ));
    }
    let sum = Sha256::digest(lines[..lines.len() - 1].join("\n").as_bytes());
    let sum = sum
        .iter()
        .fold(String::new(), |text, byte| format!("{text}{byte:02x}"));
    if parsed["sha256"] != sum {
        return wrong(format!(
            "the digest is {sum}, but the trailer says {}",
            parsed["sha256"]
        ));
    }
    let changes = changes
        .iter()
        .map(|line| serde_json::from_str(line).map_err(Failure::from));
    let mut changes = changes.collect::<Outcome<Vec<Value>>>()?;
    // Their keys are texts of one width.
    changes.sort_by_cached_key(|change| change["k"].to_string());
    Ok(changes)
}
