//! What leaves the book and comes into it: the book file.

mod book_file;

pub use book_file::{Header, Trailer, sha256, write_book};
