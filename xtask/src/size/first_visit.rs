//! Which files a first visit needs: the page, the worker, and the styles, scripts and module that can be
//! reached from the page. A module that only a script names comes late, with what needs it. The rest (icons, rescue page) is fetched by the
//! worker afterwards.

use std::path::Path;

use crate::dist::{has_ending, load};
use crate::fail::Done;

/// The files in the order in which they are found.
pub struct Visit {
    /// Needed before the page works.
    pub first: Vec<String>,
    /// Modules and styles that are fetched when they are needed.
    pub late: Vec<String>,
}

/// Looks for them.
///
/// # Errors
/// When a file of the build cannot be read.
pub fn files(dist: &Path) -> Done<Visit> {
    let all = crate::dist::files(dist)?;
    // The worker's list names everything, so the worker counts but is not searched.
    let mut reached = vec!["worker.js".to_owned(), "index.html".to_owned()];
    let mut late: Vec<String> = Vec::new();
    let mut next = 1;
    while let Some(name) = reached.get(next) {
        next += 1;
        if has_ending(name, "wasm") {
            continue;
        }
        let bytes = load(dist, name)?;
        let text = String::from_utf8_lossy(&bytes);
        let folder = name.rfind('/').map_or("", |slash| &name[..=slash]);
        let is_named = |other: &str| {
            let from_here = other.strip_prefix(folder).unwrap_or(other);
            text.contains(&format!("./{from_here}"))
        };
        let by_script = has_ending(name, "js");
        let mut found = Vec::new();
        for other in &all {
            let is_known = reached.contains(other) || late.contains(other);
            if is_known || !is_code(other) || !is_named(other) {
                continue;
            }
            if by_script && has_ending(other, "wasm") {
                late.push(other.clone());
            } else {
                found.push(other.clone());
            }
        }
        reached.extend(found);
    }
    // A style sheet that nothing of these names is asked for by a module, with what comes late.
    for other in &all {
        if has_ending(other, "css") && !reached.contains(other) {
            late.push(other.clone());
        }
    }
    Ok(Visit {
        first: reached,
        late,
    })
}

fn is_code(name: &str) -> bool {
    ["css", "js", "wasm"]
        .iter()
        .any(|end| has_ending(name, end))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_page_leads_to_counts_and_what_only_the_worker_keeps_does_not() {
        let dist = std::env::temp_dir().join(format!("haulwren-visit-{}", std::process::id()));
        std::fs::create_dir_all(&dist).expect("a folder");
        let write =
            |name: &str, text: &str| std::fs::write(dist.join(name), text).expect("written");
        write(
            "index.html",
            r#"<link href="./a.css"><script src="./b.js" data-wasm="./d.wasm">"#,
        );
        write("a.css", "");
        write(
            "b.js",
            r#"import "./c.js"; link("./rescue.html"); register("./worker.js")"#,
        );
        write("c.js", r#"fetch("./e.wasm")"#);
        write("e.wasm", "");
        write("f.css", "");
        write("d.wasm", "./other.js");
        write("other.js", "");
        write("rescue.html", "");
        write("worker.js", r#"["./other.js","./rescue.html"]"#);
        let found = files(&dist).expect("read");
        std::fs::remove_dir_all(&dist).expect("removed");
        let expected = ["worker.js", "index.html", "a.css", "b.js", "d.wasm", "c.js"];
        assert_eq!(found.first, expected);
        assert_eq!(found.late, ["e.wasm", "f.css"]);
    }
}
