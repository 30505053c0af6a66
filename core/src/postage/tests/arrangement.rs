//! Arrangements: their lines, one by one.

use super::*;

const COST: Money = Money::new(450);

fn weight(text: &str) -> Option<Weight> {
    text.parse().ok()
}

fn bands() -> LabelPrice {
    LabelPrice::Bands(vec![
        (weight("8 oz").unwrap(), Money::new(400)),
        (weight("1 lb").unwrap(), Money::new(555)),
    ])
}

#[test]
fn postage_in_and_out_are_separate_lines() {
    let check = |arrangement: Arrangement, order, paid_in, out| {
        let posting = arrangement.posting(Some(COST), weight("9 oz"), Money::new(order));
        let posting = posting.unwrap();
        assert_eq!(
            (posting.paid_in.minor(), posting.out.minor()),
            (paid_in, out),
            "{arrangement:?}"
        );
    };
    check(Arrangement::HandedOver, 2600, 0, 0);
    check(Arrangement::BuyerAtCost, 2600, 450, 450);
    check(Arrangement::SellerPays, 2600, 0, 450);
    check(Arrangement::Stated(Money::new(500)), 2600, 500, 450);
    let flat = LabelPrice::Flat(Money::new(399));
    let label = |price, payer| Arrangement::Label { price, payer };
    check(label(flat.clone(), Payer::Buyer), 2600, 399, 399);
    check(label(flat.clone(), Payer::Seller), 2600, 0, 399);
    // Half of 3.99 is 1.995: the buyer's 2.00, the seller's 1.99.
    let half = Payer::Shared(Rate::percent(50));
    check(label(flat, half), 2600, 200, 399);
    check(label(bands(), Payer::Buyer), 2600, 555, 555);
    let free = |below| Arrangement::FreeFrom {
        sum: Money::new(5000),
        below: Box::new(below),
    };
    check(free(Arrangement::BuyerAtCost), 4999, 450, 450);
    check(free(Arrangement::BuyerAtCost), 5000, 0, 450);
    check(free(Arrangement::Stated(Money::new(300))), 4999, 300, 450);
    check(free(label(bands(), Payer::Buyer)), 6000, 0, 555);
    check(free(Arrangement::HandedOver), 100, 0, 0);
}

#[test]
fn only_what_is_needed_has_to_be_known() {
    let label = |price| Arrangement::Label {
        price,
        payer: Payer::Buyer,
    };
    let check = |arrangement: Arrangement, weight, expected: Result<i64, NoPosting>| {
        let found = arrangement.posting(None, weight, Money::ZERO);
        let found = found.map(|posting| posting.out.minor());
        assert_eq!(found, expected, "{arrangement:?}");
    };
    check(Arrangement::HandedOver, None, Ok(0));
    check(Arrangement::BuyerAtCost, None, Err(NoPosting::NoCost));
    check(Arrangement::Stated(COST), None, Err(NoPosting::NoCost));
    check(label(LabelPrice::Flat(COST)), None, Ok(450));
    check(label(bands()), None, Err(NoPosting::NoWeight));
    check(label(bands()), weight("16 oz"), Ok(555));
    let most = weight("1 lb").unwrap();
    check(
        label(bands()),
        weight("16.0001 oz"),
        Err(NoPosting::TooHeavy { most }),
    );
}

#[test]
fn a_faulty_arrangement_is_refused() {
    let check = |arrangement: Arrangement, expected| assert_eq!(arrangement.check(), expected);
    let label = |bands| Arrangement::Label {
        price: LabelPrice::Bands(bands),
        payer: Payer::Buyer,
    };
    let pound = weight("1 lb").unwrap();
    check(Arrangement::Stated(COST), Ok(()));
    check(
        Arrangement::Stated(Money::new(-1)),
        Err(ArrangementError::Amount),
    );
    check(label(vec![]), Err(ArrangementError::Bands));
    check(label(vec![(pound, COST)]), Ok(()));
    check(label(vec![(pound, COST); 2]), Err(ArrangementError::Bands));
    check(
        label(vec![(pound, Money::MAX)]),
        Err(ArrangementError::Amount),
    );
    let free = |below| Arrangement::FreeFrom {
        sum: COST,
        below: Box::new(below),
    };
    check(free(Arrangement::SellerPays), Ok(()));
    check(
        free(free(Arrangement::SellerPays)),
        Err(ArrangementError::Nested),
    );
    check(
        free(Arrangement::Stated(Money::new(-1))),
        Err(ArrangementError::Amount),
    );
}
