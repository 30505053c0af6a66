//! The form at hand, of whatever kind: as it is stored until something is typed, kept in this device's notes from then on. What of it can't
//! be used is said beside its fields, once it was tried.

use std::rc::Rc;

use haulwren_core::book::{Command, State};
use haulwren_core::money::Currency;
use haulwren_core::view::{Faults, Form};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use crate::live::{Live, Worked, worked};
use crate::store::{Store, use_store};
use crate::ui::choice::choice_keys;
use crate::ui::el::{Do, El, Now, button, div, span};
use crate::ui::field::{Entry, FieldSpec, check, field};

/// A text of a form: a row of its table of fields.
#[derive(Clone, Copy)]
pub struct Text<'a, I> {
    pub id: &'a str,
    pub label: &'a str,
    pub hint: &'a str,
    pub unit: &'a str,
    pub entry: Entry,
    pub input: I,
}

/// A field for words.
pub const fn words<'a, I: Copy>(id: &'a str, label: &'a str, input: I) -> Text<'a, I> {
    Text {
        id,
        label,
        hint: "",
        unit: "",
        entry: Entry::Words,
        input,
    }
}

/// A field for an amount, or another number.
pub const fn amount<'a, I: Copy>(id: &'a str, label: &'a str, input: I) -> Text<'a, I> {
    Text {
        entry: Entry::Number,
        ..words(id, label, input)
    }
}

/// A field for a number with its unit behind it.
pub const fn number<'a, I: Copy>(
    id: &'a str,
    label: &'a str,
    unit: &'a str,
    input: I,
) -> Text<'a, I> {
    Text {
        unit,
        ..amount(id, label, input)
    }
}

/// What a form reads as: what saves it, or what is wrong with it. `None` while there is no book.
pub type Reading<F> = Option<Result<Command, Faults<F>>>;

/// The form at hand. A handle: cheap to copy, valid as long as its page stands.
pub struct FormState<F: Form> {
    parts: Live<Rc<Parts<F>>>,
    faults: Worked<Faults<F>>,
}

/// What a form reads by.
type Reader<F> = Box<dyn Fn(&F) -> Reading<F>>;

/// What it is made of.
struct Parts<F: Form> {
    store: Store,
    /// Its name in this device's notes.
    name: String,
    stored: Worked<F>,
    typed: Worked<Option<F>>,
    read: Reader<F>,
    tried: Live<bool>,
}

#[allow(
    clippy::expl_impl_clone_on_copy,
    reason = "a handle is copied whatever the form"
)]
impl<F: Form> Clone for FormState<F> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<F: Form> Copy for FormState<F> {}

impl<F: Form> Parts<F> {
    fn with<R>(&self, read: impl FnOnce(&F) -> R) -> R {
        self.typed.with(|typed| match typed {
            Some(form) => read(form),
            None => self.stored.with(read),
        })
    }

    fn wrong(&self) -> Faults<F> {
        let read = self
            .tried
            .get()
            .then(|| self.with(|form| (self.read)(form)));
        match read {
            Some(Some(Err(faults))) => faults,
            _ => Faults::<F>::new(),
        }
    }

    /// What gives up what is typed. It may be called when the page has gone.
    fn forgetting(&self) -> impl Fn() + 'static {
        forgetting(self.store, self.name.clone(), self.tried)
    }
}

fn forgetting(store: Store, name: String, tried: Live<bool>) -> impl Fn() + 'static {
    move || {
        store.keep_form(&name, None);
        tried.set(false);
    }
}

impl<F: Form> FormState<F> {
    /// The form that goes by a name in the notes: as it is stored, and what it reads as. Both are followed.
    pub fn new(
        name: String,
        stored: impl Fn() -> F + 'static,
        read: impl Fn(&F) -> Reading<F> + 'static,
    ) -> Self {
        let (store, of_notes) = (use_store(), name.clone());
        let parts = Rc::new(Parts {
            store,
            name,
            stored: worked(stored),
            typed: worked(move || store.form(&of_notes, F::from_json)),
            read: Box::new(read),
            tried: Live::new(false),
        });
        let read = parts.clone();
        Self {
            parts: Live::new(parts),
            faults: worked(move || read.wrong()),
        }
    }

    fn parts(self) -> Rc<Parts<F>> {
        self.parts.get_untracked()
    }

    /// The store that it saves to.
    pub fn store(self) -> Store {
        self.parts().store
    }

    /// Reads the form as it is typed, else as it is stored. Follows it.
    pub fn with<R>(self, read: impl FnOnce(&F) -> R) -> R {
        self.parts().with(read)
    }

    /// Reads the form once.
    pub fn with_untracked<R>(self, read: impl FnOnce(&F) -> R) -> R {
        untrack(|| self.with(read))
    }

    /// Reads the form as it is stored. Follows it.
    pub fn stored<R>(self, read: impl FnOnce(&F) -> R) -> R {
        self.parts().stored.with(read)
    }

    /// Whether something is typed that is not as it is stored. Follows it.
    pub fn is_changed(self) -> bool {
        let parts = self.parts();
        parts.with(|form| parts.stored.with(|stored| form != stored))
    }

    /// Changes what is typed.
    pub fn edit(self, change: &mut dyn FnMut(&mut F)) {
        let mut form = self.with_untracked(F::clone);
        change(&mut form);
        let parts = self.parts();
        parts.store.keep_form(&parts.name, Some(form.to_json()));
    }

    /// The text of a field; empty when the field has gone.
    pub fn text(self, input: F::Input) -> String {
        self.with(|form| form.text(input).cloned().unwrap_or_default())
    }

    /// Types into a field.
    pub fn type_in(self, input: F::Input, typed: &str) {
        self.edit(&mut |form| form.set(input, typed.to_owned()));
    }

    /// Reads what is wrong, once it was tried. Follows it.
    pub fn faults<R>(self, read: impl FnOnce(&Faults<F>) -> R) -> R {
        self.faults.with(read)
    }

    /// What is wrong with a field.
    pub fn fault(self, input: F::Input) -> Option<String> {
        self.first_fault(&|field| field == input)
    }

    /// What is wrong with the first of the fields that are meant.
    pub fn first_fault(self, is_meant: &dyn Fn(F::Input) -> bool) -> Option<String> {
        self.faults(|faults| {
            let found = faults.iter().find(|fault| is_meant(fault.field))?;
            Some(found.sentence.clone())
        })
    }

    /// Saves the form, gives up what is typed and does what follows. What can't be used is said beside its fields: `open` draws those that
    /// do not stand on the page, then the first of them is gone to.
    pub fn save(self, open: impl FnOnce(&Faults<F>), then: impl FnOnce() + 'static) {
        let parts = self.parts();
        parts.tried.set(true);
        match self.with_untracked(|form| (parts.read)(form)) {
            Some(Ok(command)) => self.send(command, then),
            Some(Err(faults)) => {
                open(&faults);
                go_to_first_fault();
            }
            None => {}
        }
    }

    /// Sends a command after which nothing typed is of use, and does what follows.
    pub fn send(self, command: Command, then: impl FnOnce() + 'static) {
        let forget = self.parts().forgetting();
        self.store().dispatch(command, move |saved| {
            if saved {
                forget();
                then();
            }
        });
    }

    /// A key that gives up what is typed, while something is.
    pub fn start_over(self, then: impl Fn() + Copy + 'static) -> El {
        let is_typed = worked(move || self.parts().typed.with(Option::is_some));
        let forget = self.parts().forgetting();
        let forget = Rc::new(move || {
            forget();
            then();
        });
        let key = move || {
            let forget = forget.clone();
            button("press")
                .on_click(move || forget())
                .with("Forget what is typed")
        };
        div("bare").show(move || is_typed.get().then(&key))
    }

    /// A field.
    pub fn field(self, text: &Text<'_, F::Input>) -> El {
        let input = text.input;
        let spec = FieldSpec {
            id: text.id,
            label: text.label,
            hint: text.hint,
            unit: text.unit,
            entry: text.entry,
            autofocus: false,
        };
        field(
            spec,
            Rc::new(move || self.text(input)),
            Rc::new(move || self.fault(input)),
            Rc::new(move |typed: String| self.type_in(input, &typed)),
        )
    }

    /// Fields beside each other, as far as there is room.
    pub fn row(self, texts: &[Text<'_, F::Input>]) -> El {
        let mut row = div("pair");
        for text in texts {
            row = row.with(self.field(text));
        }
        row
    }

    /// A box to tick.
    pub fn tick(
        self,
        id: &str,
        label: &str,
        read: impl Fn(&F) -> bool + 'static,
        write: impl Fn(&mut F, bool) + 'static,
    ) -> El {
        check(
            id,
            label,
            Rc::new(move || self.with(&read)),
            Rc::new(move |on| self.edit(&mut |form| write(form, on))),
        )
    }

    /// A choice.
    pub fn choice(
        self,
        legend: &str,
        name: &str,
        words: &[(&str, &str)],
        read: fn(&F) -> usize,
        write: fn(&mut F, usize),
    ) -> El {
        let chosen: Now<usize> = Rc::new(move || self.with(read));
        let choose: Do<usize> = Rc::new(move |at| self.edit(&mut |form| write(form, at)));
        let is_stacked = words.len() > 2 || words.iter().any(|(_, hint)| !hint.is_empty());
        choice_keys(legend, name, is_stacked, words, &chosen, &choose)
    }

    /// What is wrong with something that has no text of its own.
    pub fn fault_line(self, input: F::Input) -> El {
        div("bare").show(move || {
            let line = |fault: String| span("fault").attr("role", "alert").with(fault);
            self.fault(input).map(line)
        })
    }
}

/// Goes to the first field that can't be used, once what was opened for it is drawn.
fn go_to_first_fault() {
    request_animation_frame(|| {
        let first = document().query_selector(".form [aria-invalid=true]");
        if let Ok(Some(field)) = first {
            let field: HtmlElement = field.unchecked_into();
            drop(field.focus());
        }
    });
}

/// The currency of the book. Screens with forms stand only when it has one.
pub fn currency() -> Option<Currency> {
    untrack(|| use_store().read_setup(State::currency))
}
