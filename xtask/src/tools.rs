//! The build tools: each in a folder of its own by version, installed when it is not there or does not run.

use std::path::PathBuf;
use std::process::Command;
use std::time::Instant;

use crate::fail::{Done, fail};
use crate::places::Places;
use crate::run::{cargo, read, run};

/// A program that cargo can install.
pub struct Tool {
    /// The package's name.
    package: &'static str,
    /// The program in it that is asked for its version.
    program: &'static str,
    version: String,
    /// Whether to build with the package's own lock file.
    locked: bool,
    /// How long it took on two cores, for the message.
    minutes: &'static str,
}

/// Bundles the app. The next minor version needs a newer compiler than ours.
pub fn trunk() -> Tool {
    Tool {
        package: "trunk",
        program: "trunk",
        version: "0.21.14".to_owned(),
        locked: true,
        minutes: "about 6 minutes",
    }
}

/// Writes the JavaScript side of the module: must be the very version that the app is built with.
///
/// # Errors
/// When the lock file does not name it.
pub fn wasm_bindgen(places: &Places) -> Done<Tool> {
    Ok(Tool {
        package: "wasm-bindgen-cli",
        program: "wasm-bindgen",
        version: places.locked_version("wasm-bindgen")?,
        // Its lock file names a version of a package that the registry lacks.
        locked: false,
        minutes: "about 3 minutes",
    })
}

/// Drives Firefox in the tests.
pub fn geckodriver() -> Tool {
    Tool {
        package: "geckodriver",
        program: "geckodriver",
        version: "0.37.1".to_owned(),
        locked: true,
        minutes: "about 3 minutes",
    }
}

impl Tool {
    /// The folder with its programs, after installing it where needed.
    ///
    /// # Errors
    /// When it cannot be installed, or the installed one is not what was asked for.
    pub fn ensure(&self, places: &Places) -> Done<PathBuf> {
        let folder = format!("{}-{}", self.package, self.version);
        let folder = places.tools.join(folder);
        let programs = folder.join("bin");
        if self.runs(&programs) {
            return Ok(programs);
        }
        println!(
            "installing {} {} ({}, once on this machine) into {}",
            self.package,
            self.version,
            self.minutes,
            folder.display()
        );
        let start = Instant::now();
        let named = format!("{}@{}", self.package, self.version);
        let mut install = cargo(&places.root, &["install", &named, "--force", "--root"]);
        install.arg(&folder);
        if self.locked {
            install.arg("--locked");
        }
        // It is for this machine, whatever the project's own builds are set to.
        install
            .env_remove("CARGO_TARGET_DIR")
            .env_remove("CARGO_BUILD_TARGET")
            .env_remove("RUSTFLAGS");
        run(&mut install)?;
        if !self.runs(&programs) {
            return fail(format!(
                "{named} was installed but does not say that version"
            ));
        }
        println!("{named} is ready after {} s", start.elapsed().as_secs());
        Ok(programs)
    }

    /// Whether the program is there, starts, and says the version.
    fn runs(&self, programs: &std::path::Path) -> bool {
        read(Command::new(programs.join(self.program)).arg("--version"))
            .is_ok_and(|said| said.split_whitespace().any(|word| word == self.version))
    }
}

/// Makes sure that the compiler can build for the browser.
///
/// # Errors
/// When rustup is missing or cannot fetch the target.
pub fn wasm_target(places: &Places) -> Done {
    rustup_has(places, "target", "wasm32-unknown-unknown")
}

/// Makes sure that the standard library's own source is there, to be built for size.
///
/// # Errors
/// When rustup is missing or cannot fetch it.
pub fn library_source(places: &Places) -> Done {
    rustup_has(places, "component", "rust-src")
}

fn rustup_has(places: &Places, what: &str, name: &str) -> Done {
    let mut list = Command::new("rustup");
    list.current_dir(&places.root)
        .args([what, "list", "--installed"]);
    if read(&mut list)?.lines().any(|line| line == name) {
        return Ok(());
    }
    run(Command::new("rustup")
        .current_dir(&places.root)
        .args([what, "add", name]))
}
