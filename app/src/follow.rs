//! What runs again after a change, and what lasts as long as it is wanted.

use leptos::prelude::{Effect, RenderEffect, StoredValue};

/// Runs now and after each change of a signal that it reads, until what it was called in is cleaned up.
pub fn follow(mut run: Box<dyn FnMut()>) {
    keep(RenderEffect::new(move |_: Option<()>| run()));
}

/// Runs once what is being built stands on the page, and after each change of a signal that it reads.
pub fn follow_later(mut run: Box<dyn FnMut()>) {
    Effect::new(move |_: Option<()>| run());
}

/// Drops something when what it was called in is cleaned up.
pub fn keep<T: 'static>(kept: T) {
    StoredValue::new_local(kept);
}
