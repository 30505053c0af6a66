//! Splits the module in two: what a first verdict needs, and the rest, which is fetched once the first screen stands.
//!
//! The bundler knows nothing of this. It leaves what the compiler made, which is split here; then the binding generator writes the script
//! anew for the first part, and both take the place of what the bundler wrote. Which function goes where is found out from the relocations
//! that the linker leaves: all that only the app's late function reaches goes into the late part.

use std::path::Path;
use std::process::Command;

use wasm_split_cli_support::{Options, transform};

use super::{load, main_module};
use crate::fail::{Done, Fail, While, fail};
use crate::places::Places;
use crate::run::run;

/// The name that the app gives its late part.
const LATE: &str = "settings";

/// How the loader is written, and how it shall be.
const STREAMING: &str = "WebAssembly.instantiateStreaming(src, imports)";
const WHOLE: &str = "WebAssembly.instantiate(await (await src).arrayBuffer(), imports)";

/// Splits what was just bundled into `dist`; `bindgen` is the folder of the binding generator.
///
/// # Errors
/// When the build has no late part or more than one, or one of the tools leaves something else than expected.
pub fn split(places: &Places, dist: &Path, bindgen: &Path) -> Done {
    let module = main_module(dist)?;
    let Some(stem) = module.strip_suffix("_bg.wasm") else {
        return fail(format!("{module} is not named as the bundler does"));
    };
    let hash = stem.rsplit('-').next().unwrap_or(stem);
    let (late, link) = (format!("{LATE}-{hash}.wasm"), format!("late-{hash}.js"));
    let folder = places.target.join("split");
    if folder.exists() {
        std::fs::remove_dir_all(&folder).or_fail("removing what was split before")?;
    }

    let compiled = places
        .target
        .join("wasm32-unknown-unknown/release/haulwren.wasm");
    let compiled = std::fs::read(compiled).or_fail("reading the compiled module")?;
    let main = folder.join("main.wasm");
    let (main_script, link_script) = (format!("./{stem}.js"), format!("./{link}"));
    let mut options = Options::new(&compiled);
    options.output_dir = &folder;
    options.main_out_path = &main;
    options.main_module = &main_script;
    options.link_name = &link_script;
    let parts = transform(options)
        .map_err(|error| format!("{error:#}"))
        .or_fail("splitting the module")?;
    let written = folder.join(format!("split_{LATE}.wasm"));
    if parts.split_modules != [written.as_path()] {
        return fail(format!("splitting left {:?}", parts.split_modules));
    }

    let mut command = Command::new(bindgen.join("wasm-bindgen"));
    // What the parts share is exported under the linker's names.
    command
        .args([
            "--target",
            "web",
            "--no-typescript",
            "--keep-lld-exports",
            "--out-name",
            stem,
            "--out-dir",
        ])
        .args([dist, &main]);
    run(&mut command)?;

    std::fs::write(dist.join(late.as_str()), short(&written)?)
        .or_fail(format!("writing {late}"))?;
    let text = String::from_utf8(load(&folder, &link)?).or_fail(format!("{link} is not UTF-8"))?;
    let text = once(&text, &format!("./split_{LATE}.wasm"), &format!("./{late}"))?;
    // Some hosts give a module no type of its own, and then it can't be compiled while it comes in. The other part's script copes too.
    let text = once(&text, STREAMING, WHOLE)?;
    std::fs::write(dist.join(&link), text).or_fail(format!("writing {link}"))?;

    // The main part's script needs the other's loader from the start: it is asked for at once.
    let page = String::from_utf8(load(dist, "index.html")?).or_fail("index.html is not UTF-8")?;
    let preload = |script: &str| format!("<link rel=\"modulepreload\" href=\"{script}\">");
    let both = [preload(&main_script), preload(&link_script)].concat();
    let page = once(&page, &preload(&main_script), &both)?;
    std::fs::write(dist.join("index.html"), page).or_fail("writing index.html")
}

/// The module with every number as short as it can be written: the linker leaves room for longer ones.
fn short(path: &Path) -> Done<Vec<u8>> {
    let mut module = walrus::Module::from_file(path)
        .map_err(|error| format!("{error:#}"))
        .or_fail("reading the late part")?;
    walrus::passes::gc::run(&mut module);
    Ok(module.emit_wasm())
}

/// The text with `old`, which stands in it once, replaced.
fn once(text: &str, old: &str, new: &str) -> Done<String> {
    match text.matches(old).count() {
        1 => Ok(text.replace(old, new)),
        times => Err(Fail(format!("{old} was expected once, not {times} times"))),
    }
}

#[cfg(test)]
mod tests {
    use super::once;

    #[test]
    fn only_what_stands_once_is_replaced() {
        assert_eq!(once("a b c", "b", "d").ok().as_deref(), Some("a d c"));
        assert!(once("a b b", "b", "d").is_err());
        assert!(once("a", "b", "d").is_err());
    }
}
