//! What leaves the book and comes into it: the book file, and the haul as a table for spreadsheets.

mod book_file;
mod csv;
mod read;
mod take_home;
mod take_out;
mod whole;

pub use book_file::{Header, Trailer, is_above, sha256, write_book, write_changed};
pub use csv::{Csv, guard, unguard};
pub use read::{Against, BookReader, Incoming, Line, Meeting, NewOf, ReadError, fold_in};
pub use take_home::{COLUMNS, Cell, Column, Row, Stands, take_home};
pub use take_out::{Import, fold_out};
pub use whole::without_holes;
