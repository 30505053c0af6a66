//! Takes out of scripts and style sheets what only their makers read: whole lines of comment, and the blanks at the head of lines.

use std::path::Path;

use super::{files, has_ending, load};
use crate::fail::{Done, While, fail};

/// Makes every script and style sheet of the build lean.
///
/// # Errors
/// When one holds what this cannot read: a text over several lines, or a comment that does not end.
pub fn lean(dist: &Path) -> Done {
    for name in files(dist)? {
        let (is_script, is_sheet) = (has_ending(&name, "js"), has_ending(&name, "css"));
        if !is_script && !is_sheet {
            continue;
        }
        let text = String::from_utf8(load(dist, &name)?).or_fail(format!("{name} is not UTF-8"))?;
        if text.lines().any(|line| line.matches('`').count() % 2 != 0) {
            return fail(format!("{name} has a text over several lines"));
        }
        let Some(lean) = without_comments(&text, is_script) else {
            return fail(format!("{name} has a comment that does not end"));
        };
        std::fs::write(dist.join(&name), lean).or_fail(format!("writing {name}"))?;
    }
    Ok(())
}

/// Only comments that begin a line are taken: one in the middle may be part of a text. `None` when one does not end.
fn without_comments(text: &str, is_script: bool) -> Option<String> {
    let mut lean = String::with_capacity(text.len());
    let mut lines = text.lines().map(str::trim);
    while let Some(line) = lines.next() {
        let mut line = line;
        while let Some(comment) = line.strip_prefix("/*") {
            // A mark that the build fills in stands before code on its line.
            let (mut rest, mut end) = (comment, comment.find("*/"));
            while end.is_none() {
                rest = lines.next()?;
                end = rest.find("*/");
            }
            line = rest[end? + 2..].trim_start();
        }
        if line.is_empty() || is_script && line.starts_with("//") {
            continue;
        }
        lean.push_str(line);
        // A sheet's lines end in a sign that needs no line's end; in a script a line's end may end a statement.
        if is_script || !line.ends_with(['{', '}', ';', ',']) {
            lean.push('\n');
        }
    }
    Some(lean)
}

#[cfg(test)]
mod tests {
    use super::without_comments;

    #[test]
    fn lines_of_comment_and_leading_blanks_go() {
        let check = |text: &str, is_script, lean: Option<&str>| {
            assert_eq!(without_comments(text, is_script).as_deref(), lean, "{text}");
        };
        check(
            "// a\nlet x = 1; // kept\n\n  f();\n",
            true,
            Some("let x = 1; // kept\nf();\n"),
        );
        check("/** a\n * b\n */\nlet x;\n", true, Some("let x;\n"));
        check("/* a */ /* b */ let x;\n", true, Some("let x;\n"));
        check(
            "const a = \"/* no */\";\n",
            true,
            Some("const a = \"/* no */\";\n"),
        );
        check("a,\nb {\n  c: d;\n}\n/* e */\n", false, Some("a,b {c: d;}"));
        check("a\nb { c: d }\n", false, Some("a\nb { c: d }"));
        check("/* a\n", true, None);
    }
}
