//! From a case to its appraisal.

use super::ceiling::{broken_at, greatest_ask, with_premium};
use super::opening::opening;
use super::{Case, Ceiling, Flag, HouseRules, Missing, Multiple, Reason, Rule, Sums, Verdict};
use crate::money::{Currency, Money, Rate, left_after_reaches};

/// All that can be said about a case: as much as its facts allow.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Appraisal {
    /// The facts that were not given, the ask last. Without the ask there is still a ceiling.
    pub missing: Vec<Missing>,
    /// The sums and the ceiling, once every fact but the ask is there.
    pub judged: Option<Judged>,
}

/// The sums of one thing on one venue, its ceiling and its verdict.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judged {
    /// The rules it was judged by.
    pub rules: HouseRules,
    /// The sums at the likely price.
    pub likely: Sums,
    /// The sums at the low price.
    pub low: Sums,
    /// "No more than"; `Err` with the rule that breaks even at a price of nothing.
    pub ceiling: Result<Ceiling, Rule>,
    /// Buyer's premium: what is paid on top of the ask.
    pub premium: Rate,
    /// The ask, where there is one.
    pub ask: Option<Money>,
    /// The verdict and its flag, where there is an ask.
    pub verdict: Option<(Verdict, Flag)>,
    /// Why, with the deciding reason last. Empty without an ask.
    pub reasons: Vec<Reason>,
}

/// Appraises a case. Cheap enough for every key press: two settlements and some fifty comparisons.
pub fn appraise(case: &Case<'_>) -> Appraisal {
    unasked(case).asked(case.ask, case.currency)
}

/// The appraisal as if nothing were asked: the long part of the work, and the same for every ask.
fn unasked(case: &Case<'_>) -> Appraisal {
    let mut missing = Vec::new();
    let judged = match (case.sells, case.venue) {
        (Some(sells), Some(_)) => {
            let sums = Sums::at(case, sells.likely())
                .and_then(|likely| Ok((likely, Sums::at(case, sells.low())?)));
            match sums {
                Ok((likely, low)) => Some(judge(case, likely, low)),
                Err(lacks) => {
                    missing.push(lacks);
                    None
                }
            }
        }
        (sells, venue) => {
            missing.extend(sells.is_none().then_some(Missing::SellsFor));
            let needs_postage = venue.is_some_and(|venue| venue.arrangement.is_posted());
            missing.extend(venue.is_none().then_some(Missing::Venue));
            missing.extend((needs_postage && case.postage.is_none()).then_some(Missing::Postage));
            None
        }
    };
    missing.push(Missing::Ask);
    Appraisal { missing, judged }
}

/// The sums at the likely price alone, for a venue that is not judged on. `None` where [`appraise`] judges nothing either.
pub fn likely(case: &Case<'_>) -> Option<Sums> {
    let sells = case.sells.filter(|_| case.venue.is_some())?;
    Sums::at(case, sells.likely()).ok()
}

fn judge(case: &Case<'_>, likely: Sums, low: Sums) -> Judged {
    let (rules, premium) = (&case.rules, case.premium);
    let ceiling = greatest_ask(rules, &likely, &low, premium)
        .map(|(exact, bound_by)| Ceiling::of(exact, bound_by, rules.cash_step));
    Judged {
        rules: *rules,
        likely,
        low,
        ceiling,
        premium,
        ask: None,
        verdict: None,
        reasons: Vec::new(),
    }
}

/// Buy when the ask is within the ceiling; Haggle when the ceiling is within the seller's reach; else Leave.
fn decide(judged: &Judged, currency: Currency, ask: Money) -> (Verdict, Flag) {
    let Ok(ceiling) = &judged.ceiling else {
        return (Verdict::Leave, Flag::NotEvenFree);
    };
    let (rules, likely, low) = (&judged.rules, &judged.likely, &judged.low);
    if ask <= ceiling.exact {
        let offer = opening(ceiling, ask, rules.cash_step, currency);
        let flag = match offer {
            _ if ask.is_zero() => Flag::Free,
            _ if !rules.has_minimum() => Flag::NoMinimum(offer),
            Some(offer) => Flag::Try(offer),
            None => Flag::AtTheAsk,
        };
        return (Verdict::Buy, flag);
    }
    if ceiling.exact > Money::ZERO && left_after_reaches(ceiling.exact, ask, rules.reach) {
        let open = opening(ceiling, ask, rules.cash_step, currency);
        let stop = ceiling.shown;
        return (Verdict::Haggle, Flag::OpenStop { open, stop });
    }
    let paid = judged.paid_for(ask);
    let (keep, low_keep) = (likely.keep(paid), low.keep(paid));
    let flag = if keep.is_negative() {
        Flag::WouldLose(keep.abs())
    } else {
        match broken_at(rules, likely, low, judged.premium, ask) {
            Some(Rule::NoLossIfLow) => Flag::WouldLoseIfLow(low_keep.abs()),
            Some(Rule::LeastMultiple) => {
                Flag::TooFewTimes(rules.least_multiple.unwrap_or(Multiple(0)))
            }
            Some(_) => Flag::KeepsUnder {
                keep,
                least: rules.least_keep.unwrap_or_default(),
            },
            // Every rule holds of the sum: each thing of a pile has its own limit, and they come to less.
            None => Flag::OneByOne(ceiling.shown),
        }
    };
    (Verdict::Leave, flag)
}

impl Appraisal {
    /// What nobody had asked a price for, once this is asked: with the verdict and its reasons, and the ceiling as it is shown beside it.
    #[must_use]
    pub fn asked(mut self, ask: Option<Money>, currency: Currency) -> Self {
        let Some(ask) = ask else { return self };
        self.missing.retain(|missing| *missing != Missing::Ask);
        self.judged = self.judged.map(|judged| {
            Judged {
                ask: Some(ask),
                ceiling: judged.ceiling.map(|ceiling| ceiling.showing(Some(ask))),
                ..judged
            }
            .decided(currency)
        });
        self
    }
}

impl Judged {
    /// The same with its verdict and the reasons, where there is an ask.
    pub(super) fn decided(mut self, currency: Currency) -> Self {
        if let Some(ask) = self.ask {
            let (word, flag) = decide(&self, currency, ask);
            let ceiling = self.ceiling.as_ref().ok();
            let sums = (&self.likely, &self.low);
            let paid = self.paid_for(ask);
            self.reasons = Reason::all(&self.rules, sums, ceiling, word, paid);
            if matches!(flag, Flag::OneByOne(_)) {
                self.reasons.insert(0, Reason::OneByOne);
            }
            self.verdict = Some((word, flag));
        }
        self
    }

    /// What is paid when this is agreed, premium and all.
    pub fn paid_for(&self, ask: Money) -> Money {
        with_premium(ask, self.premium)
    }

    /// What you keep at the likely price: after paying the ask, or before purchase where there is none.
    pub fn keep(&self) -> Money {
        self.likely
            .keep(self.paid_for(self.ask.unwrap_or(Money::ZERO)))
    }

    /// What you keep at the low price, likewise.
    pub fn low_keep(&self) -> Money {
        self.low
            .keep(self.paid_for(self.ask.unwrap_or(Money::ZERO)))
    }

    /// The most to pay, for sums over several things: a thing that isn't even worth having free adds nothing.
    pub fn most_to_pay(&self) -> Money {
        self.ceiling.map_or(Money::ZERO, |ceiling| ceiling.shown)
    }
}
