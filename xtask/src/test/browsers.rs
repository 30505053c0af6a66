//! Where the browsers and their drivers are on this machine.

use std::ffi::OsString;
use std::path::PathBuf;

use crate::fail::{Done, Fail};
use crate::npm::{AXE, JOSE};
use crate::places::Places;
use crate::tools;

/// A program that the system's packages bring.
pub struct Program {
    /// Set to a path, this overrides the search; the tests are told the path under the same name.
    pub variable: &'static str,
    /// Names by which it is looked for in PATH, best first.
    names: &'static [&'static str],
    /// The package that brings it.
    pub package: &'static str,
}

pub const CHROMEDRIVER: Program = Program {
    variable: "HAULWREN_CHROMEDRIVER",
    names: &["chromedriver"],
    package: "chromium-driver",
};

/// Everything that the browser tests need from the system.
pub const PROGRAMS: [Program; 10] = [
    Program {
        variable: "HAULWREN_CHROMIUM",
        names: &["chromium", "chromium-browser"],
        package: "chromium",
    },
    CHROMEDRIVER,
    Program {
        variable: "HAULWREN_FIREFOX",
        names: &["firefox-esr", "firefox"],
        package: "firefox-esr",
    },
    Program {
        variable: "HAULWREN_WEBKITDRIVER",
        names: &["WebKitWebDriver"],
        package: "webkit2gtk-driver",
    },
    Program {
        variable: "HAULWREN_MINIBROWSER",
        names: &["MiniBrowser"],
        package: "webkit2gtk-driver",
    },
    Program {
        variable: "HAULWREN_XVFB_RUN",
        names: &["xvfb-run"],
        package: "xvfb",
    },
    Program {
        variable: "HAULWREN_XAUTH",
        names: &["xauth"],
        package: "xauth",
    },
    // Reads what was printed.
    Program {
        variable: "HAULWREN_PDFTOTEXT",
        names: &["pdftotext"],
        package: "poppler-utils",
    },
    // Opens tables: 91 MB to fetch, 289 MB on the disk, under half a minute.
    Program {
        variable: "HAULWREN_SOFFICE",
        names: &["soffice", "libreoffice"],
        package: "libreoffice-calc",
    },
    // Runs what comes from npm, which brings it.
    Program {
        variable: "HAULWREN_NODE",
        names: &["node", "nodejs"],
        package: "npm",
    },
];

impl Program {
    /// The program's path.
    ///
    /// # Errors
    /// When it is not installed.
    pub fn find(&self) -> Done<PathBuf> {
        if let Some(set) = std::env::var_os(self.variable) {
            return Ok(PathBuf::from(set));
        }
        let path = std::env::var_os("PATH").unwrap_or_default();
        let folders: Vec<_> = std::env::split_paths(&path)
            .chain(webkit_folders())
            .collect();
        let found = self.names.iter().find_map(|name| {
            let all = folders.iter().map(|folder| folder.join(name));
            all.into_iter().find(|path| path.is_file())
        });
        found.ok_or_else(|| {
            Fail(format!(
                "{} is not installed: run `cargo xtask test setup`, or set {}",
                self.names[0], self.variable
            ))
        })
    }
}

/// The small browser of `WebKit` lies in the library's own folder, newest first.
fn webkit_folders() -> impl Iterator<Item = PathBuf> {
    let parts = std::fs::read_dir("/usr/lib")
        .into_iter()
        .flatten()
        .flatten();
    parts.flat_map(|part| {
        ["webkit2gtk-4.1", "webkit2gtk-4.0"].map(|library| part.path().join(library))
    })
}

/// What the browser tests are told: a variable for each program.
///
/// # Errors
/// When one is missing.
pub fn settings(places: &Places) -> Done<Vec<(&'static str, OsString)>> {
    let mut settings = Vec::new();
    for program in &PROGRAMS {
        settings.push((program.variable, program.find()?.into_os_string()));
    }
    let geckodriver = tools::geckodriver().ensure(places)?.join("geckodriver");
    settings.push(("HAULWREN_GECKODRIVER", geckodriver.into_os_string()));
    for (variable, script, what) in [
        ("HAULWREN_AXE", AXE, "accessibility checker"),
        ("HAULWREN_JOSE", JOSE, "library for sealed files"),
    ] {
        let path = script.path(places);
        if !path.is_file() {
            let text = format!("the {what} is not there: run `cargo xtask test setup`");
            return Err(Fail(text));
        }
        settings.push((variable, path.into_os_string()));
    }
    Ok(settings)
}
