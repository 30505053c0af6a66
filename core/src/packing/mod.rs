//! Packing: what goes into which container, and which container is the cheapest with its postage.
//!
//! Soft things fold and press; rigid ones turn six ways; what can break is padded. Whether several rigid things go into a
//! carton is searched exactly, and a search that was cut off says "may fit". Every typical figure here is common practice, no
//! source: weigh and measure yours.

mod caution;
mod choose;
mod container;
mod corners;
mod fit;
mod grid;
mod heft;
mod kinds;
mod search;
mod shape;

pub use caution::{Caution, cautions};
pub use choose::{Choice, cheapest};
pub use container::{Container, Form, Fragility, Piece};
pub use fit::{Fit, Fitted, NODES, fit};
pub use heft::Heft;
pub use kinds::{STARTERS, Starter, TYPICAL};
