//! The core's modules in reading order: one uses only those above it. So each can be read, and trusted, without the ones below.

use super::tree::{File, files_in, none, root, without_comments};
use std::collections::BTreeSet;

/// The modules in the order in which the core's first file names them.
fn order() -> Vec<String> {
    let first = std::fs::read_to_string(root().join("core/src/lib.rs")).unwrap();
    let modules = without_comments(&first)
        .lines()
        .filter_map(|line| {
            line.trim()
                .strip_prefix("pub mod ")?
                .strip_suffix(';')
                .map(str::to_owned)
        })
        .collect::<Vec<_>>();
    assert!(modules.len() > 5, "{modules:?}");
    modules
}

/// The first names after each `crate::`, those in braces included, and those reached from a file of the first level by `super::`.
fn used(code: &str, depth: usize) -> BTreeSet<String> {
    let code: String = code.split_whitespace().collect::<Vec<_>>().join(" ");
    let up = "super::".repeat(depth);
    let mut names = BTreeSet::new();
    for mark in ["crate::", up.as_str()] {
        for (at, _) in code.match_indices(mark) {
            let is_word = |sign: char| sign.is_alphanumeric() || sign == '_' || sign == ':';
            if code[..at].ends_with(is_word) {
                continue;
            }
            let rest = &code[at + mark.len()..];
            match rest.strip_prefix('{') {
                Some(group) => names.extend(firsts(group)),
                None => names.extend(name(rest)),
            }
        }
    }
    names
}

/// The name at the head of a path.
fn name(path: &str) -> Option<String> {
    let end = path
        .find(|sign: char| !sign.is_alphanumeric() && sign != '_')
        .unwrap_or(path.len());
    (end > 0).then(|| path[..end].to_owned())
}

/// The names at the head of each path in a group that was just opened.
fn firsts(group: &str) -> Vec<String> {
    let (mut depth, mut names, mut is_first) = (1, Vec::new(), true);
    for (at, sign) in group.char_indices() {
        match sign {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 1 => is_first = true,
            ' ' => {}
            _ if is_first && depth == 1 => {
                names.extend(name(&group[at..]));
                is_first = false;
            }
            _ => {}
        }
        if depth == 0 {
            break;
        }
    }
    names
}

/// The module that a file belongs to, and how many `super::` lead from it out of that module.
fn place(file: &File) -> Option<(String, usize)> {
    let within = file.path.strip_prefix("core/src/")?.strip_suffix(".rs")?;
    let parts: Vec<&str> = within.split('/').filter(|part| *part != "mod").collect();
    (parts != ["lib"]).then(|| (parts[0].to_owned(), parts.len()))
}

#[test]
fn a_module_uses_only_those_above_it() {
    let order = order();
    let place_of = |module: &str| order.iter().position(|one| one == module);
    let (mut complaints, mut uses) = (Vec::new(), 0);
    for file in files_in("core/src/", &[".rs"]) {
        let Some((module, depth)) = place(&file) else {
            continue;
        };
        let here = place_of(&module)
            .unwrap_or_else(|| panic!("{} is in no module of the list", file.path));
        for other in used(&without_comments(&file.text), depth) {
            if let Some(there) = place_of(&other) {
                uses += 1;
                if there > here {
                    complaints.push(format!(
                        "{}: {module} uses {other}, which comes after it",
                        file.path
                    ));
                }
            }
        }
    }
    assert!(uses > 50, "only {uses} uses were found");
    none(
        &complaints,
        "The reading order of core/src/lib.rs is the order of use.",
    );
}

#[test]
fn uses_are_found_in_every_form() {
    let check = |code: &str, depth, expected: &[&str]| {
        let expected: BTreeSet<String> = expected.iter().map(|name| (*name).to_owned()).collect();
        assert_eq!(used(code, depth), expected, "{code}");
    };
    check("use crate::money::Money;", 1, &["money"]);
    check(
        "use crate::{id::{BookId, view}, money,\n stamp::At};",
        1,
        &["id", "money", "stamp"],
    );
    check("let a = crate::day::Day::new();", 1, &["day"]);
    check("pub(crate) use fold; other_crate::view();", 1, &[]);
    check("use super::view::decide;", 1, &["view"]);
    check("use super::view::decide;", 2, &[]);
    check("use super::super::view::decide;", 2, &["view"]);
}
