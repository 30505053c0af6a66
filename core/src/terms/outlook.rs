//! Settling a sale that has not happened: what is not known of it is judged by the dearer branch, so that nothing left unsaid improves a
//! verdict; and what is known by shares, where the buyers are and what sells in a month, is a mean over them.

use super::settle::{Settlement, lines};
use super::work::Works;
use super::{How, Line, Period, Regions, Sale, Schedule, Usual, When};
use crate::id::KindId;
use crate::money::{Money, capped, nearest};

/// A fact that charges hang on and nobody said: what was judged in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Assumed {
    /// Its kind; `None` for one that no charge names.
    Kind(Option<KindId>),
    /// Whether it sells through a paid promotion.
    Promoted(bool),
    /// Where the buyer is; `None` for a place that no charge names.
    Region(Option<String>),
    /// What sold before it in that time.
    Running(Money, Period),
}

/// One of the ways in which a fact may turn out: which charges it opens, as bits, and what it is.
type Way<T> = (u32, T);

/// The ways that are open for each fact; a fact that is known, or that no charge asks for, has one.
struct Ways {
    kinds: Vec<Way<Option<KindId>>>,
    promoted: Vec<Way<bool>>,
    /// In shares of [`WHOLE`] where the regions are known, else one by one.
    regions: Vec<Way<Option<String>>>,
    running: Vec<Money>,
}

/// Which way of each fact is judged, by its place.
#[derive(Clone, Copy, Default, PartialEq, Eq)]
struct Pick([usize; 4]);

/// A way of a mean: its weight, the charges that it opens, and the running sales.
struct Part {
    weight: i128,
    bits: u32,
    running: Money,
}

/// The whole of a rate, in ten-thousandths of a percent.
const WHOLE: u32 = 1_000_000;

/// Settles a sale of a thing of this kind at a price, by how things usually sell there; with what was assumed. Where facts are not known
/// the branch is judged that takes most at this price.
#[must_use]
pub fn settle_by(
    schedule: &Schedule,
    kind: Option<KindId>,
    usual: &Usual,
    price: Money,
    post_in: Money,
) -> (Settlement, Vec<Assumed>) {
    let judge = Judge {
        schedule,
        usual,
        price,
        post_in,
    };
    let ways = judge.ways(kind);
    let counts = ways.counts();
    let mut dearest = (Pick::default(), judge.settled(&ways, Pick::default()));
    let mut pick = Pick::default();
    while pick.step(counts) {
        let settled = judge.settled(&ways, pick);
        if settled.cut > dearest.1.cut {
            dearest = (pick, settled);
        }
    }
    let (pick, settled) = dearest;
    let mut assumed = Vec::new();
    for (fact, count) in counts.into_iter().enumerate() {
        // Only what would have changed the sum is worth a word.
        let is_cheaper = |way: &usize| {
            let mut other = pick;
            other.0[fact] = *way;
            judge.settled(&ways, other).cut < settled.cut
        };
        let others = (0..count).filter(|way| *way != pick.0[fact]);
        if others.into_iter().any(|way| is_cheaper(&way)) {
            assumed.extend(ways.assumed(fact, pick.0[fact], schedule.tiers_by()));
        }
    }
    (settled, assumed)
}

impl Pick {
    /// Goes on to the next; whether there was one.
    fn step(&mut self, counts: [usize; 4]) -> bool {
        for (way, count) in self.0.iter_mut().zip(counts) {
            *way = way.saturating_add(1);
            if *way < count {
                return true;
            }
            *way = 0;
        }
        false
    }
}

/// Settles one schedule at one price.
struct Judge<'a> {
    schedule: &'a Schedule,
    usual: &'a Usual,
    price: Money,
    post_in: Money,
}

impl Judge<'_> {
    fn ways(&self, kind: Option<KindId>) -> Ways {
        let charges = || self.schedule.charges.iter().map(|charge| &charge.when);
        let mut kinds = vec![(self.bits(&|when| when.meets_kind(kind)), kind)];
        if kind.is_none() {
            for named in charges().flat_map(|when| &when.kinds) {
                let bits = self.bits(&|when| when.meets_kind(Some(*named)));
                add(&mut kinds, (bits, Some(*named)));
            }
        }
        let is_asked = charges().any(|when| when.promoted.is_some());
        let promotions: &[bool] = match self.usual.promoted {
            Some(true) => &[true],
            None if is_asked => &[false, true],
            _ => &[false],
        };
        let mut promoted = Vec::with_capacity(2);
        for said in promotions {
            promoted.push((self.bits(&|when| when.meets_promotion(*said)), *said));
        }
        let mut regions = vec![(self.bits(&|when| when.meets_region(None)), None)];
        if self.usual.regions.is_empty() {
            for named in charges().flat_map(|when| &when.regions) {
                let bits = self.bits(&|when| when.meets_region(Some(named)));
                add(&mut regions, (bits, Some(named.clone())));
            }
        }
        let mut running = vec![Money::ZERO];
        if self.usual.monthly.is_none() {
            running = self.tiers();
        }
        Ways {
            kinds,
            promoted,
            regions,
            running,
        }
    }

    /// Nothing, and where the tiers begin, in order and each once. By hand: a library's sort is many times as many bytes.
    fn tiers(&self) -> Vec<Money> {
        let mut starts = vec![Money::ZERO];
        for charge in &self.schedule.charges {
            let super::Amount::Tiers { steps, .. } = &charge.amount else {
                continue;
            };
            for step in steps {
                let at = starts
                    .iter()
                    .take_while(|start| **start < step.from)
                    .count();
                if starts.get(at) != Some(&step.from) {
                    starts.insert(at, step.from);
                }
            }
        }
        starts
    }

    /// The charges whose conditions are met in one respect, as bits.
    fn bits(&self, meets: &dyn Fn(&When) -> bool) -> u32 {
        let mut bits = 0;
        for (at, charge) in self.schedule.charges.iter().enumerate() {
            bits |= u32::from(meets(&charge.when)) << (at % 32);
        }
        bits
    }

    /// What a sale comes to where facts that are not known turn out as picked.
    fn settled(&self, ways: &Ways, pick: Pick) -> Settlement {
        let [kind, promoted, region, running] = pick.0;
        let known = ways.kinds[kind].0 & ways.promoted[promoted].0;
        let mut parts = Vec::new();
        for (share, bits) in self.places(&ways.regions[region]) {
            for (weight, running) in self.runs(ways.running[running]) {
                parts.push(Part {
                    weight: share.saturating_mul(weight),
                    bits: bits & known,
                    running,
                });
            }
        }
        self.mean(&parts)
    }

    /// The regions of the buyers with their shares; the one picked where they are not known.
    fn places(&self, picked: &Way<Option<String>>) -> Vec<(i128, u32)> {
        let Regions(shares) = &self.usual.regions;
        let mut places = Vec::with_capacity(shares.len().saturating_add(1));
        let mut rest = WHOLE;
        for (name, share) in shares {
            let share = share.ten_thousandths();
            rest = rest.saturating_sub(share);
            let bits = self.bits(&|when| when.meets_region(Some(name)));
            places.push((i128::from(share), bits));
        }
        places.push((i128::from(rest), picked.0));
        places.retain(|(share, _)| *share > 0);
        places
    }

    /// The running sales through a usual month or year, with how long each tier lasts; the one picked where they are not known.
    fn runs(&self, picked: Money) -> Vec<(i128, Money)> {
        let (Some(monthly), Some(by)) = (self.usual.monthly, self.schedule.tiers_by()) else {
            return vec![(1, picked)];
        };
        let months = match by {
            Period::Month => 1,
            Period::Year => 12,
        };
        let all = monthly.minor().saturating_mul(months);
        let mut starts: Vec<i64> = self.tiers().into_iter().map(Money::minor).collect();
        starts.retain(|start| *start < all.max(1));
        let mut runs = Vec::with_capacity(starts.len());
        for (at, start) in starts.iter().enumerate() {
            let end = starts
                .get(at.saturating_add(1))
                .copied()
                .unwrap_or(all.max(1));
            runs.push((i128::from(end.saturating_sub(*start)), Money::new(*start)));
        }
        runs
    }

    /// The mean over parts; of one part alone, that part line by line.
    fn mean(&self, parts: &[Part]) -> Settlement {
        let count = self.schedule.charges.len();
        let mut amounts = vec![(false, 0_i128); count.saturating_add(self.schedule.groups.len())];
        let (mut whole, mut cuts): (i128, i128) = (0, 0);
        let mut alone = Vec::new();
        for part in parts {
            let sale = Sale {
                running: part.running,
                ..Sale::of(self.price, self.post_in)
            };
            let mut works = Works::sale(self.schedule, &sale, part.bits);
            works.at(self.price.minor());
            whole = whole.saturating_add(part.weight);
            cuts = cuts.saturating_add(works.cut().0.saturating_mul(part.weight));
            for (amount, cell) in amounts.iter_mut().zip(&works.cells) {
                amount.0 |= cell.holds;
                amount.1 = amount
                    .1
                    .saturating_add(cell.amount.saturating_mul(part.weight));
            }
            for (amount, group) in amounts.iter_mut().skip(count).zip(&self.schedule.groups) {
                let difference = works.difference(group).amount;
                amount.0 |= difference != 0;
                amount.1 = amount
                    .1
                    .saturating_add(difference.saturating_mul(part.weight));
            }
            if parts.len() == 1 {
                alone = lines(&works);
            }
        }
        // Rounded once, so that a mean is never over the dearest of its parts; the lines share what their own rounding makes of it.
        let cut = nearest(cuts, whole.max(1));
        let mut mean = Vec::new();
        let charges = self.schedule.charges.iter().map(|charge| &charge.label);
        let labels = charges.chain(self.schedule.groups.iter().map(|group| &group.label));
        for (label, (holds, sum)) in labels.zip(amounts) {
            if holds {
                mean.push(Line {
                    label: label.clone(),
                    amount: capped(nearest(sum, whole.max(1))),
                    how: How::Usual,
                    bound: None,
                });
            }
        }
        let lines: Money = mean.iter().map(|line| line.amount).sum();
        if let Some(largest) = mean.iter_mut().max_by_key(|line| line.amount) {
            largest.amount = largest.amount.plus(capped(cut).minus(lines));
        }
        let paid = i128::from(self.price.minor()).saturating_add(self.post_in.minor().into());
        Settlement {
            price: self.price,
            post_in: self.post_in,
            lines: if parts.len() == 1 { alone } else { mean },
            cut: capped(cut),
            payout: capped(paid.saturating_sub(cut)),
        }
    }
}

impl Ways {
    /// How many ways each fact may turn out.
    fn counts(&self) -> [usize; 4] {
        [
            self.kinds.len(),
            self.promoted.len(),
            self.regions.len(),
            self.running.len(),
        ]
    }

    /// What was judged in place of a fact.
    fn assumed(&self, fact: usize, way: usize, by: Option<Period>) -> Option<Assumed> {
        Some(match fact {
            0 => Assumed::Kind(self.kinds[way].1),
            1 => Assumed::Promoted(self.promoted[way].1),
            2 => Assumed::Region(self.regions[way].1.clone()),
            _ => Assumed::Running(self.running[way], by?),
        })
    }
}

/// Adds a way, unless another one opens the same charges.
fn add<T>(ways: &mut Vec<Way<T>>, way: Way<T>) {
    if ways.iter().all(|other| other.0 != way.0) {
        ways.push(way);
    }
}

#[cfg(test)]
#[path = "tests/outlook.rs"]
mod tests;
