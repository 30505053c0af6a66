//! The fonts that browsers draw with in the tests: each browser knows one family and no other, by a font configuration of its own, so that
//! no screen fits only by what a machine happens to have. The families come from packages that the tests' set-up brings.

use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

/// A family of sans-serif letters. A line's height is ascent and descent together, read from the fonts' own `hhea` tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Fonts {
    /// `DejaVu Sans`: the widest letters, lines of 1.16 times the size.
    #[default]
    Wide,
    /// `Open Sans`: the tallest lines, 1.36 times the size, as high as those of `Noto Sans`.
    Tall,
    /// `Liberation Sans`: the narrowest letters, and the lowest lines, 1.12 times the size.
    Narrow,
}

impl Fonts {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Wide, Self::Tall, Self::Narrow];

    /// The package that brings it.
    pub const fn package(self) -> &'static str {
        match self {
            Self::Wide => "fonts-dejavu-core",
            Self::Tall => "fonts-open-sans",
            Self::Narrow => "fonts-liberation",
        }
    }

    /// Set to the file of the plain letters, this overrides the search.
    pub const fn variable(self) -> &'static str {
        match self {
            Self::Wide => "HAULWREN_FONT_WIDE",
            Self::Tall => "HAULWREN_FONT_TALL",
            Self::Narrow => "HAULWREN_FONT_NARROW",
        }
    }

    const fn family(self) -> &'static str {
        match self {
            Self::Wide => "DejaVu Sans",
            Self::Tall => "Open Sans",
            Self::Narrow => "Liberation Sans",
        }
    }

    const fn file(self) -> &'static str {
        match self {
            Self::Wide => "DejaVuSans.ttf",
            Self::Tall => "OpenSans-Regular.ttf",
            Self::Narrow => "LiberationSans-Regular.ttf",
        }
    }

    /// The file of the plain letters, wherever below the system's folder of fonts it lies; `None` when it is not installed.
    pub fn find(self) -> Option<PathBuf> {
        if let Some(set) = std::env::var_os(self.variable()) {
            return Some(PathBuf::from(set)).filter(|file| file.is_file());
        }
        let mut folders = vec![PathBuf::from("/usr/share/fonts")];
        while let Some(folder) = folders.pop() {
            let file = folder.join(self.file());
            if file.is_file() {
                return Some(file);
            }
            // What cannot be looked into holds no font that a browser could read.
            let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
            folders.extend(
                entries
                    .map(|entry| entry.path())
                    .filter(|path| path.is_dir()),
            );
        }
        None
    }

    /// Writes a font configuration in which every name means this family, and gives its path. What it keeps for itself goes beside it.
    ///
    /// # Errors
    /// When the family is not installed, or nothing can be written.
    pub fn configure(self, beside: &Path) -> io::Result<PathBuf> {
        let Some(fonts) = self
            .find()
            .and_then(|file| file.parent().map(Path::to_owned))
        else {
            let variable = self.variable();
            let text =
                format!("{self} is not installed: run `cargo xtask test setup`, or set {variable}");
            return Err(io::Error::other(text));
        };
        let (fonts, family) = (fonts.display(), self.family());
        let cache = beside.join("font-cache");
        let cache = cache.display();
        let text = format!(
            r#"<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <dir>{fonts}</dir>
  <cachedir>{cache}</cachedir>
  <match target="pattern"><edit name="family" mode="assign" binding="same"><string>{family}</string></edit></match>
</fontconfig>
"#
        );
        let path = beside.join("fonts.conf");
        std::fs::write(&path, text)?;
        Ok(path)
    }
}

impl fmt::Display for Fonts {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.family())
    }
}
