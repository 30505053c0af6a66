//! What can go wrong while driving a browser, in sentences.

use std::io;

use thirtyfour::error::WebDriverError;

/// Why a step of a journey failed.
#[derive(Debug, thiserror::Error)]
pub enum Failure {
    /// The driver or the browser refused a command.
    #[error("the browser refused: {0}")]
    Driver(Box<WebDriverError>),
    /// The driver or the browser refused one certain step.
    #[error("{what}: the browser refused: {problem}")]
    Refused {
        /// What was tried.
        what: String,
        /// What the driver said.
        problem: Box<WebDriverError>,
    },
    /// A process, file or socket.
    #[error("{what}: {problem}")]
    System {
        /// What was tried.
        what: String,
        /// What the system said.
        problem: io::Error,
    },
    /// A state that did not come in time.
    #[error("waited {seconds} s for {what}.\n{seen}")]
    Late {
        /// The state, in words.
        what: String,
        /// How long, in seconds.
        seconds: u64,
        /// How things stood at the deadline.
        seen: String,
    },
    /// Something was seen that must not be, or was missing.
    #[error("{0}")]
    Wrong(String),
}

/// The result of a step.
pub type Outcome<T = ()> = Result<T, Failure>;

impl From<WebDriverError> for Failure {
    fn from(problem: WebDriverError) -> Self {
        Self::Driver(Box::new(problem))
    }
}

impl From<serde_json::Error> for Failure {
    fn from(problem: serde_json::Error) -> Self {
        Self::Wrong(format!("not the JSON that was expected: {problem}"))
    }
}

impl Failure {
    /// Turns a driver's error into a failure that says what was tried.
    pub(crate) fn refused(what: impl Into<String>) -> impl FnOnce(WebDriverError) -> Self {
        let what = what.into();
        move |problem| Self::Refused {
            what,
            problem: Box::new(problem),
        }
    }

    /// Turns a system error into a failure that says what was tried.
    pub fn system(what: impl Into<String>) -> impl FnOnce(io::Error) -> Self {
        let what = what.into();
        move |problem| Self::System { what, problem }
    }
}

/// Ends a step with a sentence.
///
/// # Errors
/// Always: that is what it is for.
pub fn wrong<T>(sentence: impl Into<String>) -> Outcome<T> {
    Err(Failure::Wrong(sentence.into()))
}
