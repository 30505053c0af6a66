//! The built app in real browsers, and the build that must fail the kill tests.

use super::{Run, browsers};
use crate::dist;
use crate::fail::Done;
use crate::run::run_tests;

/// The journeys that were seen to pass in every engine that they name. The rest are written and compiled, and join this list one by
/// one as they pass: their screens or their kit still need work. `cargo test --test journeys` runs them all.
const PROVEN: [&str; 8] = [
    "first_book::",
    "frame::",
    "kill::",
    "kit::",
    "schema::strict_",
    "storage::full_in_webkit",
    "two_tabs::in_chromium",
    "two_tabs::in_firefox",
];

pub fn part(this: &Run) -> Done {
    let places = &this.places;
    let settings = browsers::settings(places)?;
    let dist = dist::finished(places)?;
    let publish_first = dist::build_publish_first(places)?;
    let mut command = this.cargo(&["test", "-p", "haulwren-tests", "--features", "browser"]);
    command
        .args(["--test", "journeys", "--"])
        .args(PROVEN)
        .envs(settings)
        .env("HAULWREN_DIST", dist)
        .env("HAULWREN_DIST_PUBLISH_FIRST", publish_first);
    run_tests(&mut command)
}
