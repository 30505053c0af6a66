//! Schedules and sales to try, rich in every rule of the terms.

use haulwren_core::terms::Schedule;
use proptest::collection::vec;
use proptest::option::{of, weighted};
use proptest::prelude::*;

use crate::terms_core::schedule;
use crate::terms_types::{Back, Facts, Limit, Much, Of, Row, Rule, Terms};

/// The dearest price and the greatest edge of a table that cases have.
pub const TOP: i128 = 30_00;

/// Whole percents, quarters of one, or as fine as a rate can be.
fn rates(most: i128) -> impl Strategy<Value = i128> {
    prop_oneof![
        (0..=most).prop_map(|percent| percent * 10_000),
        (0..=most * 4).prop_map(|quarters| quarters * 2_500),
        0..=most * 10_000,
    ]
}

fn rows() -> impl Strategy<Value = Vec<Row>> {
    let row = (
        0..TOP,
        rates(20),
        prop_oneof![3 => Just(0), 1 => 0..120_i128],
    );
    let row = row.prop_map(|(from, rate, flat)| Row { from, rate, flat });
    (vec(row, 1..=4), any::<bool>()).prop_map(|(mut rows, from_nothing)| {
        rows.sort_unstable_by_key(|row| row.from);
        rows.dedup_by_key(|row| row.from);
        if from_nothing {
            rows[0].from = 0;
        }
        rows
    })
}

fn muches() -> impl Strategy<Value = Much> {
    prop_oneof![
        3 => rates(25).prop_map(Much::Rate),
        1 => (0..120_i128).prop_map(Much::Flat),
        2 => rows().prop_map(Much::Brackets),
        2 => rows().prop_map(Much::Slices),
        1 => rows().prop_map(Much::Tiers),
    ]
}

fn bases() -> impl Strategy<Value = Of> {
    prop_oneof![
        3 => Just(Of::Price),
        2 => Just(Of::PriceAndPost),
        2 => rates(25).prop_map(|assumed| Of::Total { assumed }),
        // Any places: what isn't earlier is dropped.
        2 => vec(0..5_usize, 1..4).prop_map(Of::Others),
        // All earlier ones, and so every limit on them.
        2 => Just(Of::Others((0..5).collect())),
    ]
}

fn backs() -> impl Strategy<Value = Back> {
    prop_oneof![
        Just(Back::Nothing),
        Just(Back::All),
        (0..100_i128).prop_map(Back::AllBut),
    ]
}

fn rules() -> impl Strategy<Value = Rule> {
    let limits = (weighted(0.2, 0..100_i128), weighted(0.2, 0..400_i128));
    let range = (weighted(0.15, 0..TOP), weighted(0.15, 1..TOP));
    let named = |count| prop_oneof![5 => Just(Vec::new()), 1 => vec(0..count, 1..3)];
    let facts = (named(3_u8), weighted(0.1, any::<bool>()), named(3_u8));
    let scope = prop_oneof![3 => Just(0_u8), 3 => 1..4_u8, 1 => Just(4)];
    (
        bases(),
        muches(),
        scope,
        limits,
        range,
        facts,
        (any::<bool>(), backs()),
    )
        .prop_map(
            |(of, much, scope, (least, most), (from, below), (kinds, promoted, regions), owing)| {
                Rule {
                    of,
                    much,
                    scope,
                    least: least.map(|least| most.map_or(least, |most| most.min(least))),
                    most,
                    from: from.filter(|from| below.is_none_or(|below| *from < below)),
                    below,
                    kinds,
                    promoted,
                    regions,
                    unsold: owing.0,
                    back: owing.1,
                }
            },
        )
}

/// Makes rules of any sort hang together: nothing is taken of later charges, by the month of a sale's, or the other way.
fn joined(mut rules: Vec<Rule>, limits: Vec<(Vec<bool>, Limit)>) -> Terms {
    for at in 0..rules.len() {
        let is_month = rules[at].scope == 4;
        let mut named = match &rules[at].of {
            Of::Others(named) => named.clone(),
            _ => Vec::new(),
        };
        named.retain(|other| *other < at && (rules[*other].scope == 4) == is_month);
        named.sort_unstable();
        named.dedup();
        let rule = &mut rules[at];
        if named.is_empty() {
            if matches!(rule.of, Of::Others(_)) {
                rule.of = Of::Price;
            }
        } else {
            rule.of = Of::Others(named);
        }
        if is_month {
            (rule.from, rule.below, rule.promoted) = (None, None, None);
            rule.kinds.clear();
            rule.regions.clear();
            let of_month = matches!(rule.of, Of::Others(_));
            if !of_month || matches!(rule.much, Much::Tiers(_)) {
                rule.much = Much::Flat(50);
            }
        }
    }
    let mut taken = vec![false; rules.len()];
    let mut joined = Vec::new();
    for (wanted, limit) in limits {
        let mut of = Vec::new();
        for (at, rule) in rules.iter().enumerate() {
            if wanted[at] && !taken[at] && rule.scope != 4 {
                taken[at] = true;
                of.push(at);
            }
        }
        if !of.is_empty() {
            joined.push(Limit { of, ..limit });
        }
    }
    Terms {
        rules,
        limits: joined,
    }
}

fn limits() -> impl Strategy<Value = (Vec<bool>, Limit)> {
    let bounds = prop_oneof![
        (0..200_i128).prop_map(|least| (Some(least), None)),
        (0..500_i128).prop_map(|most| (None, Some(most))),
        (0..200_i128, 0..300_i128).prop_map(|(least, more)| (Some(least), Some(least + more))),
    ];
    (vec(any::<bool>(), 5), bounds).prop_map(|(wanted, (least, most))| {
        let of = Vec::new();
        (wanted, Limit { of, least, most })
    })
}

/// Terms of up to five charges and two limits that a book takes, by every rule there is.
pub fn terms() -> impl Strategy<Value = Terms> {
    (vec(rules(), 0..=5), vec(limits(), 0..=2))
        .prop_map(|(rules, limits)| joined(rules, limits))
        .prop_filter("a book refuses it", |terms| schedule(terms).check().is_ok())
}

/// The same as schedules of the core.
pub fn rich_schedules() -> impl Strategy<Value = Schedule> {
    terms().prop_map(|terms| schedule(&terms))
}

/// All that may be known of a sale.
pub fn facts() -> impl Strategy<Value = Facts> {
    let known = (of(0..3_u8), any::<bool>(), of(0..3_u8));
    (0..8_00_i128, of(0..5_00_i128), known, 0..TOP).prop_map(
        |(post, tax, (kind, promoted, region), running)| Facts {
            post,
            tax,
            kind,
            promoted,
            region,
            running,
        },
    )
}
