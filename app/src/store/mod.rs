//! Where the book, the storage and the screens meet: read by signal, write by dispatch.
//!
//! The book is one cell that is not reactive. Each save bumps the revision of what it touched, and memos that read a revision work their
//! view out anew.

mod copy;
mod drafts;
mod look;
mod open;
mod saving;

use crate::notice::Notice;
use crate::shell::clock;
use crate::shell::db::Db;
use crate::shell::drafts::Drafts;
use crate::shell::tabs::Tabs;
use haulwren_core::book::{State, Touched};
use haulwren_core::change::Change;
use haulwren_core::day::Day;
use haulwren_core::view::{self, DecideView, Done, HaulView};
use leptos::prelude::*;
use std::cell::RefCell;
use std::rc::Rc;

/// How far the start has come.
#[derive(Clone, Debug, PartialEq)]
pub enum Phase {
    /// Opening the storage. Folding everything again shows how far it is: done, of all.
    Opening(Option<(usize, usize)>),
    /// Decide works; older things may still be on their way (see [`Store::all_read`]).
    Ready,
    /// The book is there but does not open.
    Failed(Notice),
}

/// Where saves go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keeping {
    /// Into the storage of this device.
    Disk,
    /// Nowhere: the browser has no storage for us. Saves live until the page is closed.
    Memory,
}

struct Inner {
    db: RefCell<Option<Rc<Db>>>,
    book: RefCell<State>,
    /// What this session saved, for a copy when the storage fails.
    session: RefCell<Vec<Change>>,
    tabs: RefCell<Option<Tabs>>,
    draft_timer: RefCell<Option<gloo::timers::callback::Timeout>>,
}

/// The handle that screens hold. Cheap to copy.
#[derive(Clone, Copy)]
pub struct Store {
    inner: StoredValue<Rc<Inner>, LocalStorage>,
    setup: RwSignal<u64>,
    haul: RwSignal<u64>,
    today: RwSignal<Option<Day>>,
    drafts: RwSignal<Drafts>,
    decide_view: Memo<Option<DecideView>>,
    haul_view: Memo<Option<HaulView>>,
    /// How far the start has come.
    pub phase: RwSignal<Phase>,
    /// Where saves go.
    pub keeping: RwSignal<Keeping>,
    /// Whether everything was read from the storage.
    pub all_read: RwSignal<bool>,
    /// The error to show.
    pub notice: RwSignal<Option<Notice>>,
    /// The last save, for the undo bar.
    pub done: RwSignal<Option<Done>>,
    /// Whether a save is under way.
    pub saving: RwSignal<bool>,
}

/// The store of this page.
pub fn use_store() -> Store {
    expect_context()
}

impl Store {
    /// A store before anything is opened.
    pub fn new() -> Self {
        let inner = Rc::new(Inner {
            db: RefCell::default(),
            book: RefCell::new(State::new(haulwren_core::id::DeviceCode::from_chance(
                clock::chance(),
            ))),
            session: RefCell::default(),
            tabs: RefCell::default(),
            draft_timer: RefCell::default(),
        });
        let inner = StoredValue::new_local(inner);
        let (setup, haul) = (RwSignal::new(0), RwSignal::new(0));
        let (today, drafts) = (
            RwSignal::new(clock::now().day()),
            RwSignal::new(Drafts::default()),
        );
        let book = move || inner.get_value();
        Self {
            inner,
            setup,
            haul,
            today,
            drafts,
            decide_view: Memo::new(move |_| {
                setup.track();
                let today = today.get()?;
                drafts.with(|drafts| view::decide(&book().book.borrow(), &drafts.decide, today))
            }),
            haul_view: Memo::new(move |_| {
                setup.track();
                haul.track();
                view::haul(&book().book.borrow())
            }),
            phase: RwSignal::new(Phase::Opening(None)),
            keeping: RwSignal::new(Keeping::Disk),
            all_read: RwSignal::new(false),
            notice: RwSignal::new(None),
            done: RwSignal::new(None),
            saving: RwSignal::new(false),
        }
    }

    /// What Decide shows.
    pub fn decide_view(self) -> Memo<Option<DecideView>> {
        self.decide_view
    }

    /// What Haul shows.
    pub fn haul_view(self) -> Memo<Option<HaulView>> {
        self.haul_view
    }

    /// Reads what verdicts rest on: the book, devices, rules, venues and terms. Tracks its revision.
    pub fn read_setup<R>(self, read: impl FnOnce(&State) -> R) -> R {
        self.setup.track();
        read(&self.inner.get_value().book.borrow())
    }

    /// Reads anything of the book. Tracks both revisions.
    pub fn read<R>(self, read: impl FnOnce(&State) -> R) -> R {
        self.haul.track();
        self.read_setup(read)
    }

    /// The day that the clock shows; none when the clock is beyond the calendar. Moves on when the page is shown again after midnight.
    pub fn today(self) -> Option<Day> {
        self.today.get()
    }

    fn bump(self, touched: Touched) {
        if touched.setup {
            self.setup.update(|revision| *revision += 1);
        }
        if touched.haul {
            self.haul.update(|revision| *revision += 1);
        }
    }

    fn look_at_clock(self) {
        let day = clock::now().day();
        if self.today.get_untracked() != day {
            self.today.set(day);
        }
    }
}
