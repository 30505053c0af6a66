//! Values that screens follow.
//!
//! Why not the library's own signals of each type: their code is compiled anew for every type of value, some 2 kB each before
//! compression, 8 kB for what is worked out. Here the library's graph carries only "this has changed", which is one type; the value
//! lies beside it.

use leptos::prelude::{
    ArcTrigger, Get as _, GetUntracked as _, GetValue as _, IsDisposed as _, LocalStorage, Memo,
    Notify as _, Owner, StoredValue, Track as _, untrack,
};
use std::any::Any;
use std::cell::RefCell;
use std::marker::PhantomData;
use std::rc::Rc;

use crate::follow::follow;

/// A value that is set, and that others follow. A handle: cheap to copy, valid as long as what it was made in stands.
pub struct Live<T> {
    place: StoredValue<Held, LocalStorage>,
    holds: PhantomData<fn() -> T>,
}

/// A value of any type, and who follows it.
#[derive(Clone)]
struct Held {
    value: Rc<dyn Any>,
    changed: ArcTrigger,
}

/// A value that is worked out of others when it is asked for. Those that follow it are told only when it has become another one.
pub struct Worked<T> {
    place: StoredValue<Rc<dyn Any>, LocalStorage>,
    revision: Memo<u64>,
    holds: PhantomData<fn() -> T>,
}

impl<T> Clone for Live<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Live<T> {}

impl<T> Clone for Worked<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Worked<T> {}

impl<T: 'static> Live<T> {
    /// A value to begin with.
    pub fn new(value: T) -> Self {
        Self {
            place: hold(Rc::new(RefCell::new(value))),
            holds: PhantomData,
        }
    }

    /// Whether what it was made in is gone.
    pub fn is_gone(self) -> bool {
        self.place.is_disposed()
    }

    /// Follows it without reading it.
    pub fn track(self) {
        self.place.get_value().changed.track();
    }

    /// Reads it, and follows it.
    pub fn with<R>(self, read: impl FnOnce(&T) -> R) -> R {
        self.track();
        self.with_untracked(read)
    }

    /// Reads it once.
    pub fn with_untracked<R>(self, read: impl FnOnce(&T) -> R) -> R {
        read(&value_in::<T>(self.place.get_value().value).borrow())
    }

    /// Changes it. Who follows it is told when that is done.
    pub fn update<R>(self, change: impl FnOnce(&mut T) -> R) -> R {
        let result = self.change(change);
        self.tell();
        result
    }

    /// Changes it. Nobody is told: that has to follow, see [`Live::tell`].
    pub fn change<R>(self, change: impl FnOnce(&mut T) -> R) -> R {
        change(&mut value_in::<T>(self.place.get_value().value).borrow_mut())
    }

    /// Tells those who follow it that it was changed.
    pub fn tell(self) {
        self.place.get_value().changed.notify();
    }

    /// Puts another value in its place. When what it was made in is gone, nobody follows it any more, and nothing happens: for what comes
    /// late, from the disk or a timer.
    pub fn set(self, value: T) {
        if self.is_gone() {
            return;
        }
        // What was there is dropped when nothing is borrowed any more.
        let held = self.place.get_value();
        drop(value_in::<T>(held.value).replace(value));
        held.changed.notify();
    }
}

impl<T: Clone + 'static> Live<T> {
    /// A copy of it; follows it.
    pub fn get(self) -> T {
        self.with(T::clone)
    }

    /// A copy of it.
    pub fn get_untracked(self) -> T {
        self.with_untracked(T::clone)
    }
}

/// Makes a value that is as long as the page, whatever screen asks for it first.
pub fn of_the_page<T>(make: impl FnOnce() -> T) -> T {
    // A new root takes the place of the owner at hand.
    let asking = Owner::current();
    let owner = Owner::new_root(None);
    let value = owner.with(make);
    std::mem::forget(owner);
    if let Some(asking) = asking {
        asking.set();
    }
    value
}

/// A value worked out by `of`, which is followed in turn.
pub fn worked<T: PartialEq + 'static>(of: impl Fn() -> T + 'static) -> Worked<T> {
    worked_by(Rc::new(of))
}

/// A value worked out by `of` after each change, that those who follow it hear of only when it has become another one.
///
/// Why not [`worked`]: whoever follows a worked value is asked at each change whether there is something to do, and a key on Decide asks
/// dozens in vain. This is for what keys seldom change and much follows. It is there once the page comes to rest, not at once.
pub fn settled<T: PartialEq + 'static>(of: impl Fn() -> T + 'static) -> Live<T> {
    let value = Live::new(untrack(&of));
    follow(Box::new(move || {
        let new = of();
        if value.with_untracked(|stands| *stands != new) {
            value.set(new);
        }
    }));
    value
}

/// One piece of code for each type of value, not for each place.
#[inline(never)]
fn worked_by<T: PartialEq + 'static>(of: Rc<dyn Fn() -> T>) -> Worked<T> {
    let value = Rc::new(RefCell::new(None::<T>));
    let place = StoredValue::new_local(value.clone() as Rc<dyn Any>);
    let again = move || {
        let new = Some(of());
        let is_another = *value.borrow() != new;
        if is_another {
            drop(value.replace(new));
        }
        is_another
    };
    Worked {
        place,
        revision: revision(Rc::new(again)),
        holds: PhantomData,
    }
}

/// Counts how often `again` came to another value.
fn revision(again: Rc<dyn Fn() -> bool>) -> Memo<u64> {
    let again = StoredValue::new_local(again);
    Memo::new(move |before: Option<&u64>| {
        let is_another = again.get_value()();
        before.copied().unwrap_or(0) + u64::from(is_another)
    })
}

impl<T: 'static> Worked<T> {
    /// Reads it, and follows it.
    pub fn with<R>(self, read: impl FnOnce(&T) -> R) -> R {
        self.revision.get();
        self.read(read)
    }

    /// Reads it once.
    pub fn with_untracked<R>(self, read: impl FnOnce(&T) -> R) -> R {
        self.revision.get_untracked();
        self.read(read)
    }

    fn read<R>(self, read: impl FnOnce(&T) -> R) -> R {
        let value = value_in::<Option<T>>(self.place.get_value());
        let value = value.borrow();
        read(value.as_ref().expect("asking for it has worked it out"))
    }
}

impl<T: Clone + 'static> Worked<T> {
    /// A copy of it; follows it.
    pub fn get(self) -> T {
        self.with(T::clone)
    }

    /// A copy of it.
    pub fn get_untracked(self) -> T {
        self.with_untracked(T::clone)
    }
}

fn hold(value: Rc<dyn Any>) -> StoredValue<Held, LocalStorage> {
    let changed = ArcTrigger::new();
    StoredValue::new_local(Held { value, changed })
}

fn value_in<T: 'static>(value: Rc<dyn Any>) -> Rc<RefCell<T>> {
    let value = value.downcast();
    value.unwrap_or_else(|_| unreachable!("a handle knows the type of its value"))
}
