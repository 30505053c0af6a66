//! An element that remembers what was last written to it: what is so already is left alone. The browser would style and lay out
//! again even what stays the same, and asking it what stands costs as much as writing.

use std::cell::{OnceCell, RefCell};

use js_sys::JsString;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::{CssStyleDeclaration, Element, Node};

use super::px::Px;
use crate::ui::el::El;

/// An element that nobody else writes to. No name is both an attribute and a style of it.
pub struct Kept {
    el: El,
    /// The one text inside.
    text: OnceCell<Node>,
    /// Its own style.
    style: OnceCell<CssStyleDeclaration>,
    /// The text under no name.
    written: RefCell<Vec<Entry>>,
}

/// What stands under a name.
struct Entry {
    name: &'static str,
    /// The same on the page's side: handing it over anew takes as long as the page takes to set it.
    known_as: JsString,
    stands: Written,
}

/// What was written. A length is kept as a number: most stay as they are, and then no text is made of them.
#[derive(PartialEq)]
enum Written {
    Nothing,
    Text(String),
    Length(i32),
}

#[wasm_bindgen]
extern "C" {
    /// An element whose attributes are set by names that the page knows already.
    #[wasm_bindgen(extends = Element)]
    type ByName;
    #[wasm_bindgen(method, js_name = setAttribute)]
    fn set_known(this: &ByName, name: &JsString, value: &str);

    /// A style whose properties are set so.
    #[wasm_bindgen(extends = CssStyleDeclaration)]
    type StyleByName;
    #[wasm_bindgen(method, js_name = setProperty)]
    fn set_known(this: &StyleByName, name: &JsString, value: &str);
}

impl Kept {
    /// Nothing written yet.
    pub fn new(el: &El) -> Self {
        Self {
            el: el.clone(),
            text: OnceCell::new(),
            style: OnceCell::new(),
            written: RefCell::default(),
        }
    }

    /// Sets or takes off an attribute.
    pub fn set(&self, name: &'static str, value: Option<&str>) {
        let is_so = |stands: &Written| match (stands, value) {
            (Written::Text(stands), Some(value)) => stands == value,
            (Written::Nothing, None) => true,
            _ => false,
        };
        let new = || value.map_or(Written::Nothing, |value| Written::Text(value.to_owned()));
        let Some(known_as) = self.note(name, &is_so, &new) else {
            return;
        };
        match value {
            Some(value) => self.by_name().set_known(&known_as, value),
            None => self.el.set(name, None),
        }
    }

    /// Sets an attribute to a length.
    pub fn set_length(&self, name: &'static str, length: f64) {
        if let Some(known_as) = self.note_length(name, length) {
            self.by_name().set_known(&known_as, &Px(length).to_string());
        }
    }

    /// Sets a style property to a length.
    pub fn set_style(&self, name: &'static str, length: f64) {
        if let Some(known_as) = self.note_length(name, length) {
            let style = self.style.get_or_init(|| self.el.html().style());
            let style: &StyleByName = style.unchecked_ref();
            style.set_known(&known_as, &format!("{}px", Px(length)));
        }
    }

    /// Sets all text of an element that holds nothing but text.
    pub fn set_text(&self, text: &str) {
        let is_so = |stands: &Written| matches!(stands, Written::Text(stands) if stands == text);
        if self
            .note("", &is_so, &|| Written::Text(text.to_owned()))
            .is_some()
        {
            let node = self.text.get_or_init(|| self.el.text_node());
            node.set_node_value(Some(text));
        }
    }

    fn by_name(&self) -> &ByName {
        self.el.element().unchecked_ref()
    }

    fn note_length(&self, name: &'static str, length: f64) -> Option<JsString> {
        let length = Px(length).tenths();
        let is_so = |stands: &Written| *stands == Written::Length(length);
        self.note(name, &is_so, &|| Written::Length(length))
    }

    /// The name on the page's side if something else stands; notes what will.
    fn note(
        &self,
        name: &'static str,
        is_so: &dyn Fn(&Written) -> bool,
        new: &dyn Fn() -> Written,
    ) -> Option<JsString> {
        let mut written = self.written.borrow_mut();
        let known = written.iter_mut().find(|entry| entry.name == name);
        match known {
            Some(entry) if is_so(&entry.stands) => None,
            Some(entry) => {
                entry.stands = new();
                Some(entry.known_as.clone())
            }
            None => {
                let known_as = JsString::from(name);
                written.push(Entry {
                    name,
                    known_as: known_as.clone(),
                    stands: new(),
                });
                Some(known_as)
            }
        }
    }
}
