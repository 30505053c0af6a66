//! What stands beside a service's table, read: containers at a flat price, and surcharges.

use super::service::{Reader, is_blank};
use super::{CardInput, MEASURES, Sheet};
use crate::measure::Length;
use crate::postage::{FlatPrice, Over, Surcharge};

impl Reader<'_> {
    pub(super) fn flat(&mut self, zones: usize) -> Vec<FlatPrice> {
        let form = self.form;
        let mut all = Vec::new();
        for (row, cells) in form.flat.iter().enumerate() {
            if is_blank(cells) {
                continue;
            }
            let at = |column| CardInput::Cell(self.at, Sheet::Flat, row, column);
            let (name_at, weight_at) = (at(0), at(1));
            let missing = "Give the container a name.";
            let container = self.faults.name(name_at, &cells[0], missing);
            let heaviest = cells.get(1).map_or("", String::as_str);
            let heaviest = self.parsed(weight_at, heaviest, self.units.weight);
            all.push(FlatPrice {
                container,
                prices: self.prices(Sheet::Flat, row, 2, zones),
                heaviest,
            });
        }
        all
    }

    pub(super) fn surcharges(&mut self) -> Vec<Surcharge> {
        let form = self.form;
        let mut all = Vec::new();
        for (row, cells) in form.extra.iter().enumerate() {
            // The measure alone says nothing yet.
            if is_blank(&cells[1..]) {
                continue;
            }
            let at = CardInput::Cell(self.at, Sheet::Extra, row, 1);
            let text = cells[1].as_str();
            let over = match MEASURES.iter().position(|(name, _)| *name == cells[0]) {
                Some(2) => self.parsed(at, text, self.units.volume).map(Over::Volume),
                Some(measure) => self.parsed::<_>(at, text, self.units.length).map(
                    |over: Length| match measure {
                        0 => Over::Longest(over),
                        _ => Over::LengthAndGirth(over),
                    },
                ),
                None => None,
            };
            if text.trim().is_empty() {
                self.faults.say(at, &"Type from where on it is charged.");
            }
            let amount = self.amount(Sheet::Extra, row, 2);
            if cells.get(2).is_none_or(|cell| cell.trim().is_empty()) {
                let at = CardInput::Cell(self.at, Sheet::Extra, row, 2);
                self.faults.say(at, &"Type how much.");
            }
            if let (Some(over), Some(amount)) = (over, amount) {
                all.push(Surcharge { over, amount });
            }
        }
        all
    }
}
