//! A large book: 50,000 things in 12,500 lots, 300,000 changes, all names invented; and what another device with the same book says
//! after it, as a file.

use std::fmt::Write as _;
use std::path::Path;

use haulwren_core::book::{Edits, LotEdit, State, ThingEdit};
use haulwren_core::change::Change;
use haulwren_core::exchange::{Header, write_book};
use haulwren_core::id::{LotId, ThingId, uuid_v7};
use haulwren_core::lot::Method;
use haulwren_core::money::Money;
use haulwren_core::stamp::At;
use haulwren_core::worth::Sells;
use haulwren_tests::browser::{Failure, Outcome, wrong};
use serde_json::json;

use super::super::stall::Stall;

/// Things in it.
pub const THINGS: usize = 50_000;
/// Changes in it, those that set up the stall not counted.
pub const CHANGES: usize = 300_000;
/// Things of a lot.
const IN_LOT: usize = 4;
/// The files of another device have so many changes.
pub const FILES: [usize; 2] = [1_000, 10_000];

const COLOURS: [&str; 7] = ["ochre", "slate", "moss", "brick", "cream", "plum", "teal"];
const NAMES: [&str; 9] = [
    "wool coat",
    "tin lamp",
    "pine stool",
    "glass jug",
    "brass bell",
    "linen cloth",
    "clay pot",
    "wicker tray",
    "print frame",
];

/// The book, and its things in the order in which they were bought.
pub struct Large {
    stall: Stall,
    things: Vec<ThingId>,
}

impl Large {
    /// Buys everything, and says something of each thing afterwards.
    pub fn new(now: At) -> Outcome<Self> {
        // Long ago enough for all of it: each save is a second after the one before.
        let began = At(now.0 - 40 * 86_400_000, now.1);
        let mut stall = Stall::new(began)?;
        let setup = stall.changes.len();
        let mut things = Vec::with_capacity(THINGS);
        while things.len() < THINGS {
            let mut edits = vec![lot(&stall, things.len())];
            let lot = LotId(edits[0].record.id);
            for _ in 0..IN_LOT {
                let id = ThingId(drawn(stall.now.0, things.len(), 1));
                edits.push(thing(id, lot, things.len())?);
                things.push(id);
            }
            stall.save(edits);
        }
        let mut left = CHANGES - (stall.changes.len() - setup);
        let rounds = left.div_ceil(THINGS);
        for (at, id) in (0..rounds).flat_map(|_| things.iter().enumerate()) {
            if left > 0 {
                stall.save(vec![id.edit([said(at, left / THINGS)])]);
                left -= 1;
            }
        }
        Ok(Self { stall, things })
    }

    /// Writes the rows of the stores where a page can fetch them: lines of changes, and of records a key and a JSON text each.
    pub fn write(&self, folder: &Path) -> Outcome<()> {
        let state = &self.stall.state;
        let (mut changes, mut records) = (String::new(), String::new());
        let mut keys = Vec::with_capacity(self.stall.changes.len());
        for change in &self.stall.changes {
            changes.push_str(&change.line());
            changes.push('\n');
            keys.push(change.record());
        }
        keys.sort_unstable();
        keys.dedup();
        for key in &keys {
            let Some(json) = state.stored(key) else {
                return wrong(format!("{key} is not in the book"));
            };
            // A string takes all that is written to it.
            let _ = writeln!(records, "{key}\t{json}");
        }
        let Some(last) = self.stall.changes.last() else {
            return wrong("the book is empty");
        };
        let head = json!({ "seq": last.key.seq, "stamp": last.stamp.to_string() });
        let notes = json!({
            "device": json!(state.me.to_string()).to_string(),
            "head": head.to_string(),
            "vector": serde_json::to_string(&state.vector)?,
        });
        for (name, text) in [
            ("changes.txt", changes),
            ("records.txt", records),
            ("notes.json", notes.to_string()),
        ] {
            put(&folder.join(name), &text)?;
        }
        Ok(())
    }

    /// Writes a file of another device that has all of this book and says so many words more, each of another thing, all over the book.
    pub fn write_file(&self, count: usize, code: &str, to: &Path) -> Outcome<()> {
        let ours = &self.stall.state;
        let (Ok(me), Some((book, currency))) = (code.parse(), ours.book()) else {
            return wrong("no device or no book to write a file of");
        };
        let mut other = State::new(me);
        other.vector = ours.vector.clone();
        other.clock = ours.clock;
        let every = THINGS / count;
        let edits: Vec<Edits> = (0..count)
            .map(|at| self.things[at * every].edit([ThingEdit::Flaw(Some(format!("chip {at}")))]))
            .collect();
        let changes = other.stamp(edits, self.stall.now);
        for change in &changes {
            other.note(change.key, change.stamp);
        }
        let lines: Vec<String> = changes.iter().map(Change::line).collect();
        let header = Header::new(book, currency, me, other.vector.clone());
        put(to, &write_book(&header, lines.iter().map(String::as_str)))
    }
}

fn put(path: &Path, text: &str) -> Outcome<()> {
    std::fs::write(path, text).map_err(Failure::system(format!("cannot write {}", path.display())))
}

/// An id of a time and a place in the book.
fn drawn(ms: u64, at: usize, kind: u8) -> uuid::Uuid {
    let mut chance = [kind; 10];
    chance[..8].copy_from_slice(&(at as u64).to_be_bytes());
    uuid_v7(ms, &chance)
}

fn lot(stall: &Stall, at: usize) -> Edits {
    let id = LotId(drawn(stall.now.0, at, 2));
    id.edit([
        LotEdit::Paid(Some(Money::new(4_00 + minor(at, 17) * 25))),
        LotEdit::Bought(Some(stall.now)),
        LotEdit::Method(Some(Method::ByPrice)),
    ])
}

fn thing(id: ThingId, lot: LotId, at: usize) -> Outcome<Edits> {
    let likely = Money::new(9_00 + minor(at, 41) * 100);
    let Ok(sells) = Sells::new(None, likely, None) else {
        return wrong("a thing sells for nothing");
    };
    Ok(id.edit([
        ThingEdit::Lot(Some(lot)),
        ThingEdit::Name(Some(format!("{} {at}", NAMES[at % NAMES.len()]))),
        ThingEdit::Sells(Some(sells)),
        ThingEdit::Postage(Some(Money::new(4_50))),
        ThingEdit::Packing(Some(Money::new(30))),
    ]))
}

/// What is said of a thing later.
fn said(at: usize, round: usize) -> ThingEdit {
    match round % 4 {
        0 => ThingEdit::Colour(Some(COLOURS[at % COLOURS.len()].to_owned())),
        1 => ThingEdit::Label(Some(format!("size {}", at % 12))),
        2 => ThingEdit::Maker(Some(format!("maker {}", at % 300))),
        _ => ThingEdit::Name(Some(format!("{} {at}, mended", NAMES[at % NAMES.len()]))),
    }
}

fn minor(at: usize, of: usize) -> i64 {
    i64::try_from(at % of).unwrap_or(0)
}
