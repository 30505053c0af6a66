//! An element that remembers what was last written to it: what is so already is left alone. The browser would style and lay out
//! again even what stays the same, and asking it what stands costs as much as writing.

use std::cell::{OnceCell, RefCell};

use js_sys::JsString;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::{CssStyleDeclaration, Element, Node};

use super::px::{Px, ROOM};
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

/// What was written. A length is kept as a number, in tenths: most stay as they are, and then no text is made of them.
enum Written {
    Nothing,
    Text(String),
    Length(i32),
}

/// What is to be written.
#[derive(Clone, Copy)]
enum New<'a> {
    Nothing,
    Text(&'a str),
    Length(i32),
}

impl Written {
    fn is(&self, new: New<'_>) -> bool {
        match (self, new) {
            (Self::Nothing, New::Nothing) => true,
            (Self::Text(stands), New::Text(new)) => stands == new,
            (Self::Length(stands), New::Length(new)) => *stands == new,
            _ => false,
        }
    }

    fn set(&mut self, new: New<'_>) {
        match (self, new) {
            // In the room that the old text had.
            (Self::Text(stands), New::Text(new)) => {
                stands.clear();
                stands.push_str(new);
            }
            (stands, New::Text(new)) => *stands = Self::Text(new.to_owned()),
            (stands, New::Length(new)) => *stands = Self::Length(new),
            (stands, New::Nothing) => *stands = Self::Nothing,
        }
    }
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
        let new = value.map_or(New::Nothing, New::Text);
        self.write(name, new, &|known_as| match value {
            Some(value) => self.by_name().set_known(known_as, value),
            None => self.el.set(name, None),
        });
    }

    /// Sets an attribute to a length.
    pub fn set_length(&self, name: &'static str, length: f64) {
        let length = Px(length);
        self.write(name, New::Length(length.tenths()), &|known_as| {
            self.by_name()
                .set_known(known_as, length.text(&mut [0; ROOM]));
        });
    }

    /// Sets a style property to a length.
    pub fn set_style(&self, name: &'static str, length: f64) {
        let length = Px(length);
        self.write(name, New::Length(length.tenths()), &|known_as| {
            let style = self.style.get_or_init(|| self.el.html().style());
            let style: &StyleByName = style.unchecked_ref();
            style.set_known(known_as, &format!("{length}px"));
        });
    }

    /// Sets all text of an element that holds nothing but text.
    pub fn set_text(&self, text: &str) {
        self.write("", New::Text(text), &|_| {
            let node = self.text.get_or_init(|| self.el.text_node());
            node.set_node_value(Some(text));
        });
    }

    fn by_name(&self) -> &ByName {
        self.el.element().unchecked_ref()
    }

    /// Notes what stands under a name from now on. If that is something else, `put` writes it; it is given the name on the page's side. The page
    /// tells nobody of it before that is done, so nothing can come back here meanwhile.
    fn write(&self, name: &'static str, new: New<'_>, put: &dyn Fn(&JsString)) {
        let mut written = self.written.borrow_mut();
        let known = written.iter().position(|entry| entry.name == name);
        let at = known.unwrap_or(written.len());
        if known.is_none() {
            written.push(Entry {
                name,
                known_as: JsString::from(name),
                stands: Written::Nothing,
            });
        } else if written[at].stands.is(new) {
            return;
        }
        written[at].stands.set(new);
        put(&written[at].known_as);
    }
}

#[cfg(test)]
mod tests {
    use super::Kept;
    use crate::ui::el::div;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn what_changed_is_written_and_what_stands_is_left_alone() {
        let el = div("");
        let kept = Kept::new(&el);
        let class = || el.element().get_attribute("class");
        for value in [Some("long one"), Some("short"), None, Some("again")] {
            kept.set("class", value);
            assert_eq!(class().as_deref(), value);
        }
        kept.set_length("width", 12.34);
        kept.set_style("left", 5.0);
        let left = || el.html().style().get_property_value("left");
        assert_eq!(el.element().get_attribute("width").as_deref(), Some("12.3"));
        assert_eq!(left().as_deref(), Ok("5px"));
        for text in ["a longer text", "short", ""] {
            kept.set_text(text);
            assert_eq!(el.element().text_content().as_deref(), Some(text));
        }
        // Written by somebody else, it shows that the same is not written again, and another is.
        el.set("class", Some("foreign"));
        kept.set("class", Some("again"));
        assert_eq!(class().as_deref(), Some("foreign"));
        kept.set("class", Some("other"));
        assert_eq!(class().as_deref(), Some("other"));
        el.set_style("left", "1px");
        kept.set_style("left", 5.01);
        assert_eq!(left().as_deref(), Ok("1px"));
        kept.set_style("left", 6.0);
        assert_eq!(left().as_deref(), Ok("6px"));
    }
}
