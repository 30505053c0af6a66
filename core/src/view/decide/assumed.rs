//! What a verdict assumes and nobody said, in sentences: the terms' facts, the share set aside, how far sellers come down, what sending costs.

use super::desk::{AtVenue, Desk};
use crate::appraise::{HouseRules, Judged};
use crate::id::VenueId;
use crate::money::plain;
use crate::terms::{Assumed, Period, When};
use crate::worth::Allowances;

/// All of it, on the venue judged on.
pub(super) fn all(desk: &Desk<'_>, here: &AtVenue, judged: Option<&Judged>) -> Vec<String> {
    let mut said = Vec::new();
    let Some(judged) = judged else {
        return said;
    };
    let mut facts = judged.likely.assumed.clone();
    for fact in &judged.low.assumed {
        if !facts.contains(fact) {
            facts.push(fact.clone());
        }
    }
    said.extend(facts.iter().map(|fact| sentence(desk, fact)));
    if here.arrangement.goes_by_cost() && here.posted.unsaid.postage {
        said.push("Nobody said what posting costs: nothing is counted for it.".to_owned());
    }
    if here.arrangement.is_posted() && here.posted.unsaid.packing {
        said.push("Nobody said what packing costs: nothing is counted for it.".to_owned());
    }
    let start = HouseRules::starting(desk.currency);
    if desk.allowances == Allowances::default() {
        let rate = desk.allowances.rate();
        said.push(format!(
            "Cushion for unsold things, offers and returns: {rate} % in all, as suggested. Set your own in the rules."
        ));
    }
    if desk.state.house_rules(desk.currency).reach == start.reach {
        let reach = start.reach;
        said.push(format!(
            "Sellers come down by up to {reach} %, as suggested. Set your own in the rules."
        ));
    }
    said
}

fn sentence(desk: &Desk<'_>, fact: &Assumed) -> String {
    match fact {
        Assumed::Kind(kind) => {
            let kind = kind.and_then(|id| desk.state.kind(id));
            let kind = kind.map_or_else(|| "any other".to_owned(), |kind| kind.name);
            format!("Its kind was not said: judged as {kind}, which costs most.")
        }
        Assumed::Promoted(true) => {
            "Promoted or not was not said: judged as promoted, which costs more.".to_owned()
        }
        Assumed::Promoted(false) => {
            "Promoted or not was not said: judged as not promoted, which costs more.".to_owned()
        }
        Assumed::Region(region) => {
            let region = region.as_deref().unwrap_or("elsewhere");
            format!("Where the buyer is was not said: judged as {region}, which costs most.")
        }
        Assumed::Running(from, by) => {
            let by = match by {
                Period::Month => "month",
                Period::Year => "year",
            };
            let from = plain(*from, desk.currency);
            format!("Your sales a {by} were not said: judged as {from}, which costs most.")
        }
    }
}

impl Desk<'_> {
    /// Whether charges of a venue hang on a promotion; then what is judged, promoted when nobody said.
    pub(super) fn promoted_on(&self, venue: VenueId) -> Option<bool> {
        let (_, terms) = self.state.terms_on(venue, self.today)?;
        let hangs = |when: &When| when.promoted.is_some();
        let mut charges = terms.schedule.as_ref()?.charges.iter();
        let is_asked = charges.any(|charge| hangs(&charge.when));
        let usual = self.state.usual_of(venue).promoted;
        is_asked.then(|| self.promoted.or(usual).unwrap_or(true))
    }
}
