//! Measures the built app in a real browser.

use crate::dist;
use crate::fail::{Done, fail};
use crate::npm::{AUTOMERGE, DECIMAL, YJS};
use crate::places::Places;
use crate::run::{cargo, run};
use crate::test::{browser_settings, has_target};

/// Builds the app, then runs the benches with the words that follow as their own.
///
/// # Errors
/// When there are none, the build fails, or a bench does.
pub fn command(places: &Places, arguments: &[&str]) -> Done {
    if !has_target(places, "haulwren-tests", "bench")? {
        return fail("there are no benches: the package haulwren-tests has no test target `bench`");
    }
    let decimal = DECIMAL.ensure(places)?;
    let (automerge, yjs) = (AUTOMERGE.ensure(places)?, YJS.ensure(places)?);
    let dist = dist::build(places)?;
    let mut command = cargo(&places.root, &["test", "--release", "-p", "haulwren-tests"]);
    command
        .args(["--features", "browser", "--test", "bench", "--"])
        .args(if arguments.is_empty() {
            &["--nocapture"]
        } else {
            arguments
        })
        .envs(browser_settings(places)?)
        .env("HAULWREN_DECIMAL", decimal)
        .env("HAULWREN_AUTOMERGE", automerge)
        .env("HAULWREN_YJS", yjs)
        .env("HAULWREN_DIST", dist);
    run(&mut command)
}
