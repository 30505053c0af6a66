//! What a try has to be told besides the price: only what the terms ask for.

use std::rc::Rc;

use haulwren_core::book::VenueSetup;
use haulwren_core::id::KindId;
use haulwren_core::postage::{Arrangement, LabelPrice};
use haulwren_core::terms::Period;

use super::super::fields::pick;
use super::super::kinds::names;
use super::{Bench, entry};
use crate::ui::el::{El, Nodes};
use crate::ui::field::{self, Entry};

/// What a try has to be told besides the price.
#[derive(Clone, PartialEq, Eq, Default)]
pub struct Asks {
    pub weight: bool,
    pub running: Option<Period>,
    pub region: bool,
    pub promoted: bool,
    pub kinds: Vec<KindId>,
}

/// What a setup makes one ask.
pub fn asks(setup: &VenueSetup) -> Asks {
    let mut way = &setup.arrangement;
    if let Arrangement::FreeFrom { below, .. } = way {
        way = below;
    }
    let by_weight = |price: &LabelPrice| matches!(price, LabelPrice::Bands(_));
    let charges = &setup.schedule.charges;
    let mut kinds = Vec::new();
    for charge in charges {
        for kind in &charge.when.kinds {
            if !kinds.contains(kind) {
                kinds.push(*kind);
            }
        }
    }
    Asks {
        kinds,
        weight: matches!(way, Arrangement::Label { price, .. } if by_weight(price)),
        running: setup.schedule.tiers_by(),
        region: charges.iter().any(|charge| !charge.when.regions.is_empty()),
        promoted: charges.iter().any(|charge| charge.when.promoted.is_some()),
    }
}

/// The fields for it.
pub fn asked(bench: Bench, asks: &Asks) -> Nodes {
    let weight = || entry("try-weight", "It weighs", Entry::Words, bench.weight);
    let running = |by| {
        let label = match by {
            Period::Month => "Your sales this month so far",
            Period::Year => "Your sales this year so far",
        };
        entry("try-running", label, Entry::Number, bench.running)
    };
    let region = || entry("try-region", "The buyer is in", Entry::Words, bench.region);
    let promoted = || {
        field::check(
            "try-promoted",
            "It sold through a promotion",
            Rc::new(move || bench.promoted.get()),
            Rc::new(move |on| bench.promoted.set(on)),
        )
    };
    [
        asks.weight.then(weight),
        asks.running.map(running),
        asks.region.then(region),
        asks.promoted.then(promoted),
        (!asks.kinds.is_empty()).then(|| kind(bench, &asks.kinds)),
    ]
    .into()
}

/// Which of the kinds that the charges name it is, or another.
fn kind(bench: Bench, named: &[KindId]) -> El {
    let mut ids = Vec::new();
    let mut words = vec!["Another kind".to_owned()];
    for (id, name) in names(bench.desk, named) {
        if named.contains(&id) {
            ids.push(id);
            words.push(name);
        }
    }
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let ids = Rc::new(ids);
    let place = ids.clone();
    let chosen = move || {
        let kind = bench.kind.get();
        let place = kind.and_then(|kind| place.iter().position(|id| *id == kind));
        place.map_or(0, |place| place + 1)
    };
    let choose = move |at: usize| {
        let kind = at.checked_sub(1).and_then(|at| ids.get(at).copied());
        bench.kind.set(kind);
    };
    pick(
        "try-kind",
        "What kind of thing",
        &words,
        Rc::new(chosen),
        Rc::new(choose),
    )
}
