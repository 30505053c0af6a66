//! How things usually sell on a venue, as typed: asked only where a charge hangs on it.

use super::choices::Promotion;
use super::input::{UsualInput, VenueInput};
use super::read::Reader;
use super::{Times, VenueForm, Way};
use crate::json::{Object, read_form};
use crate::money::{Currency, plain};
use crate::terms::{MAX_NAMED, Regions, Usual};
use serde::{Deserialize, Serialize};

/// The texts and choices.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct UsualForm {
    /// Whether things usually sell through a paid promotion.
    pub promoted: Promotion,
    /// Where the buyers usually are. Rows without a name and a share don't count.
    pub regions: Vec<RegionForm>,
    /// What sells there in a month, in all; empty where nobody said it.
    pub monthly: String,
}

read_form!(UsualForm: promoted regions monthly);

/// A region and its share of the buyers.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct RegionForm {
    /// Its name, as the charges name it.
    pub name: String,
    /// Its share, in percent.
    pub share: String,
}

read_form!(RegionForm: name share);

impl UsualForm {
    /// Reads it.
    pub(super) fn read(&self, reader: &mut Reader<'_>) -> Usual {
        let mut regions = Regions::default();
        for (at, region) in self.regions.iter().enumerate() {
            if region.name.trim().is_empty() && region.share.trim().is_empty() {
                continue;
            }
            let share = VenueInput::Usual(UsualInput::Share(at));
            let share = reader.must_rate(share, &region.share);
            regions.0.push((region.name.trim().to_owned(), share));
        }
        if let Err(fault) = regions.check() {
            reader.complain(VenueInput::Usual(UsualInput::Regions), &fault);
        }
        Usual {
            promoted: match self.promoted {
                Promotion::Any => None,
                Promotion::Only => Some(true),
                Promotion::Without => Some(false),
            },
            regions,
            monthly: reader.money(VenueInput::Usual(UsualInput::Monthly), &self.monthly),
        }
    }

    /// The form of what was said.
    pub(super) fn of(usual: &Usual, currency: Currency) -> Self {
        let region = |(name, share): &(String, _)| RegionForm {
            name: name.clone(),
            share: crate::money::Rate::to_string(share),
        };
        Self {
            promoted: match usual.promoted {
                None => Promotion::Any,
                Some(true) => Promotion::Only,
                Some(false) => Promotion::Without,
            },
            regions: usual.regions.0.iter().map(region).collect(),
            monthly: usual
                .monthly
                .map(|monthly| plain(monthly, currency))
                .unwrap_or_default(),
        }
    }
}

impl VenueForm {
    /// Does any charge hang on a promotion?
    #[must_use]
    pub fn asks_promotion(&self) -> bool {
        let hangs = |charge: &super::ChargeForm| charge.promoted != Promotion::Any;
        self.usual.promoted != Promotion::Any || self.charges.iter().any(hangs)
    }

    /// Does any charge hang on what sold before?
    #[must_use]
    pub fn asks_monthly(&self) -> bool {
        let is_tiered = |charge: &super::ChargeForm| {
            matches!(charge.way, Way::ByMonth | Way::ByYear) && charge.times != Times::Month
        };
        !self.usual.monthly.is_empty() || self.charges.iter().any(is_tiered)
    }

    /// Does any charge hang on where the buyer is?
    #[must_use]
    pub fn asks_regions(&self) -> bool {
        !self.usual.regions.is_empty() || !self.named_regions().is_empty()
    }

    /// The regions that charges name, each once.
    #[must_use]
    pub fn named_regions(&self) -> Vec<String> {
        let mut named: Vec<String> = Vec::new();
        for region in self.charges.iter().flat_map(|charge| &charge.regions) {
            let region = region.trim();
            if !region.is_empty() && !named.iter().any(|known| known.eq_ignore_ascii_case(region)) {
                named.push(region.to_owned());
            }
        }
        named
    }

    /// Adds a row for a region: the next one that a charge names and no row has yet.
    pub fn add_usual_region(&mut self) {
        if self.usual.regions.len() >= MAX_NAMED {
            return;
        }
        let rows = &self.usual.regions;
        let is_free = |name: &String| rows.iter().all(|row| !row.name.eq_ignore_ascii_case(name));
        let name = self.named_regions().into_iter().find(is_free);
        self.usual.regions.push(RegionForm {
            name: name.unwrap_or_default(),
            share: String::new(),
        });
    }
}
