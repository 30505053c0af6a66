//! Parcels: sizes, volumetric weights, and what the scale's figure is billed as.

#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

use haulwren_core::measure::{Direction, Length, ParcelSize, Volume, Weight, WeightUnit};
use haulwren_core::money::product;
use haulwren_core::postage::{Refused, Rounding, Service, Step, Volumetric, billable};
use rust_decimal::Decimal;

fn size(text: &str) -> ParcelSize {
    text.parse().unwrap()
}

fn weight(text: &str) -> Weight {
    text.parse().unwrap()
}

fn ticks(text: &str) -> u64 {
    text.parse::<Length>().unwrap().ticks()
}

fn volumetric(per: &str, step: &str, of: &str) -> String {
    let rule = Volumetric {
        per: per.parse().unwrap(),
        each: weight(step).unit(),
        rounding: Rounding {
            step: weight(step),
            direction: Direction::Up,
        },
        over: None,
    };
    rule.weight(size(of)).unwrap().to_string()
}

/// Air-cargo rule, 6000 cm³ a kilogram (S2, R): 30 × 45 × 65 cm is 14.625 kg.
#[test]
fn volumetric_weight_by_the_air_cargo_rule() {
    assert_eq!(
        volumetric("6000 cm3", "0.001 kg", "30 x 45 x 65 cm"),
        "14.625 kg"
    );
    assert_eq!(volumetric("6000 cm3", "0.5 kg", "65 x 30 x 45 cm"), "15 kg");
}

/// Recomputed (R): 6000 cm³ a kilogram is 166.0794282612 cubic inches a pound, so 166 is another rule. 41 × 27 × 3 in is 20.006
/// by the one and 19.996 by the other.
#[test]
fn a_divisor_of_166_is_another_rule() {
    assert_eq!(volumetric("166 in3", "1 lb", "41 x 27 x 3 in"), "21 lb");
    assert_eq!(
        volumetric("166.0794 in3", "1 lb", "41 x 27 x 3 in"),
        "20 lb"
    );
    // 6000 cm³ by 16.387064 and by the 0.45359237 of a kilogram, in 10^-10 cubic inches.
    let per_pound = 6_000_u128 * 453_592_370 * 10_000_000_000 / 16_387_064_000;
    assert_eq!(per_pound, 1_660_794_282_612);
}

/// NIST SP 811, appendix B.8 (M): in³ 16.387064 cm³, US gallon of 231 in³ 3785.411784 cm³, cubic foot of 1728 in³
/// 28316.846592 cm³.
#[test]
fn volumes_are_exact() {
    let table = [
        ("1 in3", "16.387064"),
        ("231 in3", "3785.411784"),
        ("1728 in3", "28316.846592"),
    ];
    for (text, cubic_centimetres) in table {
        let volume: Volume = text.parse().unwrap();
        let expected: Decimal = cubic_centimetres.parse().unwrap();
        assert_eq!(
            Some(volume.in_base()),
            product(expected, Decimal::ONE_THOUSAND),
            "{text}"
        );
    }
    assert_eq!(
        size("12 x 12 x 12 in").volume(),
        "1728 in3".parse::<Volume>().unwrap().ticks()
    );
    assert_eq!(
        size("11 x 7 x 3 in").volume(),
        "231 in3".parse::<Volume>().unwrap().ticks()
    );
}

/// Length and girth (S, US Navy postal manual 14317: the longest side and twice the others): 105 × 25 × 22.5 cm is 200 cm exactly.
#[test]
fn length_and_girth_is_exact_in_all_six_orders() {
    for text in [
        "105x25x22.5 cm",
        "105x22.5x25 cm",
        "25x105x22.5 cm",
        "25x22.5x105 cm",
        "22.5x105x25 cm",
        "22.5x25x105 cm",
    ] {
        assert_eq!(size(text).length_and_girth(), ticks("200 cm"), "{text}");
    }
}

/// Common practice, no source: 5.3 oz on a card of 4, 8, 12 and 16 oz is billed at 8 oz.
#[test]
fn between_two_steps_the_upper_one_is_billed() {
    let mut service = Service::new("Parcel", WeightUnit::Ounce);
    for up_to in ["4 oz", "8 oz", "12 oz", "16 oz"] {
        service.steps.push(Step {
            up_to: weight(up_to),
            prices: Vec::new(),
        });
    }
    let billed = |text: &str| billable(weight(text), None, &service).map(|found| found.to_string());
    assert_eq!(billed("5.3 oz"), Ok("8 oz".to_owned()));
    assert_eq!(billed("4 oz"), Ok("4 oz".to_owned()));
    assert_eq!(billed("1 lb"), Ok("16 oz".to_owned()));
    // NIST SP 811 (M): 453.59237 g are a pound, so 453.6 g are over it.
    assert_eq!(billed("453.5923 g"), Ok("16 oz".to_owned()));
    assert_eq!(
        billed("453.6 g"),
        Err(Refused::TooHeavy {
            most: weight("16 oz")
        })
    );
}

/// Common practice, no source: a weight to the nearest pound, up or down: 2 lb 7 oz is 2, 2 lb 9 oz is 3.
#[test]
fn the_nearest_pound_goes_up_or_down() {
    let mut service = Service::new("Handover", WeightUnit::Pound);
    service.rounding = Some(Rounding {
        step: weight("1 lb"),
        direction: Direction::Nearest,
    });
    for up_to in ["1 lb", "2 lb", "3 lb"] {
        service.steps.push(Step {
            up_to: weight(up_to),
            prices: Vec::new(),
        });
    }
    let billed = |text: &str| billable(weight(text), None, &service).unwrap().to_string();
    assert_eq!(billed("39 oz"), "2 lb");
    assert_eq!(billed("41 oz"), "3 lb");
}
