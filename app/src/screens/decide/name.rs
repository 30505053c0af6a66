//! The sheet where it is said what the thing is. It hangs from the top: the phone's own keyboard comes up from the bottom.

use std::rc::Rc;

use leptos::prelude::untrack;

use super::Desk;
use crate::late::{Late, ask, late};
use crate::live::worked;
use crate::screens::late::missing;
use crate::screens::parts;
use crate::ui::el::{Do, El, Nodes};
use crate::ui::sheet::sheet;

/// The sheet. What stands on it comes late.
pub fn name_sheet(desk: Desk) -> El {
    let close: Do<()> = Rc::new(move |()| desk.naming.set(false));
    let body = move || -> Nodes {
        match late().get() {
            Late::Here(further) => untrack(|| (further.what)(desk.naming)),
            Late::Coming => {
                ask();
                parts::status("Opening").attr("data-opening", "").into()
            }
            Late::Missing => missing().into(),
        }
    };
    let title = Rc::new(|| "What is it?".to_owned());
    let is_open = worked(move || desk.naming.get());
    sheet(is_open, &close, title, true, body)
}
