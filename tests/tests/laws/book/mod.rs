//! Laws of the book: folding, replicas, commands, undo, stamps, lines and files.
//!
//! The merge is held against a model ([`model`]) that was written from the prose of the format and reads the lines by itself.

mod agreeing;
mod any_commands;
mod cache;
mod cases;
mod crdt;
mod deciding;
mod device;
mod files;
mod folding;
mod formulas;
mod haul_commands;
mod haul_holds;
mod haul_steps;
mod joining;
mod joining_used;
mod kinds;
mod lines;
mod mending;
mod model;
mod needing;
mod network;
mod parts;
mod peers;
mod program;
mod reading;
mod reckoning;
mod replicas;
mod settling;
mod setup_steps;
mod stamping;
mod taking_home;
mod twins;
mod undoing;

pub use device::Device;
pub use program::setups;
