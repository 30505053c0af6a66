//! Running other programs: what is run is printed, and a failure names the command.

use std::ffi::OsStr;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::fail::{Done, While, fail};

/// Prints and runs a command, its output going to the terminal.
///
/// # Errors
/// When the program cannot be started or says that it failed.
pub fn run(command: &mut Command) -> Done {
    let line = shown(command);
    println!("$ {line}");
    let status = command.status().or_fail(format!("cannot start `{line}`"))?;
    if status.success() {
        return Ok(());
    }
    fail(format!("`{line}` ended with {status}"))
}

/// Runs a command quietly and gives back what it wrote.
///
/// # Errors
/// When the program cannot be started or says that it failed.
pub fn read(command: &mut Command) -> Done<String> {
    let line = shown(command);
    let output = command
        .stdin(Stdio::null())
        .output()
        .or_fail(format!("cannot start `{line}`"))?;
    if !output.status.success() {
        let said = String::from_utf8_lossy(&output.stderr);
        return fail(format!(
            "`{line}` ended with {}: {}",
            output.status,
            said.trim()
        ));
    }
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}

/// A cargo command in the folder of the workspace. Cargo tells its own children which one it is.
pub fn cargo(root: &Path, arguments: &[&str]) -> Command {
    let program = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(program);
    command.current_dir(root).args(arguments);
    command
}

/// The command as a person would type it.
fn shown(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let name = program.file_name().unwrap_or(program.as_os_str());
    std::iter::once(name)
        .chain(command.get_args())
        .map(OsStr::to_string_lossy)
        .collect::<Vec<_>>()
        .join(" ")
}
