//! The undo bar: what was saved last, a key that takes it back, and the last ten. It has no countdown.

use haulwren_core::view::Done;
use leptos::prelude::*;

use super::icons::{Icon, Sign};
use super::sheet::Sheet;
use crate::format;

/// The bar. It shows while there is a last save.
#[component]
pub fn UndoBar(
    /// The last save.
    #[prop(into)]
    last: Signal<Option<Done>>,
    /// The last ten, newest first, each with whether it can still be undone; `None` while they are being read.
    #[prop(into)]
    ten: Signal<Option<Vec<(Done, bool)>>>,
    /// Asks for the last ten.
    #[prop(into)]
    on_list: Callback<()>,
    /// Takes a save back, by its first number.
    #[prop(into)]
    on_undo: Callback<u64>,
) -> impl IntoView {
    let listed = RwSignal::new(false);
    let undo = move |save| {
        listed.set(false);
        on_undo.run(save);
    };
    let rows = move || match ten.get() {
        None => view! { <p role="status">"Reading"</p> }.into_any(),
        Some(ten) => ten
            .into_iter()
            .map(|(done, can)| row(done, can, undo))
            .collect_view()
            .into_any(),
    };
    let bar = move |done: Done| {
        view! {
            <section class="undo" data-undo="" aria-label="Last save">
                <p role="status">{done.sentence}</p>
                <button
                    type="button"
                    class="press"
                    on:click=move |_| {
                        on_list.run(());
                        listed.set(true);
                    }
                >
                    "Last ten"
                </button>
                <button type="button" class="press strong" on:click=move |_| undo(done.save)>
                    <Sign icon=Icon::Undo />
                    "Undo"
                </button>
            </section>
        }
    };
    view! {
        {move || last.get().map(bar)}
        <Sheet open=listed on_close=move |()| listed.set(false) title="Last ten saves".to_owned()>
            <ul>{rows}</ul>
        </Sheet>
    }
}

fn row(done: Done, can: bool, undo: impl Fn(u64) + Copy + 'static) -> impl IntoView {
    let name = format!("Undo: {}", done.sentence);
    view! {
        <li class="row">
            <span class="what">
                {done.sentence} <br />
                <span class="support">{format::day_at(done.at)} ", " {format::time(done.at)}</span>
            </span>
            <button type="button" class="press" aria-label=name disabled=!can on:click=move |_| undo(done.save)>
                <Sign icon=Icon::Undo />
                "Undo"
            </button>
        </li>
    }
}
