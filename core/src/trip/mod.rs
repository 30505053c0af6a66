//! Trips: what is particular to a place that is visited on one.

mod manner;

pub use manner::Manner;

use crate::stamp::At;

/// What a stop is called: its name; else its number on the trip, counted from 1, and when the trader arrived: "Stop 2, 9:40".
#[must_use]
pub fn stop_title(name: &str, number: usize, arrived: Option<At>) -> String {
    match (name, arrived) {
        ("", Some(arrived)) => {
            let minutes = arrived.minute_of_day();
            format!("Stop {number}, {}:{:02}", minutes / 60, minutes % 60)
        }
        ("", None) => format!("Stop {number}"),
        (name, _) => name.to_owned(),
    }
}
