//! Brings what the tests need onto this machine, or says the exact line that does. Nothing is skipped.

use std::process::{Command, Stdio};

use haulwren_tests::fonts::Fonts;

use super::Run;
use super::browsers::PROGRAMS;
use crate::fail::{Done, fail};
use crate::npm::{AXE, JOSE};
use crate::places::Places;
use crate::run::{read, run};
use crate::tools;

pub fn part(this: &Run) -> Done {
    let places = &this.places;
    tools::wasm_target(places)?;
    tools::trunk().ensure(places)?;
    tools::wasm_bindgen(places)?.ensure(places)?;
    system_packages(places)?;
    tools::geckodriver().ensure(places)?;
    AXE.ensure(places)?;
    JOSE.ensure(places)?;
    for program in &PROGRAMS {
        println!("{:<22} {}", program.variable, program.find()?.display());
    }
    Ok(())
}

/// Installs the missing packages by the system's own means.
fn system_packages(places: &Places) -> Done {
    let mut packages: Vec<&str> = PROGRAMS
        .iter()
        .filter(|program| program.find().is_err())
        .map(|program| program.package)
        .collect();
    let has_scripts = [AXE, JOSE]
        .iter()
        .all(|script| script.path(places).is_file());
    if !has_scripts && !answers("npm", &["--version"]) {
        packages.push("npm");
    }
    let fonts = Fonts::ALL
        .into_iter()
        .filter(|fonts| fonts.find().is_none());
    packages.extend(fonts.map(Fonts::package));
    packages.dedup();
    if packages.is_empty() {
        return Ok(());
    }
    let install = [
        &["install", "--yes", "--no-install-recommends"],
        packages.as_slice(),
    ]
    .concat();
    let by_hand = format!("sudo apt-get update && sudo apt-get {}", install.join(" "));
    if !answers("apt-get", &["--version"]) {
        return fail(format!(
            "missing here: {}. On Debian 12 `{by_hand}` brings them; elsewhere install them and set {}",
            packages.join(", "),
            PROGRAMS
                .map(|program| program.variable)
                .into_iter()
                .chain(Fonts::ALL.map(Fonts::variable))
                .collect::<Vec<_>>()
                .join(", ")
        ));
    }
    let Some(before) = rights() else {
        return fail(format!(
            "missing here: {}. Run: {by_hand}",
            packages.join(", ")
        ));
    };
    for arguments in [&["update"], install.as_slice()] {
        let words: Vec<&str> = before
            .iter()
            .chain(&["apt-get"])
            .chain(arguments)
            .copied()
            .collect();
        let mut command = Command::new(words[0]);
        run(command
            .args(&words[1..])
            .env("DEBIAN_FRONTEND", "noninteractive"))?;
    }
    Ok(())
}

/// The words before a command that give it the right to install, when that needs no password.
fn rights() -> Option<&'static [&'static str]> {
    if read(Command::new("id").arg("-u")).is_ok_and(|id| id.trim() == "0") {
        return Some(&[]);
    }
    answers("sudo", &["-n", "true"]).then_some(&["sudo", "-n"])
}

fn answers(program: &str, arguments: &[&str]) -> bool {
    let mut command = Command::new(program);
    command
        .args(arguments)
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    command.status().is_ok_and(|status| status.success())
}
