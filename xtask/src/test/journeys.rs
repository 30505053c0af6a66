//! The built app in real browsers, and the build that must fail the kill tests.

use super::{Run, browsers};
use crate::dist;
use crate::fail::Done;
use crate::run::run_tests;

pub fn part(this: &Run) -> Done {
    let places = &this.places;
    let settings = browsers::settings(places)?;
    let dist = dist::finished(places)?;
    let publish_first = dist::build_publish_first(places)?;
    let mut command = this.cargo(&["test", "-p", "haulwren-tests", "--features", "browser"]);
    command
        .args(["--test", "journeys"])
        .envs(settings)
        .env("HAULWREN_DIST", dist)
        .env("HAULWREN_DIST_PUBLISH_FIRST", publish_first);
    run_tests(&mut command)
}
