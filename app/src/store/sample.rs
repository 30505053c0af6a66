//! Sample data: laid out when it is first looked at, and thrown away when it is left.

use super::Store;
use super::saving::in_context;
use crate::late;
use crate::notice::Notice;
use crate::shell::{db, scope};
use haulwren_core::book::{Refusal, State};
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
        let Some(further) = late::fetched().await else {
            return self.notice.set(Some(Notice::no_sample()));
        };
        for step in 0.. {
            let decided =
                |state: &State| in_context(&mut |context| (further.sample)(step, state, context));
            if decided(&self.inner.book.borrow()).is_none() {
                break;
            }
            let plan = move |state: &State| decided(state).unwrap_or(Err(Refusal::NoChange));
            if let Err(why) = self.saved(&plan).await {
                return self.notice.set(Some(Notice::unsaved(&why)));
            }
        }
    }
}
