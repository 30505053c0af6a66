//! What a thing is and what it can be packed in: looked up once, for all venues and all prices.

use core::cell::RefCell;
use std::rc::Rc;

use super::posted::{Posted, Unsaid, by_card};
use super::typed::Typed;
use crate::book::{KnownKind, State};
use crate::day::Day;
use crate::id::{CardId, KindId, VenueId};
use crate::measure::{ParcelSize, Weight};
use crate::money::Money;
use crate::packing::{Container, Fragility, Heft, Piece};
use crate::postage::RateCard;
use crate::terms::stale;

/// What the thing is, as far as it was said.
pub(super) struct What {
    pub kind: Option<KnownKind>,
    pub piece: Option<Piece>,
    /// Whether the piece is only a guess of size and heft.
    pub rough: bool,
}

/// The book's containers and the thing, looked up once for all venues.
pub(super) struct Packing {
    pub what: What,
    containers: Vec<Container>,
    /// What was worked out already: most venues post by the same card. By card and usual packing.
    sent: RefCell<Vec<(CardId, Money, Posted)>>,
}

/// How a thing would be sent, looked up once and good for all prices: as long as the book and what the thing is stay the same.
#[derive(Clone)]
pub struct Sending(pub(super) Rc<Packing>);

impl PartialEq for Sending {
    /// One that was looked up anew counts as another.
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl Sending {
    /// Looks it up, by the kind, else by size and heft.
    #[must_use]
    pub fn of(state: &State, kind: Option<KindId>, heft: Option<Heft>) -> Self {
        Self(Rc::new(Packing::of(state, kind, heft)))
    }
}

impl Packing {
    /// The same of a thing with a weight and a size of its own, where they are known.
    pub(super) fn of_own(
        state: &State,
        kind: Option<KindId>,
        weight: Option<Weight>,
        size: Option<ParcelSize>,
    ) -> Self {
        let mut packing = Self::of(state, kind, None);
        let own = weight.zip(size).map(|(weight, size)| Piece {
            size,
            weight,
            soft: false,
            fragility: Fragility::default(),
        });
        let known = packing.what.piece.or(own);
        packing.what.piece = known.map(|piece| Piece {
            weight: weight.unwrap_or(piece.weight),
            size: size.unwrap_or(piece.size),
            ..piece
        });
        packing
    }

    fn of(state: &State, kind: Option<KindId>, heft: Option<Heft>) -> Self {
        let kind = kind.and_then(|id| state.kind(id));
        let typical = heft.map(|heft| heft.typical(state.units()));
        Self {
            what: What {
                piece: kind.as_ref().map(|kind| kind.piece).or(typical),
                rough: kind.is_none() && typical.is_some(),
                kind,
            },
            containers: state.containers().map(|(_, container)| container).collect(),
            sent: RefCell::default(),
        }
    }

    /// How it is sent from a venue. What is typed goes before what is worked out, and that before the venue's usual amounts.
    pub(super) fn sent(&self, state: &State, typed: &Typed, venue: VenueId, today: Day) -> Posted {
        let known = state.venue(venue);
        let said = known.and_then(|venue| venue.packing);
        let usual = said.unwrap_or_default();
        // No parcel goes for nothing: so forms once wrote what was left empty.
        let usual_postage = known.and_then(|venue| venue.postage);
        let usual_postage = usual_postage.filter(|postage| !postage.is_zero());
        let mut posted = match (self.what.piece, state.card_of(venue)) {
            (Some(piece), Some((id, record))) => {
                let mut posted = self.by_card(id, record.card.as_ref(), piece, usual);
                posted.card = Some(id);
                posted.stale = record.checked.and_then(|checked| stale(checked, today));
                posted.rough |= self.what.rough;
                posted
            }
            (piece, _) => Posted {
                postage: usual_postage,
                unsaid: Unsaid {
                    postage: usual_postage.is_none(),
                    packing: false,
                },
                packing: usual,
                weight: piece.map(|piece| piece.weight),
                rough: self.what.rough,
                ..Posted::default()
            },
        };
        if let Some(postage) = typed.postage {
            // A typed postage is the trader's own word: nothing of the card stands behind it.
            posted = Posted {
                postage: Some(postage),
                packing: posted.packing,
                weight: posted.weight,
                container: posted.container,
                loose: posted.loose,
                ..Posted::default()
            };
        }
        posted.unsaid.packing =
            said.is_none() && typed.packing.is_none() && posted.container.is_none();
        posted.packing = typed.packing.unwrap_or(posted.packing);
        posted.units = state.units();
        posted
    }

    fn by_card(&self, id: CardId, card: Option<&RateCard>, piece: Piece, usual: Money) -> Posted {
        let is_it = |known: &&(CardId, Money, Posted)| (known.0, known.1) == (id, usual);
        if let Some((.., posted)) = self.sent.borrow().iter().find(is_it) {
            return posted.clone();
        }
        let posted = card.map_or_else(Posted::default, |card| {
            by_card(card, piece, &self.containers, usual)
        });
        self.sent.borrow_mut().push((id, usual, posted.clone()));
        posted
    }
}
