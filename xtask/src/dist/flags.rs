//! Compiler flags of the served build. They are given here and not in cargo's settings because they hold
//! paths of this machine.

use std::path::{Path, PathBuf};

use crate::places::Places;

/// The standard library is built along with the app, for size: as shipped it is built for speed, which costs some 30 kB (brotli) of a
/// first visit. The options for that are unstable, so the compiler has to be told to take them; the toolchain file pins its version.
pub const STANDARD_LIBRARY: [(&str, &str); 3] = [
    ("RUSTC_BOOTSTRAP", "1"),
    ("CARGO_UNSTABLE_BUILD_STD", "std"),
    ("CARGO_UNSTABLE_BUILD_STD_FEATURES", "optimize_for_size"),
];

/// A panic becomes a trap, which the boot script notices as it does every other: so no texts of panics, places in the source, or
/// debug forms travel. A trap's position in the module can be looked up in the copy with names.
const FOR_SIZE: [&str; 4] = [
    "-Zunstable-options",
    "-Cpanic=immediate-abort",
    "-Zlocation-detail=none",
    "-Zfmt-debug=none",
];

/// Splitting the module needs to know which function and which datum names which.
const RELOCATIONS: &str = "-Clink-args=--emit-relocs";

/// As cargo reads them from `CARGO_ENCODED_RUSTFLAGS`: one flag after another, a unit separator between.
pub fn encoded(places: &Places) -> String {
    let mut flags: Vec<String> = FOR_SIZE.map(str::to_owned).to_vec();
    flags.push(RELOCATIONS.to_owned());
    // Panic messages name source files: not by where they lie on this machine, so that two machines build
    // the same bytes and neither tells its user's name.
    let cargo_home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = std::env::home_dir().map(|home| home.join(".cargo"));
    if let Some(cargo_home) = cargo_home.or(home) {
        flags.push(remap(&cargo_home, "cargo"));
        flags.extend(registries(&cargo_home).map(|folder| remap(&folder, "")));
    }
    flags.push(remap(&places.root, "haulwren"));
    flags.push(remap(&places.target, "target"));
    flags.join("\u{1f}")
}

/// The folders in which the packages' sources lie. Of two flags that fit, the later wins, so these come after
/// the folder that holds them.
fn registries(cargo_home: &Path) -> impl Iterator<Item = PathBuf> {
    let entries = std::fs::read_dir(cargo_home.join("registry/src"));
    entries
        .into_iter()
        .flatten()
        .flatten()
        .map(|entry| entry.path())
}

fn remap(from: &Path, to: &str) -> String {
    format!("--remap-path-prefix={}={to}", from.display())
}
