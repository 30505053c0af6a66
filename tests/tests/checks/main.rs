//! Checks against sources outside the project. Each names its source and how the value was come by: seen in the source
//! (S), seen in a page that quotes it (S2), recomputed with the library named (R), or from memory (M).

mod currencies;
mod days;
mod decisions;
mod lot_costs;
mod rounding;
mod splitting;
mod units;
