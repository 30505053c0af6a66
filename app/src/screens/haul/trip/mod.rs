//! Trips: all of them, one with its stops and its purse, and one stop.

mod one;
mod stop;

use haulwren_core::measure::Unit;
use haulwren_core::view::{TripRow, trips};

use super::{asked, beside as page_beside};
use crate::format;
use crate::route::Route;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Nodes, Now, button, div, el, span};

use haulwren_core::book::{State, TripCommand};
use haulwren_core::measure::DistanceUnit;
use std::rc::Rc;

pub use one::page;
pub use stop::stop;

/// All trips.
pub fn all() -> El {
    let store = use_store();
    let rows = move || -> Nodes {
        let rows = store.read(trips);
        if rows.is_empty() {
            return parts::line(
                "No trip yet. One holds a day\u{2019}s stops, its cash and its miles.",
            )
            .into();
        }
        rows.iter().map(row).collect::<Vec<_>>().into()
    };
    let start = button("press")
        .attr("data-start-trip", "")
        .on_click(asked::start_trip)
        .with("Start a trip");
    let plan = button("press").on_click(plan).with("Plan a stop");
    let inside = div("form flush")
        .with(div("pair keys-row").with([start, plan]))
        .with(div("bare").show(rows))
        .with(unit());
    page_beside(|| "Trips".to_owned(), inside)
}

/// Asks for a stop to be planned.
pub fn plan() {
    let store = use_store();
    asked::name("Plan a stop", "Name of the sale", "", move |name| {
        store.dispatch(TripCommand::PlanStop { name }.into(), |_| {});
    });
}

fn row(trip: &TripRow) -> El {
    let day = trip.day.map(format::day_short).unwrap_or_default();
    let name = match (trip.name.as_str(), trip.started) {
        ("", None) => "Planned".to_owned(),
        ("", Some(_)) => day.clone(),
        (name, _) => format!("{name}, {day}"),
    };
    let mut below = vec![match trip.stops {
        1 => "1 stop".to_owned(),
        stops => format!("{stops} stops"),
    }];
    if let Some(driven) = trip.driven {
        below.push(driven.to_string());
    }
    let mark = trip.open.then(|| span("mark").with("under way"));
    el("a")
        .class("row")
        .attr("href", &Route::Trip(trip.id).href())
        .attr("data-trip", &trip.id.to_string())
        .with(
            span("what")
                .with(name)
                .with(" ")
                .with(mark)
                .with(el("br"))
                .with(span("support").with(below.join(", "))),
        )
        .with(span("sells").with(format!("{} things", trip.sums.things)))
}

/// Miles or kilometres.
fn unit() -> El {
    let store = use_store();
    let chosen: Now<usize> = Rc::new(move || {
        let unit = store.read_setup(State::distance_unit);
        DistanceUnit::ALL
            .iter()
            .position(|one| *one == unit)
            .unwrap_or(0)
    });
    let choose: Do<usize> = Rc::new(move |at: usize| {
        let command = TripCommand::SetDistanceUnit(DistanceUnit::ALL[at]);
        store.dispatch(command.into(), |_| {});
    });
    let words: Vec<(&str, &str)> = DistanceUnit::ALL
        .iter()
        .map(|unit| (unit.symbol(), ""))
        .collect();
    choice_keys("Distances in", "distances", false, &words, &chosen, &choose)
}
