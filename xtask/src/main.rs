//! The project commands.
fn main() {}
