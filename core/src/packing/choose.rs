//! Which container is the cheapest, its postage included.

use crate::measure::{ParcelSize, Weight};
use crate::money::Money;

use super::container::{Container, Piece};
use super::fit::{Fit, fit};

/// A container with what it comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Choice {
    /// The container, by its place in the list.
    pub container: usize,
    /// Whether all goes in.
    pub fit: Fit,
    /// The parcel's weight: the things and the container.
    pub weight: Weight,
    /// The parcel's size.
    pub size: ParcelSize,
    /// What the container costs.
    pub cost: Money,
    /// What the parcel costs to post.
    pub postage: Money,
}

impl Choice {
    /// The container and the postage.
    pub fn total(&self) -> Money {
        self.cost.plus(self.postage)
    }
}

/// The container with the least cost and postage that everything goes into; of equals the first. One that may fit is taken only
/// when none surely does. `postage` prices a parcel in a container, or has no price for it. `None` when there is none at all.
pub fn cheapest(
    pieces: &[Piece],
    containers: &[Container],
    nodes: u32,
    postage: &mut dyn FnMut(Weight, ParcelSize, &Container) -> Option<Money>,
) -> Option<Choice> {
    let mut best: Option<Choice> = None;
    for (at, container) in containers.iter().enumerate() {
        let fitted = fit(pieces, container, nodes);
        if fitted.fit == Fit::No {
            continue;
        }
        let mut weights: Vec<Weight> = pieces.iter().map(|piece| piece.weight).collect();
        weights.push(container.tare);
        let Ok(weight) = Weight::sum(&weights) else {
            continue;
        };
        let Some(postage) = postage(weight, fitted.size, container) else {
            continue;
        };
        let choice = Choice {
            container: at,
            fit: fitted.fit,
            weight,
            size: fitted.size,
            cost: container.cost,
            postage,
        };
        let is_better = |best: &Choice| {
            choice.fit > best.fit || (choice.fit == best.fit && choice.total() < best.total())
        };
        if best.as_ref().is_none_or(is_better) {
            best = Some(choice);
        }
    }
    best
}
