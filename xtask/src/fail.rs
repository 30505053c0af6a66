//! The one error of the task runner: a sentence for the person at the terminal.

use std::fmt::Display;

/// What went wrong, in words. The place that knows the circumstances writes them.
#[derive(Debug)]
pub struct Fail(pub String);

/// The outcome of a step.
pub type Done<T = ()> = Result<T, Fail>;

/// A failure with these words.
pub fn fail<T>(words: impl Into<String>) -> Done<T> {
    Err(Fail(words.into()))
}

/// Says what was being done when an error came up.
pub trait While<T> {
    /// Turns the error into "`doing`: error".
    ///
    /// # Errors
    /// Always the same as before, in words.
    fn or_fail(self, doing: impl Display) -> Done<T>;
}

impl<T, E: Display> While<T> for Result<T, E> {
    fn or_fail(self, doing: impl Display) -> Done<T> {
        self.map_err(|problem| Fail(format!("{doing}: {problem}")))
    }
}
