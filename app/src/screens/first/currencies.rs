//! Which currency a new book most likely has, and the order in which all of them are offered.

use haulwren_core::money::Currency;
use leptos::prelude::*;

/// Currencies of regions, from memory; only a first guess, which the trader can change.
const BY_REGION: [(&str, &str); 7] = [
    ("USD", "US EC PA SV"),
    ("GBP", "GB"),
    (
        "EUR",
        "AT BE CY DE EE ES FI FR GR HR IE IT LT LU LV MT NL PT SI SK",
    ),
    ("CAD", "CA"),
    ("AUD", "AU"),
    ("NZD", "NZ"),
    ("JPY", "JP"),
];

/// The currency of the region that the browser's language names, else US dollars.
///
/// # Panics
/// Never: every code here is in the table of the core.
pub fn likely() -> Currency {
    let language = window().navigator().language().unwrap_or_default();
    let region = language
        .rsplit('-')
        .next()
        .unwrap_or_default()
        .to_ascii_uppercase();
    let code = BY_REGION
        .iter()
        .find(|(_, regions)| regions.split(' ').any(|one| one == region))
        .map_or("USD", |(code, _)| code);
    Currency::from_code(code).expect("a code of the table")
}

/// All of them, the common ones first.
pub fn ordered() -> Vec<Currency> {
    let common = BY_REGION
        .iter()
        .filter_map(|(code, _)| Currency::from_code(code).ok());
    let is_common =
        |currency: &Currency| BY_REGION.iter().any(|(code, _)| *code == currency.code());
    common
        .chain(Currency::all().filter(|currency| !is_common(currency)))
        .collect()
}
