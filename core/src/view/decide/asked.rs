//! From what can be told before anything is asked to the verdict on an asking price.

use super::{DecideView, VenueCard};
use crate::appraise::{Appraisal, HouseRules, Judged, Verdict};
use crate::book::State;
use crate::money::{Currency, Money, percent_of};
use crate::stamp::At;
use crate::view::{DecideDraft, Field};

/// Decide before anything is asked: every sum, on every venue. It is the long part of the work, and stays as it is for all keys that change
/// no more than the asking price.
#[derive(Clone, Debug, PartialEq)]
pub struct Unasked(pub(super) DecideView);

impl Unasked {
    /// The same once this draft's price is asked: its verdict, and what is kept on every venue after paying it. The book is the one that it
    /// was worked out from; only the hour may be another.
    #[must_use]
    pub fn asked(&self, state: &State, draft: &DecideDraft, now: At) -> DecideView {
        let view = self.0.clone();
        let (mut faults, currency) = (view.faults, view.currency);
        let ask = draft.amount(Field::Ask, currency).unwrap_or_else(|error| {
            faults.insert(0, (Field::Ask, error.to_string()));
            None
        });
        let asked = ask.unwrap_or(Money::ZERO);
        let extras = percent_of(asked, state.premium_here());
        let paid = asked.plus(extras);
        // As much less on all of them: the best stays the best.
        let kept = |card: VenueCard| VenueCard {
            keep: card.keep.map(|keep| keep.minus(paid)),
            ..card
        };
        let appraisal = at_hour(view.appraisal, state, currency, now).asked(ask, currency);
        DecideView {
            elsewhere: elsewhere(&appraisal, &view.venues, ask),
            appraisal,
            venues: view.venues.into_iter().map(kept).collect(),
            buy: ask.filter(|_| faults.is_empty()),
            extras,
            faults,
            ..view
        }
    }
}

/// The venue where most may be paid, when the ask passes there and not where it is judged.
fn elsewhere(
    appraisal: &Appraisal,
    venues: &[VenueCard],
    ask: Option<Money>,
) -> Option<(String, Money)> {
    let (ask, judged) = (ask?, appraisal.judged.as_ref()?);
    let (verdict, _) = judged.verdict?;
    if verdict == Verdict::Buy {
        return None;
    }
    let mut best: Option<&VenueCard> = None;
    for card in venues.iter().filter(|card| !card.judged) {
        let exact = |card: &VenueCard| card.most.map(|most| most.exact);
        if exact(card) >= Some(ask) && best.is_none_or(|best| exact(card) > exact(best)) {
            best = Some(card);
        }
    }
    let best = best?;
    Some((best.name.clone(), best.most?.shown.max(ask)))
}

/// How far sellers come down may hang on the hour.
fn at_hour(appraisal: Appraisal, state: &State, currency: Currency, now: At) -> Appraisal {
    let judged = appraisal.judged.map(|judged| Judged {
        rules: HouseRules {
            reach: state.reach(now, currency),
            ..judged.rules
        },
        ..judged
    });
    Appraisal {
        judged,
        ..appraisal
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Sending, decide, unasked};
    use crate::appraise::{HouseRules, Verdict};
    use crate::book::{Command, StopSetup, TripCommand};
    use crate::money::Rate;
    use crate::stamp::At;
    use crate::trip::Manner;
    use crate::view::DecideDraft;
    use crate::view::kit::{Kit, NOON, usd};

    fn asking(ask: &str) -> DecideDraft {
        DecideDraft {
            ask: ask.to_owned(),
            likely: "26".to_owned(),
            ..DecideDraft::default()
        }
    }

    #[test]
    fn sums_of_an_hour_ago_follow_sellers_who_come_down_since() {
        let mut kit = Kit::quayside();
        kit.tell(&Command::SetRules {
            rules: HouseRules {
                reach: Rate::ZERO,
                ..kit.state.house_rules(usd())
            },
            allowances: kit.state.allowances(),
        });
        kit.tell(
            &TripCommand::NextStop {
                stop: None,
                name: String::new(),
            }
            .into(),
        );
        let (id, stop) = kit.state.open_stop().expect("a stop");
        let later = At(NOON.0 + 3_600_000, NOON.1);
        let setup = StopSetup {
            arrived: stop.arrived,
            manner: Some(Manner::HalfFrom(later.minute_of_day())),
            ..StopSetup::default()
        };
        kit.tell(&TripCommand::SaveStop { id, setup }.into());

        let draft = asking("14");
        let sending = Sending::of(&kit.state, None, None);
        let before = unasked(&kit.state, &sending, &draft.unasked(), NOON);
        let before = before.expect("a begun book");
        let word = |at| {
            let view = before.asked(&kit.state, &draft, at);
            assert_eq!(Some(&view), decide(&kit.state, &draft, at).as_ref());
            let judged = view.appraisal.judged.expect("all facts");
            (judged.verdict.expect("an ask").0, judged.rules.reach)
        };
        assert_eq!(word(later), (Verdict::Haggle, Rate::percent(50)));
        assert_eq!(word(NOON).0, Verdict::Leave);
    }

    #[test]
    fn an_ask_that_is_no_amount_is_the_first_fault() {
        let kit = Kit::quayside();
        let draft = DecideDraft {
            low: "30".to_owned(),
            ..asking("6.505")
        };
        let view = decide(&kit.state, &draft, NOON).expect("a begun book");
        assert_eq!(
            (view.faults.len(), view.faults[0].0),
            (2, super::Field::Ask)
        );
        assert_eq!((view.buy, view.venues[0].keep), (None, None));
    }
}
