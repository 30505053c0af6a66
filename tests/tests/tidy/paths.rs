//! Documents drift from the code unless what they name is there.

use super::tree::{File, files, none, paths};
use std::collections::BTreeSet;

/// The documents that people read first.
const DOCUMENTS: [&str; 2] = ["README.md", "DEVELOPERS.md"];
/// A bare name with one of these ends is a file's name.
const ENDS: [&str; 10] = [
    ".rs",
    ".md",
    ".toml",
    ".lock",
    ".js",
    ".css",
    ".html",
    ".json",
    ".svg",
    ".webmanifest",
];

/// Everything that exists under version control: files, and the folders that they make.
fn known() -> BTreeSet<String> {
    let mut known = BTreeSet::new();
    for path in paths() {
        for (at, _) in path.match_indices('/') {
            known.insert(path[..at].to_owned());
        }
        known.insert(path);
    }
    known
}

/// The targets of links that lead into the project.
fn links(text: &str) -> impl Iterator<Item = &str> {
    text.split("](").skip(1).filter_map(|rest| {
        let target = rest.split([')', '#', ' ']).next()?;
        (!target.is_empty() && !target.contains(':')).then_some(target)
    })
}

/// Words in code, between backticks or indented or fenced, and in prose, that look like paths of ours. What stands after a star or a
/// brace names more than one file; its folder has to be there.
fn named<'a>(text: &'a str, known: &BTreeSet<String>) -> Vec<&'a str> {
    let is_path = |sign: char| sign.is_alphanumeric() || "/._-*{},".contains(sign);
    let words = text.split(|sign: char| !is_path(sign));
    let words = words.map(|word| word.trim_end_matches(['.', ',', '/', '-']));
    let words = words.map(|word| word.strip_prefix("./").unwrap_or(word));
    let is_ours = |word: &&str| match word.split_once('/') {
        Some((folder, _)) => known.contains(folder) && !folder.is_empty(),
        None => ENDS
            .iter()
            .any(|end| word.len() > end.len() && word.ends_with(end)),
    };
    let whole = |word: &'a str| {
        let many = word
            .find(['*', '{'])
            .map(|at| word[..at].rfind('/').unwrap_or(0));
        many.map_or(word, |end| &word[..end])
    };
    words.filter(is_ours).map(whole).collect()
}

fn exists(path: &str, known: &BTreeSet<String>) -> bool {
    let is_named = |one: &String| one.rsplit('/').next() == Some(path);
    known.contains(path) || (!path.contains('/') && known.iter().any(is_named))
}

#[test]
fn paths_that_documents_name_are_there() {
    let known = known();
    let documents: Vec<File> = files(&[".md"]);
    let mut complaints: Vec<String> = DOCUMENTS
        .iter()
        .filter(|name| !documents.iter().any(|file| file.path == **name))
        .map(|name| format!("{name} itself"))
        .collect();
    for file in documents {
        let folder = file.path.rsplit_once('/').map_or("", |(folder, _)| folder);
        for link in links(&file.text) {
            let path = format!("{folder}/{}", link.trim_end_matches('/'));
            if !known.contains(path.trim_start_matches('/')) {
                complaints.push(format!("{}: ({link})", file.path));
            }
        }
        for path in named(&file.text, &known)
            .into_iter()
            .filter(|path| !exists(path, &known))
        {
            complaints.push(format!("{}: {path}", file.path));
        }
    }
    complaints.dedup();
    none(
        &complaints,
        "A document names what is not under version control:",
    );
}

#[test]
fn paths_are_told_from_other_words() {
    let known = known();
    let text = "See `core/src/lib.rs`, app/index.html. Either/or is none; `core/src/{a,b}.rs` is many, and so is core/src/*.rs.
        Run `cargo xtask test`; [more](README.md#run) or [else](https://a.example/b.md). `Nowhere.toml`, tests/none.rs.";
    assert_eq!(
        named(text, &known),
        [
            "core/src/lib.rs",
            "app/index.html",
            "core/src",
            "core/src",
            "README.md",
            "Nowhere.toml",
            "tests/none.rs"
        ]
    );
    assert_eq!(links(text).collect::<Vec<_>>(), ["README.md"]);
    assert!(exists("core/src", &known) && exists("lib.rs", &known) && exists("Cargo.toml", &known));
    assert!(!exists("Nowhere.toml", &known) && !exists("tests/none.rs", &known));
}
