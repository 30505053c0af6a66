//! A venue beside the others: what is kept there, and who pays the postage. The cards are one radio group.

use haulwren_core::money::{Currency, Money};
use haulwren_core::postage::Arrangement;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;

use super::el::{Do, El, Now, el, follow, span};
use super::icons::{Icon, sign};
use super::kept::Kept;
use crate::format;

/// What a card shows.
#[derive(Clone, PartialEq, Debug)]
pub struct VenueFacts {
    /// The venue's name.
    pub name: String,
    /// What is kept there; `None` while it can't be told.
    pub keep: Option<Money>,
    /// Who pays the postage.
    pub arrangement: Arrangement,
    /// What the buyer pays for postage.
    pub post_in: Money,
    /// Whether it is the one judged on.
    pub is_judged: bool,
    /// The book's currency.
    pub currency: Currency,
}

impl VenueFacts {
    fn postage(&self) -> String {
        if !self.arrangement.is_posted() {
            "in person".to_owned()
        } else if !self.post_in.is_zero() {
            format!("+ post {}", format::amount(self.post_in, self.currency))
        } else if self.arrangement == Arrangement::BuyerAtCost {
            "+ post".to_owned()
        } else {
            "post included".to_owned()
        }
    }
}

/// One card: what it shows, and what is called when it is chosen.
pub fn venue_card(facts: Now<VenueFacts>, on_choose: Do<()>) -> El {
    let (name, keep, post) = (span(""), el("b"), el("small"));
    let input = el("input").attr("type", "radio").attr("name", "venue");
    let radio: HtmlInputElement = input.element().clone().unchecked_into();
    let [shows_name, shows_keep, shows_post] = [&name, &keep, &post].map(Kept::new);
    // One for all parts: most keys change what is kept on every card.
    follow(Box::new(move || {
        let facts = facts();
        let said = |keep| format::or_loss(keep, facts.currency);
        let kept = facts.keep.map_or_else(|| "–".to_owned(), said);
        let is_loss = facts.keep.is_some_and(Money::is_negative);
        shows_name.set_text(&facts.name);
        shows_keep.set_text(&kept);
        shows_keep.set("class", is_loss.then_some("loss"));
        shows_post.set_text(&facts.postage());
        if radio.checked() != facts.is_judged {
            radio.set_checked(facts.is_judged);
        }
    }));
    let input = input.on("change", move |_| on_choose(()));
    let name = span("name").with(name).with(" ").with(sign(Icon::Tick));
    let card = span("card").with([name, keep, post]);
    el("label").class("venue").with(input).with(card)
}
