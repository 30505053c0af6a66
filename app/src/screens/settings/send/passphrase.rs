//! A new passphrase, asked for twice.

use std::rc::Rc;

use super::{Desk, Other, Sending, make};
use crate::live::Live;
use crate::screens::parts;
use crate::shell::sealed::Passphrase;
use crate::ui::el::{Nodes, button, div};
use crate::ui::secret::{Secret, secret};

const NO_WAY_BACK: &str = "The other device asks for it when the file is opened. There is no way back without it: nobody can look it up or make a new one. Some words that have nothing to do with each other hold best.";

pub(super) fn asked(desk: Desk, other: &Other) -> Nodes {
    let typed = [Live::new(String::new()), Live::new(String::new())];
    let fault = Live::new(None::<(usize, &'static str)>);
    let field = |at: usize, id, label| {
        let text = typed[at];
        let spec = Secret {
            id,
            label,
            is_new: true,
        };
        secret(
            spec,
            Rc::new(move || text.get()),
            Rc::new(move || {
                let fault = fault.get().filter(|(of, _)| *of == at);
                fault.map(|(_, said)| said.to_owned())
            }),
            // What was wrong is no longer so once either of them is typed anew.
            Rc::new(move |typed| {
                text.set(typed);
                fault.set(None);
            }),
        )
    };
    let fields = [
        field(0, "seal", "Passphrase for this file"),
        field(1, "seal-again", "The same again"),
    ];
    let other = other.clone();
    let sent = move || {
        let [first, again] = typed.map(Live::get_untracked);
        match Passphrase::of(&first) {
            None => fault.set(Some((0, "Type a passphrase."))),
            Some(_) if first != again => fault.set(Some((1, "The two are not the same."))),
            passphrase => make(desk, &other, passphrase),
        }
    };
    let not_now = button("press")
        .on_click(move || desk.now.set(Sending::Idle))
        .with("Not now");
    let keys = div("pair keys-row")
        .with(parts::submit("Make the file").attr("data-seal", ""))
        .with(not_now);
    parts::form("form flush", sent)
        .with(parts::line(NO_WAY_BACK))
        .with(fields)
        .with(keys)
        .into()
}
