//! Looking into the folder of a build.

use std::path::Path;

use crate::fail::{Done, While, fail};

/// The module that the page starts with. Another may come late.
///
/// # Errors
/// When the folder cannot be read or there is not exactly one.
pub fn main_module(dist: &Path) -> Done<String> {
    let mut found = files(dist)?;
    found.retain(|name| name.ends_with("_bg.wasm"));
    match <[String; 1]>::try_from(found) {
        Ok([module]) => Ok(module),
        Err(found) => fail(format!(
            "the build should start with one module, not {found:?}"
        )),
    }
}

/// Every file below the folder but the compressed copies, as relative paths with `/`, sorted.
///
/// # Errors
/// When a folder cannot be read or a name is not UTF-8.
pub fn files(dist: &Path) -> Done<Vec<String>> {
    let mut found = Vec::new();
    collect(dist, "", &mut found)?;
    found.sort();
    Ok(found)
}

fn collect(folder: &Path, before: &str, found: &mut Vec<String>) -> Done {
    let doing = format!("listing {}", folder.display());
    for entry in std::fs::read_dir(folder).or_fail(&doing)? {
        let entry = entry.or_fail(&doing)?;
        let name = entry.file_name();
        let name = name.to_str().ok_or("a name is not UTF-8").or_fail(&doing)?;
        let relative = format!("{before}{name}");
        if entry.path().is_dir() {
            collect(&entry.path(), &format!("{relative}/"), found)?;
        } else if !["br", "gz"].iter().any(|end| has_ending(name, end)) {
            found.push(relative);
        }
    }
    Ok(())
}

/// Whether a file's name ends with a dot and this.
pub fn has_ending(name: &str, ending: &str) -> bool {
    Path::new(name).extension().is_some_and(|end| end == ending)
}

/// Reads a file of the build.
///
/// # Errors
/// When it cannot be read.
pub fn load(dist: &Path, name: &str) -> Done<Vec<u8>> {
    std::fs::read(dist.join(name)).or_fail(format!("reading {name} of the build"))
}
