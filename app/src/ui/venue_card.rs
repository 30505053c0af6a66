//! A venue beside the others: what is kept there, and who pays the postage. The cards are one radio group.

use haulwren_core::money::{Currency, Money};
use haulwren_core::postage::Arrangement;
use std::rc::Rc;

use super::el::{Do, El, Now, el, span};
use super::icons::{Icon, sign};
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
pub fn venue_card(facts: &Now<VenueFacts>, on_choose: Do<()>) -> El {
    let [name, chosen, loss, keep, post] = std::array::from_fn(|_| facts.clone());
    let is_loss = move || loss().keep.is_some_and(Money::is_negative);
    let keep = move || {
        let facts = keep();
        let said = |keep| format::or_loss(keep, facts.currency);
        facts.keep.map_or_else(|| "–".to_owned(), said)
    };
    let keep = el("b").class_if("loss", is_loss).text_of(keep);
    let input = el("input").attr("type", "radio").attr("name", "venue");
    let input = input
        .checked_of(Rc::new(move || chosen().is_judged))
        .on("change", move |_| on_choose(()));
    let name = span("name")
        .text_of(move || name().name)
        .with(" ")
        .with(sign(Icon::Tick));
    let card = span("card")
        .with(name)
        .with(keep)
        .with(el("small").text_of(move || post().postage()));
    el("label").class("venue").with(input).with(card)
}
