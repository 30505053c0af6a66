//! One service of the form, read.

use super::read::Faults;
use super::{CardInput, ServiceForm, ServiceText, Sheet};
use crate::measure::{Direction, Quantity, Unit, Volume, Weight, WeightUnit};
use crate::money::{Currency, Money, parse};
use crate::postage::{Limits, Rounding, Service, Step, Volumetric};
use crate::view::measures::{Units, typed};

/// A service under way: its form, its place on the card, and what is wrong so far.
pub(super) struct Reader<'a> {
    pub(super) form: &'a ServiceForm,
    pub(super) at: usize,
    pub(super) units: Units,
    pub(super) currency: Currency,
    pub(super) faults: &'a mut Faults,
}

impl ServiceForm {
    /// Reads it. What could not be read is left out, and said. Of the few numbers of a rough card (`is_few`) is said elsewhere how
    /// many are missing.
    pub(super) fn read(
        &self,
        at: usize,
        currency: Currency,
        is_few: bool,
        faults: &mut Faults,
    ) -> Service {
        let mut reader = Reader {
            form: self,
            at,
            units: Units::of(self.unit),
            currency,
            faults,
        };
        reader.service(is_few)
    }
}

/// Is nothing typed in a row?
pub(super) fn is_blank(row: &[String]) -> bool {
    row.iter().all(|cell| cell.trim().is_empty())
}

const fn direction(is_nearest: bool) -> Direction {
    if is_nearest {
        Direction::Nearest
    } else {
        Direction::Up
    }
}

impl Reader<'_> {
    fn service(&mut self, is_few: bool) -> Service {
        let form = self.form;
        let (weight, length) = (self.units.weight, self.units.length);
        let missing = "Give the service a name.";
        let name_at = CardInput::Text(self.at, ServiceText::Name);
        let name = self
            .faults
            .name(name_at, form.text(ServiceText::Name), missing);
        let zones = self.zones();
        let limits = Limits {
            longest: self.measure(ServiceText::Longest, length),
            length_and_girth: self.measure(ServiceText::Around, length),
            sum_of_sides: self.measure(ServiceText::Sum, length),
            heaviest: self.measure(ServiceText::Heaviest, weight),
        };
        let rounding = self.step(ServiceText::Round, weight).map(|step| Rounding {
            step,
            direction: direction(form.round_nearest),
        });
        let volumetric = self.volumetric();
        let steps = self.steps(zones.len());
        let flat = self.flat(zones.len());
        let surcharges = self.surcharges();
        let has_price = |prices: &[Option<Money>]| prices.iter().any(Option::is_some);
        let is_priced = steps.iter().any(|step| has_price(&step.prices))
            || flat.iter().any(|flat| has_price(&flat.prices));
        if self.faults.0.is_empty() && !is_priced && !is_few {
            let at = CardInput::Sheet(self.at, Sheet::Table);
            self.faults
                .say(at, &"Type at least one weight and its price.");
        }
        Service {
            name,
            unit: form.unit,
            zones,
            steps,
            limits,
            volumetric,
            rounding,
            surcharges,
            flat,
        }
    }

    fn zones(&mut self) -> Vec<String> {
        let mut zones = Vec::new();
        for (zone, typed) in self.form.zones().iter().enumerate() {
            let at = CardInput::Cell(self.at, Sheet::Table, 0, zone + 1);
            zones.push(self.faults.name(at, typed, "Give the zone a name."));
        }
        if zones.is_empty() {
            let at = CardInput::Sheet(self.at, Sheet::Table);
            self.faults
                .say(at, &"Add a zone. One alone stands for all.");
        }
        zones
    }

    /// A measure at a place; none when nothing is typed.
    pub(super) fn parsed<U: Unit>(
        &mut self,
        at: CardInput,
        text: &str,
        unit: &str,
    ) -> Option<Quantity<U>> {
        if text.trim().is_empty() {
            return None;
        }
        match typed(text, unit) {
            Ok(measure) => Some(measure),
            Err(error) => {
                self.faults.say(at, &error);
                None
            }
        }
    }

    fn measure<U: Unit>(&mut self, text: ServiceText, unit: &str) -> Option<Quantity<U>> {
        self.parsed(CardInput::Text(self.at, text), self.form.text(text), unit)
    }

    /// A weight of more than nothing.
    fn step(&mut self, text: ServiceText, unit: &str) -> Option<Weight> {
        let step: Weight = self.measure(text, unit)?;
        if step.ticks() == 0 {
            let at = CardInput::Text(self.at, text);
            self.faults.say(at, &"Type a step of more than nothing.");
            return None;
        }
        Some(step)
    }

    fn volumetric(&mut self) -> Option<Volumetric> {
        let form = self.form;
        let is_empty = |text| form.text(text).trim().is_empty();
        if [
            ServiceText::Divisor,
            ServiceText::BulkStep,
            ServiceText::BulkOver,
        ]
        .into_iter()
        .all(is_empty)
        {
            return None;
        }
        let at = CardInput::Text(self.at, ServiceText::Divisor);
        let (text, each) = divisor(form.text(ServiceText::Divisor));
        let per: Option<Volume> = self.parsed(at, text, self.units.volume);
        if is_empty(ServiceText::Divisor) || per.is_some_and(|per| per.ticks() == 0) {
            let sentence = format!(
                "Type how many {} count as one {}.",
                self.units.volume, self.units.heavy
            );
            self.faults.say(at, &sentence);
        }
        let step = if is_empty(ServiceText::BulkStep) {
            Some(Weight::whole(1, each.unwrap_or(form.unit.heavy())))
        } else {
            self.step(ServiceText::BulkStep, self.units.heavy)
        };
        let each = each.or(step.map(|step| step.unit().heavy()));
        if let (Some(each), Some(step)) = (each, step)
            && each.small() != step.unit().small()
        {
            let at = CardInput::Text(self.at, ServiceText::BulkStep);
            let sentence = format!(
                "Round in {} or {}, as the divisor is.",
                each.heavy().symbol(),
                each.small().symbol()
            );
            self.faults.say(at, &sentence);
        }
        let over = self.measure(ServiceText::BulkOver, self.units.volume);
        Some(Volumetric {
            per: per?,
            each: each?,
            rounding: Rounding {
                step: step?,
                direction: direction(form.bulk_nearest),
            },
            over,
        })
    }

    fn steps(&mut self, zones: usize) -> Vec<Step> {
        let form = self.form;
        let mut steps: Vec<Step> = Vec::new();
        for (row, cells) in form.table.iter().enumerate().skip(1) {
            if is_blank(cells) {
                continue;
            }
            let at = CardInput::Cell(self.at, Sheet::Table, row, 0);
            let prices = self.prices(Sheet::Table, row, 1, zones);
            let text = &cells[0];
            if text.trim().is_empty() {
                self.faults.say(at, &"Type up to which weight.");
                continue;
            }
            let Some(up_to) = self.parsed::<_>(at, text, self.units.weight) else {
                continue;
            };
            let up_to: Weight = up_to;
            let before = steps.last().map(|step| step.up_to);
            if up_to.ticks() == 0 {
                self.faults.say(at, &"A weight of nothing.");
            } else if let Some(before) = before
                && up_to.ticks() <= before.ticks()
            {
                let sentence = format!("Not heavier than {before}, the row before.");
                self.faults.say(at, &sentence);
            } else {
                steps.push(Step { up_to, prices });
            }
        }
        steps
    }

    /// The prices of a row, from a column on.
    pub(super) fn prices(
        &mut self,
        sheet: Sheet,
        row: usize,
        from: usize,
        zones: usize,
    ) -> Vec<Option<Money>> {
        let mut prices = Vec::with_capacity(zones);
        for column in from..from + zones {
            prices.push(self.amount(sheet, row, column));
        }
        prices
    }

    pub(super) fn amount(&mut self, sheet: Sheet, row: usize, column: usize) -> Option<Money> {
        let text = self.form.sheet(sheet).get(row)?.get(column)?;
        if text.trim().is_empty() {
            return None;
        }
        match parse(text, self.currency) {
            Ok(amount) => Some(amount),
            Err(error) => {
                let at = CardInput::Cell(self.at, sheet, row, column);
                self.faults.say(at, &error);
                None
            }
        }
    }
}

/// The divisor's volume as typed, and the unit of weight behind "per", where one is named.
fn divisor(text: &str) -> (&str, Option<WeightUnit>) {
    let named = |symbol: &str| {
        let symbol = symbol.trim().to_ascii_lowercase();
        let mut units = WeightUnit::ALL.iter().copied();
        units.find(|unit| unit.symbol() == symbol)
    };
    // A word that is no unit stays in the text, which then can't be read.
    match text.split_once("per") {
        Some((volume, symbol)) => named(symbol).map_or((text, None), |unit| (volume, Some(unit))),
        None => (text, None),
    }
}
