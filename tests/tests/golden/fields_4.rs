//! The same for what came with the fourth version: what a thing was to sell for when it was judged, how things usually sell on a venue, an
//! hour of work, buyer's premium.

use haulwren_core::book::{Edits, Expected, RulesEdit, StopEdit, ThingEdit, VenueEdit, Word};
use haulwren_core::id::{RulesId, StopId, TermsId, ThingId, VenueId};
use haulwren_core::money::{Money, Rate};
use haulwren_core::terms::Regions;
use haulwren_core::worth::Sells;

use super::fields::id;

/// All edits, each for a change of its own.
pub fn all() -> Vec<Edits> {
    let [low, likely, high] = [1800, 2600, 3400].map(Money::new);
    let judged = Expected {
        venue: VenueId(id(4)),
        terms: TermsId(id(5)),
        ask: Money::new(600),
        keep: Money::new(410),
        ceiling: None,
        verdict: Word::Haggle,
        card: None,
        rough: false,
        sells: Sells::new(Some(low), likely, Some(high)).ok(),
    };
    let mut all = vec![ThingId(id(7)).edit([ThingEdit::Expected(Some(judged))])];
    let north = ("North".to_owned(), Rate::percent(60));
    let south = ("South, islands".to_owned(), Rate::parse("39.5").unwrap());
    let venue = [
        VenueEdit::Promoted(Some(true)),
        VenueEdit::Promoted(Some(false)),
        VenueEdit::Regions(Some(Regions(vec![north, south]))),
        VenueEdit::Monthly(Some(Money::new(120_000))),
    ];
    all.extend(venue.map(|edit| VenueId(id(4)).edit([edit])));
    all.push(RulesId::SINGLE.edit([RulesEdit::Hourly(Some(Money::new(1_500)))]));
    all.push(ThingId(id(7)).edit([ThingEdit::Needs(Some(Money::new(750)))]));
    all.push(StopId(id(14)).edit([StopEdit::Premium(Some(Rate::percent(18)))]));
    all
}
