//! Files: handed to a page as a person chooses them, and text files that the page gives out where an engine keeps no downloads of ours.

use std::path::Path;

use thirtyfour::By;

use super::failure::{Failure, Outcome};
use super::tab::Tab;

/// Notes the text of each file that the page gives an address, as it does right before a download.
const NOTE_GIVEN: &str = r"
const given = window.__given = [];
const address = URL.createObjectURL;
URL.createObjectURL = (file) => {
  file.text().then((text) => given.push(text));
  return address.call(URL, file);
};
";

impl Tab {
    /// Chooses a file in an input, by the driver's own means. The input may lie unseen over its key.
    ///
    /// # Errors
    /// When there is no such input, or the driver refuses.
    pub async fn choose_file(&self, css: &str, file: &Path) -> Outcome<()> {
        self.element(css).await?;
        let input = self.session().find(By::Css(css)).await?;
        let path = file.display().to_string();
        let trouble = Failure::refused(format!("choosing a file in {css}"));
        input.send_keys(path).await.map_err(trouble)
    }

    /// From now on notes the text files that this page gives out.
    ///
    /// # Errors
    /// When the script fails.
    pub async fn note_given(&self) -> Outcome<()> {
        self.run_with(NOTE_GIVEN, &[]).await
    }

    /// Waits for the first file given out since [`Tab::note_given`], and gives its text.
    ///
    /// # Errors
    /// When none is.
    pub async fn given(&self) -> Outcome<String> {
        self.until("a file to be given out", "return window.__given.length > 0")
            .await?;
        self.ask("return window.__given[0]").await
    }
}
