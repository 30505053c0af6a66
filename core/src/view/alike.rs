//! What alike things of the book are thought to sell for, to stand beside a price that has to be chosen.

use crate::book::{State, Thing};
use crate::change::RecordKey;
use crate::id::ThingId;
use crate::kind::RecordKind;
use crate::money::Money;
use crate::worth::Sells;

/// Alike things with a price: the last ones bought, dearest first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alike {
    /// In what they are alike, in words.
    pub words: &'static str,
    /// What each is called, and its likely price.
    pub prices: Vec<(String, Money)>,
    /// The price in their middle; of an even number, half-way between the two there.
    pub middle: Money,
}

/// So many are looked at: old prices tell little.
const MOST: usize = 5;

/// The things that are alike to one whose price is in dispute: of its kind, or, where it has none, of its name. `None` for any other field,
/// and when there is none alike.
pub(super) fn alike(state: &State, record: &RecordKey, field: &str) -> Option<Alike> {
    if (&record.kind, field) != (&RecordKind::Thing, "sells") {
        return None;
    }
    let it = state.thing(ThingId(record.id))?;
    let is_alike = |other: &Thing| match (it.kind, &it.name, &other.name) {
        (Some(kind), ..) => other.kind == Some(kind),
        (None, Some(name), Some(other)) => name.eq_ignore_ascii_case(other),
        _ => false,
    };
    let others = state.things().rev();
    let others = others.filter(|(id, other)| id.0 != record.id && is_alike(other));
    let with_price = others.filter_map(|(_, other)| {
        let likely = other.sells.map(Sells::likely)?;
        Some((other.name.clone().unwrap_or_default(), likely))
    });
    let mut prices: Vec<(String, Money)> = with_price.take(MOST).collect();
    prices.sort_by_key(|(_, price)| std::cmp::Reverse(*price));
    Some(Alike {
        words: if it.kind.is_some() {
            "Others of its kind"
        } else {
            "Others of that name"
        },
        middle: middle(&prices)?,
        prices,
    })
}

fn middle(sorted: &[(String, Money)]) -> Option<Money> {
    let at = |place: usize| sorted.get(place).map(|(_, price)| price.minor());
    let two = [
        at(sorted.len() / 2)?,
        at(sorted.len().saturating_sub(1) / 2)?,
    ];
    Some(Money::new(two.iter().sum::<i64>() / 2))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::{Bought, Command, Purchase};
    use crate::id::KindId;
    use crate::view::kit::Kit;

    fn bought(kit: &mut Kit, name: &str, kind: Option<KindId>, price: Option<i64>) -> RecordKey {
        let sells = price.map(|price| Sells::new(None, Money::new(price), None).expect("a price"));
        let thing = Bought {
            name: name.to_owned(),
            kind,
            sells,
            ..Bought::default()
        };
        kit.tell(&Command::Buy(Purchase::of_one(Money::new(1_00), thing)))[1].record()
    }

    #[test]
    fn a_price_stands_beside_those_of_its_kind_or_its_name() {
        let mut kit = Kit::quayside();
        let kinds: Vec<KindId> = kit.state.kinds().iter().map(|kind| kind.id).collect();
        for price in [14_00, 19_00, 16_50, 12_00, 20_00] {
            bought(&mut kit, "wool coat", Some(kinds[0]), Some(price));
        }
        bought(&mut kit, "wool coat", Some(kinds[1]), Some(5_00));
        bought(&mut kit, "Jug", None, Some(8_00));
        bought(&mut kit, "jug", None, None);
        let coat = bought(&mut kit, "duffle", Some(kinds[0]), Some(18_00));
        let jug = bought(&mut kit, "jug", None, Some(3_00));

        let beside = |record, field| alike(&kit.state, record, field);
        let prices = |found: &Alike| -> Vec<i64> {
            found
                .prices
                .iter()
                .map(|(_, price)| price.minor())
                .collect()
        };
        let coats = beside(&coat, "sells").expect("five coats");
        assert_eq!(prices(&coats), [20_00, 19_00, 16_50, 14_00, 12_00]);
        assert_eq!(
            (coats.words, coats.middle),
            ("Others of its kind", Money::new(16_50))
        );
        let jugs = beside(&jug, "sells").expect("one jug with a price");
        assert_eq!(
            (prices(&jugs), jugs.words),
            (vec![8_00], "Others of that name")
        );
        assert_eq!(beside(&jug, "name"), None);

        bought(&mut kit, "wool coat", Some(kinds[0]), Some(17_00));
        let coats = alike(&kit.state, &coat, "sells").expect("six coats");
        assert_eq!(coats.prices.len(), MOST);
    }

    #[test]
    fn the_middle_of_two_lies_half_way() {
        let of = |prices: &[i64]| {
            let all: Vec<_> = prices
                .iter()
                .map(|p| (String::new(), Money::new(*p)))
                .collect();
            middle(&all).map(Money::minor)
        };
        assert_eq!(of(&[]), None);
        assert_eq!(of(&[9]), Some(9));
        assert_eq!(of(&[20, 10]), Some(15));
        assert_eq!(of(&[20, 12, 1]), Some(12));
        assert_eq!(of(&[20, 13, 10, 1]), Some(11));
    }
}
