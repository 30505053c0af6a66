//! Charges come, go and move together; shapes can be saved; any price can be tried.

use super::*;

#[test]
fn charges_that_go_or_move_are_followed_by_what_names_them() {
    let mut form = VenueForm::from_setup(&rich(), usd());
    form.move_up(1);
    assert_eq!(
        (form.charges[0].label.as_str(), form.charges[2].others),
        ("Listing", 0b11)
    );
    form.charges[2].others = 0b01;
    form.move_up(1);
    assert_eq!(
        (form.charges[1].label.as_str(), form.charges[2].others),
        ("Listing", 0b10)
    );
    form.remove_charge(0);
    assert_eq!(
        (form.charges[1].others, form.groups[0].charges),
        (0b01, 0b01)
    );
    form.remove_charge(0);
    assert_eq!((form.charges[0].others, form.groups[0].charges), (0, 0));
    form.remove_charge(7);
    form.move_up(0);
    assert_eq!(form.charges.len(), 1);
}

#[test]
fn a_plain_charge_left_empty_is_none_unless_another_is_taken_of_it() {
    let mut form = Shape::TaxOnFees.fill(&VenueForm::default(), usd());
    form.name = "Quayside".to_owned();
    form.charges[0].percent.clear();
    let kept = form.read(usd()).unwrap().schedule;
    assert_eq!(kept.charges[0].amount, Amount::Percent(Rate::ZERO));
    form.charges[2].others = 0b10;
    let kept = form.read(usd()).unwrap().schedule;
    let first = Positions::of(&[1]).unwrap();
    assert_eq!(
        (kept.charges.len(), kept.charges[1].base),
        (2, Base::Charges(first))
    );
    assert_eq!(
        VenueForm::from_setup(&form.read(usd()).unwrap(), usd())
            .read(usd())
            .unwrap()
            .schedule,
        kept
    );
}

#[test]
fn every_shape_can_be_saved_and_says_what_is_kept_of_twenty() {
    let form = VenueForm {
        postage: "4.50".to_owned(),
        packing: "0.30".to_owned(),
        name: "Marlpost".to_owned(),
        ..VenueForm::default()
    };
    let kept = Shape::ALL.map(|shape| {
        let setup = shape.fill(&form, usd()).read(usd()).unwrap();
        let (price, keep) = keeps_of_twenty(&setup, usd());
        assert_eq!(price, Money::new(20_00));
        keep.minor()
    });
    // 20 less 0.30 for packing, less: 12 % of 20; 10 % of 24.50 and 0.25; 15 % of 20; 12 % of 20; nothing, and no packing;
    // the second and 20 % of it; 5 % of 20.
    assert_eq!(kept, [17_30, 17_00, 16_70, 17_30, 20_00, 16_46, 18_70]);
    for code in ["JPY", "KWD"] {
        let currency = Currency::from_code(code).unwrap();
        let form = VenueForm {
            name: "Marlpost".to_owned(),
            ..VenueForm::default()
        };
        for shape in Shape::ALL {
            assert!(
                shape.fill(&form, currency).read(currency).is_ok(),
                "{shape:?} {code}"
            );
        }
    }
}

#[test]
fn any_price_is_tried_with_its_lines_and_the_prices_to_skip() {
    let form = VenueForm {
        name: "Marlpost".to_owned(),
        ..VenueForm::default()
    };
    let mut setup = Shape::FlatThenPercentage
        .fill(&form, usd())
        .read(usd())
        .unwrap();
    let mut trying = Trying {
        sale: Sale::of(Money::new(9_99), Money::ZERO),
        weight: None,
    };
    let tried = trying.at(&setup).unwrap();
    assert_eq!(
        (tried.settled.cut, tried.keep),
        (Money::new(1_50), Money::new(8_49))
    );
    // At 10.00 the cut jumps: 8.50 would be the payout, which is not under 8.49; no price is to be skipped.
    assert!(tried.skip.is_empty());
    setup.schedule.charges[0].amount = Amount::Brackets(vec![
        Step::flat(Money::ZERO, Money::new(1_50)),
        Step::rate(Money::new(10_00), Rate::percent(20)),
    ]);
    let skip = &trying.at(&setup).unwrap().skip[0];
    // 8.49 is paid at 9.99; of 10.60 a fifth is 2.12, which leaves 8.48, and 10.61 leaves 8.49.
    assert_eq!(
        (skip.from, skip.to, skip.better),
        (Money::new(10_00), Money::new(10_60), Money::new(9_99))
    );
    setup.arrangement = Arrangement::Label {
        price: LabelPrice::Bands(vec![(
            Weight::whole(12, WeightUnit::Ounce),
            Money::new(4_50),
        )]),
        payer: Payer::Seller,
    };
    assert_eq!(trying.at(&setup), Err(NoPosting::NoWeight));
    trying.weight = Some(Weight::whole(9, WeightUnit::Ounce));
    assert_eq!(trying.at(&setup).unwrap().keep, Money::new(3_99));
}

/// Free postage from 20.00 once showed nothing to skip: 20.00 pays 3.98 less than 19.99.
#[test]
fn prices_to_skip_walk_price_and_postage_together() {
    let mut setup = setup(vec![Charge::percent(
        "Sale",
        Rate::percent(10),
        Base::PriceAndPost,
    )]);
    setup.arrangement = Arrangement::FreeFrom {
        sum: Money::new(20_00),
        below: Box::new(Arrangement::BuyerAtCost),
    };
    for price in [10_00, 20_00, 30_00] {
        let trying = Trying {
            sale: Sale::of(Money::new(price), Money::ZERO),
            weight: None,
        };
        let tried = trying.at(&setup).unwrap();
        // 19.99 and 4.50 pay 22.04 out; without postage 24.49 does.
        let skip: Vec<_> = tried
            .skip
            .iter()
            .map(|zone| (zone.from, zone.to, zone.better))
            .collect();
        assert_eq!(
            skip,
            [(Money::new(20_00), Money::new(24_48), Money::new(19_99))],
            "{price}"
        );
    }
}
