//! All tests, in parts that also run alone. Every part that was asked for runs, says its time, and counts.

mod browsers;
mod fuzz;
mod journeys;
mod native;
mod parts;
mod setup;
mod wasm;

use std::process::{Command, ExitCode};
use std::time::Instant;

use crate::fail::{Done, Fail};
use crate::places::Places;

pub use browsers::settings as browser_settings;
pub use native::has_target;
pub use parts::FAST_PARTS;
use parts::{LONG_PARTS, PARTS, PIECES, Part};

/// What every part knows.
pub struct Run {
    /// Where things lie.
    pub places: Places,
    /// Whether the long forms of laws and kill tests were asked for.
    long: bool,
}

impl Run {
    /// A cargo command that tells the tests how long they may take.
    pub fn cargo(&self, arguments: &[&str]) -> Command {
        let mut command = crate::run::cargo(&self.places.root, arguments);
        if self.long {
            command.env("HAULWREN_LONG", "1");
        }
        command
    }
}

/// `test [--long] [PART…]`; the last line is alone and counts the parts.
///
/// # Errors
/// When the workspace cannot be found; a failing part is counted instead.
pub fn command(words: &[&str]) -> Done<ExitCode> {
    let (flags, names): (Vec<&str>, Vec<&str>) =
        words.iter().partition(|word| word.starts_with('-'));
    if let Some(flag) = flags.into_iter().find(|flag| *flag != "--long") {
        return Ok(refuse(&format!(
            "there is no flag `{flag}`; `--long` is the only one"
        )));
    }
    let long = words.contains(&"--long");
    let mut chosen: Vec<&Part> = PARTS.iter().collect();
    if long {
        chosen.extend(&LONG_PARTS);
    }
    if !names.is_empty() {
        chosen.clear();
        for name in names {
            match known().find(|part| part.0 == name) {
                Some(part) => chosen.push(part),
                None => return Ok(refuse(&format!("there is no part `{name}`"))),
            }
        }
    }
    let run = Run {
        places: Places::find()?,
        long,
    };
    let start = Instant::now();
    let mut failed = Vec::new();
    for Part(name, about, part) in &chosen {
        println!("\n== {name}: {about}");
        let start = Instant::now();
        let outcome = part(&run);
        let seconds = start.elapsed().as_secs_f32();
        match outcome {
            Ok(()) => println!("== {name} passed in {seconds:.1} s"),
            Err(Fail(sentence)) => {
                println!("== {name} FAILED after {seconds:.1} s: {sentence}");
                failed.push(*name);
            }
        }
    }
    println!("\nall in {:.0} s", start.elapsed().as_secs_f32());
    if !failed.is_empty() {
        println!("failed: {}", failed.join(", "));
    }
    println!(
        "{} passed, {} failed",
        chosen.len() - failed.len(),
        failed.len()
    );
    Ok(if failed.is_empty() {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}

/// Every part that can be asked for by name.
fn known() -> impl Iterator<Item = &'static Part> {
    PARTS.iter().chain(&LONG_PARTS).chain(&PIECES)
}

fn refuse(sentence: &str) -> ExitCode {
    eprintln!("xtask: {sentence}. The parts are:");
    for Part(name, about, _) in known() {
        eprintln!("  {name:<20} {about}");
    }
    ExitCode::from(2)
}
