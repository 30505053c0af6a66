//! A small book of two devices: begun, a venue, a thing bought and taken back, another bought, and named differently on each
//! device before either heard of the other.

use haulwren_core::book::{
    Bought, Command, Context, Edits, Expected, Purchase, State, VenueSetup, Word, undo,
};
use haulwren_core::change::{Change, fold};
use haulwren_core::exchange::{Header, write_book};
use haulwren_core::id::ThingId;
use haulwren_core::money::{Currency, Money, Rate};
use haulwren_core::postage::Arrangement;
use haulwren_core::stamp::At;
use haulwren_core::terms::{Base, Charge, Schedule, Usual};
use haulwren_core::worth::Sells;

/// A device that only does what the story says: each save one minute after the one before.
struct Teller {
    state: State,
    log: Vec<Change>,
    now: At,
    drawn: u8,
}

impl Teller {
    fn new(code: &str, now: At) -> Self {
        Self {
            state: State::new(code.parse().unwrap()),
            log: Vec::new(),
            now,
            drawn: 0,
        }
    }

    fn save(&mut self, edits: Vec<Edits>) -> Vec<Change> {
        let changes = self.state.stamp(edits, self.now);
        for change in &changes {
            self.state.fold_own(change);
        }
        self.log.extend(changes.iter().cloned());
        self.now.0 += 60_000;
        changes
    }

    fn tell(&mut self, command: &Command) -> Vec<Change> {
        let drawn = &mut self.drawn;
        let mut chance = || {
            *drawn += 1;
            [*drawn; 10]
        };
        let mut context = Context {
            at: self.now,
            chance: &mut chance,
        };
        let edits = self.state.decide(command, &mut context).unwrap();
        self.save(edits)
    }

    fn take_in(&mut self, changes: &[Change]) {
        for change in changes {
            self.state.note(change.key, change.stamp);
        }
        self.log.extend_from_slice(changes);
        for change in changes {
            let record = change.record();
            let of_record = self.log.iter().filter(|one| one.record() == record);
            let folded = fold(of_record, |field| record.kind.rule(field));
            self.state.put_folded(&record, folded);
        }
    }
}

fn quayside() -> VenueSetup {
    VenueSetup {
        name: "Quayside".to_owned(),
        arrangement: Arrangement::BuyerAtCost,
        postage: Some(Money::new(450)),
        packing: Some(Money::new(40)),
        schedule: Schedule::of(vec![
            Charge::percent("Share of the sale", Rate::percent(10), Base::PriceAndPost),
            Charge::flat("Flat charge", Money::new(25)),
        ]),
        usual: Usual::default(),
    }
}

fn bought(state: &State, name: &str, paid: i64, now: At) -> Command {
    let venue = state.usual_venue().unwrap();
    let (terms, _) = state.terms_on(venue, now.day().unwrap()).unwrap();
    let [low, likely, high] = [1800, 2600, 3400].map(Money::new);
    let thing = Bought {
        name: name.to_owned(),
        sells: Sells::new(Some(low), likely, Some(high)).ok(),
        postage: Money::new(450),
        packing: Money::new(40),
        expected: Some(Expected {
            venue,
            terms,
            ask: Money::new(paid),
            keep: Money::new(410),
            ceiling: Some(Money::new(1010)),
            verdict: Word::Buy,
            card: None,
            rough: false,
            sells: None,
        }),
        ..Bought::default()
    };
    Command::Buy(Purchase::of_one(Money::new(paid), thing))
}

/// All changes of the story, those of the phone first, and the phone's book at its end.
pub fn told() -> (State, Vec<Change>) {
    let mut phone = Teller::new("abcdefgh", At(1_795_279_327_123, -300));
    phone.tell(&Command::Begin {
        currency: Currency::from_code("USD").unwrap(),
        device: "Phone".to_owned(),
    });
    phone.tell(&Command::SaveVenue {
        id: None,
        setup: quayside(),
    });
    let first = phone.tell(&bought(&phone.state, "Brass lamp", 900, phone.now));
    let back = undo(&first, &phone.log).unwrap();
    phone.save(back);
    let second = phone.tell(&bought(&phone.state, "Jacket", 600, phone.now));
    let thing = ThingId(second[1].id);
    let rename = |name: &str| Command::Rename {
        thing,
        name: name.to_owned(),
    };

    let mut computer = Teller::new("ijklmnop", At(phone.now.0 + 5_000, -300));
    computer.take_in(&phone.log);
    let theirs = computer.tell(&rename("Work jacket"));
    phone.tell(&rename("Denim jacket"));
    phone.take_in(&theirs);
    (phone.state, phone.log)
}

/// The story as the phone's book file.
pub fn file() -> String {
    let (state, mut changes) = told();
    changes.sort_by_key(|change| change.key);
    let lines: Vec<String> = changes.iter().map(Change::line).collect();
    let (book, currency) = state.book().unwrap();
    let header = Header::new(book, currency, state.me, state.vector);
    write_book(&header, lines.iter().map(String::as_str))
}
