//! The gate on what a first visit transfers, and the table of what the module's bytes are spent on.

mod crates;
mod first_visit;

use std::path::Path;

use serde::Deserialize;

use crate::dist::{self, brotli, load};
use crate::fail::{Done, While, fail};
use crate::places::Places;

/// `xtask/size.toml`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Limits {
    ladder: Ladder,
}

/// The limits in bytes.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Ladder {
    /// What has to arrive before the first verdict.
    first_visit_brotli: usize,
    /// That, and what is fetched right after it.
    whole_brotli: usize,
}

/// Builds, then measures.
///
/// # Errors
/// When the build fails or the limit is passed.
pub fn command(places: &Places) -> Done {
    dist::build(places)?;
    gate(places)
}

/// Prints the files with their sizes, and sums them up.
fn print(dist: &Path, files: &[String]) -> Done<usize> {
    let mut sum = 0;
    for name in files {
        let size = brotli(&load(dist, name)?)?.len();
        println!("{size:>10}  {name}");
        sum += size;
    }
    Ok(sum)
}

/// Measures what was built last.
///
/// # Errors
/// When nothing was built, or the first visit is over its limit.
pub fn gate(places: &Places) -> Done {
    let path = places.root.join("xtask/size.toml");
    let text = std::fs::read_to_string(path).or_fail("reading xtask/size.toml")?;
    let limits: Limits = toml::from_str(&text).or_fail("xtask/size.toml")?;
    let Ladder {
        first_visit_brotli: limit,
        whole_brotli: whole_limit,
    } = limits.ladder;

    let dist = dist::finished(places)?;
    for module in places.named_wasm() {
        println!("\nBytes by crate, before compression: {}", module.display());
        crates::print(&module)?;
    }

    let visit = first_visit::files(&dist)?;
    println!("\nFirst visit, by brotli:");
    let sum = print(&dist, &visit.first)?;
    println!("{sum:>10}  in all; the limit is {limit}");
    println!("\nFetched once the first screen stands, by brotli:");
    let whole = sum + print(&dist, &visit.late)?;
    println!("{whole:>10}  with the first visit; the limit is {whole_limit}");
    if sum > limit {
        return fail(format!(
            "a first visit transfers {sum} bytes, {} over the limit of {limit}",
            sum - limit
        ));
    }
    if whole > whole_limit {
        return fail(format!(
            "the whole app is {whole} bytes, {} over the limit of {whole_limit}",
            whole - whole_limit
        ));
    }
    Ok(())
}
