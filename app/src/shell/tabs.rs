//! Other tabs of this device: each tells the others how far it saved, and they read on.

use super::scope;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::Closure;
use web_sys::{BroadcastChannel, MessageEvent};

/// The channel between this tab and the others. `None` where the browser has none: tabs then catch up at their next save.
pub struct Tabs {
    channel: Option<BroadcastChannel>,
}

impl Tabs {
    /// Joins the channel; `heard` is called whenever another tab has saved.
    pub fn join(heard: impl Fn() + 'static) -> Self {
        let channel = BroadcastChannel::new(&scope::named("saved")).ok();
        if let Some(channel) = &channel {
            let heard = Closure::<dyn Fn(MessageEvent)>::new(move |_| heard());
            channel.set_onmessage(Some(heard.as_ref().unchecked_ref()));
            // The channel lives as long as the tab.
            heard.forget();
        }
        Self { channel }
    }

    /// Tells the others that this tab saved up to a number.
    pub fn tell(&self, head: u64) {
        if let Some(channel) = &self.channel {
            #[allow(clippy::cast_precision_loss)]
            // A hint only: the others read the head themselves.
            if let Err(error) = channel.post_message(&(head as f64).into()) {
                leptos::logging::warn!("the other tabs could not be told: {error:?}");
            }
        }
    }
}
