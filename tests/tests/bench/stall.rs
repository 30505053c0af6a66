//! A large stall: twelve venues with brackets, slices, limits, groups and tax on fees, each posting by one of six rate cards. The numbers
//! stand in `stall.json`, which the peer reads too; here they become a book as the app keeps it.

use haulwren_core::appraise::{Flag, HouseRules, Judged};
use haulwren_core::book::{Command, Context, Edits, State, VenueSetup};
use haulwren_core::change::{Change, RecordKey};
use haulwren_core::kind::RecordKind;
use haulwren_core::money::{Currency, Money};
use haulwren_core::packing::{Container, Form, Fragility};
use haulwren_core::stamp::At;
use haulwren_core::terms::Usual;
use haulwren_core::view::{DecideDraft, decide};
use haulwren_tests::browser::{Outcome, wrong};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

/// The numbers.
pub const NUMBERS: &str = include_str!("stall.json");

/// The stall as a book.
pub struct Stall {
    pub state: State,
    pub changes: Vec<Change>,
    /// When the next command is given.
    pub now: At,
    drawn: u8,
}

/// A thing as it is typed, amounts in minor units.
#[derive(Clone, Copy)]
pub struct Typed {
    pub kind: &'static str,
    pub ask: i64,
    pub low: i64,
    pub likely: i64,
}

impl Typed {
    /// As the peer is told.
    pub fn told(&self) -> Value {
        json!({ "kind": self.kind, "ask": self.ask, "low": self.low, "likely": self.likely })
    }
}

fn read<T: DeserializeOwned>(from: &Value) -> Outcome<T> {
    Ok(T::deserialize(from)?)
}

fn text(from: &Value) -> String {
    from.as_str().unwrap_or_default().to_owned()
}

fn list(from: &Value) -> impl Iterator<Item = &Value> {
    from.as_array().into_iter().flatten()
}

impl Stall {
    /// Sets it up by the same commands as the app's forms do.
    pub fn new(now: At) -> Outcome<Self> {
        let numbers: Value = serde_json::from_str(NUMBERS)?;
        let (Ok(code), Ok(currency)) = ("abcdefgh".parse(), Currency::from_code("USD")) else {
            return wrong("no device or no currency to begin with");
        };
        let mut stall = Self {
            state: State::new(code),
            changes: Vec::new(),
            now,
            drawn: 0,
        };
        stall.tell(&Command::Begin {
            currency,
            device: "Phone".to_owned(),
        })?;
        stall.tell(&Command::SetRules {
            rules: read::<HouseRules>(&numbers["rules"])?,
            allowances: read(&numbers["allowances"])?,
        })?;
        for one in list(&numbers["containers"]) {
            let container = Container {
                name: text(&one["name"]),
                tare: read(&one["tare"])?,
                cost: read(&one["cost"])?,
                inside: read(&one["inside"])?,
                form: Form::Carton,
            };
            stall.tell(&Command::SaveContainer {
                id: None,
                container,
            })?;
        }
        let mut cards = Vec::new();
        for one in list(&numbers["cards"]) {
            let card = read(one)?;
            let made = stall.tell(&Command::SaveCard { id: None, card })?;
            cards.push(made[0].id);
        }
        for one in list(&numbers["venues"]) {
            let setup = VenueSetup {
                name: text(&one["name"]),
                arrangement: read(&one["arrangement"])?,
                postage: read(&one["postage"])?,
                packing: read(&one["packing"])?,
                schedule: read(&one["schedule"])?,
                usual: Usual::default(),
            };
            let made = stall.tell(&Command::SaveVenue { id: None, setup })?;
            let card: usize = read(&one["card"])?;
            let record = RecordKey {
                kind: RecordKind::Venue,
                id: made[0].id,
            };
            let mut set = haulwren_core::change::Fields::new();
            set.insert("card".to_owned(), json!(cards[card]));
            stall.save(vec![Edits { record, set }]);
        }
        stall.expect_kinds(&numbers["kinds"])?;
        Ok(stall)
    }

    /// One command of the trader's, saved.
    pub fn tell(&mut self, command: &Command) -> Outcome<Vec<Change>> {
        let drawn = &mut self.drawn;
        let mut chance = || {
            *drawn = drawn.wrapping_add(1);
            [*drawn; 10]
        };
        let mut context = Context {
            at: self.now,
            chance: &mut chance,
        };
        match self.state.decide(command, &mut context) {
            Ok(edits) => Ok(self.save(edits)),
            Err(refusal) => wrong(format!("the stall can't be set up: {refusal}")),
        }
    }

    pub fn save(&mut self, edits: Vec<Edits>) -> Vec<Change> {
        let changes = self.state.stamp(edits, self.now);
        for change in &changes {
            self.state.fold_own(change);
        }
        self.changes.extend(changes.iter().cloned());
        self.now.0 += 1_000;
        changes
    }

    /// The book brings its kinds; the peer is told of the same ones.
    fn expect_kinds(&self, told: &Value) -> Outcome<()> {
        for (name, told) in told.as_object().into_iter().flatten() {
            let known = self.state.kinds();
            let kind = known.iter().find(|kind| kind.name == *name);
            let is_same = kind.is_some_and(|kind| {
                let piece = kind.piece;
                !piece.soft
                    && piece.fragility == Fragility::Sturdy
                    && json!([piece.weight, piece.size]) == *told
            });
            if !is_same {
                return wrong(format!("the book has another {name} than {told}"));
            }
        }
        Ok(())
    }

    /// What the core makes of a thing on every venue, best first, in the peer's words.
    pub fn judged(&self, typed: &Typed, now: At) -> Outcome<Value> {
        let kinds = self.state.kinds();
        let kind = kinds.iter().find(|kind| kind.name == typed.kind);
        let amount = |minor: i64| format!("{}.{:02}", minor / 100, minor % 100);
        let mut draft = DecideDraft {
            ask: amount(typed.ask),
            low: amount(typed.low),
            likely: amount(typed.likely),
            kind: kind.map(|kind| kind.id),
            ..DecideDraft::default()
        };
        let seen = |draft: &DecideDraft| decide(&self.state, draft, now);
        let order = seen(&draft).map(|view| view.venues).unwrap_or_default();
        let mut all = Vec::new();
        for venue in order {
            draft.venue = Some(venue.id);
            let view = seen(&draft);
            let judged = view
                .as_ref()
                .and_then(|view| view.appraisal.judged.as_ref());
            let Some(judged) = judged else {
                return wrong(format!("{} is not judged", venue.name));
            };
            if venue.keep != Some(judged.keep()) {
                return wrong(format!("{} keeps another amount on its card", venue.name));
            }
            all.push(in_words(&venue.name, judged));
        }
        Ok(Value::Array(all))
    }
}

fn in_words(name: &str, judged: &Judged) -> Value {
    let (verdict, flag) = judged.verdict.unzip();
    let ceiling = judged.ceiling.ok();
    let open = match flag {
        Some(Flag::Try(open)) => Some(open),
        Some(Flag::OpenStop { open, .. }) => open,
        _ => None,
    };
    let minor = |money: Option<Money>| money.map(Money::minor);
    let sums = &judged.likely;
    json!({
        "name": name,
        "verdict": verdict.map(haulwren_core::appraise::Verdict::word),
        "keep": judged.keep().minor(),
        "low": judged.low_keep().minor(),
        "ceiling": minor(ceiling.map(|ceiling| ceiling.exact)),
        "shown": minor(ceiling.map(|ceiling| ceiling.shown)),
        "open": minor(open),
        "cut": sums.cut().minor(),
        "aside": sums.aside.total.minor(),
        "packing": sums.packing.minor(),
        "in": sums.posting.paid_in.minor(),
        "out": sums.posting.out.minor(),
    })
}
