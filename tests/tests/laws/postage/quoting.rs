//! Laws of quotes, against a model in whole numbers.

use haulwren_core::measure::WeightUnit;
use haulwren_core::money::Money;
use haulwren_core::postage::{Parcel, Quote, RateCard, Refused, To, best, quote};
use proptest::prelude::*;

use super::cards::{Box3, Facts, ZONES, boxes, facts, size, weight};

pub fn parcel((tenths, sides): Box3) -> Parcel<'static> {
    Parcel {
        weight: weight(tenths, WeightUnit::Ounce),
        size: Some(size(sides)),
        container: None,
    }
}

fn ask(card: &RateCard, of: Box3, to: To) -> Result<Quote, Refused> {
    quote(card, &card.services[0], &parcel(of), to)
}

fn total(card: &RateCard, of: Box3, to: To) -> Option<i64> {
    ask(card, of, to).ok().map(|quote| quote.total.minor())
}

/// The mean of the zones by the mix, or `None` when a likely one refuses.
fn mean(facts: &Facts, of: Box3) -> Option<i64> {
    let mut sum = 0;
    for (zone, share) in facts.mix.iter().enumerate() {
        if *share > 0 {
            sum += i64::from(*share) * facts.model(of, zone)?;
        }
    }
    Some((sum + 5_000) / 10_000)
}

proptest! {
    #![proptest_config(crate::tries(2048))]

    /// So there is never a price for what the service refuses, and always one for what it takes.
    #[test]
    fn a_quote_is_what_the_words_say(facts in facts(), of in boxes()) {
        let card = facts.card();
        prop_assert_eq!(card.check(), Ok(()));
        for zone in 0..ZONES {
            prop_assert_eq!(total(&card, of, To::Zone(zone)), facts.model(of, zone), "zone {}", zone);
        }
        prop_assert_eq!(total(&card, of, To::Mix), mean(&facts, of));
        prop_assert_eq!(ask(&card, of, To::Zone(ZONES)).ok(), None);
    }

    #[test]
    fn the_lines_sum_and_the_billable_weight_covers(facts in facts(), of in boxes(), zone in 0..ZONES) {
        let card = facts.card();
        if let Ok(quote) = ask(&card, of, To::Zone(zone)) {
            prop_assert_eq!(quote.lines.iter().map(|line| line.amount).sum::<Money>(), quote.total);
            prop_assert!(facts.rounding.is_some() || quote.billable.ticks() >= parcel(of).weight.ticks());
            prop_assert_eq!(quote.far.map(Money::minor), facts.model(of, ZONES - 1));
            prop_assert_eq!(quote.expected.map(Money::minor), mean(&facts, of));
            prop_assert!(!quote.rough);
        }
    }

    #[test]
    fn quotes_never_fall_as_weight_grows(facts in facts(), of in boxes(), more in 0_i128..500, zone in 0..ZONES) {
        let card = facts.card();
        let heavier = (of.0 + more, of.1);
        for to in [To::Zone(zone), To::Mix] {
            if let (Some(light), Some(heavy)) = (total(&card, of, to), total(&card, heavier, to)) {
                prop_assert!(light <= heavy, "{} {}", light, heavy);
            }
        }
    }

    #[test]
    fn quotes_never_fall_as_a_side_grows(facts in facts(), of in boxes(), more in 0_i128..100, zone in 0..ZONES) {
        let card = facts.card();
        let larger = (of.0, [of.1[0] + more, of.1[1], of.1[2]]);
        if let (Some(small), Some(large)) = (total(&card, of, To::Zone(zone)), total(&card, larger, To::Zone(zone))) {
            prop_assert!(small <= large);
        }
    }

    #[test]
    fn the_mix_lies_within_its_zones(facts in facts(), of in boxes()) {
        let card = facts.card();
        let likely = (0..ZONES).filter(|zone| facts.mix[*zone] > 0);
        let zones: Vec<Option<i64>> = likely.map(|zone| total(&card, of, To::Zone(zone))).collect();
        let mix = total(&card, of, To::Mix);
        prop_assert_eq!(mix.is_some(), zones.iter().all(Option::is_some));
        if let Some(mix) = mix {
            prop_assert!(zones.iter().flatten().min() <= Some(&mix));
            prop_assert!(Some(&mix) <= zones.iter().flatten().max());
        }
    }

    #[test]
    fn all_six_orders_of_a_box_give_one_answer(facts in facts(), of in boxes(), zone in 0..ZONES) {
        let card = facts.card();
        let [a, b, c] = of.1;
        let first = ask(&card, of, To::Zone(zone));
        for turned in [[a, c, b], [b, a, c], [b, c, a], [c, a, b], [c, b, a]] {
            prop_assert_eq!(&ask(&card, (of.0, turned), To::Zone(zone)), &first);
        }
    }

    #[test]
    fn the_best_is_the_cheapest_that_takes_it(one in facts(), two in facts(), of in boxes(), zone in 0..ZONES) {
        let mut card = one.card();
        card.services.extend(two.card().services);
        let prices = [one.model(of, zone), two.model(of, zone)];
        match best(&card, &parcel(of), To::Zone(zone)) {
            Ok((at, quote)) => {
                prop_assert_eq!(Some(quote.total.minor()), prices.into_iter().flatten().min());
                prop_assert_eq!(prices[at], Some(quote.total.minor()));
                prop_assert!(at == 0 || prices[0] != prices[1]);
            }
            Err(refusals) => {
                prop_assert_eq!(prices, [None, None]);
                prop_assert_eq!(refusals.len(), 2);
            }
        }
    }

    #[test]
    fn a_card_reads_back(facts in facts()) {
        let card = facts.card();
        let json = serde_json::to_string(&card).unwrap();
        prop_assert_eq!(serde_json::from_str::<RateCard>(&json).unwrap(), card);
    }

    /// The largest numbers that can be typed: an answer or a refusal, never a panic.
    #[test]
    fn no_measure_is_too_much(mut facts in facts(), tenths in 0_i128..10_000_000, side in 1_i128..3_937, per in 1_i128..1_000_000) {
        facts.bulk = Some((per, 1, false, None));
        let card = facts.card();
        let of = (tenths, [side, 3_937, side]);
        prop_assert_eq!(total(&card, of, To::Zone(0)), facts.model(of, 0));
    }
}
