//! The parts that need no browser: format, lint, native tests, documentation, house rules.

use serde_json::Value;

use super::Run;
use crate::fail::{Done, While, fail};
use crate::places::Places;
use crate::run::{cargo, read, run, run_tests};
use crate::tools;

const WASM: [&str; 2] = ["--target", "wasm32-unknown-unknown"];
const NO_WARNINGS: [&str; 3] = ["--", "-D", "warnings"];

pub fn format(this: &Run) -> Done {
    run(&mut this.cargo(&["fmt", "--all", "--check"]))
}

pub fn lint(this: &Run) -> Done {
    lint_native(this)?;
    tools::wasm_target(&this.places)?;
    let mut app = this.cargo(&["clippy", "--quiet", "-p", "haulwren", "--all-targets"]);
    run(app.args(WASM).args(NO_WARNINGS))
}

pub fn lint_native(this: &Run) -> Done {
    let mut command = this.cargo(&["clippy", "--quiet", "--all-features", "--all-targets"]);
    run(command.args(NO_WARNINGS))
}

/// By nextest where it is installed, which runs tests in parallel across packages; else by cargo itself.
pub fn tests(this: &Run) -> Done {
    if read(&mut this.cargo(&["nextest", "--version"])).is_ok() {
        return run(&mut this.cargo(&[
            "nextest",
            "run",
            "--no-fail-fast",
            "--status-level",
            "fail",
        ]));
    }
    run_tests(&mut this.cargo(&["test", "--no-fail-fast", "--lib", "--bins", "--tests"]))
}

pub fn doc(this: &Run) -> Done {
    run_tests(&mut this.cargo(&["test", "--doc"]))?;
    tools::wasm_target(&this.places)?;
    let arguments = ["doc", "--quiet", "--no-deps", "--all-features"];
    let deny = ("RUSTDOCFLAGS", "-D warnings");
    run(this.cargo(&arguments).envs([deny]))?;
    run(this
        .cargo(&arguments)
        .args(["-p", "haulwren", "--lib"])
        .args(WASM)
        .envs([deny]))
}

pub fn tidy(this: &Run) -> Done {
    if !has_target(&this.places, "haulwren-tests", "tidy")? {
        return fail("there are no house rules: haulwren-tests has no test target `tidy`");
    }
    run_tests(&mut this.cargo(&["test", "-p", "haulwren-tests", "--test", "tidy"]))
}

/// Whether a package has a test target of this name.
///
/// # Errors
/// When cargo does not say.
pub fn has_target(places: &Places, package: &str, target: &str) -> Done<bool> {
    let is_named = |value: &Value, name: &str| value["name"] == name;
    Ok(packages(places)?
        .iter()
        .filter(|about| is_named(about, package))
        .filter_map(|about| about["targets"].as_array())
        .flatten()
        .any(|about| is_named(about, target)))
}

/// What cargo says about each package of the workspace.
pub fn packages(places: &Places) -> Done<Vec<Value>> {
    let arguments = ["metadata", "--no-deps", "--format-version", "1"];
    let text = read(&mut cargo(&places.root, &arguments))?;
    let mut about: Value =
        serde_json::from_str(&text).or_fail("reading what cargo says about the workspace")?;
    match about["packages"].take() {
        Value::Array(packages) => Ok(packages),
        _ => fail("cargo does not say which packages there are"),
    }
}
