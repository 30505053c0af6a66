//! Golden texts: comparing, and making the rows of a book comparable.
//!
//! What differs in every run is replaced in the order in which it appears: the device code by `DEVICE`,
//! each id by `ID1`, `ID2`…, wall times (in ms, and in stamps) by `TIME`, offsets by `OFFSET`, the day of the
//! run by `DAY`. Numbers, texts, fields and the order in stored texts stay; a row's own fields are put in the
//! order of the alphabet, the key first, because engines differ in that.

use std::path::{Path, PathBuf};

use haulwren_tests::browser::{Book, Failure, Outcome, wrong};
use serde_json::Value;

/// Compares a text with its golden file, or writes the file when asked to.
pub fn compare(name: &str, text: &str) -> Outcome<()> {
    let path: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/golden")
        .join(name);
    if std::env::var("HAULWREN_GOLDEN").is_ok_and(|mode| mode == "write") {
        return std::fs::write(&path, text)
            .map_err(Failure::system(format!("cannot write {name}")));
    }
    let trouble = Failure::system(format!("cannot read the golden text {name}"));
    let golden = std::fs::read_to_string(&path).map_err(trouble)?;
    if golden == text {
        return Ok(());
    }
    let differ = golden
        .lines()
        .zip(text.lines())
        .find(|(golden, found)| golden != found);
    let (golden, found) = differ.unwrap_or(("(another number of lines)", text));
    wrong(format!(
        "not as in {name}.\ngolden: {golden}\nfound:  {found}"
    ))
}

/// The rows of all stores, one a line, each starting with its store.
pub fn rows(book: &Book, day: &str) -> Outcome<String> {
    let own = book
        .stores
        .get("meta")
        .into_iter()
        .flatten()
        .find(|row| row["k"] == "device");
    let device = own
        .and_then(|row| row["v"].as_str())
        .unwrap_or_default()
        .trim_matches('"');
    if device.len() != 8 {
        return wrong(format!("{device:?} is no device code"));
    }
    let mut text = String::new();
    // Changes first, so that the ids get their numbers in the order in which they were made. They begin with
    // the time, so records of one kind stand in that order too.
    for store in ["changes", "records", "meta", "blobs"] {
        let rows = book.stores.get(store).into_iter().flatten();
        text.extend(rows.map(|row| format!("{store} {}\n", plain(row))));
    }
    Ok(numbered(&stampless(&timeless(
        &text.replace(device, "DEVICE").replace(day, "DAY"),
    ))))
}

/// A row as JSON with its texts unquoted once: what is stored as a JSON text is read as such.
fn plain(row: &Value) -> String {
    let fields = row.as_object().into_iter().flatten();
    let mut fields: Vec<_> = fields
        .map(|(key, value)| {
            let value = value
                .as_str()
                .map_or_else(|| value.to_string(), str::to_owned);
            (key != "k", format!("{key}={value}"))
        })
        .collect();
    fields.sort();
    let fields: Vec<_> = fields.into_iter().map(|(_, field)| field).collect();
    fields.join(" ")
}

/// Replaces what stands in the brackets of `"at":[ms,offset]` and `"bought":[ms,offset]`.
fn timeless(text: &str) -> String {
    let mut result = text.to_owned();
    for name in ["\"at\":[", "\"bought\":["] {
        let mut parts = result.split(name);
        let mut replaced = parts.next().unwrap_or_default().to_owned();
        for part in parts {
            let rest = part.find(']').map_or(part, |end| &part[end..]);
            replaced.push_str(name);
            replaced.push_str("TIME,OFFSET");
            replaced.push_str(rest);
        }
        result = replaced;
    }
    result
}

/// Replaces the wall time and counter of stamps: 12 and 4 hexadecimal digits before the device.
fn stampless(text: &str) -> String {
    let mut result = String::new();
    let mut rest = text;
    while let Some(at) = rest.find("-DEVICE") {
        let (before, after) = rest.split_at(at);
        let stamp = before
            .len()
            .checked_sub(17)
            .and_then(|start| before.split_at_checked(start));
        match stamp {
            Some((before, stamp)) if is_hex(stamp, &[4 + 8]) => {
                result.push_str(before);
                result.push_str("TIME");
            }
            _ => result.push_str(before),
        }
        let (device, after) = after.split_at("-DEVICE".len());
        result.push_str(device);
        rest = after;
    }
    result + rest
}

/// Replaces each id by its number.
fn numbered(text: &str) -> String {
    const LENGTH: usize = 36;
    let mut known: Vec<&str> = Vec::new();
    let mut result = String::new();
    let mut at = 0;
    while at < text.len() {
        let word = text
            .get(at..at + LENGTH)
            .filter(|word| is_hex(word, &[8, 13, 18, 23]));
        if let Some(word) = word {
            let number = known
                .iter()
                .position(|one| *one == word)
                .unwrap_or_else(|| {
                    known.push(word);
                    known.len() - 1
                });
            result.push_str("ID");
            result.push_str(&(number + 1).to_string());
            at += LENGTH;
        } else {
            let next = text[at..].chars().next().unwrap_or_default();
            result.push(next);
            at += next.len_utf8();
        }
    }
    result
}

/// Whether a text is all hexadecimal digits, but for hyphens at these places.
fn is_hex(text: &str, hyphens: &[usize]) -> bool {
    text.bytes().enumerate().all(|(at, byte)| {
        if hyphens.contains(&at) {
            byte == b'-'
        } else {
            byte.is_ascii_hexdigit()
        }
    })
}

#[test]
fn what_differs_in_every_run_is_replaced_and_nothing_else() {
    let text = "r=thing/0191b2a0-0000-7000-8000-00000000000a s=017f22e279b0-0003-DEVICE \
        t={\"at\":[1795279327123,-300],\"bought\":[1795279327000,60],\"id\":\"0191b2a0-0000-7000-8000-00000000000a\",\"sum\":600}";
    assert_eq!(
        numbered(&stampless(&timeless(text))),
        "r=thing/ID1 s=TIME-DEVICE t={\"at\":[TIME,OFFSET],\"bought\":[TIME,OFFSET],\"id\":\"ID1\",\"sum\":600}"
    );
}
