//! Is a schedule fit to be saved?

use super::pieces::gains_everywhere;
use super::work::{Which, Works};
use super::{
    Amount, Base, Charge, Group, MAX_CHARGES, MAX_GROUPS, MAX_LABEL, MAX_NAMED, MAX_STEPS, Refund,
    Sale, Schedule, Scope, TermsError, When,
};
use crate::money::Money;

impl Schedule {
    /// Is it fit to be saved?
    ///
    /// # Errors
    /// The first fault found, each with the sentence to show.
    pub fn check(&self) -> Result<(), TermsError> {
        if self.charges.len() > MAX_CHARGES {
            return Err(TermsError::TooMany);
        }
        for index in 0..self.charges.len() {
            self.check_charge(index)?;
        }
        if self.groups.len() > MAX_GROUPS {
            return Err(TermsError::TooManyGroups);
        }
        for index in 0..self.groups.len() {
            self.check_group(index)?;
        }
        if self.takes_all() {
            return Err(TermsError::TakesAll);
        }
        Ok(())
    }

    fn check_charge(&self, index: usize) -> Result<(), TermsError> {
        let (charge, position) = (&self.charges[index], index + 1);
        if charge.label.trim().is_empty() {
            return Err(TermsError::NoLabel { position });
        }
        if charge.label.chars().count() > MAX_LABEL {
            return Err(TermsError::LongLabel { position });
        }
        check_amounts(charge, position)?;
        check_when(&charge.when, position)?;
        let is_month = charge.scope == Scope::Month;
        if let Base::Charges(named) = charge.base {
            if named.is_empty() {
                return Err(TermsError::OfNothing { position });
            }
            if !named.are_within(index) {
                return Err(TermsError::OfLater { position });
            }
            let others = self.charges.iter().enumerate();
            for (_, other) in others.filter(|(at, _)| named.has(*at)) {
                if is_month != (other.scope == Scope::Month) {
                    return Err(TermsError::MixedMonth { position });
                }
            }
        }
        if is_month {
            let is_flat = matches!(charge.amount, Amount::Flat(_));
            let of_month =
                matches!(charge.base, Base::Charges(_)) && self.tiers_at(index).is_none();
            if !(is_flat || of_month) || !charge.when.is_always() {
                return Err(TermsError::MonthOfSale { position });
            }
        }
        if self
            .tiers_at(index)
            .is_some_and(|by| self.tiers_by() != Some(by))
        {
            return Err(TermsError::TwoPeriods { position });
        }
        Ok(())
    }

    fn check_group(&self, index: usize) -> Result<(), TermsError> {
        let (found, group) = (&self.groups[index], index + 1);
        let Group {
            label,
            charges,
            least,
            most,
        } = found;
        if label.trim().is_empty() || label.chars().count() > MAX_LABEL {
            return Err(TermsError::GroupLabel { group });
        }
        if charges.is_empty() || !charges.are_within(self.charges.len()) {
            return Err(TermsError::GroupOfNone { group });
        }
        if self.groups[..index]
            .iter()
            .any(|other| other.charges.meet(*charges))
        {
            return Err(TermsError::GroupsOverlap { group });
        }
        let (mut months, mut sales) = (false, false);
        for (at, charge) in self.charges.iter().enumerate() {
            if charges.has(at) {
                months |= charge.scope == Scope::Month;
                sales |= charge.scope != Scope::Month;
            }
        }
        if months && sales {
            return Err(TermsError::GroupMixed { group });
        }
        let is_bad = |limit: &Money| limit.is_negative() || *limit > Money::TYPED_MAX;
        if (least.is_none() && most.is_none())
            || least.as_ref().is_some_and(is_bad)
            || most.as_ref().is_some_and(is_bad)
            || is_over(*least, *most)
        {
            return Err(TermsError::GroupLimits { group });
        }
        Ok(())
    }

    fn tiers_at(&self, index: usize) -> Option<super::Period> {
        match self.charges[index].amount {
            Amount::Tiers { by, .. } => Some(by),
            _ => None,
        }
    }

    /// Is there a sale and a price at which the venue takes all that a dearer one adds? Every set of charges that can hold
    /// together is tried, the tiers at their greatest rates.
    fn takes_all(&self) -> bool {
        let sale = Sale::default();
        let mut works = Works::new(self, &sale, Which::Sale);
        works.top_tiers = true;
        self.together().into_iter().any(|together| {
            for (at, charge) in self.charges.iter().enumerate() {
                works.open[at] = together >> at & 1 == 1 && charge.scope != Scope::Month;
            }
            !gains_everywhere(&mut works)
        })
    }

    /// The sets of charges that can hold together as far as kind, promotion and region go, as bits.
    fn together(&self) -> Vec<u32> {
        let (mut kinds, mut regions) = (vec![None], vec![None]);
        for charge in &self.charges {
            kinds.extend(charge.when.kinds.iter().copied().map(Some));
            regions.extend(
                charge
                    .when
                    .regions
                    .iter()
                    .map(|region| Some(region.as_str())),
            );
        }
        let mut by_kind = Vec::with_capacity(kinds.len());
        for kind in kinds {
            by_kind.push(self.set(&|when| when.meets_kind(kind)));
        }
        let mut by_region = Vec::with_capacity(regions.len());
        for region in regions {
            by_region.push(self.set(&|when| when.meets_region(region)));
        }
        by_kind.sort_unstable();
        by_kind.dedup();
        by_region.sort_unstable();
        by_region.dedup();
        let mut all = Vec::with_capacity(2 * by_kind.len() * by_region.len());
        for promoted in [false, true] {
            let by_promotion = self.set(&|when| when.meets_promotion(promoted));
            for kind in &by_kind {
                for region in &by_region {
                    all.push(kind & region & by_promotion);
                }
            }
        }
        all.sort_unstable();
        all.dedup();
        all
    }

    /// The charges whose conditions are met in one respect, as bits.
    fn set(&self, meets: &dyn Fn(&When) -> bool) -> u32 {
        let mut bits = 0;
        for (at, charge) in self.charges.iter().enumerate() {
            bits |= u32::from(meets(&charge.when)) << at;
        }
        bits
    }
}

/// The amounts of a charge: its flat sum or its table, its limits, what is kept of it.
fn check_amounts(charge: &Charge, position: usize) -> Result<(), TermsError> {
    let steps = charge.amount.steps();
    let has_table = !matches!(charge.amount, Amount::Flat(_) | Amount::Percent(_));
    if has_table && steps.is_empty() {
        return Err(TermsError::NoSteps { position });
    }
    if steps.len() > MAX_STEPS {
        return Err(TermsError::TooManySteps { position });
    }
    if steps.windows(2).any(|pair| pair[0].from >= pair[1].from) {
        return Err(TermsError::StepsNotAscending { position });
    }
    let mut amounts = Vec::with_capacity(2 * steps.len() + 6);
    if let Amount::Flat(flat) = charge.amount {
        amounts.push(flat);
    }
    for step in steps {
        amounts.extend([step.from, step.flat]);
    }
    if let Refund::ReturnedLess(less) = charge.refund {
        amounts.push(less);
    }
    let When { from, below, .. } = charge.when;
    amounts.extend(
        [charge.least, charge.most, from, below]
            .into_iter()
            .flatten(),
    );
    for amount in amounts {
        if amount.is_negative() {
            return Err(TermsError::NegativeFlat { position });
        }
        if amount > Money::TYPED_MAX {
            return Err(TermsError::LargeFlat { position });
        }
    }
    if is_over(charge.least, charge.most) {
        return Err(TermsError::LeastOverMost { position });
    }
    Ok(())
}

fn check_when(when: &When, position: usize) -> Result<(), TermsError> {
    if let Some(below) = when.below
        && when.from.unwrap_or_default() >= below
    {
        return Err(TermsError::NoPrice { position });
    }
    if when.kinds.len() > MAX_NAMED || when.regions.len() > MAX_NAMED {
        return Err(TermsError::TooManyNamed { position });
    }
    for region in &when.regions {
        if region.trim().is_empty() || region.chars().count() > MAX_LABEL {
            return Err(TermsError::BadRegion { position });
        }
    }
    Ok(())
}

fn is_over(least: Option<Money>, most: Option<Money>) -> bool {
    matches!((least, most), (Some(least), Some(most)) if least > most)
}
