//! A device in the tests: a book, all the changes that it holds, a clock that may be wrong, and chance that repeats itself.

use super::haul_steps::HaulStep;
use super::mending;
use super::program::{Step, Timed};
use haulwren_core::book::{
    Command, Context, Edits, Expected, Purchase, Refusal, State, Table, Word, undo,
};
use haulwren_core::change::{Change, RecordKey, Vector, fold};
use haulwren_core::id::{ThingId, VenueId};
use haulwren_core::money::{Currency, Money};
use haulwren_core::stamp::At;
use std::collections::BTreeSet;
use uuid::Uuid;

/// Where the clocks start: in November 2026.
const START_MS: u64 = 1_795_279_327_123;

pub struct Device {
    pub state: State,
    /// Its changes in the order in which they came to it.
    pub log: Vec<Change>,
    pub now: At,
    chance: u64,
}

impl Device {
    /// A device with an empty book; `number` is under 10. Their clocks differ by up to some days, their zones by hours.
    pub fn new(number: u8) -> Self {
        let code = format!("device{}a", char::from(b'a' + number));
        let skew = u64::from(number) * 37_000_003;
        Self {
            state: State::new(code.parse().unwrap()),
            log: Vec::new(),
            now: At(START_MS + skew, i16::from(number) * 330 - 300),
            chance: u64::from(number) + 1,
        }
    }

    /// A device whose book has begun.
    pub fn begun() -> Self {
        let mut device = Self::new(0);
        let begin = Command::Begin {
            currency: Currency::from_code("USD").unwrap(),
            device: "Phone".to_owned(),
        };
        let edits = device.decide(&begin).unwrap();
        device.commit(edits);
        device
    }

    /// A device that was set up from a copy of this one's storage, and so goes by its code. Its chance is its own.
    pub fn twin(&self) -> Self {
        Self {
            state: self.state.clone(),
            log: self.log.clone(),
            now: At(self.now.0 + 7, self.now.1),
            chance: self.chance.wrapping_mul(31).wrapping_add(77),
        }
    }

    /// So many devices that share one book.
    pub fn several(count: u8) -> Vec<Self> {
        let first = Self::begun();
        let others = (1..count).map(|number| {
            let mut device = Self::new(number);
            device.pull(&first, usize::MAX);
            device
        });
        let others: Vec<_> = others.collect();
        std::iter::once(first).chain(others).collect()
    }

    /// Lets the clock move on, or back.
    pub fn wait(&mut self, ms: i64) {
        self.now.0 = self.now.0.saturating_add_signed(ms);
    }

    pub fn decide(&mut self, command: &Command) -> Result<Vec<Edits>, Refusal> {
        let seed = &mut self.chance;
        let mut context = Context {
            at: self.now,
            chance: &mut || chance(seed),
        };
        self.state.decide(command, &mut context)
    }

    /// What a step comes to, before it is saved.
    pub fn plan(&mut self, step: &Step) -> Result<Vec<Edits>, Refusal> {
        let tables = &self.state.tables;
        let venue = |which| VenueId(pick(&tables.venues, which));
        let thing = |which| ThingId(pick(&tables.things, which));
        let command = match step.clone() {
            Step::Rules(rules, allowances) => Command::SetRules { rules, allowances },
            Step::Venue(which, setup) => Command::SaveVenue {
                id: which.map(venue),
                setup: *setup,
            },
            Step::Use(which) => Command::UseVenue(venue(which)),
            Step::Remove(which) => Command::RemoveVenue(venue(which)),
            Step::Buy(purchase) => Command::Buy(self.judged(purchase)),
            Step::Rename(which, name) => Command::Rename {
                thing: thing(which),
                name,
            },
            Step::TakeOut(which) => Command::TakeOut(thing(which)),
            Step::Haul(step) => self.judged_step(step).command(&self.state, self.now),
            Step::Setup(step) => step.command(&self.state, self.now),
            Step::Undo(back) => return self.undo_of(self.save_back(back)),
            Step::Settle(which, choice) => mending::settle(self, which, choice)?,
            Step::Back(which, line) => mending::back(self, which, line)?,
            Step::Cure(which) => mending::cure(self, which)?,
        };
        self.decide(&command)
    }

    /// The step with verdicts, where things are bought.
    fn judged_step(&self, step: HaulStep) -> HaulStep {
        match step {
            HaulStep::Buy(purchase) => HaulStep::Buy(self.judged(purchase)),
            other => other,
        }
    }

    /// The purchase with a verdict by the terms that hold now, when there are any.
    fn judged(&self, mut purchase: Purchase) -> Purchase {
        let venue = self.state.usual_venue();
        let terms = venue.and_then(|venue| self.state.terms_on(venue, self.now.day()?));
        let expected = venue.zip(terms).map(|(venue, (terms, _))| Expected {
            venue,
            terms,
            ask: purchase.paid,
            keep: Money::new(410),
            ceiling: None,
            verdict: Word::Buy,
            card: None,
            rough: false,
            sells: None,
        });
        for thing in &mut purchase.things {
            thing.expected = expected.clone().map(|expected| Expected {
                sells: thing.sells,
                ..expected
            });
        }
        purchase
    }

    /// The first number of one of our saves, so many back from the last, going round.
    pub fn save_back(&self, back: u8) -> u64 {
        let saves: Vec<u64> = self.saves().into_iter().collect();
        if saves.is_empty() {
            0
        } else {
            saves[saves.len() - 1 - usize::from(back) % saves.len()]
        }
    }

    pub fn saves(&self) -> BTreeSet<u64> {
        let ours = self.log.iter().filter(|one| one.device() == self.state.me);
        ours.map(|change| change.save).collect()
    }

    pub fn changes_of(&self, save: u64) -> Vec<Change> {
        let of_save = |one: &&Change| one.device() == self.state.me && one.save == save;
        self.log.iter().filter(of_save).cloned().collect()
    }

    /// What undoes a save, before it is saved.
    pub fn undo_of(&self, save: u64) -> Result<Vec<Edits>, Refusal> {
        undo(&self.changes_of(save), &self.log)
    }

    /// Saves edits.
    pub fn commit(&mut self, edits: Vec<Edits>) -> Vec<Change> {
        let changes = self.state.stamp(edits, self.now);
        for change in &changes {
            self.state.fold_own(change);
        }
        self.log.extend(changes.iter().cloned());
        changes
    }

    /// Waits, then does one step. A refusal is a fine answer.
    pub fn run(&mut self, timed: &Timed) -> Result<Vec<Change>, Refusal> {
        self.wait(timed.wait);
        let edits = self.plan(&timed.step)?;
        Ok(self.commit(edits))
    }

    /// Takes in at most so many changes that another device has and this one lacks, in the order in which they came to the other:
    /// so without holes, and nothing before what it knows. Folds the records that they touch anew.
    pub fn pull(&mut self, from: &Self, at_most: usize) {
        let is_new = |one: &&Change| one.key.seq > self.state.vector.of(one.device());
        let new: Vec<Change> = from
            .log
            .iter()
            .filter(is_new)
            .take(at_most)
            .cloned()
            .collect();
        let touched: BTreeSet<RecordKey> = new.iter().map(Change::record).collect();
        for change in &new {
            self.state.note(change.key, change.stamp);
        }
        self.log.extend(new);
        for record in touched {
            let of_record = self.log.iter().filter(|one| one.record() == record);
            let rule = |field: &str| record.kind.rule(field);
            let folded = fold(of_record, rule);
            self.state.put_folded(&record, folded);
        }
    }

    pub fn vector(&self) -> &Vector {
        &self.state.vector
    }

    /// The changes of one record.
    pub fn changes_to(&self, record: &RecordKey) -> Vec<Change> {
        let of_record = self.log.iter().filter(|one| one.record() == *record);
        of_record.cloned().collect()
    }

    /// Every record that its changes speak of.
    pub fn records(&self) -> BTreeSet<RecordKey> {
        self.log.iter().map(Change::record).collect()
    }

    /// A book made afresh from its changes.
    pub fn fresh(&self) -> State {
        State::from_changes(self.state.me, &self.log)
    }
}

/// An id out of a table, going round; one past the last is an id that nobody has.
pub fn pick<T>(table: &Table<T>, which: u8) -> Uuid {
    let place = usize::from(which) % (table.len() + 1);
    table.keys().nth(place).copied().unwrap_or(Uuid::max())
}

/// Ten bytes that look like chance (splitmix64, Steele, Lea and Flood 2014; from memory) and are the same in every run.
fn chance(seed: &mut u64) -> [u8; 10] {
    let mut next = || {
        *seed = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (*seed ^ *seed >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ mixed >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        (mixed ^ mixed >> 31).to_be_bytes()
    };
    let (one, two) = (next(), next());
    std::array::from_fn(|place| {
        if place < 8 {
            one[place]
        } else {
            two[place - 8]
        }
    })
}
