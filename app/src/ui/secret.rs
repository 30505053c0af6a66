//! A field for a passphrase: hidden as it is typed, unless the trader wants to see it.

use super::el::{Do, El, Now, div, el, span};
use super::field::check;
use crate::live::Live;
use std::rc::Rc;

/// How it is labelled.
#[derive(Clone, Copy, Debug)]
pub struct Secret {
    /// A name that no other field on the page has.
    pub id: &'static str,
    /// What is asked.
    pub label: &'static str,
    /// Whether a new one is made up: password keepers then offer one.
    pub is_new: bool,
}

/// The field, and the box that shows what is typed.
pub fn secret(
    spec: Secret,
    value: Now<String>,
    fault: Now<Option<String>>,
    on_input: Do<String>,
) -> El {
    let Secret { id, label, is_new } = spec;
    let fault_id = format!("{id}-fault");
    let (is_wrong, about, about_fault) = (fault.clone(), fault.clone(), fault_id.clone());
    let seen = Live::new(false);
    let kind = move || Some(if seen.get() { "text" } else { "password" }.to_owned());
    let keeper = if is_new {
        "new-password"
    } else {
        "current-password"
    };
    // A spelling check may hand what is typed to another host, and a phone that begins it with a capital changes it.
    let input = el("input")
        .attr("id", id)
        .attr_of("type", kind)
        .attr("spellcheck", "false")
        .attr("autocapitalize", "none")
        .attr("autocorrect", "off")
        .attr("autocomplete", keeper)
        .value_of(value)
        .attr_of("aria-invalid", move || {
            is_wrong().map(|_| "true".to_owned())
        })
        .attr_of("aria-describedby", move || {
            about().map(|_| about_fault.clone())
        })
        .on_input(move |text| on_input(text));
    let show = check(
        &format!("{id}-seen"),
        "Show it",
        Rc::new(move || seen.get()),
        Rc::new(move |on| seen.set(on)),
    );
    let field = div("field")
        .with(el("label").attr("for", id).with(label))
        .with(span("with-unit").with(input))
        .show(move || {
            let fault = fault();
            fault.map(|fault| {
                span("fault")
                    .attr("id", &fault_id)
                    .attr("role", "alert")
                    .with(fault)
            })
        });
    div("bare").with(field).with(show)
}
