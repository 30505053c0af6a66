//! Tests that run inside a browser: every package that has any.

use haulwren_tests::fonts::Fonts;

use super::native::packages;
use super::{Run, browsers};
use crate::fail::{Done, While, fail};
use crate::run::run_tests;
use crate::tools;

/// What such tests are written with; a package that depends on it has some.
const KIT: &str = "wasm-bindgen-test";
/// In seconds, for one package's tests: a store of ten thousand records takes its time on two cores.
const LONGEST: &str = "240";

pub fn part(this: &Run) -> Done {
    let places = &this.places;
    tools::wasm_target(places)?;
    let runner = tools::wasm_bindgen(places)?.ensure(places)?;
    let driver = browsers::CHROMEDRIVER.find()?;

    let mut command = this.cargo(&["test", "--tests", "--target", "wasm32-unknown-unknown"]);
    let mut any = false;
    for package in packages(places)? {
        let needs = package["dependencies"].as_array();
        let has_tests = needs.into_iter().flatten().any(|need| need["name"] == KIT);
        if let (true, Some(name)) = (has_tests, package["name"].as_str()) {
            command.args(["-p", name]);
            any = true;
        }
    }
    if !any {
        return fail(format!("no package depends on {KIT}"));
    }
    // What is measured in a page must not hang on what this machine has.
    let fonts = Fonts::default()
        .configure(&places.target)
        .or_fail("configuring the fonts")?;
    command
        .env("FONTCONFIG_FILE", fonts)
        .env("CHROMEDRIVER", driver)
        .env(
            "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER",
            runner.join("wasm-bindgen-test-runner"),
        )
        .env(
            "WASM_BINDGEN_TEST_WEBDRIVER_JSON",
            places.root.join("app/webdriver.json"),
        )
        .env("WASM_BINDGEN_USE_BROWSER", "1")
        .env("WASM_BINDGEN_TEST_TIMEOUT", LONGEST)
        .env("WASM_BINDGEN_TEST_DRIVER_TIMEOUT", "30");
    run_tests(&mut command)
}
