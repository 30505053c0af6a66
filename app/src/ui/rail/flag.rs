//! The words of the verdict over its flag: a button that opens the reasons.

use std::rc::Rc;

use super::Touched;
use super::facts::RailFacts;
use super::place::Layout;
use crate::ui::el::{Do, El, button, el, span};
use crate::ui::kept::Kept;
use crate::ui::verdict::name;

/// The button and its words.
pub struct FlagWords {
    /// The button.
    pub whole: El,
    button: Kept,
    line: Kept,
    word: Kept,
    rough: Kept,
    seconds: [Kept; 2],
}

impl FlagWords {
    /// Nothing on it yet.
    pub fn new(on_touch: &Do<Touched>) -> Self {
        let on_touch = Rc::clone(on_touch);
        let (word, rough) = (el("b"), span("rough").with("rough"));
        let line = span("flag-word").with(word.clone()).with(rough.clone());
        let seconds = [span("flag-second"), span("flag-second")];
        let whole = button("flag-words")
            .on_click(move || on_touch(Touched::Verdict))
            .with(line.clone())
            .with(" ")
            .with(seconds[0].clone())
            .with(" ")
            .with(seconds[1].clone());
        Self {
            button: Kept::new(&whole),
            whole,
            line: Kept::new(&line),
            word: Kept::new(&word),
            rough: Kept::new(&rough),
            seconds: seconds.each_ref().map(Kept::new),
        }
    }

    /// Puts them where the layout has the flag.
    pub fn draw(&self, layout: &Layout, facts: &RailFacts) {
        let is_hung = |shown: bool, part: &Kept| part.set("hidden", (!shown).then_some(""));
        let (Some(flag), Some(verdict)) = (&layout.flag, facts.verdict) else {
            self.button.set("data-verdict", Some("none"));
            is_hung(false, &self.button);
            return;
        };
        is_hung(true, &self.button);
        is_hung(facts.is_rough, &self.rough);
        self.button.set("data-verdict", Some(name(verdict)));
        let sides = [
            ("left", flag.left),
            ("width", flag.width),
            ("height", flag.height),
            ("padding-left", flag.text_left - flag.left),
        ];
        for (side, length) in sides {
            self.button.set_style(side, length);
        }
        self.word.set_text(verdict.word());
        self.line.set_style("font-size", flag.word);
        for (at, second) in self.seconds.iter().enumerate() {
            let line = flag.lines.get(at).map_or("", String::as_str);
            second.set_text(line);
            if !line.is_empty() {
                second.set_style("font-size", flag.second);
            }
        }
    }
}
