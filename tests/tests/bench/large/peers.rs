//! The same merge in two libraries that merge documents, on Node.

use std::process::Command;

use haulwren_tests::browser::{Failure, Outcome, wrong};
use serde_json::Value;

use super::book::{FILES, THINGS};

const SCRIPT: &str = include_str!("peers.cjs");

/// Runs both, one after the other, and prints what they took.
pub fn bench() -> Outcome<()> {
    println!("in memory only, nothing written, nothing checked:");
    for peer in ["automerge", "yjs"] {
        let found = run(peer)?;
        let merges: Vec<String> = found["merges"]
            .as_array()
            .into_iter()
            .flatten()
            .map(ms)
            .collect();
        println!(
            "{:52}open {}, merge {}, memory {} MB",
            format!("{}, {} MB", text(&found["name"]), mb(&found["bytes"])),
            ms(&found["open"]),
            merges.join(" and "),
            ms(&found["memory"])
        );
    }
    Ok(())
}

fn run(peer: &str) -> Outcome<Value> {
    let mut command = Command::new("node");
    command.args([
        "--expose-gc",
        "--max-old-space-size=8000",
        "-e",
        SCRIPT,
        "--",
    ]);
    for variable in ["HAULWREN_AUTOMERGE", "HAULWREN_YJS"] {
        let Some(path) = std::env::var_os(variable) else {
            return wrong(format!(
                "{variable} is not set; `cargo xtask bench` brings the library and sets it"
            ));
        };
        command.arg(path);
    }
    command.arg(THINGS.to_string());
    command.args(FILES.map(|count| count.to_string()));
    let done = command
        .env("PEER", peer)
        .output()
        .map_err(Failure::system("cannot run node"))?;
    if !done.status.success() {
        return wrong(format!("{peer}: {}", String::from_utf8_lossy(&done.stderr)));
    }
    Ok(serde_json::from_slice(&done.stdout)?)
}

fn text(value: &Value) -> &str {
    value.as_str().unwrap_or_default()
}

fn ms(value: &Value) -> String {
    format!("{:.0}", value.as_f64().unwrap_or(f64::NAN))
}

fn mb(value: &Value) -> String {
    format!("{:.0}", value.as_f64().unwrap_or(f64::NAN) / 1e6)
}
