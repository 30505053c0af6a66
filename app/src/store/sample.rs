//! Sample data: laid out when it is first looked at, and thrown away when it is left.

use super::Store;
use crate::notice::Notice;
use crate::shell::{clock, db, scope};
use haulwren_core::book::{Context, State};
use haulwren_core::sample::sample;
use leptos::prelude::window;
use leptos::task::spawn_local;

impl Store {
    /// Turns this tab to sample data, or back to the own book.
    pub fn turn_to_sample(self, on: bool) {
        spawn_local(async move {
            if on {
                // Who looks again finds it as new; another tab that still looks keeps it.
                db::forget(&scope::shared("sample")).await;
            }
            let turned = scope::turn_to_sample(on)
                && window().location().set_hash("/decide").is_ok()
                && window().location().reload().is_ok();
            if !turned {
                self.notice.set(Some(Notice::no_sample()));
            }
        });
    }

    /// Tells the sample's commands to an empty book, one after the other.
    pub(super) async fn lay_out_sample(self) {
        if self.inner.book.borrow().currency().is_some() {
            return;
        }
        for step in 0.. {
            let command = sample(step, &self.inner.book.borrow(), clock::now());
            let Some(command) = command else { break };
            let plan = move |state: &State| {
                let mut chance = || clock::chance();
                let mut context = Context {
                    at: clock::now(),
                    chance: &mut chance,
                };
                state.decide(&command, &mut context)
            };
            if let Err(why) = self.saved(&plan).await {
                return self.notice.set(Some(Notice::unsaved(&why)));
            }
        }
    }
}
