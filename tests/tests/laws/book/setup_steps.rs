//! Steps of random programs about rate cards, containers, kinds, units and names.

use super::device::{Device, pick};
use super::program::{amounts, names};
use crate::postage::cards::{facts, size, weight};
use haulwren_core::book::{
    Command, KindSetup, LeftBehind, LotCommand, State, TripCommand, TripSetup,
};
use haulwren_core::change::Change;
use haulwren_core::id::{CardId, ContainerId, KindId, LotId, PassedId, TripId};
use haulwren_core::measure::{DistanceUnit, System, WeightUnit};
use haulwren_core::money::Money;
use haulwren_core::packing::{Container, Form, Fragility, Piece};
use haulwren_core::postage::RateCard;
use haulwren_core::stamp::At;
use proptest::prelude::*;
use proptest::sample::select;

/// One thing done. Small numbers choose among the records that are there, as in the other steps.
#[derive(Clone, Debug)]
pub enum SetupStep {
    Card(Option<u8>, RateCard),
    UseCard(u8),
    RemoveCard(u8),
    Container(Option<u8>, Container),
    RemoveContainer(u8),
    /// Of all kinds, those to begin with included.
    Kind(Option<u8>, KindSetup),
    RemoveKind(u8),
    Pass(String, Money),
    Units(System),
    Distance(DistanceUnit),
    NameDevice(String),
    NameLot(u8, String),
    /// By how much its end moves.
    SaveTrip(u8, String, Option<u32>),
}

fn cards() -> impl Strategy<Value = RateCard> {
    let name = select(vec!["Northmail", "Fenpost", "Low Road Parcels"]);
    (facts(), name).prop_map(|(facts, name)| RateCard {
        name: name.to_owned(),
        ..facts.card()
    })
}

fn sizes() -> impl Strategy<Value = haulwren_core::measure::ParcelSize> {
    [10_i128..300, 10_i128..300, 10_i128..300].prop_map(size)
}

fn containers() -> impl Strategy<Value = Container> {
    let form = select(vec![Form::Mailer, Form::Carton]);
    (names(), 1_i128..50, amounts(), sizes(), form).prop_map(|(name, tare, cost, inside, form)| {
        let tare = weight(tare, WeightUnit::Ounce);
        Container {
            name,
            tare,
            cost,
            inside,
            form,
        }
    })
}

fn kinds() -> impl Strategy<Value = KindSetup> {
    let fragility = select(vec![
        Fragility::Sturdy,
        Fragility::Fragile,
        Fragility::VeryFragile,
    ]);
    (names(), 1_i128..900, sizes(), any::<bool>(), fragility).prop_map(
        |(name, tenths, size, soft, fragility)| KindSetup {
            name,
            piece: Piece {
                size,
                weight: weight(tenths, WeightUnit::Ounce),
                soft,
                fragility,
            },
            venue: None,
        },
    )
}

/// Boxed: a strategy of so many ways is too large for a test's stack.
pub fn setup_steps() -> BoxedStrategy<SetupStep> {
    let which = || any::<u8>();
    let maybe = || prop::option::of(any::<u8>());
    // Few of the kinds to begin with, so that two devices change the same.
    let kind = || prop_oneof![Just(0_u8), any::<u8>()];
    let units = select(System::ALL.to_vec());
    let distance = select(vec![DistanceUnit::Mile, DistanceUnit::Kilometre]);
    let posting = prop_oneof![
        3 => (maybe(), cards()).prop_map(|(which, card)| SetupStep::Card(which, card)),
        1 => which().prop_map(SetupStep::UseCard),
        1 => which().prop_map(SetupStep::RemoveCard),
        2 => (maybe(), containers()).prop_map(|(which, container)| SetupStep::Container(which, container)),
        1 => which().prop_map(SetupStep::RemoveContainer),
    ];
    let others = prop_oneof![
        3 => (prop::option::of(kind()), kinds()).prop_map(|(which, kind)| SetupStep::Kind(which, kind)),
        1 => kind().prop_map(SetupStep::RemoveKind),
        1 => (names(), amounts()).prop_map(|(name, ask)| SetupStep::Pass(name, ask)),
        1 => units.prop_map(SetupStep::Units),
        1 => distance.prop_map(SetupStep::Distance),
        1 => names().prop_map(SetupStep::NameDevice),
        1 => (which(), names()).prop_map(|(lot, name)| SetupStep::NameLot(lot, name)),
        1 => (which(), names(), prop::option::of(0_u32..500))
            .prop_map(|(trip, name, stay)| SetupStep::SaveTrip(trip, name, stay)),
    ];
    prop_oneof![posting.boxed(), others.boxed()].boxed()
}

impl SetupStep {
    /// What is asked of the book.
    pub fn command(self, state: &State, now: At) -> Command {
        let tables = &state.tables;
        let card = |which| CardId(pick(&tables.cards, which));
        let container = |which| ContainerId(pick(&tables.containers, which));
        let kind = |which: u8| {
            let kinds = state.kinds();
            let found = kinds.get(usize::from(which) % (kinds.len() + 1));
            found.map_or(KindId(uuid::Uuid::max()), |kind| kind.id)
        };
        match self {
            Self::Card(which, of) => Command::SaveCard {
                id: which.map(card),
                card: of,
            },
            Self::UseCard(which) => Command::UseCard(card(which)),
            Self::RemoveCard(which) => Command::RemoveCard(card(which)),
            Self::Container(which, of) => Command::SaveContainer {
                id: which.map(container),
                container: of,
            },
            Self::RemoveContainer(which) => Command::RemoveContainer(container(which)),
            Self::Kind(which, of) => Command::SaveKind {
                id: which.map(kind),
                kind: of,
            },
            Self::RemoveKind(which) => Command::RemoveKind(kind(which)),
            Self::Pass(name, ask) => Command::PassBy(LeftBehind {
                name,
                ask: Some(ask),
                ..LeftBehind::default()
            }),
            Self::Units(units) => Command::UseUnits(units),
            Self::Distance(unit) => TripCommand::SetDistanceUnit(unit).into(),
            Self::NameDevice(name) => Command::NameDevice(name),
            Self::NameLot(which, name) => {
                let lot = LotId(pick(&tables.lots, which));
                LotCommand::NameLot { lot, name }.into()
            }
            Self::SaveTrip(which, name, stay) => {
                let id = TripId(pick(&tables.trips, which));
                let known = state.trip(id).cloned().unwrap_or_default();
                let ended = |stay: u32| Some(At(known.started?.0 + u64::from(stay), now.1));
                let setup = TripSetup {
                    name,
                    day: known.day,
                    started: known.started,
                    ended: stay.and_then(ended),
                    odometer_out: stay,
                    ..TripSetup::default()
                };
                TripCommand::SaveTrip { id, setup }.into()
            }
        }
    }
}

/// Is it in the book as it was asked for?
pub fn setup_holds(device: &Device, of: &SetupStep, changes: &[Change]) -> bool {
    let (state, id) = (&device.state, changes[0].id);
    match of {
        SetupStep::Card(_, card) => state.cards().any(|(_, of)| of.card.as_ref() == Some(card)),
        SetupStep::UseCard(_) => state.usual_card().is_some(),
        SetupStep::RemoveCard(_) => state.card(CardId(id)).is_none(),
        SetupStep::Container(_, container) => state.container(ContainerId(id)).is_some_and(|of| {
            of.name == container.name.trim()
                && (of.cost, of.inside) == (container.cost, container.inside)
        }),
        SetupStep::RemoveContainer(_) => state.container(ContainerId(id)).is_none(),
        SetupStep::Kind(_, kind) => state
            .kind(KindId(id))
            .is_some_and(|of| of.name == kind.name.trim() && of.piece == kind.piece && !of.typical),
        SetupStep::RemoveKind(_) => state.kind(KindId(id)).is_none(),
        SetupStep::Pass(_, ask) => state.tables.passed[&PassedId(id).0].value.ask == Some(*ask),
        SetupStep::Units(units) => state.units() == *units,
        SetupStep::Distance(unit) => state.distance_unit() == *unit,
        SetupStep::NameDevice(name) => state.name_of(state.me) == name.trim(),
        SetupStep::NameLot(_, name) => {
            let lot = &state.tables.lots[&id].value;
            lot.name.as_deref() == Some(name.trim())
        }
        SetupStep::SaveTrip(_, name, stay) => state.trip(TripId(id)).is_some_and(|trip| {
            trip.name.as_deref() == Some(name.trim()) && trip.odometer_out == *stay
        }),
    }
}
