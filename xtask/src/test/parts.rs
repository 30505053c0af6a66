//! Which parts there are, and in which order a whole run takes them.

use super::{Run, fuzz, journeys, native, setup, wasm};
use crate::fail::Done;
use crate::{dist, size};

/// A part: its name, what it does, and its code.
pub struct Part(pub &'static str, pub &'static str, pub fn(&Run) -> Done);

/// In the order in which they run.
pub const PARTS: [Part; 9] = [
    Part(
        "setup",
        "build tools and browsers are there, or are installed",
        setup::part,
    ),
    Part("format", "the source is formatted", native::format),
    Part(
        "lint",
        "no warning from the compiler or the linter",
        native::lint,
    ),
    Part(
        "native",
        "tests of the trade, the kit and this runner, on this machine",
        native::tests,
    ),
    Part(
        "doc",
        "examples in the documentation run, and it builds",
        native::doc,
    ),
    Part("wasm", "tests of the shell inside a browser", wasm::part),
    Part("dist", "the app builds for release", |run| {
        dist::build(&run.places).map(drop)
    }),
    Part("size", "a first visit stays within its limit", |run| {
        size::gate(&run.places)
    }),
    Part(
        "journeys",
        "the built app driven in real browsers",
        journeys::part,
    ),
];

/// What a whole run takes on top with `--long`.
pub const LONG_PARTS: [Part; 1] = [Part(
    "fuzz",
    "readers of files fed by a fuzzer, a minute",
    fuzz::part,
)];

/// Not among the parts of a whole run: each repeats a piece of one.
pub const PIECES: [Part; 3] = [
    Part("lint-native", "`lint` without the app", native::lint_native),
    Part(
        "tidy",
        "the house rules alone (they run in `native` too)",
        native::tidy,
    ),
    Part(
        "publish-first-dist",
        "the build on which the kill tests must fail",
        |run| dist::build_publish_first(&run.places).map(drop),
    ),
];

/// What `check` runs.
pub const FAST_PARTS: [&str; 3] = ["format", "lint-native", "native"];
