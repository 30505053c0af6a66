//! Devices that share a book by files, as people do it: files are written whole or only with what changed, lie about, come late, twice or never,
//! and an import is taken out again. What each device should hold is kept beside it as a set of lines, by set operations alone.

use super::device::Device;
use super::joining::changed_of;
use super::program::{Timed, strife, timed};
use super::reading::take_in;
use haulwren_core::book::State;
use haulwren_core::change::{Change, Key, RecordKey, Vector};
use haulwren_core::exchange::{Line, ReadError, fold_in};
use haulwren_core::id::DeviceCode;
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// Something that happens. Small numbers choose among devices and files, going round.
#[derive(Clone, Debug)]
pub enum Event {
    /// A device does something.
    Do(u8, Timed),
    /// It writes a file of all it has.
    Whole(u8),
    /// It writes a file with what changed, for one that it read a file from.
    Changed(u8, u8),
    /// It reads one of the files that lie about: so many before the last one, which may be its own or an old one.
    Read(u8, u8),
    /// It takes its last import out again.
    TakeOut(u8),
}

/// Mostly the last files are read.
pub fn events(most: usize) -> impl Strategy<Value = Vec<Event>> {
    let who = || any::<u8>();
    let back = prop_oneof![3 => 0_u8..4, 1 => any::<u8>()];
    let event = prop_oneof![
        4 => (who(), timed()).prop_map(|(who, timed)| Event::Do(who, timed)),
        4 => (who(), strife()).prop_map(|(who, timed)| Event::Do(who, timed)),
        1 => who().prop_map(Event::Whole),
        4 => (who(), who()).prop_map(|(who, whom)| Event::Changed(who, whom)),
        10 => (who(), back).prop_map(|(who, back)| Event::Read(who, back)),
        4 => who().prop_map(Event::TakeOut),
    ];
    vec(event, most / 3..=most)
}

/// A device, what it noted of the others, and what it should hold.
pub struct Peer {
    pub device: Device,
    /// How much the sender of each file that was read has.
    heard: BTreeMap<DeviceCode, Vector>,
    /// The imports since the last save and the last file, which can be taken out.
    imports: Vec<Import>,
    /// The lines that it should hold.
    pub should: BTreeSet<String>,
}

/// An import as the app notes it: its changes, and how far each device's were known before.
struct Import {
    keys: Vec<Key>,
    before: Vector,
}

/// The devices and the files that lie about.
pub struct Network {
    pub peers: Vec<Peer>,
    files: Vec<String>,
    /// How often files were read with something new, refused for want of what they rest on, and taken out again.
    pub told: [usize; 3],
}

impl Network {
    pub fn of(count: u8) -> Self {
        let peers = Device::several(count).into_iter().map(|device| Peer {
            should: device.log.iter().map(Change::line).collect(),
            device,
            heard: BTreeMap::new(),
            imports: Vec::new(),
        });
        Self {
            peers: peers.collect(),
            files: Vec::new(),
            told: [0; 3],
        }
    }

    pub fn play(&mut self, events: &[Event]) -> Result<(), TestCaseError> {
        let count = self.peers.len();
        let at = |who: &u8| usize::from(*who) % count;
        for event in events {
            match event {
                Event::Do(who, timed) => self.peers[at(who)].act(timed),
                Event::Whole(who) => self.write(at(who), &Vector::default()),
                Event::Changed(who, whom) => {
                    // For one of those that a file was read from; as long as there is none, it is a whole book.
                    let heard: Vec<&Vector> = self.peers[at(who)].heard.values().collect();
                    let have = heard.get(usize::from(*whom) % heard.len().max(1));
                    let have = have.map(|have| (*have).clone()).unwrap_or_default();
                    self.write(at(who), &have);
                }
                Event::Read(_, _) if self.files.is_empty() => {}
                Event::Read(who, back) => {
                    let last = self.files.len() - 1;
                    let file = self.files[last - usize::from(*back) % self.files.len()].clone();
                    let refused = self.peers[at(who)].read(&file)?;
                    self.told[usize::from(refused)] += 1;
                }
                Event::TakeOut(who) => {
                    self.told[2] += usize::from(self.peers[at(who)].take_out()?);
                }
            }
        }
        Ok(())
    }

    fn write(&mut self, who: usize, have: &Vector) {
        self.peers[who].imports.clear();
        let file = changed_of(&self.peers[who].device, have);
        self.files.push(file);
    }

    /// Everybody reads a whole file of everybody, twice round: then all have all.
    pub fn settle(&mut self) -> Result<(), TestCaseError> {
        for _ in 0..2 {
            for who in 0..self.peers.len() {
                let file = changed_of(&self.peers[who].device, &Vector::default());
                for reader in (0..self.peers.len()).filter(|reader| *reader != who) {
                    let refused = self.peers[reader].read(&file)?;
                    prop_assert!(!refused, "a whole file can always be read");
                }
            }
        }
        Ok(())
    }
}

impl Peer {
    fn act(&mut self, timed: &Timed) {
        // A refusal is a fine answer.
        if let Ok(changes) = self.device.run(timed) {
            self.should.extend(changes.iter().map(Change::line));
            self.imports.clear();
        }
    }

    /// Reads a file. Says whether it was refused, for want of what it rests on; then nothing has changed.
    fn read(&mut self, file: &str) -> Result<bool, TestCaseError> {
        let before = self.device.state.clone();
        let vector = before.vector.clone();
        let incoming = match take_in(&mut self.device, file) {
            Ok(incoming) => incoming,
            Err(error) => {
                let is_cure = matches!(
                    error,
                    ReadError::BeginsLater { .. } | ReadError::RestsOnMissing { .. }
                );
                prop_assert!(is_cure, "{}", error);
                prop_assert_eq!(&self.device.state, &before);
                return Ok(true);
            }
        };
        let heard = self.heard.entry(incoming.header.sender).or_default();
        incoming.sender_has.iter().for_each(|key| heard.note(key));
        let lines = file
            .lines()
            .skip(1)
            .filter(|line| line.starts_with("{\"k\""));
        self.should.extend(lines.map(str::to_owned));
        if !incoming.changes.is_empty() {
            let keys = incoming.changes.iter().map(|line| Line::change(line).key);
            self.imports.push(Import {
                keys: keys.collect(),
                before: vector,
            });
        }
        Ok(false)
    }

    /// Takes the last import out, as long as nothing rests on it, in the app's steps: its changes go, each record that they touched is folded from
    /// what is left in a book apart and stored, and the book is read from what is stored.
    fn take_out(&mut self) -> Result<bool, TestCaseError> {
        let Some(import) = self.imports.pop() else {
            return Ok(false);
        };
        let device = &mut self.device;
        let is_out = |change: &&Change| import.keys.contains(&change.key);
        let mut records: Vec<RecordKey> = Vec::new();
        for change in device.log.iter().filter(is_out) {
            prop_assert!(self.should.remove(&change.line()));
            records.push(change.record());
        }
        records.sort_unstable();
        records.dedup();
        device.log.retain(|change| !is_out(&change));
        let mut apart = State::new(device.state.me);
        for record in &records {
            let rest = device.log.iter().filter(|one| one.record() == *record);
            fold_in(&mut apart, &[], rest.cloned().collect());
            device.state.drop_record(record);
            if let Some(stored) = apart.stored(record) {
                let loaded = device.state.load(record, &stored);
                prop_assert!(loaded.is_ok(), "{record} does not read back: {stored}");
            }
        }
        device.state.vector = import.before;
        // As if the file had never been read; only the clock does not go back.
        let fresh = device.fresh();
        prop_assert_eq!(&fresh.tables, &device.state.tables);
        prop_assert_eq!(&fresh.vector, &device.state.vector);
        Ok(true)
    }
}
