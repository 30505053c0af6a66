//! Building what gets served: bundle, split, slim, check, fill the worker's list, compress.

mod copies;
mod flags;
mod folder;
mod lean;
mod links;
mod precache;
mod relative;
mod slim;
mod split;
mod styles;

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::fail::{Done, While, fail};
use crate::places::Places;
use crate::run::run;
use crate::tools;

pub use copies::brotli;
pub use folder::{files, has_ending, load, main_module};

/// Builds the app for release into `dist/` and prints what is in it.
///
/// # Errors
/// When a tool is missing, the app does not compile, or the result would not work below a path.
pub fn build(places: &Places) -> Done<PathBuf> {
    let dist = places.dist();
    bundle(places, &dist, "late")?;
    finish(&dist, Some(&places.target))?;
    Ok(dist)
}

/// Builds the app that says "saved" too early, on which the kill tests must fail.
///
/// # Errors
/// As [`build`].
pub fn build_publish_first(places: &Places) -> Done<PathBuf> {
    let dist = places.target.join("dist-publish-first");
    bundle(places, &dist, "late,publish-first")?;
    finish(&dist, None)?;
    Ok(dist)
}

fn bundle(places: &Places, dist: &Path, features: &str) -> Done {
    tools::wasm_target(places)?;
    tools::library_source(places)?;
    let trunk = tools::trunk().ensure(places)?;
    let bindgen = tools::wasm_bindgen(places)?.ensure(places)?;
    // What was there before must not pass for the result of a build that fails.
    if dist.exists() {
        std::fs::remove_dir_all(dist).or_fail(format!("removing {}", dist.display()))?;
    }
    std::fs::create_dir_all(dist).or_fail(format!("making {}", dist.display()))?;

    let before = std::env::var_os("PATH").unwrap_or_default();
    let path = std::env::join_paths(
        [bindgen.clone()]
            .into_iter()
            .chain(std::env::split_paths(&before)),
    )
    .or_fail("the tools' folder has a name that PATH cannot hold")?;
    let mut command = Command::new(trunk.join("trunk"));
    command
        .current_dir(&places.root)
        .args(["build", "--release", "--skip-version-check", "--dist"])
        .arg(dist)
        .args(["--features", features])
        .env("PATH", path)
        .env("CARGO_ENCODED_RUSTFLAGS", flags::encoded(places))
        .envs(flags::STANDARD_LIBRARY)
        // Trunk takes "1" here for a bad value, and prints its own stack for a compile error.
        .env_remove("NO_COLOR")
        .env_remove("RUST_BACKTRACE");
    run(&mut command)?;
    split::split(places, dist, &bindgen)
}

fn finish(dist: &Path, named: Option<&Path>) -> Done {
    slim::slim(dist, named)?;
    styles::join(dist)?;
    lean::lean(dist)?;
    relative::check(dist)?;
    links::check(dist)?;
    let version = precache::fill(dist)?;
    let sizes = copies::write(dist)?;
    println!("\n{}: version {version}", dist.display());
    println!("{:>10} {:>10} {:>10}", "bytes", "gzip", "brotli");
    for (name, size) in &sizes {
        println!(
            "{:>10} {:>10} {:>10}  {name}",
            size.plain, size.gzip, size.brotli
        );
    }
    Ok(())
}

/// The folder of the last build, if that went to its end.
///
/// # Errors
/// When it did not, or there was none.
pub fn finished(places: &Places) -> Done<PathBuf> {
    let dist = places.dist();
    // The compressed copies come last.
    if dist.join("worker.js.br").is_file() {
        return Ok(dist);
    }
    fail("no build went to its end: run `cargo xtask dist`")
}
