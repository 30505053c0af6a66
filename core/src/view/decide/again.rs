//! How a thing that was bought is sent, once more is known of it: its kind, its own weight and size.

use super::posted::Posted;
use super::sending::Packing;
use super::typed::Typed;
use crate::book::{Bought, Facts, State, Thing};
use crate::measure::{ParcelSize, Weight};
use crate::stamp::At;

/// How it would be sent from where it is to be sold: the way that its postage and packing are worked out on Decide, with its own weight and
/// size. Amounts that the facts hold count for nothing here. `None` while there is no venue.
#[must_use]
pub fn sent_again(state: &State, thing: &Thing, facts: &Facts, now: At) -> Option<Posted> {
    let packing = Packing::of_own(state, facts.kind, facts.weight, facts.size);
    let venue = state.venue_for(thing, packing.what.kind.as_ref())?;
    Some(packing.sent(state, &Typed::NOTHING, venue, now.day()?))
}

/// A thing to be bought or sorted out, with a weight and a size of its own, and the postage and packing that go with them.
#[must_use]
pub fn with_own(
    state: &State,
    thing: Bought,
    weight: Option<Weight>,
    size: Option<ParcelSize>,
    now: At,
) -> Bought {
    if weight.is_none() && size.is_none() {
        return thing;
    }
    let facts = Facts {
        kind: thing.kind,
        weight,
        size,
        ..Facts::default()
    };
    let posted = sent_again(state, &Thing::default(), &facts, now);
    let postage = posted.as_ref().and_then(|posted| posted.postage);
    Bought {
        weight,
        size,
        postage: postage.unwrap_or(thing.postage),
        packing: posted.map_or(thing.packing, |posted| posted.packing),
        ..thing
    }
}
