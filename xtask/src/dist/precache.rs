//! The worker's list: every file that the app needs without signal, each with the digest that it must have,
//! and a version that changes with any of them.

use std::path::Path;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde::Serialize;
use sha2::{Digest, Sha256, Sha384};

use super::{files, load};
use crate::fail::{Done, Fail, While};

const WORKER: &str = "worker.js";
/// Pictures of the app, for who has not installed it yet: nothing that runs needs them.
const SCREENS: &str = "screens/";
/// Stands in the worker before the value that is filled in here.
const MARK: &str = "/*@build*/";

#[derive(Serialize)]
struct Build {
    version: String,
    files: Vec<File>,
}

#[derive(Serialize)]
struct File {
    /// Relative to the worker; the page itself is `./`.
    url: String,
    /// Subresource Integrity, section 3.5: `sha384-` and the digest in base 64.
    integrity: String,
}

/// Fills the list in; gives back the version, 16 hexadecimal digits.
///
/// # Errors
/// When a file cannot be read or the worker has no place for the list.
pub fn fill(dist: &Path) -> Done<String> {
    let worker = String::from_utf8(load(dist, WORKER)?).or_fail("worker.js is not UTF-8")?;
    let mut all = Sha256::new();
    let mut list = Vec::new();
    for name in files(dist)? {
        if name.starts_with(SCREENS) {
            continue;
        }
        let bytes = load(dist, &name)?;
        all.update(name.as_bytes());
        all.update([0]);
        all.update(Sha256::digest(&bytes));
        if name != WORKER {
            let page = name == "index.html";
            list.push(File {
                url: format!("./{}", if page { "" } else { &name }),
                integrity: format!("sha384-{}", STANDARD.encode(Sha384::digest(&bytes))),
            });
        }
    }
    let mut head = [0; 8];
    head.copy_from_slice(&all.finalize()[..8]);
    let version = format!("{:016x}", u64::from_be_bytes(head));
    let build = Build {
        version: version.clone(),
        files: list,
    };
    let json = serde_json::to_string(&build).or_fail("writing the worker's list")?;
    let filled = replace(&worker, &json)?;
    std::fs::write(dist.join(WORKER), filled).or_fail("writing worker.js")?;
    Ok(version)
}

/// Replaces the value between the mark and the next semicolon.
fn replace(worker: &str, json: &str) -> Done<String> {
    let missing = || Fail(format!("worker.js has no line with {MARK}{{…}};"));
    let (before, rest) = worker.split_once(MARK).ok_or_else(missing)?;
    let (_, after) = rest.split_once(';').ok_or_else(missing)?;
    Ok(format!("{before}{MARK}{json};{after}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_value_after_the_mark_is_replaced_and_nothing_else() {
        let worker = "const A = 1;\nconst B = /*@build*/{\"version\":\"dev\"};\nconst C = 2;\n";
        let filled = replace(worker, "{}").expect("has the mark");
        assert_eq!(
            filled,
            "const A = 1;\nconst B = /*@build*/{};\nconst C = 2;\n"
        );
        assert!(replace("const A = 1;", "{}").is_err());
    }

    #[test]
    fn the_list_names_every_file_but_the_worker_and_the_screens_with_its_digest() {
        let dist = std::env::temp_dir().join(format!("haulwren-precache-{}", std::process::id()));
        std::fs::create_dir_all(dist.join("part")).expect("a folder");
        std::fs::create_dir_all(dist.join("screens")).expect("a folder");
        let write =
            |name: &str, text: &str| std::fs::write(dist.join(name), text).expect("written");
        write("index.html", "");
        write("part/a.js", "abc");
        write("part/a.js.br", "copy");
        write("screens/decide.png", "");
        write("worker.js", "const B = /*@build*/{};");
        let first = fill(&dist).expect("filled");
        let worker = std::fs::read_to_string(dist.join("worker.js")).expect("read");
        write("part/a.js", "abd");
        write("worker.js", "const B = /*@build*/{};");
        let second = fill(&dist).expect("filled again");
        std::fs::remove_dir_all(&dist).expect("removed");

        // SHA-384 of no bytes and of "abc" in base 64, as `openssl dgst -sha384` gives them.
        let empty = "OLBgp1GsljhM2TJ+sbHjaiH9txEUvgdDTAzHv2P24donTt6/529l+9Ua0vFImLlb";
        let abc = "ywB1P0WjXou1oD1pmsZQBycsMqsO3tFjGotgWkP/W+2AhgcroefMI1i67KE0yCWn";
        let list = format!(
            "const B = /*@build*/{{\"version\":\"{first}\",\"files\":[\
             {{\"url\":\"./\",\"integrity\":\"sha384-{empty}\"}},\
             {{\"url\":\"./part/a.js\",\"integrity\":\"sha384-{abc}\"}}]}};"
        );
        assert_eq!(worker, list);
        assert_eq!(first.len(), 16);
        assert_ne!(first, second, "another content is another version");
    }
}
