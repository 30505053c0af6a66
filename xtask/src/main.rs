//! The project's commands, as `cargo xtask <command>`: one for each thing that a person or a machine does
//! with this repository.

mod bench;
mod dist;
mod fail;
mod npm;
mod places;
mod run;
mod serve;
mod size;
mod test;
mod tools;

use std::process::ExitCode;

use fail::{Done, Fail};
use places::Places;

const HELP: &str = "\
cargo xtask serve [--port N]       build the app and serve it on this machine
cargo xtask check                  the fast half of the tests: format, lint, native
cargo xtask test [--long] [PART…]  all tests as the build machine runs them, or only these parts
cargo xtask dist                   build the app for release into dist/
cargo xtask size                   build it, then hold it against xtask/size.toml
cargo xtask bench [WORD…]          build it, then measure it in a browser";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match command(&words) {
        Ok(code) => code,
        Err(Fail(sentence)) => {
            eprintln!("xtask: {sentence}");
            ExitCode::FAILURE
        }
    }
}

fn command(words: &[&str]) -> Done<ExitCode> {
    let Some((&command, rest)) = words.split_first() else {
        println!("{HELP}");
        return Ok(ExitCode::from(2));
    };
    if matches!(command, "help" | "--help" | "-h") {
        println!("{HELP}");
        return Ok(ExitCode::SUCCESS);
    }
    match (command, rest) {
        ("test", _) => return test::command(rest),
        ("check", []) => return test::command(&test::FAST_PARTS),
        ("serve", _) => serve::command(&Places::find()?, rest)?,
        ("bench", _) => bench::command(&Places::find()?, rest)?,
        ("dist", []) => dist::build(&Places::find()?).map(drop)?,
        ("size", []) => size::command(&Places::find()?)?,
        ("check" | "dist" | "size", _) => {
            eprintln!("xtask: `{command}` takes nothing after it.\n\n{HELP}");
            return Ok(ExitCode::from(2));
        }
        _ => {
            eprintln!("xtask: there is no command `{command}`.\n\n{HELP}");
            return Ok(ExitCode::from(2));
        }
    }
    Ok(ExitCode::SUCCESS)
}
