//! Checks against sources outside the project. Each names its source and how the value was come by: seen in the source
//! (S), seen in a page that quotes it (S2), recomputed with the library named (R), or from memory (M).
//!
//! They run natively and in a browser: a number that holds on this machine has to hold where the app runs.

mod currencies;
mod days;
mod decisions;
mod digests;
mod fees;
mod fit;
mod ids;
mod limits;
mod lot_costs;
mod names;
mod parcels;
mod rounding;
mod splitting;
mod stamps;
mod terms;
mod units;
