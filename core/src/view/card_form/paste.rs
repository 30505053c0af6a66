//! A table from a spreadsheet: looked at first, and then taken in place of the one that stands.

use super::fill::priced;
use super::{CardForm, ServiceForm};
use crate::measure::Unit;
use crate::money::Currency;
use crate::postage::{Pasted, parse_table};
use crate::view::measures::bare;

/// What a service's pasted text would give; `None` when nothing is pasted.
pub fn pasted(service: &ServiceForm, currency: Currency) -> Option<Pasted> {
    let is_empty = service.pasted.trim().is_empty();
    (!is_empty).then(|| parse_table(&service.pasted, service.unit, currency))
}

/// The word of the key that takes it: "Take 12 rows"; `None` when there is nothing to take.
pub fn take_word(pasted: &Pasted) -> Option<String> {
    match pasted.steps.len() {
        0 => None,
        1 => Some("Take 1 row".to_owned()),
        rows => Some(format!("Take {rows} rows")),
    }
}

impl CardForm {
    /// Takes what was pasted into a service in place of its table, which is kept aside. Rows that could not be read stay out.
    pub fn take_pasted(&mut self, at: usize, currency: Currency) {
        let Some(service) = self.services.get_mut(at) else {
            return;
        };
        let Some(pasted) = pasted(service, currency) else {
            return;
        };
        if pasted.steps.is_empty() {
            return;
        }
        let mut head = vec![String::new()];
        head.extend(pasted.zones);
        let mut table = vec![head];
        for step in &pasted.steps {
            let row = vec![bare(&step.up_to.to_string(), service.unit.symbol())];
            table.push(priced(row, &step.prices, currency));
        }
        service.before = std::mem::replace(&mut service.table, table);
        service.pasted.clear();
    }

    /// Puts the table back that a pasted one took the place of.
    pub fn put_back(&mut self, at: usize) {
        let Some(service) = self.services.get_mut(at) else {
            return;
        };
        if !service.before.is_empty() {
            service.table = std::mem::take(&mut service.before);
        }
    }
}
