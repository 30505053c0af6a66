//! Rate cards, containers and kinds: what a parcel's postage and packing rest on.

use super::super::checked::{check_amounts, checked_name};
use super::super::command::{Context, KindSetup};
use super::super::kinds::{CardEdit, ContainerEdit, KindEdit, RulesEdit};
use super::super::refusal::Refusal;
use super::super::state::State;
use super::super::table::Edits;
use crate::id::{CardId, ContainerId, KindId, RulesId};
use crate::packing::Container;
use crate::postage::RateCard;

impl State {
    /// An unchanged card is marked as checked today; a changed one becomes a new version, unless today's is still unused.
    pub(super) fn save_card(
        &self,
        id: Option<CardId>,
        card: &RateCard,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        card.check()?;
        let today = context.at.day().ok_or(Refusal::ClockOff)?;
        let known = match id {
            Some(id) => Some((id, self.card(id).ok_or(Refusal::NoCard)?)),
            None => None,
        };
        let others = self.cards().filter(|(other, _)| Some(*other) != id);
        if others.into_iter().any(|(_, other)| {
            other
                .card
                .as_ref()
                .is_some_and(|other| other.name == card.name)
        }) {
            return Err(Refusal::NameTaken);
        }
        let edits = match known {
            Some((id, known)) if known.card.as_ref() == Some(card) => {
                id.edit([CardEdit::Checked(Some(today))])
            }
            Some((id, known)) if known.from == Some(today) && !self.card_used(id) => {
                id.edit([CardEdit::Card(Some(card.clone()))])
            }
            known => CardId(context.fresh()).edit([
                CardEdit::Follows(known.map(|(id, _)| id)),
                CardEdit::From(Some(today)),
                CardEdit::Checked(Some(today)),
                CardEdit::Card(Some(card.clone())),
            ]),
        };
        let edits = self.only_new(edits);
        if edits.set.is_empty() {
            return Err(Refusal::NoChange);
        }
        Ok(vec![edits])
    }

    pub(super) fn use_card(&self, id: CardId) -> Result<Vec<Edits>, Refusal> {
        let id = self.newest_of(id).ok_or(Refusal::NoCard)?;
        if self.usual_card().map(|(usual, _)| usual) == Some(id) {
            return Err(Refusal::NoChange);
        }
        Ok(vec![RulesId::SINGLE.edit([RulesEdit::UsualCard(Some(id))])])
    }

    pub(super) fn remove_card(&self, id: CardId) -> Result<Vec<Edits>, Refusal> {
        self.card(id).ok_or(Refusal::NoCard)?;
        Ok(vec![id.edit([CardEdit::Gone(true)])])
    }

    pub(super) fn save_container(
        &self,
        id: Option<ContainerId>,
        container: &Container,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let name = checked_name(&container.name)?;
        check_amounts(&[container.cost])?;
        let is_other = |other: &ContainerId| Some(*other) != id;
        if self
            .containers()
            .any(|(other, known)| is_other(&other) && known.name == name)
        {
            return Err(Refusal::NameTaken);
        }
        let id = match id {
            Some(id) if self.container(id).is_none() => return Err(Refusal::NoContainer),
            Some(id) => id,
            None => ContainerId(context.fresh()),
        };
        self.worth_saying(id.edit([
            ContainerEdit::Name(Some(name)),
            ContainerEdit::Tare(Some(container.tare)),
            ContainerEdit::Cost(Some(container.cost)),
            ContainerEdit::Inside(Some(container.inside)),
            ContainerEdit::Form(Some(container.form)),
        ]))
    }

    pub(super) fn remove_container(&self, id: ContainerId) -> Result<Vec<Edits>, Refusal> {
        self.container(id).ok_or(Refusal::NoContainer)?;
        Ok(vec![id.edit([ContainerEdit::Gone(true)])])
    }

    pub(super) fn save_kind(
        &self,
        id: Option<KindId>,
        kind: &KindSetup,
        context: &mut Context<'_>,
    ) -> Result<Vec<Edits>, Refusal> {
        let name = checked_name(&kind.name)?;
        let is_other = |other: &KindId| Some(*other) != id;
        if self
            .kinds()
            .iter()
            .any(|known| is_other(&known.id) && known.name == name)
        {
            return Err(Refusal::NameTaken);
        }
        let id = match id {
            Some(id) if self.kind(id).is_none() => return Err(Refusal::NoKind),
            Some(id) => id,
            None => KindId(context.fresh()),
        };
        self.worth_saying(id.edit([
            KindEdit::Name(Some(name)),
            KindEdit::Weight(Some(kind.piece.weight)),
            KindEdit::Size(Some(kind.piece.size)),
            KindEdit::Soft(Some(kind.piece.soft)),
            KindEdit::Fragility(Some(kind.piece.fragility)),
            KindEdit::Venue(kind.venue),
        ]))
    }

    pub(super) fn remove_kind(&self, id: KindId) -> Result<Vec<Edits>, Refusal> {
        self.kind(id).ok_or(Refusal::NoKind)?;
        Ok(vec![id.edit([KindEdit::Gone(true)])])
    }

    fn worth_saying(&self, edits: Edits) -> Result<Vec<Edits>, Refusal> {
        let edits = self.only_new(edits);
        if edits.set.is_empty() {
            return Err(Refusal::NoChange);
        }
        Ok(vec![edits])
    }
}
