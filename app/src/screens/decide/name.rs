//! The sheet where the thing gets its name. It hangs from the top: the phone's own keyboard comes up from the bottom.

use crate::live::worked;
use std::rc::Rc;

use super::Desk;
use crate::screens::parts;
use crate::store::use_store;
use crate::ui::el::{Do, El};
use crate::ui::field::{FieldSpec, field};
use crate::ui::sheet::sheet;

/// The sheet.
pub fn name_sheet(desk: Desk) -> El {
    let store = use_store();
    let close: Do<()> = Rc::new(move |()| desk.naming.set(false));
    let done = close.clone();
    let body = move || {
        let spec = FieldSpec {
            id: "thing-name",
            label: "Name of the thing",
            hint: "It can stay empty: buying never waits for a name.",
            autofocus: true,
            ..FieldSpec::default()
        };
        let name = move || store.draft(|draft| draft.name.clone());
        let typed = move |name| store.edit_draft(|draft| draft.name = name);
        let done = done.clone();
        parts::form("name-form", move || done(()))
            .with(field(spec, Rc::new(name), Rc::new(|| None), Rc::new(typed)))
            .with(parts::submit("Done"))
    };
    let title = Rc::new(|| "What is it?".to_owned());
    sheet(worked(move || desk.naming.get()), &close, title, true, body)
}
