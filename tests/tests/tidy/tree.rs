//! The files under version control, with their texts.

use std::path::{Path, PathBuf};
use std::process::Command;

/// A file of the tree.
pub struct File {
    /// Its path from the root, with strokes.
    pub path: String,
    pub text: String,
}

pub fn root() -> PathBuf {
    let tests = Path::new(env!("CARGO_MANIFEST_DIR"));
    tests.parent().unwrap().to_owned()
}

/// The paths of all files that git tracks and that are there.
pub fn paths() -> Vec<String> {
    let mut git = Command::new("git");
    let listed = git.args(["ls-files", "-z"]).current_dir(root()).output();
    let listed = listed.expect("git lists the files of the project");
    assert!(
        listed.status.success(),
        "git does not list the files: {listed:?}"
    );
    let listed = String::from_utf8(listed.stdout).unwrap();
    let paths = listed
        .split('\0')
        .filter(|path| root().join(path).is_file());
    let paths: Vec<String> = paths.map(str::to_owned).collect();
    assert!(paths.len() > 50, "only {} files are tracked", paths.len());
    paths
}

/// The files whose names end in one of these.
pub fn files(ends: &[&str]) -> Vec<File> {
    let of_kind = |path: &String| ends.iter().any(|end| path.ends_with(end));
    let files: Vec<File> = paths()
        .into_iter()
        .filter(of_kind)
        .map(|path| {
            let text = std::fs::read_to_string(root().join(&path));
            let text = text.unwrap_or_else(|error| panic!("{path}: {error}"));
            File { path, text }
        })
        .collect();
    assert!(!files.is_empty(), "no file ends in {ends:?}");
    files
}

/// The files below a folder that end so.
pub fn files_in(folder: &str, ends: &[&str]) -> Vec<File> {
    let mut files = files(ends);
    files.retain(|file| file.path.starts_with(folder));
    assert!(!files.is_empty(), "no file in {folder}");
    files
}

/// Fails with all complaints at once.
pub fn none(complaints: &[String], rule: &str) {
    assert!(
        complaints.is_empty(),
        "{rule}\n  {}\n",
        complaints.join("\n  ")
    );
}

/// Rust without its comments of lines, texts left alone.
pub fn without_comments(rust: &str) -> String {
    let code = |line: &str| {
        let mut in_text = false;
        let mut before = ' ';
        for (at, sign) in line.char_indices() {
            match sign {
                '"' if before != '\\' && before != '\'' => in_text = !in_text,
                '/' if before == '/' && !in_text => return line[..at - 1].to_owned(),
                _ => {}
            }
            before = sign;
        }
        line.to_owned()
    };
    rust.lines().map(|line| code(line) + "\n").collect()
}

#[test]
fn comments_are_told_from_code_and_texts() {
    let check = |line: &str, code: &str| assert_eq!(without_comments(line), format!("{code}\n"));
    check("//! head", "");
    check("let a = 1; // one", "let a = 1; ");
    check(r#"let a = "https://x"; // y"#, r#"let a = "https://x"; "#);
    check(r#"let a = "\"//"; //"#, r#"let a = "\"//"; "#);
    check("let a = 6 / 2;", "let a = 6 / 2;");
}
