//! Another device of the same trader: its book is told here, command by command, and handed over as a file. And what a device must hold
//! that brought such a file in.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::time::{Duration, SystemTime};

use haulwren_core::book::{Bought, Command, Context, Purchase, State, ThingCommand};
use haulwren_core::change::Change;
use haulwren_core::exchange::{Against, BookReader, Header, Line, ReadError, write_book};
use haulwren_core::id::{DeviceCode, ThingId};
use haulwren_core::money::{Currency, Money};
use haulwren_core::stamp::At;
use haulwren_tests::browser::{Book, Failure, Outcome, Tab, wrong};
use serde_json::Value;

/// The code of the device.
const CODE: &str = "fnephnep";

/// The phone.
pub struct Phone {
    state: State,
    log: Vec<Change>,
    now: At,
    drawn: u64,
}

impl Phone {
    /// A phone whose book began an hour ago.
    pub fn begun() -> Outcome<Self> {
        let ago = SystemTime::now() - Duration::from_hours(1);
        let since = ago.duration_since(SystemTime::UNIX_EPOCH);
        let ms = since.map_or(0, |since| since.as_millis());
        let code = CODE
            .parse()
            .map_err(|error| Failure::Wrong(format!("{CODE} is no device code: {error}")))?;
        let mut phone = Self {
            state: State::new(code),
            log: Vec::new(),
            now: At(u64::try_from(ms).unwrap_or(0), 0),
            drawn: 0,
        };
        let Ok(currency) = Currency::from_code("USD") else {
            return wrong("USD is no currency");
        };
        phone.tell(&Command::Begin {
            currency,
            device: "Phone".to_owned(),
        })?;
        Ok(phone)
    }

    /// A device that was set up from a copy of another one's storage, and so goes by its code. It says another word about the thing that
    /// was bought first.
    pub fn twin_of(book: &Book) -> Outcome<Self> {
        let log = changes(book)?;
        let mut twin = Self::begun()?;
        twin.state = State::from_changes(code_in(book)?, &log);
        twin.log = log;
        twin.now.0 = SystemTime::now()
            .duration_since(SystemTime::UNIX_EPOCH)
            .map_or(0, |since| u64::try_from(since.as_millis()).unwrap_or(0));
        twin.renames("said by the twin")?;
        Ok(twin)
    }

    fn tell(&mut self, command: &Command) -> Outcome<()> {
        let drawn = &mut self.drawn;
        let mut chance = || {
            *drawn += 1;
            let mut ten = [7; 10];
            ten[2..].copy_from_slice(&drawn.to_be_bytes());
            ten
        };
        let mut context = Context {
            at: self.now,
            chance: &mut chance,
        };
        let edits = self.state.decide(command, &mut context);
        let edits = edits.map_err(|refusal| Failure::Wrong(format!("the phone: {refusal}")))?;
        for change in self.state.stamp(edits, self.now) {
            self.state.fold_own(&change);
            self.log.push(change);
        }
        self.now.0 += 1_000;
        Ok(())
    }

    /// Buys so many things, one by one: two records each.
    pub fn buys(&mut self, count: usize) -> Outcome<()> {
        for _ in 0..count {
            let number = self.state.things().count() + 1;
            let one = Bought {
                name: format!("thing {number}"),
                ..Bought::default()
            };
            let paid = Money::new(100 + i64::try_from(number % 50).unwrap_or(0));
            self.tell(&Command::Buy(Purchase::of_one(paid, one)))?;
        }
        Ok(())
    }

    /// Calls the thing that was bought first by another name.
    pub fn renames(&mut self, name: &str) -> Outcome<()> {
        let Some(thing) = self.first() else {
            return wrong("the phone has bought nothing");
        };
        let name = name.to_owned();
        self.tell(&Command::Rename { thing, name })
    }

    /// Takes a picture of the thing that was bought first; files hold no pictures.
    pub fn takes_a_picture(&mut self) -> Outcome<()> {
        let Some(thing) = self.first() else {
            return wrong("the phone has bought nothing");
        };
        let blob = "5e".repeat(32);
        self.tell(&ThingCommand::AddPhoto { thing, blob }.into())
    }

    /// The thing that was bought first.
    pub fn first(&self) -> Option<ThingId> {
        self.state.things().next().map(|(id, _)| id)
    }

    /// The whole book as a file.
    pub fn file(&self) -> Outcome<String> {
        let Some((book, currency)) = self.state.book() else {
            return wrong("the phone has no book");
        };
        let header = Header::new(book, currency, self.state.me, self.state.vector.clone());
        let lines: Vec<String> = self.log.iter().map(Change::line).collect();
        Ok(write_book(&header, lines.iter().map(String::as_str)))
    }

    /// Reads a file, as any device does, and takes what is new in it.
    pub fn reads(&mut self, file: &str) -> Outcome<()> {
        let refused = |error: ReadError| Failure::Wrong(format!("the phone: {error}"));
        let mut reader = BookReader::new(Against::of(&self.state));
        reader.push(file.as_bytes()).map_err(refused)?;
        let incoming = reader.finish().map_err(refused)?;
        for change in &self.log {
            incoming
                .compare(change.key, &change.line())
                .map_err(refused)?;
        }
        self.log.extend(incoming.changes.iter().map(Line::change));
        self.state = State::from_changes(self.state.me, &self.log);
        Ok(())
    }

    /// How many of its changes a book holds, each byte for byte.
    pub fn said_in(&self, book: &Book) -> Outcome<usize> {
        let said: BTreeSet<String> = self.log.iter().map(Change::line).collect();
        let mut found = lines(book);
        found.retain(|key, _| key.starts_with(CODE));
        match found.values().find(|line| !said.contains(*line)) {
            Some(line) => wrong(format!("the phone never said {line}")),
            None => Ok(found.len()),
        }
    }

    /// How many changes it made.
    pub fn said(&self) -> usize {
        self.log.len()
    }
}

/// The lines of all stored changes by their keys.
fn lines(book: &Book) -> BTreeMap<String, String> {
    let rows = book.stores.get("changes").into_iter().flatten();
    rows.filter_map(|row| Some((row["k"].as_str()?.to_owned(), row["t"].as_str()?.to_owned())))
        .collect()
}

/// All stored changes.
fn changes(book: &Book) -> Outcome<Vec<Change>> {
    let read = |line: &String| {
        Change::from_line(line).map_err(|error| Failure::Wrong(format!("{line}: {error}")))
    };
    lines(book).values().map(read).collect()
}

/// The code of the device that a book is stored on.
pub fn code_in(book: &Book) -> Outcome<DeviceCode> {
    let code = note(book, "device")?;
    let code = code.as_str().unwrap_or_default().parse();
    code.map_err(|error| Failure::Wrong(format!("the device has no code: {error}")))
}

/// A row of the device's notes, read.
pub fn note(book: &Book, key: &str) -> Outcome<Value> {
    let rows = book.stores.get("meta").into_iter().flatten();
    let mut rows = rows.filter(|row| row["k"] == key);
    let text = rows.next().and_then(|row| row["v"].as_str());
    Ok(serde_json::from_str(text.unwrap_or("null"))?)
}

/// Checks that a stored book is whole in itself: no holes, every record as its changes come to when they are all folded anew, the vector
/// as far as the changes go, and no import under way.
pub fn expect_sound(book: &Book) -> Outcome<()> {
    let ends = book.expect_no_holes()?;
    let vector: BTreeMap<String, u64> = serde_json::from_value(note(book, "vector")?)?;
    if vector != ends {
        return wrong(format!(
            "the vector says {vector:?}, the changes go to {ends:?}"
        ));
    }
    let imports: Option<BTreeMap<String, String>> = serde_json::from_value(note(book, "imports")?)?;
    if imports
        .iter()
        .flatten()
        .any(|(_, stage)| stage != "done" && stage != "undone")
    {
        return wrong(format!("imports are under way: {imports:?}"));
    }
    let (me, changes) = (code_in(book)?, changes(book)?);
    let anew = State::from_changes(me, &changes);
    // Read, since the order of the fields in a stored text is nobody's concern.
    let read = |json: &str| serde_json::from_str::<Value>(json).ok();
    let mut wanted = BTreeMap::new();
    for change in &changes {
        let record = change.record();
        let json = anew.stored(&record).and_then(|json| read(&json));
        wanted.insert(record.to_string(), json);
    }
    let rows = book.stores.get("records").into_iter().flatten();
    let row = |row: &Value| Some((row["k"].as_str()?.to_owned(), read(row["j"].as_str()?)));
    let found: BTreeMap<String, Option<Value>> = rows.filter_map(row).collect();
    let differ = |key: &&String| found.get(*key) != wanted.get(*key);
    let differ = wanted.keys().chain(found.keys()).find(differ);
    differ.map_or(Ok(()), |key| {
        wrong(format!(
            "{key} is stored as {:?}, folded anew it is {:?}",
            found.get(key),
            wanted.get(key)
        ))
    })
}

/// Chooses a file by the key that opens one, on the screen that is open, and waits until the page has looked into it.
pub async fn choose(tab: &Tab, folder: &Path, file: &str) -> Outcome<()> {
    let path = folder.join("phone.txt");
    std::fs::write(&path, file).map_err(Failure::system("cannot write the file"))?;
    let input = "[data-bring] input[type=file]";
    tab.element(input).await?;
    tab.choose_file(input, &path).await
}

/// Brings a file in where something is new in it, and waits until it is in the book.
pub async fn bring_in(tab: &Tab, folder: &Path, file: &str) -> Outcome<()> {
    choose(tab, folder, file).await?;
    tab.tap("[data-bring-in]").await?;
    tab.element("[data-brought=in]").await
}

/// Gives the thing whose page is open another name, and waits for the save.
pub async fn call_it(tab: &Tab, name: &str) -> Outcome<()> {
    let before = tab.saved().await?;
    tab.fill("Name", name).await?;
    tab.press("Save name").await?;
    tab.saved_beyond(before).await.map(drop)
}
