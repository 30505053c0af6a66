//! What is filled from a setup reads as that setup, and faults stand at their fields.

use super::*;

#[test]
fn what_is_filled_from_a_setup_reads_as_that_setup() {
    let check = |setup: &VenueSetup, is_plain| {
        let form = VenueForm::from_setup(setup, usd());
        assert_eq!(form.is_plain(), is_plain, "{form:?}");
        assert_eq!(form.read(usd()).as_ref(), Ok(setup));
        let again: VenueForm = json::read(&json::write(&form)).unwrap();
        assert_eq!(again, form);
    };
    let share = |base| Charge::percent("Share of the sale", Rate::percent(10), base);
    let flat = || Charge::flat("Flat charge", Money::new(25));
    check(&setup(vec![]), true);
    check(&setup(vec![share(Base::Price)]), true);
    check(&setup(vec![flat()]), true);
    check(&setup(vec![share(Base::PriceAndPost), flat()]), true);
    check(&setup(vec![flat(), share(Base::Price)]), false);
    check(&setup(vec![Charge::flat("Listing", Money::new(25))]), false);
    check(
        &setup(vec![share(Base::OrderTotal(Rate::percent(8)))]),
        false,
    );
    check(&rich(), false);
}

#[test]
fn every_arrangement_reads_as_it_was() {
    let bands = vec![
        (Weight::whole(12, WeightUnit::Ounce), Money::new(4_50)),
        (Weight::whole(1, WeightUnit::Kilogram), Money::new(7_00)),
    ];
    let label = |price, payer| Arrangement::Label { price, payer };
    let free = |below| Arrangement::FreeFrom {
        sum: Money::new(35_00),
        below: Box::new(below),
    };
    for arrangement in [
        Arrangement::SellerPays,
        Arrangement::Stated(Money::ZERO),
        label(LabelPrice::Flat(Money::new(5_50)), Payer::Seller),
        label(LabelPrice::Bands(bands), Payer::Shared(Rate::percent(40))),
        free(Arrangement::BuyerAtCost),
        free(Arrangement::Stated(Money::new(3_95))),
    ] {
        let setup = VenueSetup {
            arrangement,
            ..setup(vec![])
        };
        let form = VenueForm::from_setup(&setup, usd());
        assert_eq!(form.read(usd()), Ok(setup));
    }
}

#[test]
fn faults_stand_at_their_fields() {
    let check = |change: fn(&mut VenueForm), expected: &[(VenueInput, &str)]| {
        let mut form = VenueForm::from_setup(&rich(), usd());
        change(&mut form);
        let found = form.read(usd()).err().unwrap_or_default();
        let found: Vec<_> = found
            .iter()
            .map(|complaint| (complaint.field, complaint.sentence.as_str()))
            .collect();
        assert_eq!(found, expected);
    };
    let step = |row, input| VenueInput::Charge(0, ChargeInput::Step(row, input));
    check(|_| (), &[]);
    check(
        |form| form.charges[0].steps[1].from = "0".to_owned(),
        &[(
            VenueInput::Charge(0, ChargeInput::Table),
            "In the table of charge 1 each step has to begin over the one before.",
        )],
    );
    check(
        |form| form.charges[0].steps[1].percent = "ten".to_owned(),
        &[(step(1, StepInput::Percent), "Numbers only, e.g. 3.50")],
    );
    check(
        |form| form.charges[1].label.clear(),
        &[(
            VenueInput::Charge(1, ChargeInput::Label),
            "Give charge 2 a name.",
        )],
    );
    check(
        |form| form.charges[2].others = 0b100,
        &[(
            VenueInput::Charge(2, ChargeInput::Others),
            "Charge 3 can only be taken of charges before it.",
        )],
    );
    check(
        |form| form.groups[0].charges = 0,
        &[(
            VenueInput::Group(0, GroupInput::Charges),
            "Limit 1 has to name charges that are there.",
        )],
    );
    check(|form| form.choose_bands(true), &[]);
    check(
        |form| {
            form.choose_post(Posts::Label);
            form.choose_bands(true);
            form.post.bands[0].price = "4".to_owned();
            form.post.bands[0].up_to = "12 oz".to_owned();
            form.post.bands.push(form.post.bands[0].clone());
        },
        &[(
            VenueInput::Post(PostInput::Bands),
            "Give each weight band a greater weight than the one before.",
        )],
    );
}
