//! Files stay small and say what they are for.

use super::tree::{File, files, none};

/// A file of the house has one clear job and about 60 to 250 lines; 500 is a defect. This is where it has to be split.
const LONGEST: usize = 400;
/// The task runner is thin.
const LONGEST_TASK: usize = 150;

fn limit(path: &str) -> usize {
    if path.starts_with("xtask/") {
        LONGEST_TASK
    } else {
        LONGEST
    }
}

#[test]
fn no_file_is_long() {
    let too_long = |file: File| {
        let (lines, limit) = (file.text.lines().count(), limit(&file.path));
        (lines > limit).then(|| format!("{}: {lines} lines, {limit} at most", file.path))
    };
    let complaints: Vec<String> = files(&[".rs", ".css", ".js"])
        .into_iter()
        .filter_map(too_long)
        .collect();
    none(
        &complaints,
        "A file of more lines has more than one job: split it.",
    );
}

#[test]
fn every_file_opens_with_what_it_is_for() {
    let opens = |file: &File| {
        let text = file.text.as_str();
        match file.path.rsplit_once('.').unwrap().1 {
            "rs" => text.starts_with("//! "),
            "js" => text.starts_with("// ") || text.starts_with("/* "),
            "css" => text.starts_with("/* "),
            _ => text
                .trim_start()
                .trim_start_matches("<!doctype html>")
                .trim_start()
                .starts_with("<!-- "),
        }
    };
    let complaints: Vec<String> = files(&[".rs", ".js", ".css", ".html"])
        .into_iter()
        .filter(|file| !opens(file))
        .map(|file| file.path)
        .collect();
    none(
        &complaints,
        "The first words of a file are a comment that says what it is for.",
    );
}
