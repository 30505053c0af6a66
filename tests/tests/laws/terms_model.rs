//! A model of the terms, written from their description alone: own types, plain whole numbers, exact fractions.

use crate::terms_fraction::Fraction;
use crate::terms_types::{Back, Facts, Limit, Much, Of, Row, Rule, Terms};

/// What a charge comes to, and which of its rules decided.
#[derive(Clone, Debug, PartialEq)]
pub struct Came {
    pub to: i128,
    /// What it would come to by the same rules if nothing had been rounded.
    pub exactly: Fraction,
    /// Does it hold, how many rows were reached, and is it at a limit (0 least, 1 none, 2 most)?
    pub by: (bool, usize, u8),
}

/// A sale worked out: the charges, the limits' differences, and all that decided.
#[derive(Clone, Debug)]
pub struct Worked {
    pub rules: Vec<Came>,
    pub limits: Vec<Came>,
    pub pays: i128,
    pub pays_exactly: Fraction,
}

const NOT: Came = Came {
    to: 0,
    exactly: Fraction::NOTHING,
    by: (false, 0, 1),
};

/// Works out the charges of a sale at a price, or those for which `counts` says so.
pub fn work(terms: &Terms, facts: &Facts, price: i128, counts: &dyn Fn(&Rule) -> bool) -> Worked {
    let mut rules: Vec<Came> = Vec::new();
    for rule in &terms.rules {
        let holds = counts(rule)
            && rule.from.is_none_or(|from| price >= from)
            && rule.below.is_none_or(|below| price < below)
            && (rule.kinds.is_empty() || facts.kind.is_some_and(|kind| rule.kinds.contains(&kind)))
            && rule
                .promoted
                .is_none_or(|promoted| promoted == facts.promoted)
            && (rule.regions.is_empty()
                || facts
                    .region
                    .is_some_and(|region| rule.regions.contains(&region)));
        let came = if holds {
            came(terms, facts, price, rule, &rules)
        } else {
            NOT
        };
        rules.push(came);
    }
    let limits: Vec<Came> = terms
        .limits
        .iter()
        .map(|limit| limited(limit, &rules))
        .collect();
    let all = rules.iter().chain(&limits);
    let (mut pays, mut pays_exactly) = (price + facts.post, Fraction::whole(price + facts.post));
    for came in all {
        pays -= came.to;
        pays_exactly = pays_exactly.minus(came.exactly);
    }
    Worked {
        rules,
        limits,
        pays,
        pays_exactly,
    }
}

/// What a limit adds to the sum of its charges, or takes from it.
fn limited(limit: &Limit, rules: &[Came]) -> Came {
    let held = limit
        .of
        .iter()
        .map(|at| &rules[*at])
        .filter(|came| came.by.0);
    let (mut any, mut sum, mut exactly) = (false, 0, Fraction::whole(0));
    for came in held {
        any = true;
        sum += came.to;
        exactly = exactly.plus(came.exactly);
    }
    if !any {
        return NOT;
    }
    let (to, at) = within(sum, limit.least, limit.most);
    if at == 1 {
        return Came {
            by: (true, 0, 1),
            ..NOT
        };
    }
    Came {
        to: to - sum,
        exactly: Fraction::whole(to).minus(exactly),
        by: (true, 0, at),
    }
}

fn within(sum: i128, least: Option<i128>, most: Option<i128>) -> (i128, u8) {
    match (least, most) {
        (Some(least), _) if sum < least => (least, 0),
        (_, Some(most)) if sum > most => (most, 2),
        _ => (sum, 1),
    }
}

fn came(terms: &Terms, facts: &Facts, price: i128, rule: &Rule, before: &[Came]) -> Came {
    // The base as charged, which decides, and as it would be unrounded.
    let (base, unrounded) = match &rule.of {
        Of::Price => (Fraction::whole(price), Fraction::whole(price)),
        Of::PriceAndPost => {
            let base = Fraction::whole(price + facts.post);
            (base, base)
        }
        Of::Total { assumed } => {
            let goods = Fraction::whole(price + facts.post);
            let tax = facts.tax.map_or(goods.part(*assumed), Fraction::whole);
            (goods.plus(tax), goods.plus(tax))
        }
        Of::Others(named) => {
            let (mut sum, mut exactly) = (0, Fraction::whole(0));
            for at in named {
                sum += before[*at].to;
                exactly = exactly.plus(before[*at].exactly);
            }
            for limit in &terms.limits {
                if limit.of.iter().all(|at| named.contains(at)) {
                    let difference = limited(limit, before);
                    sum += difference.to;
                    exactly = exactly.plus(difference.exactly);
                }
            }
            (Fraction::whole(sum), exactly)
        }
    };
    let (rows, of_base) = much(&rule.much, facts, base, base);
    let (_, of_unrounded) = much(&rule.much, facts, base, unrounded);
    let (to, at) = within(of_base.rounded(), rule.least, rule.most);
    Came {
        to,
        exactly: if at == 1 {
            of_unrounded
        } else {
            Fraction::whole(to)
        },
        by: (true, rows, at),
    }
}

/// How many rows a base reaches, and what an amount takes of another one by those rows.
fn much(much: &Much, facts: &Facts, deciding: Fraction, of: Fraction) -> (usize, Fraction) {
    let count = |rows: &[Row], reaches: &dyn Fn(&Row) -> bool| {
        rows.iter().filter(|row| reaches(row)).count()
    };
    let last_of = |rows: &[Row], reached: usize| {
        let Some(at) = reached.checked_sub(1) else {
            return Fraction::NOTHING;
        };
        of.part(rows[at].rate).plus(Fraction::whole(rows[at].flat))
    };
    match much {
        Much::Rate(rate) => (0, of.part(*rate)),
        Much::Flat(flat) => (0, Fraction::whole(*flat)),
        Much::Brackets(rows) => {
            let reached = count(rows, &|row| !deciding.is_under(Fraction::whole(row.from)));
            (reached, last_of(rows, reached))
        }
        Much::Tiers(rows) => {
            let reached = count(rows, &|row| facts.running >= row.from);
            (reached, last_of(rows, reached))
        }
        Much::Slices(rows) => {
            let reached = count(rows, &|row| Fraction::whole(row.from).is_under(deciding));
            let mut sum = Fraction::whole(0);
            for (at, row) in rows[..reached].iter().enumerate() {
                let top = if at + 1 == reached {
                    of
                } else {
                    Fraction::whole(rows[at + 1].from)
                };
                let slice = top.minus(Fraction::whole(row.from));
                sum = sum
                    .plus(slice.part(row.rate))
                    .plus(Fraction::whole(row.flat));
            }
            (reached, sum)
        }
    }
}

/// What comes back of each charge of a sale that was worked out.
pub fn back(terms: &Terms, worked: &Worked) -> Vec<i128> {
    let mut charged: Vec<i128> = worked.rules.iter().map(|came| came.to).collect();
    for (limit, difference) in terms.limits.iter().zip(&worked.limits) {
        let mut held = limit.of.clone();
        held.retain(|at| worked.rules[*at].by.0);
        let total: i128 = held.iter().map(|at| worked.rules[*at].to).sum();
        // In proportion to what they came to, or evenly; the spare units to the greatest remainders.
        let weight = |at: usize| if total == 0 { 1 } else { worked.rules[at].to };
        let whole = if total == 0 {
            held.len() as i128
        } else {
            total
        };
        let size = difference.to.abs();
        let mut shares: Vec<(i128, usize, i128)> = Vec::new();
        for (place, at) in held.iter().enumerate() {
            let scaled = size * weight(*at);
            shares.push((-(scaled % whole), place, scaled / whole));
        }
        let mut spare = size - shares.iter().map(|share| share.2).sum::<i128>();
        shares.sort_unstable();
        for (_, place, share) in shares {
            let unit = i128::from(spare > 0);
            spare -= unit;
            charged[held[place]] += (share + unit) * difference.to.signum();
        }
    }
    let rules = terms.rules.iter().zip(charged);
    rules
        .map(|(rule, charged)| match rule.back {
            Back::Nothing => 0,
            Back::All => charged,
            Back::AllBut(kept) => (charged - kept).max(0),
        })
        .collect()
}
