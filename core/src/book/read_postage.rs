//! Looking up rate cards, containers and kinds.

use super::kinds::{Card, Kind};
use super::read::{one, there};
use super::state::State;
use super::table::Record;
use crate::id::{CardId, ContainerId, KindId, RulesId, VenueId};
use crate::measure::System;
use crate::packing::{Caution, Container, Piece, STARTERS, Starter};
use uuid::Uuid;

/// A kind as it stands: own, or one to begin with.
#[derive(Clone, Debug, PartialEq)]
pub struct KnownKind {
    /// Its id; a starter kind has one that is the same on every device.
    pub id: KindId,
    /// Its name.
    pub name: String,
    /// What one weighs, how large it is, whether it folds, how easily it breaks.
    pub piece: Piece,
    /// The venue that things of it are judged on, when not the usual one.
    pub venue: Option<VenueId>,
    /// Whether these are only typical figures, which the trader has not weighed.
    pub typical: bool,
    /// What to beware of with things of it.
    pub cautions: &'static [Caution],
}

/// The id of a starter kind by its place among them: a UUID of version 8, whose meaning is ours (RFC 9562 section 5.8).
fn starter(place: usize) -> KindId {
    KindId(Uuid::from_u128(
        0x0000_0000_0000_8000_8000_0000_0000_0000 + place as u128,
    ))
}

/// The starter kind with this id.
fn starter_of(id: KindId) -> Option<&'static Starter> {
    (0..STARTERS.len())
        .find(|place| starter(*place) == id)
        .map(|place| &STARTERS[place])
}

impl State {
    /// The rate cards that hold now, oldest first: those that no other follows.
    pub fn cards(&self) -> impl Iterator<Item = (CardId, &Card)> {
        there(&self.tables.cards)
            .map(|(id, card)| (CardId(id), card))
            .filter(|(id, card)| card.card.is_some() && self.next_of(*id).is_none())
    }

    /// A version of a rate card.
    #[must_use]
    pub fn card(&self, id: CardId) -> Option<&Card> {
        one(&self.tables.cards, id.0)
    }

    /// The version that follows another; the youngest of several.
    fn next_of(&self, id: CardId) -> Option<CardId> {
        there(&self.tables.cards)
            .filter(|(other, card)| card.follows == Some(id) && *other != id.0)
            .map(|(other, _)| CardId(other))
            .max()
    }

    /// The version that holds now, of a card that was once chosen.
    #[must_use]
    pub fn newest_of(&self, id: CardId) -> Option<CardId> {
        let mut newest = id;
        // As many steps as there are cards, so that a circle that only a forged book could hold has an end.
        for _ in 0..self.tables.cards.len() {
            match self.next_of(newest) {
                Some(next) => newest = next,
                None => break,
            }
        }
        self.card(newest).map(|_| newest)
    }

    /// The card that parcels are posted by: the one set, else the oldest.
    #[must_use]
    pub fn usual_card(&self) -> Option<(CardId, &Card)> {
        let set = one(&self.tables.rules, RulesId::SINGLE.0).and_then(|rules| rules.usual_card);
        let set = set.and_then(|id| self.newest_of(id));
        set.and_then(|id| Some((id, self.card(id)?)))
            .or_else(|| self.cards().next())
    }

    /// The card that a venue's parcels are posted by.
    #[must_use]
    pub fn card_of(&self, venue: VenueId) -> Option<(CardId, &Card)> {
        let own = self.venue(venue).and_then(|venue| venue.card);
        let own = own.and_then(|id| self.newest_of(id));
        own.and_then(|id| Some((id, self.card(id)?)))
            .or_else(|| self.usual_card())
    }

    /// Whether a verdict was given by this version of a card.
    #[must_use]
    pub fn card_used(&self, id: CardId) -> bool {
        self.tables.things.values().any(|entry| {
            let expected = entry.value.expected.as_ref();
            expected.is_some_and(|expected| expected.card == Some(id))
        })
    }

    /// The containers, oldest first. One without its measures is left out.
    pub fn containers(&self) -> impl Iterator<Item = (ContainerId, Container)> {
        there(&self.tables.containers).filter_map(|(id, known)| {
            let container = Container {
                name: known.name.clone()?,
                tare: known.tare?,
                cost: known.cost.unwrap_or_default(),
                inside: known.inside?,
                form: known.form?,
            };
            Some((ContainerId(id), container))
        })
    }

    /// A container.
    #[must_use]
    pub fn container(&self, id: ContainerId) -> Option<Container> {
        self.containers()
            .find_map(|(other, container)| (other == id).then_some(container))
    }

    /// The kinds: own ones, youngest first, then those to begin with that were not taken away.
    #[must_use]
    pub fn kinds(&self) -> Vec<KnownKind> {
        let mut kinds: Vec<KnownKind> = there(&self.tables.kinds)
            .filter_map(|(id, kind)| known(KindId(id), kind))
            .collect();
        kinds.reverse();
        let units = self.units();
        for (place, start) in STARTERS.iter().enumerate() {
            let id = starter(place);
            if self.is_as_it_began(id) {
                kinds.push(as_it_began(id, start, units));
            }
        }
        kinds
    }

    /// A kind to begin with that was changed stands among the own ones, one that was taken away nowhere. One whose changes were undone is
    /// as it began.
    fn is_as_it_began(&self, id: KindId) -> bool {
        let said = self.tables.kinds.get(&id.0).map(|entry| &entry.value);
        said.is_none_or(|kind| !kind.is_gone() && kind.name.is_none())
    }

    /// A kind.
    #[must_use]
    pub fn kind(&self, id: KindId) -> Option<KnownKind> {
        let own = one(&self.tables.kinds, id.0).and_then(|kind| known(id, kind));
        own.or_else(|| {
            let start = starter_of(id).filter(|_| self.is_as_it_began(id))?;
            Some(as_it_began(id, start, self.units()))
        })
    }
}

fn as_it_began(id: KindId, start: &Starter, units: System) -> KnownKind {
    KnownKind {
        id,
        name: start.name.to_owned(),
        piece: start.piece(units),
        venue: None,
        typical: true,
        cautions: start.cautions,
    }
}

fn known(id: KindId, kind: &Kind) -> Option<KnownKind> {
    Some(KnownKind {
        id,
        name: kind.name.clone()?,
        piece: Piece {
            size: kind.size?,
            weight: kind.weight?,
            soft: kind.soft.unwrap_or(false),
            fragility: kind.fragility.unwrap_or_default(),
        },
        venue: kind.venue,
        typical: false,
        cautions: starter_of(id).map_or(&[], |start| start.cautions),
    })
}
