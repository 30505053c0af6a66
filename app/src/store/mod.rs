//! Where the book, the storage and the screens meet: read by signal, write by dispatch.
//!
//! The book is one cell that is not reactive. Each save tells who follows what it touched, and views are worked out anew.

mod anew;
mod bring;
mod copy;
mod devices;
mod doubt;
mod drafts;
mod look;
mod make;
mod open;
mod photos;
mod pile;
mod recover;
mod sample;
mod saving;
mod take_in;
mod watch;
mod way;

pub use anew::Mending;
pub use bring::{Bringing, bringing, effect_on, put_away};
pub use devices::Keeper;
pub use doubt::{Standing, Trust};
pub use make::{Going, lacking};
pub use way::{Choice, Way};

use crate::live::{Live, Worked, of_the_page, worked};
use crate::notice::Notice;
use crate::shell::clock;
use crate::shell::db::Db;
use crate::shell::drafts::Drafts;
use crate::shell::second::Second;
use crate::shell::tabs::Tabs;
use haulwren_core::book::{Group, State, Touched};
use haulwren_core::change::Change;
use haulwren_core::day::Day;
use haulwren_core::id::DeviceCode;
use haulwren_core::money::Currency;
use haulwren_core::view::{self, DecideView, Done, HaulView, PileView, Piled};
use haulwren_core::view::{Sending, Unasked};
use pile::Laid;
use std::cell::{Cell, OnceCell, RefCell};
use std::ops::Deref;
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
    /// Nowhere, and nothing is saved: what is stored is damaged, and open for reading only.
    Reading,
}

struct Inner {
    db: RefCell<Option<Rc<Db>>>,
    /// The second copy, where the browser has room for one.
    second: RefCell<Option<Rc<Second>>>,
    book: RefCell<State>,
    /// What this session saved, for a copy when the storage fails.
    session: RefCell<Vec<Change>>,
    tabs: RefCell<Option<Tabs>>,
    /// Whether another attempt to write all anew is already waiting.
    mending: Cell<bool>,
    /// Whether keys were typed that nobody was told of yet.
    typed: Cell<bool>,
    /// Whether the page says that something half-typed is on it.
    unsaved: Cell<bool>,
    /// Looks whether drafts can be written, while some are not.
    draft_timer: RefCell<Option<gloo::timers::callback::Timeout>>,
    /// Whether something was typed since that was set.
    still_typing: Cell<bool>,
    /// What the last payment for a pile took off it, by the save: undoing that lays it there again.
    paid: RefCell<Option<(u64, Vec<Piled>)>>,
}

/// The handle that screens hold. Cheap to copy: the store lives as long as the page.
#[derive(Clone, Copy)]
pub struct Store(&'static Parts);

/// What the store is made of.
pub struct Parts {
    inner: &'static Inner,
    groups: Groups,
    today: Live<Option<Day>>,
    drafts: Live<Drafts>,
    decide_view: Worked<Option<DecideView>>,
    pile: Worked<Laid>,
    pile_view: Worked<Option<PileView>>,
    /// How far the start has come.
    pub phase: Live<Phase>,
    /// Where saves go.
    pub keeping: Live<Keeping>,
    /// How far what is stored is trusted.
    pub trust: Live<Trust>,
    /// Whether everything was read from the storage.
    pub all_read: Live<bool>,
    /// The error to show.
    pub notice: Live<Option<Notice>>,
    /// The last save, for the undo bar.
    pub done: Live<Option<Done>>,
    /// Whether a save is under way.
    pub saving: Live<bool>,
    /// How much needs the trader; looked after once the late module is here.
    pub needs: Live<usize>,
    /// That no copy left this device for too long, as a sentence; empty while there is nothing to say.
    pub copy_due: Live<String>,
}

impl Deref for Store {
    type Target = Parts;
    fn deref(&self) -> &Parts {
        self.0
    }
}

/// What is told when something of a group was changed, in the order of the groups.
#[derive(Clone, Copy)]
struct Groups([Live<()>; Group::ALL.len()]);

impl Groups {
    /// Follows some of them.
    fn track(self, groups: &[Group]) {
        for group in groups {
            self.0[*group as usize].track();
        }
    }
}

thread_local! {
    static HAUL: OnceCell<Worked<Option<HaulView>>> = const { OnceCell::new() };
    static STORE: OnceCell<Store> = const { OnceCell::new() };
}

/// The store of this page, made when it is first asked for.
pub fn use_store() -> Store {
    STORE.with(|store| *store.get_or_init(Store::new))
}

impl Store {
    /// A store before anything is opened.
    fn new() -> Self {
        let groups = Groups(Group::ALL.map(|_| Live::new(())));
        let (today, drafts) = (Live::new(clock::now().day()), Live::new(Drafts::default()));
        let inner: &'static Inner = Box::leak(Box::new(Inner {
            db: RefCell::default(),
            second: RefCell::default(),
            book: RefCell::new(State::new(DeviceCode::from_chance(clock::chance()))),
            session: RefCell::default(),
            tabs: RefCell::default(),
            mending: Cell::default(),
            typed: Cell::default(),
            unsaved: Cell::default(),
            draft_timer: RefCell::default(),
            still_typing: Cell::default(),
            paid: RefCell::default(),
        }));
        // In steps: a key of the asking price, at a table the most usual one, works out only what hangs on it, and no price asks anew how the
        // thing would be sent.
        let kept = worked(move || drafts.with(|drafts| drafts.decide.unasked()));
        let what = worked(move || kept.with(|draft| (draft.kind, draft.heft)));
        let sending = worked(move || {
            groups.track(&[Group::Setup]);
            let (kind, heft) = what.get();
            Sending::of(&inner.book.borrow(), kind, heft)
        });
        let unasked = worked(move || {
            groups.track(&[Group::Setup, Group::Trips]);
            today.get()?;
            let now = clock::now();
            let book = inner.book.borrow();
            sending.with(|sending| kept.with(|draft| view::unasked(&book, sending, draft, now)))
        });
        // Of its own, so that what is typed on Decide does not work the pile out anew.
        let pile = worked(move || drafts.with(|drafts| Laid(drafts.pile.clone())));
        let parts = Parts {
            inner,
            groups,
            today,
            drafts,
            decide_view: worked(move || {
                let (book, now) = (inner.book.borrow(), clock::now());
                let asked = |before: &Unasked| {
                    drafts.with(|drafts| before.asked(&book, &drafts.decide, now))
                };
                unasked.with(|before| before.as_ref().map(asked))
            }),
            pile,
            pile_view: worked(move || {
                groups.track(&[Group::Setup, Group::Trips]);
                today.get()?;
                let now = clock::now();
                pile.with(|pile| view::pile(&inner.book.borrow(), &pile.0, now))
            }),
            phase: Live::new(Phase::Opening(None)),
            keeping: Live::new(Keeping::Disk),
            trust: Live::new(Trust::Whole),
            all_read: Live::new(false),
            notice: Live::new(None),
            done: Live::new(None),
            saving: Live::new(false),
            needs: Live::new(0),
            copy_due: Live::new(String::new()),
        };
        Self(Box::leak(Box::new(parts)))
    }

    /// What Decide shows.
    pub fn decide_view(self) -> Worked<Option<DecideView>> {
        self.decide_view
    }

    /// What Haul shows. Made when it is first asked for, since its screens come late, and kept as long as the page.
    pub fn haul_view(self) -> Worked<Option<HaulView>> {
        HAUL.with(|haul| {
            let made = || {
                worked(move || {
                    self.groups
                        .track(&[Group::Setup, Group::Trips, Group::Haul]);
                    view::haul(&self.inner.book.borrow())
                })
            };
            *haul.get_or_init(|| of_the_page(made))
        })
    }

    /// Reads what verdicts rest on: the book, devices, rules, venues and terms. Tracks them.
    pub fn read_setup<R>(self, read: impl FnOnce(&State) -> R) -> R {
        self.groups.track(&[Group::Setup]);
        read(&self.inner.book.borrow())
    }

    /// The book's currency, once it has begun. Tracks it.
    pub fn currency(self) -> Option<Currency> {
        self.read_setup(State::currency)
    }

    /// Reads anything of the book. Tracks all of it.
    pub fn read<R>(self, read: impl FnOnce(&State) -> R) -> R {
        self.groups.track(&Group::ALL);
        read(&self.inner.book.borrow())
    }

    /// The day that the clock shows; none when the clock is beyond the calendar. Moves on when the page is shown again after midnight.
    pub fn today(self) -> Option<Day> {
        self.today.get()
    }

    fn bump(self, touched: Touched) {
        for group in Group::ALL {
            if touched.has(group) {
                self.groups.0[group as usize].set(());
            }
        }
    }

    fn look_at_clock(self) {
        let day = clock::now().day();
        if self.today.get_untracked() != day {
            self.today.set(day);
        }
    }
}
