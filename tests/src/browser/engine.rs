//! The three browser engines and what our way of driving each can do.

use std::fmt;

/// A browser engine. Every journey is written once and names the engines it runs in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Engine {
    /// Chromium, driven by chromedriver.
    Chromium,
    /// Firefox, driven by geckodriver.
    Firefox,
    /// `WebKit`'s small browser, driven by its own driver on a screen of its own.
    WebKit,
}

/// What one engine can do under automation. Known from trying, not from manuals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(clippy::struct_excessive_bools)] // A table of what can be done is one of yes and no.
pub struct Can {
    /// Comes back on the same profile after it was ended or killed. `WebKit`'s automation keeps one
    /// ephemeral session.
    pub restart: bool,
    /// Speaks the devtools protocol: scripts before the page's own, screen sizes, colour schemes, CPU
    /// throttling, forced garbage collection.
    pub devtools: bool,
    /// Draws a new tab at once. Where it does not, a tab stays behind the one before and its page gets no
    /// frames; a new window is used instead.
    pub draws_new_tabs: bool,
    /// Downloads land in a folder of ours.
    pub downloads: bool,
}

impl Engine {
    /// The table.
    pub const fn can(self) -> Can {
        match self {
            Self::Chromium => Can {
                restart: true,
                devtools: true,
                draws_new_tabs: true,
                downloads: true,
            },
            Self::Firefox => Can {
                restart: true,
                devtools: false,
                draws_new_tabs: true,
                downloads: true,
            },
            Self::WebKit => Can {
                restart: false,
                devtools: false,
                draws_new_tabs: false,
                downloads: false,
            },
        }
    }
}

impl fmt::Display for Engine {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Chromium => "Chromium",
            Self::Firefox => "Firefox",
            Self::WebKit => "WebKit",
        })
    }
}
