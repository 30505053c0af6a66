//! The form of a rate card, read.

use super::{CardForm, CardInput, ServiceText, Sheet};
use crate::money::{Currency, Rate};
use crate::postage::{LONGEST_NAME, ROUGH_STEPS, RateCard, WHOLE_MIX};
use crate::view::Complaint;

/// What is wrong, so far.
pub(super) struct Faults(pub(super) Vec<Complaint<CardInput>>);

impl Faults {
    pub(super) fn say(&mut self, field: CardInput, sentence: &dyn ToString) {
        let sentence = sentence.to_string();
        self.0.push(Complaint { field, sentence });
    }

    /// A name, trimmed; one that isn't there is complained about.
    pub(super) fn name(&mut self, field: CardInput, typed: &str, missing: &str) -> String {
        let name = typed.trim();
        if name.is_empty() {
            self.say(field, &missing);
        } else if name.chars().count() > LONGEST_NAME {
            self.say(field, &format!("Use at most {LONGEST_NAME} characters."));
        }
        name.to_owned()
    }
}

impl CardForm {
    /// Reads the form.
    ///
    /// # Errors
    /// Every place that cannot be used, with a sentence.
    pub fn read(&self, currency: Currency) -> Result<RateCard, Vec<Complaint<CardInput>>> {
        let mut faults = Faults(Vec::new());
        let mut card = RateCard {
            name: faults.name(CardInput::Name, &self.name, "Give the card a name."),
            rough: self.rough,
            mix: self.read_mix(&mut faults),
            services: Vec::with_capacity(self.services.len()),
        };
        for (at, service) in self.services.iter().enumerate() {
            let is_few = self.is_simple();
            card.services
                .push(service.read(at, currency, is_few, &mut faults));
        }
        if self.rough
            && let [service] = card.services.as_mut_slice()
            && service.zones.len() == 1
        {
            // A weight to begin with that has no price yet is no step.
            service
                .steps
                .retain(|step| step.prices.iter().any(Option::is_some));
        }
        if self.is_simple() {
            let service = &card.services[0];
            if faults.0.is_empty() && !ROUGH_STEPS.contains(&service.steps.len()) {
                let sentence = "Type a price for four to six of the weights.";
                faults.say(CardInput::Sheet(0, Sheet::Table), &sentence);
            }
        }
        if faults.0.is_empty()
            && let Err(error) = card.check()
        {
            faults.say(CardInput::Whole, &error);
        }
        if faults.0.is_empty() {
            Ok(card)
        } else {
            Err(faults.0)
        }
    }

    /// How likely each zone is, in ten-thousandths; empty when nothing is said of any.
    fn read_mix(&self, faults: &mut Faults) -> Vec<u32> {
        if self.mix.iter().all(|share| share.trim().is_empty()) {
            return Vec::new();
        }
        let mut mix = vec![0; self.widest().max(self.mix.len())];
        let mut sum = 0;
        for (zone, typed) in self.mix.iter().enumerate() {
            if typed.trim().is_empty() {
                continue;
            }
            match Rate::parse(typed).map(Rate::ten_thousandths) {
                Ok(share) if share % 100 == 0 => mix[zone] = share / 100,
                Ok(_) => faults.say(CardInput::Mix(zone), &"Use at most 2 decimals."),
                Err(error) => faults.say(CardInput::Mix(zone), &error),
            }
            sum += u64::from(mix[zone]);
        }
        if faults.0.is_empty() && sum != WHOLE_MIX {
            let (whole, part) = (sum / 100, sum % 100);
            let sentence = format!("The shares come to {whole}.{part:02}, and have to be 100.");
            faults.say(CardInput::Shares, &sentence);
        }
        mix
    }

    /// How many zones the service with the most of them has.
    pub fn widest(&self) -> usize {
        let zones = self.services.iter().map(|service| service.zones().len());
        zones.max().unwrap_or_default()
    }

    /// Is it a rough card of one price for each weight, with nothing else to it?
    pub fn is_simple(&self) -> bool {
        let [service] = self.services.as_slice() else {
            return false;
        };
        let rest = &service.texts[ServiceText::Name as usize + 1..];
        self.rough
            && service.zones().len() == 1
            && ROUGH_STEPS.contains(&(service.table.len() - 1))
            && service.flat.is_empty()
            && service.extra.is_empty()
            && rest.iter().all(String::is_empty)
    }
}
