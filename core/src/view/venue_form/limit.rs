//! A limit on several charges together, as typed.

use super::input::{GroupInput, VenueInput};
use super::marks::{Marks, marks, positions};
use super::read::Reader;
use crate::json::{Object, read_form};
use crate::money::{Currency, Money, plain};
use crate::terms::Group;
use serde::{Deserialize, Serialize};

/// The texts of one limit.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct GroupForm {
    /// What the difference is called.
    pub label: String,
    /// Which charges.
    pub charges: Marks,
    /// Never less than this together; empty for no such limit.
    pub least: String,
    /// Never more than this together; empty for no such limit.
    pub most: String,
}

read_form!(GroupForm: label charges least most);

impl GroupForm {
    pub(super) fn read(&self, at: usize, reader: &mut Reader<'_>) -> Group {
        let of = |input| VenueInput::Group(at, input);
        Group {
            label: self.label.trim().to_owned(),
            charges: positions(self.charges),
            least: reader.money(of(GroupInput::Least), &self.least),
            most: reader.money(of(GroupInput::Most), &self.most),
        }
    }

    pub(super) fn of(group: &Group, currency: Currency) -> Self {
        let maybe = |money: Option<Money>| {
            let text = money.map(|money| plain(money, currency));
            text.unwrap_or_default()
        };
        Self {
            label: group.label.clone(),
            charges: marks(group.charges),
            least: maybe(group.least),
            most: maybe(group.most),
        }
    }
}
