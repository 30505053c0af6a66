//! What the price rail is told, the words that it makes of it, and the sentence that is read out instead of the picture.

use haulwren_core::appraise::{Judged, Verdict};
use haulwren_core::money::{Currency, Money};
use haulwren_core::view::PileView;

use super::place::{Figure, Wanted, Words};
use crate::format;

/// The amounts of one rail. They add up: you pay, you keep, set aside, packing, postage and cut are all that the buyer
/// pays; what is kept is negative when the ask is more than what is left.
#[derive(Clone, PartialEq, Debug)]
pub struct RailFacts {
    /// The book's currency.
    pub currency: Currency,
    /// All that the buyer pays: the end of the rail.
    pub buyer_pays: Money,
    /// What the seller asks; `None` until it is typed.
    pub ask: Option<Money>,
    /// The word over what the seller asks.
    pub asking: &'static str,
    /// What was asked before, one by one: a hollow pointer.
    pub before: Option<Money>,
    /// The words over all that the buyer pays.
    pub buyer: String,
    /// What is left to keep after the ask; without an ask, all that is left before it.
    pub keep: Money,
    /// Set aside for offers, returns and things that never sell.
    pub aside: Money,
    /// Packing material, and with it the work that the thing needs and what is paid on top of the price.
    pub packing: Money,
    /// Whether it is more than packing.
    pub has_work: bool,
    /// Postage, whoever pays it.
    pub postage: Money,
    /// The venue's cut.
    pub cut: Money,
    /// The ceiling, as shown.
    pub ceiling: Money,
    /// The verdict; `None` keeps the flag furled.
    pub verdict: Option<Verdict>,
    /// The flag's second line.
    pub second: Option<String>,
    /// Whether rough facts stand behind it: amounts then say "about".
    pub is_rough: bool,
    /// The low price and what is left of it, when one is known.
    pub low: Option<(Money, Money)>,
}

/// A rail narrower than this names packing, postage and cut in one: that of a phone 320 wide.
const NARROW: f64 = 310.0;

impl RailFacts {
    /// The rail of an appraisal.
    pub fn of(judged: &Judged, currency: Currency, is_rough: bool) -> Self {
        let sums = &judged.likely;
        let (verdict, flag) = judged.verdict.unzip();
        let low_is_known = judged.low.price != sums.price;
        Self {
            currency,
            buyer_pays: sums.buyer_pays,
            ask: judged.ask,
            asking: "Asking",
            before: None,
            buyer: "Buyer pays".to_owned(),
            keep: judged.keep(),
            aside: sums.aside.total,
            packing: judged.extras(),
            has_work: judged.extras() != sums.packing,
            postage: sums.posting.out,
            cut: sums.cut(),
            ceiling: judged.ceiling.map_or(Money::ZERO, |ceiling| ceiling.shown),
            verdict,
            second: flag.and_then(|flag| flag.sentence(currency)),
            is_rough,
            low: low_is_known.then(|| (judged.low.price, judged.low_keep())),
        }
    }

    /// The rail of a pile: what is said for all, what was asked one by one, and how many things it adds up.
    pub fn of_pile(view: &PileView) -> Option<Self> {
        let judged = view.judged.as_ref()?;
        Some(Self {
            asking: "Says",
            before: view.asked,
            buyer: match judged.count {
                1 => "Buyer pays, for 1".to_owned(),
                count => format!("Buyers pay, for {count}"),
            },
            // How likely it is that all of them go low is not known.
            low: None,
            ..Self::of(&judged.all, view.currency, view.rough)
        })
    }

    /// What there is to place on a rail of this width, and with so much room to spare.
    pub(super) fn wanted(&self, width: f64, scale: f64, spare: f64) -> Wanted {
        let words = |of, word: &str, money| Words {
            of,
            word: word.to_owned(),
            amount: format::amount(money, self.currency),
        };
        let packing = if self.has_work { "Costs" } else { "Packing" };
        let tail = [
            (Figure::Aside, "Set aside", self.aside),
            (Figure::Packing, packing, self.packing),
            (Figure::Postage, "Postage", self.postage),
            (Figure::Cut, "Venue’s cut", self.cut),
        ];
        let mut parts = Vec::new();
        if let Some(ask) = self.ask {
            parts.push(words(Figure::Pay, "You pay", ask));
        }
        parts.push(words(Figure::Keep, self.keep_word(), self.keep.abs()));
        // On the narrowest phones three names under so short a stretch would be a tangle: one stands for them, and opens into its parts.
        let costs = self.packing.plus(self.postage).plus(self.cut);
        let in_one = [tail[0], (Figure::Costs, "Costs", costs)];
        let is_narrow = width < NARROW * scale;
        let named = if is_narrow { &in_one[..] } else { &tail[..] };
        let shown = named.iter().filter(|(_, _, money)| !money.is_zero());
        parts.extend(shown.map(|(of, word, money)| words(*of, word, *money)));
        let about = if self.is_rough { ", about" } else { "" };
        let buyer = format!("{}{about}", self.buyer);
        let rough = self.is_rough.then(|| "rough".to_owned());
        Wanted {
            width,
            scale,
            spare,
            total: units(self.buyer_pays),
            ask: self.ask.map(units),
            before: self.before.map(units),
            ceiling: units(self.ceiling),
            tail: tail.map(|(_, _, money)| units(money)),
            parts,
            limit: words(Figure::Ceiling, "No more than", self.ceiling),
            asking: self.ask.map(|ask| words(Figure::Ask, self.asking, ask)),
            buyer: words(Figure::BuyerPays, &buyer, self.buyer_pays),
            low: self.low_words(),
            flag: self
                .verdict
                .map(|verdict| (verdict.word().to_owned(), self.second.clone(), rough)),
        }
    }

    fn keep_word(&self) -> &'static str {
        match (self.ask, self.keep.is_negative()) {
            (Some(_), false) => "You keep",
            (Some(_), true) => "Short by",
            (None, false) => "Left for you",
            (None, true) => "Loss",
        }
    }

    fn low_words(&self) -> Option<(Words, String)> {
        let (price, keep) = self.low?;
        let verb = if keep.is_negative() { "lose" } else { "keep" };
        let price = format::amount(price, self.currency);
        let words = Words {
            of: Figure::LowKeep,
            word: format!("At {price} you {verb}"),
            amount: format!("{}.", format::amount(keep.abs(), self.currency)),
        };
        Some((words, "1 in 10 go lower.".to_owned()))
    }

    /// The rail in one sentence or a few, for those who hear it. `wanted` has its words.
    pub(super) fn sentence(&self, wanted: &Wanted) -> String {
        let say = |money: Money| format::or_loss(money, self.currency);
        let verdict = self.verdict.map(|verdict| {
            format!(
                "{}{}.",
                verdict.word(),
                if self.is_rough { ", rough" } else { "" }
            )
        });
        let second = self.second.as_ref().map(|second| format!("{second}."));
        let limit = match self.ask {
            Some(ask) => {
                let (ask, ceiling) = (say(ask), say(self.ceiling));
                format!("{} {ask}, no more than {ceiling}.", self.asking)
            }
            None => format!("No more than {}.", say(self.ceiling)),
        };
        let parts = wanted
            .parts
            .iter()
            .map(|part| format!("{} {}", lower(&part.word), part.amount));
        let parts = parts.collect::<Vec<_>>().join(", ");
        let buyer = format!("{} {}: {parts}.", wanted.buyer.word, wanted.buyer.amount);
        let first = [verdict, second, Some(limit), Some(buyer)];
        let low = wanted
            .low
            .as_ref()
            .map(|(words, rest)| format!("{} {} {rest}", words.word, words.amount));
        first
            .into_iter()
            .flatten()
            .chain(low)
            .collect::<Vec<_>>()
            .join(" ")
    }
}

/// The word within a sentence. All words here begin with a plain letter.
fn lower(word: &str) -> String {
    let mut word = word.to_owned();
    if let Some(first) = word.get_mut(..1) {
        first.make_ascii_lowercase();
    }
    word
}

/// Minor units as a length to be scaled. Amounts stay far below 2^53, so nothing is lost.
#[allow(clippy::cast_precision_loss)]
fn units(money: Money) -> f64 {
    money.minor() as f64
}
