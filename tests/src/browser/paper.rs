//! Paper: what a page prints, read back by a program that is no browser.

use std::io::Write;
use std::process::{Command, Stdio};

use thirtyfour::common::print::{PrintPage, PrintParameters};

use super::failure::{Failure, Outcome, wrong};
use super::launch::find;
use super::tab::Tab;

/// A sheet of paper, upright: width and height in centimetres, as ISO 216 has them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paper(pub f64, pub f64);

impl Paper {
    /// 105 × 148 mm.
    pub const A6: Self = Self(10.5, 14.8);
    /// 210 × 297 mm.
    pub const A4: Self = Self(21.0, 29.7);
}

impl Tab {
    /// Prints the present screen, and gives the words on each page, line by line as they stand on it.
    ///
    /// # Errors
    /// When the browser does not print, or what it printed can't be read.
    pub async fn printed(&self, paper: Paper) -> Outcome<Vec<Vec<String>>> {
        self.focus().await?;
        let parameters = PrintParameters {
            page: PrintPage {
                width: paper.0,
                height: paper.1,
            },
            ..PrintParameters::default()
        };
        let trouble = Failure::refused("printing");
        let document = self.session().print_page(parameters).await;
        let text = read(&document.map_err(trouble)?)?;
        // Every page ends with a form feed.
        let pages = text.strip_suffix('\u{c}').unwrap_or(&text).split('\u{c}');
        let lines = |page: &str| {
            let lines = page.lines().map(|line| line.trim().to_owned());
            lines.filter(|line| !line.is_empty()).collect()
        };
        Ok(pages.map(lines).collect())
    }
}

/// The words of a PDF, by poppler's own reader.
fn read(document: &[u8]) -> Outcome<String> {
    let program = find("HAULWREN_PDFTOTEXT", &["pdftotext"])?;
    let trouble = || Failure::system("cannot read what was printed");
    let mut file = tempfile::NamedTempFile::new().map_err(trouble())?;
    file.write_all(document).map_err(trouble())?;
    let found = Command::new(program)
        .args(["-layout", "-enc", "UTF-8"])
        .arg(file.path())
        .arg("-")
        .stdin(Stdio::null())
        .output()
        .map_err(trouble())?;
    if !found.status.success() {
        let said = String::from_utf8_lossy(&found.stderr).into_owned();
        return wrong(format!("what was printed can't be read: {said}"));
    }
    Ok(apart(&String::from_utf8_lossy(&found.stdout)))
}

/// Letters that a font joins, apart again (Unicode's compatibility mappings of U+FB00 to U+FB04).
fn apart(text: &str) -> String {
    let joined = [
        ("\u{fb00}", "ff"),
        ("\u{fb01}", "fi"),
        ("\u{fb02}", "fl"),
        ("\u{fb03}", "ffi"),
        ("\u{fb04}", "ffl"),
    ];
    joined.iter().fold(text.to_owned(), |text, (one, letters)| {
        text.replace(one, letters)
    })
}
