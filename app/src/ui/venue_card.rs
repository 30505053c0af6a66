//! A venue beside the others: what is kept there, and who pays the postage. The cards are one radio group.

use haulwren_core::money::{Currency, Money};
use haulwren_core::postage::Arrangement;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement};

use super::el::{Do, El, el, span};
use super::icons::{Icon, sign};
use super::kept::Kept;
use crate::format;

/// What a card shows.
#[derive(Clone, Copy, Debug)]
pub struct VenueFacts<'a> {
    /// The venue's name.
    pub name: &'a str,
    /// What is kept there; `None` while it can't be told.
    pub keep: Option<Money>,
    /// Who pays the postage.
    pub arrangement: &'a Arrangement,
    /// What the buyer pays for postage.
    pub post_in: Money,
    /// Whether it is the one judged on.
    pub is_judged: bool,
    /// Whether it was chosen for this thing alone.
    pub is_chosen: bool,
    /// Whether nobody said what posting costs there.
    pub is_unsaid: bool,
    /// The book's currency.
    pub currency: Currency,
}

impl VenueFacts<'_> {
    fn postage(&self) -> String {
        if self.is_chosen {
            "this thing only".to_owned()
        } else if self.is_unsaid {
            "post not said".to_owned()
        } else if !self.arrangement.is_posted() {
            "in person".to_owned()
        } else if !self.post_in.is_zero() {
            format!("+ post {}", format::amount(self.post_in, self.currency))
        } else if *self.arrangement == Arrangement::BuyerAtCost {
            "+ post".to_owned()
        } else {
            "post included".to_owned()
        }
    }
}

/// One card.
pub struct VenueCard {
    /// The card.
    pub whole: El,
    name: Kept,
    keep: Kept,
    post: Kept,
    radio: HtmlInputElement,
}

impl VenueCard {
    /// A card that shows nothing yet; `on_choose` is called when it is chosen.
    pub fn new(on_choose: Do<()>) -> Self {
        let (name, keep, post) = (span(""), el("b"), el("small"));
        let input = el("input")
            .attr("type", "radio")
            .attr("name", "venue")
            .on("change", move |_| on_choose(()));
        let radio = input.element().clone().unchecked_into();
        let [shows_name, shows_keep, shows_post] = [&name, &keep, &post].map(Kept::new);
        let name = span("name").with(name).with(" ").with(sign(Icon::Tick));
        let card = span("card").with([name, keep, post]);
        Self {
            whole: el("label").class("venue").with(input).with(card),
            name: shows_name,
            keep: shows_keep,
            post: shows_post,
            radio,
        }
    }

    /// Whether the element is the one that takes the focus.
    pub fn is_at(&self, on: &Element) -> bool {
        *on == **self.radio
    }

    /// Gives it the page's own focus.
    pub fn focus(&self) {
        // Refused only for an element that can't be seen.
        let _ = self.radio.focus();
    }

    /// Shows what is so now.
    pub fn draw(&self, facts: &VenueFacts<'_>) {
        let said = |keep| format::or_loss(keep, facts.currency);
        let is_loss = facts.keep.is_some_and(Money::is_negative);
        self.name.set_text(facts.name);
        self.keep
            .set_text(&facts.keep.map_or_else(|| "–".to_owned(), said));
        self.keep.set("class", is_loss.then_some("loss"));
        self.post.set_text(&facts.postage());
        if self.radio.checked() != facts.is_judged {
            self.radio.set_checked(facts.is_judged);
        }
    }
}
