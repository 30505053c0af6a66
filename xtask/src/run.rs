//! Running other programs: what is run is printed, and a failure names the command.

use std::ffi::OsStr;
use std::io::{BufRead, BufReader};
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

/// As [`run`] for a command that runs tests, which also fails when there was none to run.
///
/// # Errors
/// When the command fails, or no line said that a test had passed.
pub fn run_tests(command: &mut Command) -> Done {
    let line = shown(command);
    println!("$ {line}");
    let cannot = || format!("cannot start `{line}`");
    let mut child = command.stdout(Stdio::piped()).spawn().or_fail(cannot())?;
    let mut passed = 0;
    for said in child
        .stdout
        .take()
        .map(BufReader::new)
        .into_iter()
        .flat_map(BufRead::lines)
    {
        let said = said.or_fail(format!("reading what `{line}` says"))?;
        println!("{said}");
        passed += passed_tests(&said);
    }
    let status = child.wait().or_fail(format!("waiting for `{line}`"))?;
    if !status.success() {
        return fail(format!("`{line}` ended with {status}"));
    }
    if passed == 0 {
        return fail(format!("`{line}` found no test to run"));
    }
    Ok(())
}

/// The count in `test result: ok. 3 passed; …`, which ends each test program's output.
fn passed_tests(line: &str) -> usize {
    let count = line
        .strip_prefix("test result: ok. ")
        .and_then(|rest| rest.split(' ').next());
    count
        .and_then(|count| count.parse().ok())
        .unwrap_or_default()
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

#[cfg(test)]
mod tests {
    use std::process::Command;

    use super::{passed_tests, run_tests};

    #[test]
    fn passed_tests_are_counted_from_the_closing_line() {
        assert_eq!(
            passed_tests("test result: ok. 12 passed; 0 failed; 0 ignored"),
            12
        );
        assert_eq!(passed_tests("test result: FAILED. 3 passed; 1 failed"), 0);
        assert_eq!(passed_tests("12 passed"), 0);
    }

    #[test]
    fn a_run_without_a_single_test_fails() {
        let say = |text: &str| run_tests(Command::new("echo").arg(text)).is_ok();
        assert!(say("test result: ok. 1 passed; 0 failed"));
        assert!(!say("test result: ok. 0 passed; 0 failed"));
        assert!(!say("no tests to run!"));
    }
}
