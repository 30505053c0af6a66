//! What posts take at most, to the last of it and just over it.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::measure::{ParcelSize, Weight, WeightUnit};
use haulwren_core::money::Money;
use haulwren_core::postage::{Limits, Parcel, RateCard, Refused, Service, Step, To, quote};

fn size(text: &str) -> ParcelSize {
    text.parse().unwrap()
}

fn weight(text: &str) -> Weight {
    text.parse().unwrap()
}

fn limited(limits: Limits) -> RateCard {
    let mut service = Service::new("Parcel", WeightUnit::Kilogram);
    service.zones.push("all".to_owned());
    service.steps.push(Step {
        up_to: weight("30 kg"),
        prices: vec![Some(Money::new(1_000))],
    });
    service.limits = limits;
    RateCard {
        name: "Limits".to_owned(),
        services: vec![service],
        ..RateCard::default()
    }
}

fn takes(card: &RateCard, heft: &str, of: &str) -> Result<(), Refused> {
    let parcel = Parcel {
        weight: weight(heft),
        size: Some(size(of)),
        container: None,
    };
    quote(card, &card.services[0], &parcel, To::Zone(0)).map(|_| ())
}

/// What a limit takes to the last, and what is just over it.
type Edges = (Limits, &'static [&'static str], &'static [&'static str]);

fn check((limits, taken, refused): &Edges) {
    let card = limited(*limits);
    for of in *taken {
        assert_eq!(takes(&card, "1 kg", of), Ok(()), "{of}");
    }
    for of in *refused {
        assert!(takes(&card, "1 kg", of).is_err(), "{of}");
    }
}

fn limits(longest: &str, around: Option<&str>, sides: Option<&str>, most: Option<&str>) -> Limits {
    Limits {
        longest: longest.parse().ok(),
        length_and_girth: around.map(|text| text.parse().unwrap()),
        sum_of_sides: sides.map(|text| text.parse().unwrap()),
        heaviest: most.map(weight),
    }
}

/// Universal Postal Union, letter post (S2, three pages that quote it): the three sides together 900 mm, none over 600 mm,
/// 2 kg.
#[test]
fn letters_of_the_postal_union() {
    let rule = limits("600 mm", None, Some("900 mm"), Some("2 kg"));
    check(&(
        rule,
        &[
            "600 x 200 x 100 mm",
            "300 x 300 x 300 mm",
            "229 x 324 x 20 mm",
            "60 x 15 x 15 cm",
        ],
        &[
            "600.1 x 100 x 100 mm",
            "600 x 200 x 100.1 mm",
            "31 x 30 x 30 cm",
        ],
    ));
    let card = limited(rule);
    assert_eq!(takes(&card, "2 kg", "300 x 200 x 20 mm"), Ok(()));
    let most = weight("2 kg");
    assert_eq!(
        takes(&card, "2.0001 kg", "300 x 200 x 20 mm"),
        Err(Refused::TooHeavy { most })
    );
}

/// Universal Postal Union, parcels: no side over 1.05 m (S2, two pages that quote it) and length and girth 2 m (M); or, where larger ones are
/// taken, 1.50 m and 3 m (M).
#[test]
fn parcels_of_the_postal_union() {
    check(&(
        limits("1050 mm", Some("2000 mm"), None, None),
        &[
            "105 x 25 x 22.5 cm",
            "40 x 40 x 40 cm",
            "22.5 x 25 x 105 cm",
        ],
        &[
            "105.01 x 1 x 1 cm",
            "105 x 25 x 22.51 cm",
            "41 x 40 x 40 cm",
        ],
    ));
    check(&(
        limits("1500 mm", Some("3000 mm"), None, None),
        &["150 x 50 x 25 cm", "60 x 60 x 60 cm"],
        &["151 x 1 x 1 cm", "150 x 50 x 26 cm", "61 x 60 x 60 cm"],
    ));
}

/// US Navy postal manual 14317 (S): letter packages to other countries 24 in long and 36 in in all; parcels 42 in, and 79 in of
/// length and girth.
#[test]
fn letter_packages_and_parcels_of_a_military_post() {
    check(&(
        limits("24 in", None, Some("36 in"), Some("4 lb")),
        &["24 x 6 x 6 in", "12 x 12 x 12 in"],
        &["24.1 x 1 x 1 in", "24 x 6 x 6.1 in"],
    ));
    check(&(
        limits("42 in", Some("79 in"), None, None),
        &["42 x 10 x 8.5 in", "15.8 x 15.8 x 15.8 in"],
        &["42.1 x 1 x 1 in", "42 x 10 x 8.6 in"],
    ));
}
