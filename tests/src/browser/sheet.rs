//! Tables as a spreadsheet program sees them: opened by one, and written again.

use std::path::Path;
use std::process::{Command, Stdio};

use super::failure::{Failure, Outcome, wrong};
use super::launch::find;

/// How the program writes a table again: cells parted by commas, quoted by double quotes, in UTF-8, from the first line, numbers whole;
/// the last word says whether a cell that runs shows what it runs, or what comes of it.
const WRITTEN: &str = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,";

/// Opens a table of comma-separated values by `LibreOffice`, as a double click does, and gives what it makes of it, again as such a table.
/// A cell that runs differs between the two forms: with `formulas` it stands as it is run, without as what comes of it.
///
/// # Errors
/// When the program is not there, or does not open the file.
pub fn spreadsheet(table: &Path, formulas: bool) -> Outcome<String> {
    let program = find("HAULWREN_SOFFICE", &["soffice", "libreoffice"])?;
    let trouble = || Failure::system("cannot open the table in a spreadsheet");
    let folder = tempfile::tempdir().map_err(trouble())?;
    // A profile of its own: two that share one wait for each other.
    let profile = folder.path().join("profile");
    let found = Command::new(program)
        .arg(format!(
            "-env:UserInstallation=file://{}",
            profile.display()
        ))
        .args(["--headless", "--norestore", "--infilter=CSV:44,34,76,1"])
        .arg("--convert-to")
        .arg(format!("{WRITTEN}{formulas}"))
        .arg("--outdir")
        .arg(folder.path())
        .arg(table)
        .env("HOME", folder.path())
        .stdin(Stdio::null())
        .output()
        .map_err(trouble())?;
    let written = folder.path().join(table.file_name().unwrap_or_default());
    if !found.status.success() || !written.is_file() {
        let said = String::from_utf8_lossy(&found.stderr).into_owned();
        return wrong(format!("the spreadsheet does not open the table: {said}"));
    }
    std::fs::read_to_string(&written).map_err(trouble())
}
