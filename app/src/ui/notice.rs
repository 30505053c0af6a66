//! What went wrong, that there is nothing yet, and that a save takes long.

use std::time::Duration;

use leptos::prelude::*;

/// An error: the bold fact, what to do, and one button.
#[component]
pub fn Notice(
    /// The fact.
    #[prop(into)]
    fact: String,
    /// What to do.
    #[prop(into, optional)]
    hint: String,
    /// The button's word; empty for none.
    #[prop(into, optional)]
    action: String,
    /// What the button does.
    #[prop(into, optional)]
    on_action: Option<Callback<()>>,
    /// Whether it only tells, and is no error.
    #[prop(default = false)]
    plain: bool,
) -> impl IntoView {
    view! {
        <div class="notice" class:plain=plain role=if plain { "status" } else { "alert" }>
            <p>
                <b>{fact}</b>
                " "
                {hint}
            </p>
            {(!action.is_empty())
                .then(|| {
                    view! {
                        <button
                            type="button"
                            class="press strong"
                            on:click=move |_| {
                                if let Some(on_action) = on_action {
                                    on_action.run(());
                                }
                            }
                        >
                            {action}
                        </button>
                    }
                })}
        </div>
    }
}

/// Nothing here yet: one plain line, and the next action in it.
#[component]
pub fn Empty(
    /// The line.
    #[prop(into)]
    line: String,
    /// The next action.
    children: Children,
) -> impl IntoView {
    view! {
        <div class="empty">
            <p>{line}</p>
            {children()}
        </div>
    }
}

/// A hollow bar while a save takes longer than 300 ms. It never blocks anything.
#[component]
pub fn Saving(
    /// Whether a save is under way.
    #[prop(into)]
    saving: Signal<bool>,
) -> impl IntoView {
    let is_long = RwSignal::new(false);
    // Time is outside of the page's signals: a timer brings it in.
    Effect::new(move |timer: Option<Option<TimeoutHandle>>| {
        if let Some(Some(timer)) = timer {
            timer.clear();
        }
        is_long.set(false);
        if saving.get() {
            set_timeout_with_handle(move || is_long.set(true), Duration::from_millis(300)).ok()
        } else {
            None
        }
    });
    view! {
        <Show when=move || saving.get() && is_long.get()>
            <div class="saving" role="status">
                <i></i>
                "Saving"
            </div>
        </Show>
    }
}
