//! What code must not hold.

use super::tree::{files, files_in, none, without_comments};

/// The words of a text, as Rust's names are words.
fn words(code: &str) -> impl Iterator<Item = &str> {
    code.split(|sign: char| !sign.is_alphanumeric() && sign != '_')
}

/// Binary fractions have no cents.
#[test]
fn the_core_has_no_floating_point() {
    let mut complaints = Vec::new();
    for file in files_in("core/src/", &[".rs"]) {
        for (line, code) in (1..).zip(without_comments(&file.text).lines()) {
            // A suffix counts too: `1_f64`.
            if words(code).any(|word| word.ends_with("f32") || word.ends_with("f64")) {
                complaints.push(format!("{}:{line}: {}", file.path, code.trim()));
            }
        }
    }
    none(
        &complaints,
        "The trade counts in whole numbers and decimals only.",
    );
}

/// The core is given the time, chance and everything else: so its answers can be checked, and are the same on every device.
#[test]
fn the_core_reads_nothing_from_outside() {
    let outside = [
        "std::fs",
        "std::env",
        "std::net",
        "std::io",
        "std::process",
        "std::thread",
        "std::time",
        "js_sys",
        "web_sys",
        "wasm_bindgen",
        "now_utc",
        "now_local",
        "new_v4",
        "now_v7",
        "rand",
    ];
    let mut complaints = Vec::new();
    for file in files_in("core/src/", &[".rs"]) {
        let code = without_comments(&file.text);
        for name in outside {
            let (parts, name_parts): (Vec<&str>, Vec<&str>) = (
                words(&code).filter(|word| !word.is_empty()).collect(),
                words(name).filter(|word| !word.is_empty()).collect(),
            );
            if parts
                .windows(name_parts.len())
                .any(|found| found == name_parts)
            {
                complaints.push(format!("{}: {name}", file.path));
            }
        }
    }
    none(
        &complaints,
        "No input or output, no clock, no chance, no browser types in the core.",
    );
}

/// A served build prints nothing for debug forms (see `xtask/src/dist/flags.rs`): what people read says it in words.
#[test]
fn people_read_no_debug_forms() {
    let mut complaints = Vec::new();
    for file in files_in("app/src/", &[".rs"])
        .into_iter()
        .chain(files_in("core/src/", &[".rs"]))
    {
        let is_test = ["/tests/", "/tests.rs", "/worked/"];
        if is_test.iter().any(|part| file.path.contains(part)) {
            continue;
        }
        let code = without_comments(&file.text);
        let shipped = code.split("#[cfg(test)]").next().unwrap_or_default();
        for (line, code) in (1..).zip(shipped.lines()) {
            let is_debug = code.contains(concat!(":", "?}")) || code.contains(concat!(":", "#?}"));
            // What goes to the console is for whoever works on it.
            if is_debug && !code.contains("logging::") {
                complaints.push(format!("{}:{line}: {}", file.path, code.trim()));
            }
        }
    }
    none(&complaints, "Say it in words, or by `fault::said`.");
}

/// What is not done is said in words, to people, and not left in the code.
#[test]
fn nothing_is_left_undone_or_switched_off() {
    let marks = [
        concat!("to", "do!"),
        concat!("unimple", "mented!"),
        concat!("db", "g!"),
        concat!("#[ig", "nore"),
        concat!("FIX", "ME"),
        concat!("TO", "DO"),
    ];
    let mut complaints = Vec::new();
    for file in files(&[".rs", ".js", ".css", ".html"]) {
        for (line, text) in (1..).zip(file.text.lines()) {
            if let Some(mark) = marks.iter().find(|mark| text.contains(*mark)) {
                complaints.push(format!("{}:{line}: {mark}", file.path));
            }
        }
    }
    none(
        &complaints,
        "No stub, no test that is switched off, no note to oneself.",
    );
}

/// Somebody else's machine has other folders.
#[test]
fn no_path_of_a_machine_is_named() {
    let homes = [
        concat!("/ro", "ot/"),
        concat!("/ho", "me/"),
        concat!("/Us", "ers/"),
        concat!("C:", "\\Users"),
    ];
    let mut complaints = Vec::new();
    for file in files(&[
        ".rs", ".js", ".css", ".html", ".md", ".toml", ".json", ".txt", ".ci/run",
    ]) {
        for (line, text) in (1..).zip(file.text.lines()) {
            if homes.iter().any(|home| text.contains(home)) {
                complaints.push(format!("{}:{line}", file.path));
            }
        }
    }
    none(&complaints, "Folders are found, not named.");
}
