//! Kinds of things that a charge holds for, and their names.

use crate::live::worked;
use haulwren_core::id::KindId;
use haulwren_core::terms::MAX_NAMED;

use super::charge::change;
use super::desk::Desk;
use crate::ui::el::{El, div, el};

/// The kinds of the book with their names, and after them those of `named` that it doesn't have any more.
pub fn names(desk: Desk, named: &[KindId]) -> Vec<(KindId, String)> {
    let mut all = Vec::new();
    desk.store.read_setup(|book| {
        for kind in book.kinds() {
            all.push((kind.id, kind.name));
        }
    });
    for id in named {
        if all.iter().all(|(known, _)| known != id) {
            all.push((*id, "A kind that was taken away".to_owned()));
        }
    }
    all
}

/// A tick for each kind, folded away.
pub fn kinds(desk: Desk, at: usize) -> El {
    let named = move || {
        desk.form.with_untracked(|form| {
            let charge = form.charges.get(at);
            charge
                .map(|charge| charge.kinds.clone())
                .unwrap_or_default()
        })
    };
    let all = worked(move || names(desk, &named()));
    let ticks = move || {
        let mut ticks = Vec::new();
        for (place, (id, name)) in all.get().into_iter().enumerate() {
            ticks.push(desk.form.tick(
                &format!("charge-{at}-kind-{place}"),
                &name,
                move |form| {
                    let charge = form.charges.get(at);
                    charge.is_some_and(|charge| charge.kinds.contains(&id))
                },
                move |form, on| {
                    change(form, at, |charge| {
                        charge.kinds.retain(|kind| *kind != id);
                        if on && charge.kinds.len() < MAX_NAMED {
                            charge.kinds.push(id);
                        }
                    });
                },
            ));
        }
        ticks
    };
    let count = move || {
        let count = desk.form.with(|form| {
            let charge = form.charges.get(at);
            charge.map_or(0, |charge| charge.kinds.len())
        });
        match count {
            0 => "For every kind of thing".to_owned(),
            1 => "Only for one kind of thing".to_owned(),
            count => format!("Only for {count} kinds of things"),
        }
    };
    el("details")
        .class("fold")
        .with(el("summary").text_of(count))
        .with(div("ticks").show(ticks))
}
