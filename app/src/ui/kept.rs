//! An element that remembers what was last written to it: what is so already is left alone. The browser would style and lay out
//! again even what stays the same, and asking it what stands costs as much as writing.

use std::cell::RefCell;

use crate::ui::el::El;

/// An element that nobody else writes to. No name is both an attribute and a style of it.
pub struct Kept {
    el: El,
    /// By name; the text under no name.
    written: RefCell<Vec<(&'static str, Option<String>)>>,
}

impl Kept {
    /// Nothing written yet.
    pub fn new(el: &El) -> Self {
        Self {
            el: el.clone(),
            written: RefCell::default(),
        }
    }

    /// Sets or takes off an attribute.
    pub fn set(&self, name: &'static str, value: Option<&str>) {
        if self.is_another(name, value) {
            self.el.set(name, value);
        }
    }

    /// Sets a style property.
    pub fn set_style(&self, name: &'static str, value: &str) {
        if self.is_another(name, Some(value)) {
            self.el.set_style(name, value);
        }
    }

    /// Sets all text of an element that holds nothing but text.
    pub fn set_text(&self, text: &str) {
        if self.is_another("", Some(text)) {
            self.el.set_text(text);
        }
    }

    /// Whether something else stands, and notes what will.
    fn is_another(&self, name: &'static str, value: Option<&str>) -> bool {
        let mut written = self.written.borrow_mut();
        let Some((_, stands)) = written.iter_mut().find(|(of, _)| *of == name) else {
            written.push((name, value.map(str::to_owned)));
            return true;
        };
        let is_another = stands.as_deref() != value;
        if is_another {
            *stands = value.map(str::to_owned);
        }
        is_another
    }
}
