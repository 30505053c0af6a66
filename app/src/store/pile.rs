//! The pile: laying things on it, and paying for all of them.

use super::Store;
use crate::live::Worked;
use crate::shell::clock;
use haulwren_core::book::Command;
use haulwren_core::view::{self, Field, Pile, PileView};
use std::rc::Rc;

/// What lies on the pile, another one once it was edited: comparing thing by thing would cost every key of Decide.
#[derive(Clone)]
pub(super) struct Laid(pub Rc<Pile>);

impl PartialEq for Laid {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl Store {
    /// What lies on the pile, and what is typed there. Tracks it.
    pub fn pile<R>(self, read: impl FnOnce(&Pile) -> R) -> R {
        self.pile.with(|pile| read(&pile.0))
    }

    /// What the pile shows.
    pub fn pile_view(self) -> Worked<Option<PileView>> {
        self.pile_view
    }

    /// Changes the pile.
    pub fn edit_pile<R>(self, edit: impl FnOnce(&mut Pile) -> R) -> R {
        self.edit_drafts(|drafts| edit(Rc::make_mut(&mut drafts.pile)))
    }

    /// Lays what is typed on Decide on the pile, so many times, and empties the form. Says how many were laid: none of an empty form, and
    /// none on a full pile; then the form stays.
    pub fn to_pile(self, times: usize) -> usize {
        self.edit_drafts(|drafts| {
            let laid = Rc::make_mut(&mut drafts.pile).put(&drafts.decide, times);
            if laid > 0 {
                drafts.decide.go(Field::Ask);
                drafts.decide = drafts.decide.after_buy();
            }
            laid
        })
    }

    /// Logs what is ticked on the pile as a lot, and takes it off the pile. A second tap while the first is being saved does nothing.
    pub fn pay_for_pile(self) {
        if self.saving.get_untracked() {
            return;
        }
        let before = self.pile.get_untracked().0;
        let purchase = view::paid_for_all(&self.inner.book.borrow(), &before, clock::now());
        let Some(purchase) = purchase else { return };
        self.dispatch_at_once(Command::Buy(purchase), move |saved| {
            if !saved {
                return;
            }
            let save = self
                .done
                .with_untracked(|done| done.as_ref().map(|done| done.save));
            let taken = before.things.iter().filter(|thing| thing.in_it).cloned();
            self.inner
                .paid
                .replace(save.map(|save| (save, taken.collect())));
            self.edit_pile(|pile| pile.after_paying(&before));
        });
    }

    /// Whether the last save paid for a pile. Tracks the last save and the pile.
    pub fn has_just_paid(self) -> bool {
        self.pile.with(|_| ());
        let last = self.done.with(|done| done.as_ref().map(|done| done.save));
        let paid = self.inner.paid.borrow();
        last.is_some() && last == paid.as_ref().map(|(save, _)| *save)
    }

    /// Lays what a payment took off the pile there again, once its save is undone.
    pub(super) fn lay_again(self, save: u64) {
        let paid = self.inner.paid.take();
        match paid {
            Some((of, things)) if of == save => self.edit_pile(|pile| pile.lay_again(&things)),
            other => drop(self.inner.paid.replace(other)),
        }
    }
}
