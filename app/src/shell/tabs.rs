//! Other tabs of this device: each tells the others how far it saved, and they read on.

use super::{page, scope};
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{BroadcastChannel, MessageEvent};

/// The channel between this tab and the others. `None` where the browser has none: tabs then catch up at their next save.
pub struct Tabs {
    channel: Option<BroadcastChannel>,
}

impl Tabs {
    /// Joins the channel; `heard` is called whenever another tab has saved. A tab that is told to begin anew does, with what is typed in
    /// it: that is kept when a page is put away.
    pub fn join(heard: impl Fn() + 'static) -> Self {
        let channel = BroadcastChannel::new(&scope::named("saved")).ok();
        if let Some(channel) = &channel {
            let heard = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
                if event.data() == AGAIN {
                    page::reload();
                } else {
                    heard();
                }
            });
            channel.set_onmessage(Some(heard.as_ref().unchecked_ref()));
            // The channel lives as long as the tab.
            heard.forget();
        }
        Self { channel }
    }

    /// Tells the others that this tab saved up to a number.
    pub fn tell(&self, head: u64) {
        #[allow(clippy::cast_precision_loss)]
        // A hint only: the others read the head themselves.
        self.post(&(head as f64).into());
    }

    /// Tells the others to read the book anew.
    pub fn tell_again(&self) {
        self.post(&AGAIN.into());
    }

    fn post(&self, message: &JsValue) {
        let posted = self
            .channel
            .as_ref()
            .map(|channel| channel.post_message(message));
        if let Some(Err(error)) = posted {
            leptos::logging::warn!("the other tabs could not be told: {error:?}");
        }
    }
}

/// What a tab is told whose book is no longer the one on the disk.
const AGAIN: &str = "again";
