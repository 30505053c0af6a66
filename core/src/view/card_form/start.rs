//! A card to begin with: rough, six weights that are typed already, and their prices to be typed.

use super::{CardForm, ServiceForm, ServiceText};
use crate::measure::{Unit, WeightUnit};

/// Weights that parcels of clothes and small things mostly come under. Common practice, no source.
const fn typical(unit: WeightUnit) -> [&'static str; 6] {
    match unit {
        WeightUnit::Ounce => ["4", "8", "12", "1 lb", "2 lb", "5 lb"],
        WeightUnit::Pound => ["4 oz", "8 oz", "12 oz", "1", "2", "5"],
        WeightUnit::Gram => ["100", "250", "500", "1 kg", "2 kg", "5 kg"],
        WeightUnit::Kilogram => ["0.1", "0.25", "0.5", "1", "2", "5"],
    }
}

/// Are these the weights that a rough card begins with?
fn is_typical(service: &ServiceForm) -> bool {
    let rows = service.table.get(1..).unwrap_or(&[]);
    rows.len() == 6
        && rows
            .iter()
            .zip(typical(service.unit))
            .all(|(row, weight)| row[0] == weight)
}

impl CardForm {
    /// A new card in a unit of weight.
    pub fn start(unit: WeightUnit) -> Self {
        let mut form = Self {
            rough: true,
            ..Self::default()
        };
        form.add_service();
        let service = &mut form.services[0];
        service.unit = unit;
        "Parcel".clone_into(&mut service.texts[ServiceText::Name as usize]);
        service.table = vec![vec![String::new(), "all".to_owned()]];
        for weight in typical(unit) {
            service.table.push(vec![weight.to_owned(), String::new()]);
        }
        form
    }
}

impl ServiceForm {
    /// Chooses the unit of weights typed without one, by its place among the units. Weights to begin with become those of it.
    pub fn choose_unit(&mut self, place: usize) {
        let Some(unit) = WeightUnit::ALL.get(place).copied() else {
            return;
        };
        let was_typical = is_typical(self);
        self.unit = unit;
        if was_typical {
            for (row, weight) in self.table.iter_mut().skip(1).zip(typical(unit)) {
                weight.clone_into(&mut row[0]);
            }
        }
    }

    /// The place of its unit among the units.
    pub fn unit_place(&self) -> usize {
        let place = WeightUnit::ALL.iter().position(|unit| *unit == self.unit);
        place.unwrap_or_default()
    }
}
