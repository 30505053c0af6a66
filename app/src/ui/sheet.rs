//! A sheet that opens over the screen. The browser's own dialog: it keeps the focus inside, and closes by Escape, by the
//! back gesture where the browser offers it, by a touch beside it, and by its own button.

use leptos::ev::MouseEvent;
use leptos::html::Dialog;
use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys::{Element, HtmlDialogElement};

/// The sheet. What is in it exists only while it is open.
#[component]
pub fn Sheet(
    /// Whether it is open.
    #[prop(into)]
    open: Signal<bool>,
    /// Called when it wants to close.
    #[prop(into)]
    on_close: Callback<()>,
    /// Its heading.
    #[prop(into)]
    title: Signal<String>,
    /// Whether it hangs from the top, where the phone's own keyboard can't cover it.
    #[prop(default = false)]
    at_top: bool,
    /// What is in it.
    children: ChildrenFn,
) -> impl IntoView {
    let dialog = NodeRef::<Dialog>::new();
    // A dialog can only be opened by calling it; this carries the signal over to the element, and nothing back.
    Effect::new(move || {
        let Some(element) = dialog.get() else { return };
        let element: &HtmlDialogElement = &element;
        match (open.get(), element.open()) {
            (true, false) => {
                // Fails only for an element that has left the page, and then there is nothing to show.
                let _ = element.show_modal();
            }
            (false, true) => element.close(),
            _ => {}
        }
    });
    let beside = move |event: MouseEvent| {
        let target = event
            .target()
            .and_then(|target| target.dyn_into::<Element>().ok());
        if target.is_some_and(|element| element.tag_name() == "DIALOG") {
            on_close.run(());
        }
    };
    let children = StoredValue::new(children);
    view! {
        <dialog
            class="sheet"
            class:top=at_top
            node_ref=dialog
            aria-labelledby="sheet-title"
            on:close=move |_| {
                if open.get_untracked() {
                    on_close.run(());
                }
            }
            on:click=beside
        >
            <Show when=move || open.get()>
                <div class="sheet-head">
                    <h2 id="sheet-title">{title}</h2>
                    <button type="button" class="press" on:click=move |_| on_close.run(())>"Close"</button>
                </div>
                {children.with_value(|children| children())}
            </Show>
        </dialog>
    }
}
