//! Laws of what is not known of a sale that has not happened: no fact left unsaid takes less than any that may be said, held against the
//! model; shares of regions and a usual month are means over it.

use haulwren_core::appraise::{Case, Selling, appraise};
use haulwren_core::money::{Money, Rate};
use haulwren_core::terms::{Period, Regions, Usual, settle_by};
use proptest::prelude::*;

use crate::appraising;
use crate::terms_cases::{TOP, facts, terms};
use crate::terms_core::{REGIONS, kind, schedule};
use crate::terms_model::work;
use crate::terms_types::{Facts, Much, Terms};

/// What is said of the four facts: kind, promotion, shares of two regions in percent, sales in a month.
#[derive(Clone, Copy, Debug)]
struct Said {
    kind: Option<u8>,
    promoted: Option<bool>,
    regions: Option<(u32, u32)>,
    monthly: Option<i128>,
}

impl Said {
    fn usual(self) -> Usual {
        let regions = self.regions.map(|(one, other)| {
            let share = |at: usize, share| (REGIONS[at].to_owned(), Rate::percent(share));
            Regions(vec![share(0, one), share(1, other)])
        });
        Usual {
            promoted: self.promoted,
            regions: regions.unwrap_or_default(),
            monthly: self
                .monthly
                .map(|money| Money::new(i64::try_from(money).unwrap())),
        }
    }
}

fn said() -> impl Strategy<Value = Said> {
    let shares = (0_u32..=50, 0_u32..=50);
    (
        prop::option::of(0..3_u8),
        prop::option::of(any::<bool>()),
        prop::option::of(shares),
        prop::option::of(0..TOP),
    )
        .prop_map(|(kind, promoted, regions, monthly)| Said {
            kind,
            promoted,
            regions,
            monthly,
        })
}

/// Where the tiers begin.
fn tiers(terms: &Terms) -> Vec<i128> {
    let rows = terms.rules.iter().flat_map(|rule| match &rule.much {
        Much::Tiers(rows) => rows.clone(),
        _ => Vec::new(),
    });
    let mut starts: Vec<i128> = rows.map(|row| row.from).chain([0]).collect();
    starts.sort_unstable();
    starts.dedup();
    starts
}

/// The ways in which a fact may turn out: each a list of weighted possibilities, of one possibility where it is not known.
type Ways<T> = Vec<Vec<(i128, T)>>;

fn regions(said: Said) -> Ways<Option<u8>> {
    match said.regions {
        Some((one, other)) => vec![vec![
            (i128::from(one), Some(0)),
            (i128::from(other), Some(1)),
            (i128::from(100 - one - other), None),
        ]],
        None => [None, Some(0), Some(1), Some(2)]
            .map(|at| vec![(1, at)])
            .to_vec(),
    }
}

fn runs(said: Said, terms: &Terms, by: Option<Period>) -> Ways<i128> {
    let starts = tiers(terms);
    let Some((monthly, by)) = said.monthly.zip(by) else {
        return starts.into_iter().map(|start| vec![(1, start)]).collect();
    };
    let all = (monthly * if by == Period::Year { 12 } else { 1 }).max(1);
    let lasts =
        |at: usize| starts.get(at + 1).copied().unwrap_or(all).min(all) - starts[at].min(all);
    vec![
        (0..starts.len())
            .map(|at| (lasts(at), starts[at]))
            .collect(),
    ]
}

proptest! {
    #![proptest_config(crate::tries(256))]

    #[test]
    fn what_nobody_said_is_the_dearest_and_what_is_known_by_shares_a_mean(
        terms in terms(),
        facts in facts(),
        said in said(),
        price in 0..2 * TOP,
    ) {
        let schedule = schedule(&terms);
        let cut = |kind, promoted, region, running| {
            let facts = Facts { tax: None, kind, promoted, region, running, ..facts.clone() };
            price + facts.post - work(&terms, &facts, price, &|rule| rule.scope != 4).pays
        };
        let kinds = said.kind.map_or_else(|| vec![None, Some(0), Some(1), Some(2), Some(3)], |kind| vec![Some(kind)]);
        let promotions = said.promoted.map_or_else(|| vec![false, true], |said| vec![said]);
        let mut dearest = None;
        for kind in &kinds {
            for promoted in &promotions {
                for places in regions(said) {
                    for runs in runs(said, &terms, schedule.tiers_by()) {
                        let (mut sum, mut whole) = (0, 0);
                        for (share, region) in &places {
                            for (lasts, running) in &runs {
                                sum += share * lasts * cut(*kind, *promoted, *region, *running);
                                whole += share * lasts;
                            }
                        }
                        // No cut is below nothing: half a unit goes up.
                        let mean = (2 * sum + whole) / (2 * whole);
                        dearest = dearest.max(Some(mean));
                    }
                }
            }
        }
        let [price, post] = [price, facts.post].map(|minor| Money::new(i64::try_from(minor).unwrap()));
        let (settled, assumed) = settle_by(&schedule, said.kind.map(kind), &said.usual(), price, post);
        prop_assert_eq!(Some(i128::from(settled.cut.minor())), dearest);
        prop_assert_eq!(settled.lines.iter().map(|line| line.amount).sum::<Money>(), settled.cut);
        prop_assert_eq!(settled.payout.plus(settled.cut), price.plus(post));
        let known = [said.kind.is_some(), said.promoted.is_some(), said.regions.is_some(), said.monthly.is_some()];
        prop_assert!(assumed.len() <= known.iter().filter(|known| !**known).count());
    }

    /// Whatever is said, the verdict on what is not said of it is no better.
    #[test]
    fn no_fact_left_unsaid_improves_a_verdict(
        plain in appraising::facts(),
        terms in terms(),
        said in said(),
        forgotten in 0..4_usize,
        ask in 0_i64..4_000,
    ) {
        let schedule = schedule(&terms);
        let judged = |said: Said| {
            let usual = said.usual();
            let venue = Selling { arrangement: &plain.arrangement, schedule: &schedule, usual: &usual };
            let case = Case { venue: Some(venue), kind: said.kind.map(kind), ..plain.case(Some(ask)) };
            appraise(&case).judged
        };
        let mut unsaid = said;
        match forgotten {
            0 => unsaid.kind = None,
            1 => unsaid.promoted = None,
            2 => unsaid.regions = None,
            _ => unsaid.monthly = None,
        }
        if let Some((worse, than)) = judged(unsaid).zip(judged(said)) {
            crate::appraising_worse::expect_no_better(&worse, &than)?;
        }
    }
}
