//! Measures words as this browser sets them, by a hidden element beside the rail that has the rail's font. Asking a
//! canvas would miss tabular figures, kerning and enlarged text.

use std::cell::RefCell;

use leptos::prelude::window;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{HtmlElement, ResizeObserver};

use super::place::LEAST;
use crate::follow::keep;
use crate::ui::px::Px;

/// Measured widths, kept until the text size changes.
pub struct Measured {
    probe: HtmlElement,
    known: RefCell<Vec<Known>>,
}

/// One of them.
struct Known {
    text: String,
    size: f64,
    bold: bool,
    width: f64,
}

/// More texts than this are names of long ago.
const MOST: usize = 200;

impl Measured {
    /// Nothing measured yet, by an element that has the rail's font.
    pub fn by(probe: HtmlElement) -> Self {
        Self {
            probe,
            known: RefCell::default(),
        }
    }

    /// Forgets all widths, as after a change of text size.
    pub fn forget(&self) {
        self.known.borrow_mut().clear();
    }

    /// The width of `text` at `size` CSS pixels. All figures are equally wide in the rail's font settings, so one amount stands for every
    /// other of its length: else each key would cost the browser several layouts.
    pub fn width(&self, text: &str, size: f64, bold: bool) -> f64 {
        let mut all = self.known.borrow_mut();
        let is_it = |known: &&Known| {
            known.bold == bold
                && known.size.to_bits() == size.to_bits()
                && known.text.len() == text.len()
                && known
                    .text
                    .bytes()
                    .map(any_figure)
                    .eq(text.bytes().map(any_figure))
        };
        if let Some(known) = all.iter().find(is_it) {
            return known.width;
        }
        let style = self.probe.style();
        // A browser that refuses these leaves the last size: a label a little off, never a lost one.
        let _ = style.set_property("font-size", &format!("{}px", Px(size)));
        let _ = style.set_property("font-weight", if bold { "700" } else { "400" });
        self.probe.set_text_content(Some(text));
        let width = self.probe.get_bounding_client_rect().width();
        if all.len() >= MOST {
            all.clear();
        }
        all.push(Known {
            text: text.to_owned(),
            size,
            bold,
            width,
        });
        width
    }
}

/// Figures are signs of one byte, and no byte of another sign looks like one.
fn any_figure(byte: u8) -> u8 {
    if byte.is_ascii_digit() { b'0' } else { byte }
}

/// What the page's own measures say about a rail.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Room {
    /// Width of the rail in CSS pixels.
    pub width: f64,
    /// Its text size against the usual 16 px.
    pub scale: f64,
    /// What is left over for a rail that is as low as it can be, in CSS pixels at the usual text size.
    pub spare: f64,
}

impl Room {
    /// Reads it from the rail's gauge: the style sheet makes it as high as the rail may be. Nothing while that is not on the page.
    pub fn of(gauge: &HtmlElement) -> Option<Self> {
        let room = gauge.get_bounding_client_rect();
        let style = window().get_computed_style(gauge).ok()??;
        let size = js_sys::parse_float(&style.get_property_value("font-size").ok()?);
        let scale = size / 16.0;
        (room.width() > 0.0 && size > 0.0).then(|| Self {
            width: room.width(),
            scale,
            spare: room.height() / scale - LEAST,
        })
    }
}

/// Calls `changed` at once and whenever the element's own size does, until what it was called in is cleaned up. It has to be one whose size
/// tells of the room and not of what was drawn in it.
pub fn watch(element: &HtmlElement, changed: impl Fn() + 'static) {
    let closure = Closure::<dyn Fn()>::new(changed);
    let observer = ResizeObserver::new(closure.as_ref().unchecked_ref())
        .expect("every browser that runs this has it");
    observer.observe(element);
    keep(Watching {
        observer,
        _called: closure,
    });
}

struct Watching {
    observer: ResizeObserver,
    _called: Closure<dyn Fn()>,
}

impl Drop for Watching {
    fn drop(&mut self) {
        self.observer.disconnect();
    }
}
