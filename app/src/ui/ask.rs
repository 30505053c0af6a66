//! A small form on a sheet, described by a table: a few texts, at most one choice, one key. All small questions of the app are asked by this
//! one piece of code.

use std::cell::OnceCell;
use std::rc::Rc;

use leptos::prelude::untrack;

use super::choice::choice_keys;
use super::el::{Do, El, Nodes, Now, div, el};
use super::field::{Entry, FieldSpec, field};
use super::sheet::sheet;
use crate::live::{Live, worked};

/// What is asked.
#[derive(Clone)]
pub struct Ask {
    /// The sheet's title.
    pub title: String,
    /// A line under it; may be empty.
    pub hint: String,
    /// The texts.
    pub texts: Vec<AskText>,
    /// A choice.
    pub choice: Option<AskChoice>,
    /// The key's word.
    pub word: &'static str,
    /// Takes the answer, or says what is wrong with it: the place of a text, and a sentence.
    pub answer: Rc<Take>,
}

/// What takes an answer.
pub type Take = dyn Fn(&Answer) -> Result<(), (usize, String)>;

/// A choice: what is asked, the words with a line under each, and the place of the one that stands.
pub type AskChoice = (&'static str, Vec<(String, String)>, usize);

/// One text of a form.
#[derive(Clone, Debug, Default)]
pub struct AskText {
    /// Its label.
    pub label: &'static str,
    /// A line of help; may be empty.
    pub hint: &'static str,
    /// What stands behind the entry; may be empty.
    pub unit: &'static str,
    /// What is typed.
    pub entry: Entry,
    /// What stands in it to begin with.
    pub value: String,
}

/// The place of a choice of which none is chosen yet.
pub const NONE_YET: usize = usize::MAX;

/// What was typed and chosen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// The texts, trimmed.
    pub texts: Vec<String>,
    /// The place of the choice.
    pub choice: usize,
}

/// Words of a choice that stand fast.
pub fn fixed(words: &[(&str, &str)]) -> Vec<(String, String)> {
    let owned = words
        .iter()
        .map(|(word, hint)| ((*word).to_owned(), (*hint).to_owned()));
    owned.collect()
}

impl AskText {
    /// A text of words.
    pub fn words(label: &'static str, value: &str) -> Self {
        Self {
            label,
            value: value.to_owned(),
            ..Self::default()
        }
    }

    /// A number.
    pub fn number(label: &'static str, value: &str) -> Self {
        Self {
            entry: Entry::Number,
            ..Self::words(label, value)
        }
    }

    /// With a line of help.
    #[must_use]
    pub fn hint(self, hint: &'static str) -> Self {
        Self { hint, ..self }
    }
}

/// The question at hand, and what is typed so far.
#[derive(Clone, Copy)]
struct Desk {
    asked: Live<Option<Rc<Ask>>>,
    answer: Live<Answer>,
    fault: Live<Option<(usize, String)>>,
}

thread_local! {
    static DESK: OnceCell<Desk> = const { OnceCell::new() };
}

fn desk() -> Desk {
    DESK.with(|desk| {
        let desk = desk.get().copied();
        desk.expect("the sheet stands from the start")
    })
}

/// The sheet, closed. Called once, where nothing is ever cleaned up.
pub fn ask_sheet() -> El {
    let desk = Desk {
        asked: Live::new(None),
        answer: Live::new(Answer::default()),
        fault: Live::new(None),
    };
    let is_first = DESK.with(|place| place.set(desk)).is_ok();
    debug_assert!(is_first, "one sheet");
    let is_open = worked(move || desk.asked.with(Option::is_some));
    let title = Rc::new(move || {
        desk.asked
            .with(|asked| asked.as_ref().map(|asked| asked.title.clone()))
            .unwrap_or_default()
    });
    let close: Do<()> = Rc::new(move |()| desk.asked.set(None));
    let inside = move || {
        let asked = desk.asked.get();
        asked.map(|asked| untrack(|| form(desk, &asked)))
    };
    sheet(is_open, &close, title, true, inside)
}

/// Asks. A question that stands open gives way.
pub fn ask(asked: Ask) {
    let desk = desk();
    desk.answer.set(Answer {
        texts: asked.texts.iter().map(|text| text.value.clone()).collect(),
        choice: asked.choice.as_ref().map_or(0, |choice| choice.2),
    });
    desk.fault.set(None);
    desk.asked.set(Some(Rc::new(asked)));
}

fn form(desk: Desk, asked: &Rc<Ask>) -> Nodes {
    let answering = asked.clone();
    let send = move || {
        let mut answer = desk.answer.get_untracked();
        for text in &mut answer.texts {
            *text = text.trim().to_owned();
        }
        match (answering.answer)(&answer) {
            Ok(()) => desk.asked.set(None),
            Err(fault) => desk.fault.set(Some(fault)),
        }
    };
    let mut form = el("form")
        .class("form flush ask")
        .on("submit", move |event| {
            event.prevent_default();
            send();
        });
    if !asked.hint.is_empty() {
        form = form.with(el("p").class("support").with(asked.hint.as_str()));
    }
    if let Some((legend, words, _)) = &asked.choice {
        let chosen: Now<usize> = Rc::new(move || desk.answer.with(|answer| answer.choice));
        let choose: Do<usize> = Rc::new(move |at| desk.answer.update(|answer| answer.choice = at));
        let words: Vec<(&str, &str)> = words
            .iter()
            .map(|(word, hint)| (&**word, &**hint))
            .collect();
        form = form.with(choice_keys(legend, "asked", true, &words, &chosen, &choose));
    }
    // What is wrong with an answer that has no text to stand at.
    let texts = asked.texts.len();
    form = form.show(move || {
        let fault = desk.fault.get().filter(|(of, _)| *of >= texts);
        fault.map(|(_, said)| el("p").class("fault").attr("role", "alert").with(said))
    });
    for (at, text) in asked.texts.iter().enumerate() {
        form = form.with(one(desk, at, text));
    }
    let key = el("button")
        .attr("type", "submit")
        .class("press go")
        .attr("data-answer", "")
        .with(asked.word);
    form.with(div("ask-foot").with(key)).into()
}

fn one(desk: Desk, at: usize, text: &AskText) -> El {
    let id = format!("asked-{at}");
    let spec = FieldSpec {
        id: &id,
        label: text.label,
        hint: text.hint,
        unit: text.unit,
        entry: text.entry,
        autofocus: at == 0,
    };
    field(
        spec,
        Rc::new(move || desk.answer.with(|answer| answer.texts[at].clone())),
        Rc::new(move || {
            let fault = desk.fault.get();
            fault.filter(|(of, _)| *of == at).map(|(_, said)| said)
        }),
        Rc::new(move |typed| desk.answer.update(|answer| answer.texts[at] = typed)),
    )
}
