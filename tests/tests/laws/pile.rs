//! Laws of the pile: one price for several things.

use crate::appraising::{Facts, facts};
use haulwren_core::appraise::{Figure, Judged, JudgedPile, Verdict, judge_pile};
use haulwren_core::money::{Currency, Money};
use proptest::collection::vec;
use proptest::prelude::*;

/// Several things on several venues, under one trader's rules, each with its own ask or none.
fn piles() -> impl Strategy<Value = Vec<(Facts, Option<i64>)>> {
    vec((facts(), proptest::option::of(0_i64..4_000)), 1..6).prop_map(|mut pile| {
        let rules = pile[0].0.rules;
        for (facts, _) in &mut pile {
            facts.rules = rules;
        }
        pile
    })
}

fn each(pile: &[(Facts, Option<i64>)]) -> Vec<Judged> {
    pile.iter().map(|(facts, ask)| facts.judged(*ask)).collect()
}

fn judged(pieces: &[Judged], says: Option<i64>) -> JudgedPile {
    let named: Vec<(String, &Judged)> = pieces.iter().map(|piece| (String::new(), piece)).collect();
    let usd = Currency::from_code("USD").unwrap();
    judge_pile(&named, says.map(Money::new), usd).unwrap()
}

fn word(pieces: &[Judged], says: i64) -> Verdict {
    judged(pieces, Some(says)).all.verdict.unwrap().0
}

/// The exact ceiling; nothing for what is worth nothing.
fn exact(judged: &Judged) -> Money {
    judged.ceiling.map_or(Money::ZERO, |ceiling| ceiling.exact)
}

proptest! {
    #![proptest_config(crate::tries(512))]

    #[test]
    fn the_ceiling_is_the_sum_of_the_ceilings(pile in piles(), says in 0_i64..20_000) {
        let pieces = each(&pile);
        let sum: Money = pieces.iter().map(exact).sum();
        let found = judged(&pieces, Some(says));
        prop_assert_eq!(exact(&found.all), sum);
        let is_free_at_most = pieces.iter().all(|piece| piece.ceiling.is_err());
        prop_assert_eq!(found.all.ceiling.is_err(), is_free_at_most);
        let bought = found.all.verdict.unwrap().0 == Verdict::Buy;
        prop_assert_eq!(bought, !is_free_at_most && says <= sum.minor());
        // What is shown is the sum rounded once, unless what is said lies between.
        let step = pieces[0].rules.cash_step.minor();
        let stepped = if step > 0 { sum.minor() / step * step } else { sum.minor() };
        let listed = if stepped == 0 { sum } else { Money::new(stepped) };
        let is_between = listed.minor() < says && says <= sum.minor();
        let shown = if is_free_at_most { Money::ZERO } else if is_between { sum } else { listed };
        prop_assert_eq!(found.all.most_to_pay(), shown);
    }

    #[test]
    fn a_dearer_price_is_never_better(pile in piles(), says in 0_i64..20_000, more in 0_i64..5_000) {
        let pieces = each(&pile);
        prop_assert!(word(&pieces, says + more) <= word(&pieces, says));
    }

    #[test]
    fn leaving_out_what_is_worth_nothing_changes_no_ceiling(pile in piles(), says in 0_i64..20_000) {
        let pieces = each(&pile);
        let worth: Vec<Judged> = pieces.iter().filter(|piece| piece.is_worth_something()).cloned().collect();
        prop_assume!(!worth.is_empty());
        let (with, without) = (judged(&pieces, Some(says)), judged(&worth, Some(says)));
        prop_assert_eq!(with.count, worth.len());
        // Not the verdict either: the sums are those of the pieces that are worth something.
        prop_assert_eq!(with.all, without.all);
    }

    #[test]
    fn a_pile_of_one_is_judged_as_its_thing(facts in facts(), asked in 0_i64..4_000, says in 0_i64..8_000) {
        let thing = facts.judged(Some(says));
        let same = judged(std::slice::from_ref(&thing), Some(says));
        prop_assert_eq!(&same.all, &thing);
        prop_assert_eq!(word(&[facts.judged(Some(asked))], says), thing.verdict.unwrap().0);
        prop_assert_eq!(&judged(&[facts.judged(None)], None).all, &facts.judged(None));
    }

    #[test]
    fn the_parts_and_the_lines_add_up(pile in piles(), says in 0_i64..20_000) {
        let pieces = each(&pile);
        let found = judged(&pieces, Some(says));
        let (all, sums) = (&found.all, &found.all.likely);
        let parts = sums.cut().plus(sums.posting.out).plus(sums.packing).plus(sums.aside.total);
        prop_assert_eq!(parts.plus(all.keep()).plus(Money::new(says)), sums.buyer_pays);
        let sum = |figure| found.why(figure).iter().map(|line| line.amount).sum::<Money>();
        for (figure, amount) in [
            (Figure::BuyerPays, sums.buyer_pays),
            (Figure::SetAside, sums.aside.total),
            (Figure::Packing, sums.packing),
            (Figure::Postage, sums.posting.out),
            (Figure::Cut, sums.cut()),
            (Figure::Keep, all.keep()),
            (Figure::BeforePurchase, sums.before),
            (Figure::Ceiling, all.most_to_pay()),
        ] {
            prop_assert_eq!(sum(figure), amount, "{:?}", figure);
        }
    }

    /// Alike things: so many times the ceiling of one, bound by the same rule.
    #[test]
    fn several_alike_have_so_many_times_the_ceiling(facts in facts(), count in 1_usize..7) {
        let one = facts.judged(None);
        let several = judged(&vec![one.clone(); count], None).all;
        let times = i64::try_from(count).unwrap();
        prop_assert_eq!(exact(&several).minor(), exact(&one).minor() * times);
        prop_assert_eq!(several.likely.before.minor(), one.likely.before.minor() * times);
        prop_assert_eq!(several.ceiling.map(|ceiling| ceiling.bound_by), one.ceiling.map(|ceiling| ceiling.bound_by));
    }
}
