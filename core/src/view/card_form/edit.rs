//! Adding to the form and taking away.

use super::service::is_blank;
use super::{CardForm, MEASURES, ServiceForm, ServiceText, Sheet};
use crate::postage::{MAX_SERVICES, MAX_STEPS, MAX_ZONES, ROUGH_STEPS};

impl CardForm {
    /// One more service, in the unit and with the zones of the one before; false when there are as many as there may be.
    pub fn add_service(&mut self) -> bool {
        if self.services.len() >= MAX_SERVICES {
            return false;
        }
        let mut service = ServiceForm::default();
        let mut head = vec![String::new()];
        if let Some(before) = self.services.last() {
            service.unit = before.unit;
            head.extend(before.zones().iter().cloned());
        } else {
            head.push(String::new());
        }
        let columns = head.len();
        service.table = vec![head, vec![String::new(); columns]];
        self.services.push(service);
        true
    }

    /// Takes a service away, but never the last one.
    pub fn remove_service(&mut self, at: usize) {
        if self.services.len() > 1 && at < self.services.len() {
            self.services.remove(at);
            self.mix.truncate(self.widest());
        }
    }

    /// A rough card, or a full one. A rough one of one zone has room for as many steps as it may have.
    pub fn set_rough(&mut self, rough: bool) {
        self.rough = rough;
        if let [service] = self.services.as_mut_slice()
            && rough
            && service.zones().len() == 1
        {
            while service.table.len() - 1 < *ROUGH_STEPS.end() {
                service.add_row(Sheet::Table);
            }
        }
    }

    /// One more zone at the far end of a service.
    pub fn add_zone(&mut self, at: usize) -> bool {
        let Some(service) = self.services.get_mut(at) else {
            return false;
        };
        if service.zones().len() >= MAX_ZONES {
            return false;
        }
        if service.table.is_empty() {
            service.table.push(vec![String::new()]);
        }
        let columns = service.table[0].len();
        service.table[0].push(String::new());
        for row in service.table.iter_mut().skip(1) {
            row.resize(columns + 1, String::new());
        }
        true
    }

    /// Takes a zone of a service away, with its prices, and its share where no other service has so many zones.
    pub fn remove_zone(&mut self, at: usize, zone: usize) {
        let Some(service) = self.services.get_mut(at) else {
            return;
        };
        let zones = service.zones().len();
        if zone >= zones || zones < 2 {
            return;
        }
        drop_column(&mut service.table, zone + 1);
        drop_column(&mut service.flat, zone + 2);
        if self.widest() < zones && zone < self.mix.len() {
            self.mix.remove(zone);
        }
        if self.widest() < 2 {
            self.mix.clear();
        }
    }
}

fn drop_column(rows: &mut [Vec<String>], column: usize) {
    for row in rows {
        if column < row.len() {
            row.remove(column);
        }
    }
}

impl ServiceForm {
    /// One more row at the end of a sheet; false when there are as many as there may be.
    pub fn add_row(&mut self, sheet: Sheet) -> bool {
        let zones = self.zones().len();
        let (row, most) = match sheet {
            Sheet::Table => (vec![String::new(); zones + 1], MAX_STEPS + 1),
            Sheet::Flat => (vec![String::new(); zones + 2], 20),
            Sheet::Extra => {
                let measure = MEASURES[0].0.to_owned();
                (vec![measure, String::new(), String::new()], 20)
            }
        };
        let rows = self.sheet_mut(sheet);
        if rows.len() >= most {
            return false;
        }
        rows.push(row);
        true
    }

    /// Takes a row away; never the row of the zones.
    pub fn remove_row(&mut self, sheet: Sheet, row: usize) {
        let first = usize::from(sheet == Sheet::Table);
        let rows = self.sheet_mut(sheet);
        if (first..rows.len()).contains(&row) {
            rows.remove(row);
        }
    }

    /// How many rows of prices say something.
    pub fn filled(&self) -> usize {
        let rows = self.table.iter().skip(1);
        rows.filter(|row| !is_blank(row)).count()
    }

    /// Whether anything beyond the table is typed: limits, bulk, surcharges or flat prices.
    pub fn has_more(&self) -> bool {
        let rest = &self.texts[ServiceText::Name as usize + 1..];
        !self.flat.is_empty()
            || !self.extra.is_empty()
            || rest.iter().any(|text| !text.trim().is_empty())
    }
}
