//! The style sheets: they become one, so what two of them say of one class is said by chance of each other's elements too.

use super::tree::root;
use std::collections::BTreeMap;

/// The selectors of each sheet, outside of conditions such as a window's width, which only say more of what stands already.
fn sheets() -> BTreeMap<String, Vec<String>> {
    let folder = root().join("public/styles");
    let files = std::fs::read_dir(folder).unwrap().map(Result::unwrap);
    let sheets: BTreeMap<_, _> = files
        .map(|file| {
            let text = std::fs::read_to_string(file.path()).unwrap();
            (file.file_name().into_string().unwrap(), selectors(&text))
        })
        .collect();
    assert!(sheets.len() > 5, "{:?}", sheets.keys());
    sheets
}

fn selectors(sheet: &str) -> Vec<String> {
    let mut plain = String::new();
    for (at, part) in sheet.split("/*").enumerate() {
        plain += if at == 0 {
            part
        } else {
            part.split_once("*/").unwrap().1
        };
    }
    let (mut found, mut depth, mut before) = (Vec::new(), 0, String::new());
    for sign in plain.chars() {
        match sign {
            '{' => {
                if depth == 0 && !before.contains('@') {
                    found.extend(before.split(',').map(|one| one.trim().to_owned()));
                }
                depth += 1;
                before.clear();
            }
            '}' => {
                depth -= 1;
                before.clear();
            }
            ';' => before.clear(),
            _ => before.push(sign),
        }
    }
    found
}

/// The classes of a selector's first element, such as `key` and `side` of `.key.side > b`.
fn classes(selector: &str) -> Vec<&str> {
    let first = selector
        .split([' ', '>', ':', '['])
        .next()
        .unwrap_or_default();
    if first.starts_with('.') {
        first.split('.').skip(1).collect()
    } else {
        Vec::new()
    }
}

#[test]
fn no_two_sheets_style_the_same_thing() {
    let sheets = sheets();
    let mut wrong = Vec::new();
    for (name, own) in &sheets {
        for (other, theirs) in sheets.iter().filter(|(other, _)| *other != name) {
            for selector in own {
                if name < other && theirs.contains(selector) {
                    wrong.push(format!("{name} and {other} both style {selector}"));
                }
                // `.key.pile` in one sheet also gets what another says of `.pile`.
                for class in classes(selector).iter().skip(1) {
                    // What the base says is meant for all.
                    if other != "base.css" && theirs.contains(&format!(".{class}")) {
                        wrong.push(format!(
                            "{selector} of {name} also gets .{class} of {other}"
                        ));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn selectors_are_found() {
    let sheet = "/* a { */\n.a, .b > c { d: e; }\n@media (x) { .f { g: h; } }\n.i::before { content: \"\"; }";
    assert_eq!(selectors(sheet), [".a", ".b > c", ".i::before"]);
    assert_eq!(classes(".key.side > b"), ["key", "side"]);
    assert_eq!(classes("b.key"), [""; 0]);
}
