//! Driving real browsers: the kit under the journeys and benches.
//!
//! In reading order: [`Engine`] and what each can do; [`Browser`], one started browser with its own fresh
//! profile; [`Tab`], one of its windows; then what a trader does in a tab (keypad, forms) and what a test
//! looks at (figures, the stored book, pictures, accessibility, requests).
//!
//! Nothing here waits for a length of time: every wait is for a state, with a deadline after which the
//! failure says what was waited for and how the page stood.

mod access;
mod book;
mod decide;
mod engine;
mod failure;
mod first_run;
mod forms;
mod handed;
mod inject;
mod instance;
mod jose;
mod launch;
mod layout;
mod network;
mod paper;
mod pictures;
mod process;
mod profile;
mod ready;
mod runner;
mod script;
mod setup;
mod sheet;
mod small_disk;
mod tab;
mod touch;
mod trap;

pub use crate::fonts::Fonts;
pub use access::{Theme, contrast_rules};
pub use book::{Book, check_book_file};
pub use engine::Engine;
pub use failure::{Failure, Outcome, wrong};
pub use first_run::{MARLPOST, QUAYSIDE, VENUE_FIELDS, VenueForm};
pub use instance::Browser;
pub use jose::{Jose, jose};
pub use layout::Fit;
pub use paper::Paper;
pub use process::Killer;
pub use runner::run;
pub use setup::{Chance, Setup};
pub use sheet::spreadsheet;
pub use tab::{DEADLINE, Tab};
