//! Sealed files by a library that is not ours: `jose`, on Node.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use super::failure::{Failure, Outcome, wrong};
use super::launch::find;

/// What the library shall do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Jose {
    /// Opens a sealed file.
    Open,
    /// Seals a plain one.
    Seal,
}

/// Opens or seals a file by a passphrase, by the two steps that the guide describes.
///
/// # Errors
/// When the library is not there, or refuses.
pub fn jose(what: Jose, passphrase: &str, from: &Path, to: &Path) -> Outcome<()> {
    let node = find("HAULWREN_NODE", &["node", "nodejs"])?;
    let Some(library) = std::env::var_os("HAULWREN_JOSE").map(PathBuf::from) else {
        return wrong(
            "HAULWREN_JOSE does not say where the library lies: run `cargo xtask test setup`, and the journeys by `cargo xtask test`",
        );
    };
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/journeys/jose.mjs");
    let word = if what == Jose::Open { "open" } else { "seal" };
    let done = Command::new(node)
        .arg(script)
        .arg(library)
        .args([word, passphrase])
        .args([from, to])
        .stdin(Stdio::null())
        .output()
        .map_err(Failure::system("cannot run Node"))?;
    if done.status.success() {
        return Ok(());
    }
    let said = String::from_utf8_lossy(&done.stderr).into_owned();
    wrong(format!("the library does not {word} the file: {said}"))
}
