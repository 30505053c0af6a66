//! What leaves the book and comes into it: the book file, in parts and sealed where the trader wants it; pictures; and the haul as a table
//! for spreadsheets.

mod book_file;
mod csv;
mod lines;
mod parted;
mod parts;
mod photos;
mod read;
pub mod sealed;
mod sniff;
mod take_home;
mod whole;

pub use book_file::{Header, Trailer, is_above, sha256, write_book, write_changed};
pub use csv::{Csv, guard, unguard};
pub use parted::{issued_anew, rests_on};
pub use parts::{BookWriter, MAX_PART, Part, part_name};
pub use photos::{MAX_PHOTO, PhotoHeader, PhotoReader, PhotoWriter, Picture};
pub use read::{Against, BookReader, Incoming, Line, Meeting, NewOf, ReadError, fold_in};
pub use sniff::{ENOUGH_TO_TELL, FileKind};
pub use take_home::{COLUMNS, Cell, Column, Row, Stands, take_home};
pub use whole::without_holes;
