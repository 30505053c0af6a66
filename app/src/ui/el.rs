//! Elements of the page, built by hand and driven by signals.
//!
//! Why not the library's own templates: they give every tree of elements a type of its own, and compile all drawing code again for each
//! type. The same screens, measured as a single module, came to some 64 kB (brotli) more with them. Here every element,
//! text, listener and region goes through one piece of code each; signals, memos, effects and their clean-up stay the library's.

use leptos::prelude::{document, window};
use std::rc::Rc;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, Event, EventTarget, HtmlElement, HtmlInputElement, Node};

use crate::follow::{follow, keep};

/// An element under construction, or standing on the page. Cheap to copy by `clone`.
#[derive(Clone)]
pub struct El(Element);

/// What can stand inside an element.
#[derive(Default)]
pub struct Nodes(Vec<Node>);

/// An HTML element.
pub fn el(tag: &str) -> El {
    El(document().create_element(tag).expect("a known tag"))
}

/// An SVG element.
pub fn svg(tag: &str) -> El {
    El(document()
        .create_element_ns(Some("http://www.w3.org/2000/svg"), tag)
        .expect("a known tag"))
}

/// A button that presses: `type="button"`, with a class.
pub fn button(class: &str) -> El {
    el("button").attr("type", "button").class(class)
}

/// A `div` with a class.
pub fn div(class: &str) -> El {
    el("div").class(class)
}

/// A `span` with a class.
pub fn span(class: &str) -> El {
    el("span").class(class)
}

impl El {
    /// The element itself.
    pub fn element(&self) -> &Element {
        &self.0
    }

    /// The element as HTML, for focus and style.
    pub fn html(&self) -> &HtmlElement {
        self.0.unchecked_ref()
    }

    /// Its class names, all at once.
    pub fn class(self, names: &str) -> Self {
        self.attr("class", names)
    }

    /// An attribute.
    pub fn attr(self, name: &str, value: &str) -> Self {
        set_attribute(&self.0, name, Some(value));
        self
    }

    /// An attribute that follows signals; `None` takes it off.
    pub fn attr_of(self, name: &'static str, value: impl Fn() -> Option<String> + 'static) -> Self {
        self.attr_by(name, Box::new(value));
        self
    }

    fn attr_by(&self, name: &'static str, value: Box<dyn Fn() -> Option<String>>) {
        let element = self.0.clone();
        let mut stands = None;
        follow(Box::new(move || {
            let value = value();
            if value != stands {
                set_attribute(&element, name, value.as_deref());
                stands = value;
            }
        }));
    }

    /// An attribute without a value that stands while `on` is true, such as `disabled`.
    pub fn flag(self, name: &'static str, on: impl Fn() -> bool + 'static) -> Self {
        self.attr_of(name, move || on().then(String::new))
    }

    /// `true` or `false` as text, for `aria-pressed` and its like.
    pub fn state(self, name: &'static str, on: impl Fn() -> bool + 'static) -> Self {
        self.attr_of(name, move || Some(on().to_string()))
    }

    /// Sets or takes off an attribute of an element that stands.
    pub fn set(&self, name: &str, value: Option<&str>) {
        set_attribute(&self.0, name, value);
    }

    /// Sets a style property of an element that stands, through the object model: a strict policy forbids `style=""`.
    pub fn set_style(&self, name: &str, value: &str) {
        let result = self.html().style().set_property(name, value);
        debug_assert!(result.is_ok(), "a style that is not read-only");
    }

    /// The one text of an element that holds nothing else, made when there is none.
    pub fn text_node(&self) -> Node {
        self.0.first_child().unwrap_or_else(|| {
            let node = Node::from(document().create_text_node(""));
            add(&self.0, &node, None);
            node
        })
    }

    /// Puts others in place of what stands inside.
    pub fn set_inside(&self, inside: impl Into<Nodes>) {
        self.0.set_text_content(None);
        self.append(inside.into());
    }

    /// A class name that stands while `on` is true.
    pub fn class_if(self, name: &'static str, on: impl Fn() -> bool + 'static) -> Self {
        self.class_by(name, Box::new(on));
        self
    }

    fn class_by(&self, name: &'static str, on: Box<dyn Fn() -> bool>) {
        let list = self.0.class_list();
        let mut stands = None;
        follow(Box::new(move || {
            let is_on = Some(on());
            if is_on != stands {
                stands = is_on;
                let result = list.toggle_with_force(name, is_on == Some(true));
                debug_assert!(result.is_ok(), "a class name without spaces");
            }
        }));
    }

    /// The value of an input that follows signals. It is not written when it stands already, so the cursor keeps its place.
    pub fn value_of(self, value: Now<String>) -> Self {
        let input: HtmlInputElement = self.0.clone().unchecked_into();
        follow(Box::new(move || {
            let value = value();
            if input.value() != value {
                input.set_value(&value);
            }
        }));
        self
    }

    /// The tick of a check box or radio button that follows signals.
    pub fn checked_of(self, on: Now<bool>) -> Self {
        let input: HtmlInputElement = self.0.clone().unchecked_into();
        follow(Box::new(move || input.set_checked(on())));
        self
    }

    /// Puts it on the page, inside an element that stands there.
    pub fn stand_in(self, place: &Element) {
        add(place, &self.0, None);
    }

    /// Adds what stands inside.
    pub fn with(self, inside: impl Into<Nodes>) -> Self {
        self.append(inside.into());
        self
    }

    fn append(&self, nodes: Nodes) {
        for node in nodes.0 {
            add(&self.0, &node, None);
        }
    }

    /// Adds a text that follows signals.
    pub fn text_of(self, text: impl Fn() -> String + 'static) -> Self {
        self.text_by(Box::new(text));
        self
    }

    fn text_by(&self, text: Box<dyn Fn() -> String>) {
        let node = document().create_text_node("");
        add(&self.0, &node, None);
        let mut stands = String::new();
        follow(Box::new(move || {
            let text = text();
            if text != stands {
                node.set_data(&text);
                stands = text;
            }
        }));
    }

    /// Adds a region whose inside is built anew whenever a signal that `inside` reads changes. What was built before is cleaned up with
    /// its listeners and effects.
    pub fn show<N: Into<Nodes>>(self, inside: impl Fn() -> N + 'static) -> Self {
        self.region(Box::new(move || inside().into()));
        self
    }

    fn region(&self, inside: Box<dyn Fn() -> Nodes>) {
        let (parent, end) = (self.0.clone(), document().create_comment(""));
        add(&parent, &end, None);
        let mut shown: Vec<Node> = Vec::new();
        follow(Box::new(move || {
            let new = inside();
            for node in shown.drain(..) {
                remove(&node);
            }
            for node in &new.0 {
                add(&parent, node, Some(&end));
            }
            shown = new.0;
        }));
    }

    /// Listens to an event, as long as what it was built in stands.
    pub fn on(self, event: &'static str, heard: impl FnMut(Event) + 'static) -> Self {
        self.listen(event, Box::new(heard));
        self
    }

    fn listen(&self, event: &'static str, heard: Box<dyn FnMut(Event)>) {
        listen(self.0.as_ref(), event, heard);
    }

    /// Does something at a press.
    pub fn on_click(self, mut pressed: impl FnMut() + 'static) -> Self {
        self.on("click", move |_| pressed())
    }

    /// Hands over what stands in an input at each change.
    pub fn on_input(self, mut typed: impl FnMut(String) + 'static) -> Self {
        self.on("input", move |event| typed(typed_text(&event)))
    }
}

/// Listens to an event of the window, until what it was called in is cleaned up.
pub fn on_window(event: &'static str, heard: impl FnMut(Event) + 'static) {
    listen(window().as_ref(), event, Box::new(heard));
}

fn listen(target: &EventTarget, event: &'static str, heard: Box<dyn FnMut(Event)>) {
    let heard = Closure::wrap(heard);
    let result = target.add_event_listener_with_callback(event, heard.as_ref().unchecked_ref());
    debug_assert!(result.is_ok());
    keep(Listening {
        target: target.clone(),
        event,
        heard,
    });
}

/// An element takes its listeners along when it goes; the window stays, so they are taken off.
struct Listening {
    target: EventTarget,
    event: &'static str,
    heard: Closure<dyn FnMut(Event)>,
}

impl Drop for Listening {
    fn drop(&mut self) {
        let heard = self.heard.as_ref().unchecked_ref();
        let result = self
            .target
            .remove_event_listener_with_callback(self.event, heard);
        debug_assert!(result.is_ok());
    }
}

/// A value that is worked out when it is asked for; it tracks what it reads.
pub type Now<T> = Rc<dyn Fn() -> T>;

/// Something that is done with a value.
pub type Do<T> = Rc<dyn Fn(T)>;

/// The text of the input, selection or area that an event came from.
pub fn typed_text(event: &Event) -> String {
    let target = event.target().map(JsValue::from).unwrap_or_default();
    js_sys::Reflect::get(&target, &"value".into())
        .ok()
        .and_then(|value| value.as_string())
        .unwrap_or_default()
}

fn add(parent: &Element, node: &Node, before: Option<&Node>) {
    let result = parent.insert_before(node, before);
    debug_assert!(result.is_ok(), "the place is inside its parent");
}

fn remove(node: &Node) {
    if let Some(parent) = node.parent_node() {
        let result = parent.remove_child(node);
        debug_assert!(result.is_ok(), "a parent has its child");
    }
}

fn set_attribute(element: &Element, name: &str, value: Option<&str>) {
    let result = match value {
        Some(value) => element.set_attribute(name, value),
        None => element.remove_attribute(name),
    };
    debug_assert!(result.is_ok(), "a good attribute name");
}

impl From<El> for Nodes {
    fn from(el: El) -> Self {
        Self(vec![el.0.into()])
    }
}

impl From<&str> for Nodes {
    fn from(text: &str) -> Self {
        Self(vec![document().create_text_node(text).into()])
    }
}

impl From<String> for Nodes {
    fn from(text: String) -> Self {
        Self::from(text.as_str())
    }
}

impl<N: Into<Self>> From<Option<N>> for Nodes {
    fn from(nodes: Option<N>) -> Self {
        nodes.map(Into::into).unwrap_or_default()
    }
}

impl<N: Into<Self>> From<Vec<N>> for Nodes {
    fn from(nodes: Vec<N>) -> Self {
        Self(nodes.into_iter().flat_map(|node| node.into().0).collect())
    }
}

impl<N: Into<Self>, const HOW_MANY: usize> From<[N; HOW_MANY]> for Nodes {
    fn from(nodes: [N; HOW_MANY]) -> Self {
        Self(nodes.into_iter().flat_map(|node| node.into().0).collect())
    }
}

impl From<()> for Nodes {
    fn from((): ()) -> Self {
        Self::default()
    }
}

#[cfg(test)]
mod tests;
