//! How a thing would be packed and posted: the cheapest container, and the rate card.

use crate::id::CardId;
use crate::measure::{ParcelSize, System, Weight};
use crate::money::{Currency, Money, plain};
use crate::packing::{Container, Fit, NODES, Piece, cheapest};
use crate::postage::{Hint, Parcel, Quote, RateCard, To, best};

/// How a parcel would be sent.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Posted {
    /// What it costs to post; `None` when nothing tells.
    pub postage: Option<Money>,
    /// What its packing costs.
    pub packing: Money,
    /// What the packed parcel weighs.
    pub weight: Option<Weight>,
    /// What it is packed in.
    pub container: Option<String>,
    /// Whether it goes as it is, since none of the book's containers takes it.
    pub loose: bool,
    /// The units that weights are shown in.
    pub units: System,
    /// Carrier's card and service.
    pub service: Option<String>,
    /// The version of the card.
    pub card: Option<CardId>,
    /// The weight that is billed, and whether it is by volume.
    pub billed: Option<(Weight, bool)>,
    /// What it costs to the far zone, when that is more.
    pub far: Option<Money>,
    /// How near the next step is.
    pub hint: Option<Hint>,
    /// Whether it rests on rough figures.
    pub rough: bool,
    /// What nobody said.
    pub unsaid: Unsaid,
    /// Why no service takes it, as a sentence.
    pub refused: Option<String>,
    /// For how many days nobody looked whether the card's prices still hold, when that is long.
    pub stale: Option<u32>,
}

/// What nobody said: neither here, nor by a card, nor of the venue.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Unsaid {
    /// What it costs to post.
    pub postage: bool,
    /// What its packing costs.
    pub packing: bool,
}

impl Posted {
    /// How it is sent, in lines: what it is packed in, by which service, what is billed, how near the next step is.
    #[must_use]
    pub fn lines(&self, currency: Currency) -> Vec<String> {
        let show = |money| plain(money, currency);
        let mut lines = Vec::new();
        let packed = match (&self.container, self.weight) {
            (Some(container), Some(weight)) => {
                Some(format!("{container}, {} with it.", self.said(weight)))
            }
            (None, Some(weight)) => Some(format!("It weighs {}.", self.said(weight))),
            (container, None) => container.clone(),
        };
        lines.extend(packed);
        if self.loose {
            lines.push("None of your containers takes it: it goes as it is.".to_owned());
        }
        if let (Some(service), Some((billed, by_volume))) = (&self.service, self.billed) {
            let why = if by_volume { ", by its volume" } else { "" };
            let billed = self.said(billed);
            lines.push(format!("{service}: billed as {billed}{why}."));
        }
        if let Some(far) = self.far {
            lines.push(format!("To the far zone it costs {}.", show(far)));
        }
        match self.hint {
            Some(Hint::Under {
                room,
                more: Some(more),
            }) => {
                let room = self.said(room);
                lines.push(format!(
                    "{room} under the next step, which costs {} more.",
                    show(more)
                ));
            }
            Some(Hint::Under { room, more: None }) => {
                let room = self.said(room);
                lines.push(format!("{room} under the most that this service takes."));
            }
            Some(Hint::Over { by, saves }) => {
                let by = self.said(by);
                lines.push(format!("{by} less and it costs {} less.", show(saves)));
            }
            None => {}
        }
        lines.extend(self.refused.clone());
        lines
    }

    /// A weight in the book's units.
    fn said(&self, weight: Weight) -> String {
        weight.near(self.units)
    }

    /// The same in a few words: "9 oz, mailer".
    #[must_use]
    pub fn short(&self) -> String {
        let weight = self.weight.map(|weight| self.said(weight));
        let loose = self.loose.then(|| "fits no container".to_owned());
        let parts = [weight, self.container.clone(), loose];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// The cheapest way by a card. Without containers in the book, the thing goes as it is, in the usual packing.
pub(super) fn by_card(
    card: &RateCard,
    piece: Piece,
    containers: &[Container],
    usual: Money,
) -> Posted {
    let far = card
        .services
        .iter()
        .map(|service| service.zones.len())
        .max();
    let to = if card.mix.is_empty() {
        To::Zone(far.unwrap_or(1).saturating_sub(1))
    } else {
        To::Mix
    };
    let quoted = |weight: Weight, size: ParcelSize, container: Option<&str>| {
        let size = Some(size);
        let parcel = Parcel {
            weight,
            size,
            container,
        };
        best(card, &parcel, to)
    };
    let mut ask = |weight: Weight, size: ParcelSize, container: &Container| {
        let found = quoted(weight, size, Some(&container.name));
        found.ok().map(|(_, quote)| quote.total)
    };
    let (weight, size, name, packing, may_fit) =
        match cheapest(&[piece], containers, NODES, &mut ask) {
            Some(choice) => {
                let name = containers[choice.container].name.clone();
                let may_fit = choice.fit == Fit::MayFit;
                (choice.weight, choice.size, Some(name), choice.cost, may_fit)
            }
            None => (piece.weight, piece.size, None, usual, false),
        };
    let loose = name.is_none() && !containers.is_empty();
    match quoted(weight, size, name.as_deref()) {
        Ok((service, quote)) => Posted {
            rough: quote.rough || may_fit || loose,
            loose,
            ..found(card, service, &quote, weight, packing, name)
        },
        Err(refusals) => Posted {
            packing,
            weight: Some(weight),
            container: name,
            loose,
            refused: refusals.first().map(ToString::to_string),
            ..Posted::default()
        },
    }
}

fn found(
    card: &RateCard,
    service: usize,
    quote: &Quote,
    weight: Weight,
    packing: Money,
    container: Option<String>,
) -> Posted {
    let service = card
        .services
        .get(service)
        .map(|service| service.name.as_str());
    Posted {
        postage: Some(quote.total),
        packing,
        weight: Some(weight),
        container,
        service: service.map(|service| format!("{}, {service}", card.name)),
        billed: Some((quote.billable, quote.by_volume)),
        far: quote.far.filter(|far| *far > quote.total),
        hint: quote.hint,
        ..Posted::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::packing::{Form, Fragility};

    fn posted(inside: &str) -> Posted {
        let steps = ["500 g", "1 kg", "2 kg", "5 kg"]
            .map(|weight| (weight.parse().expect("a weight"), Money::new(4_00)));
        let card = RateCard::rough("Northmail", &steps).expect("a card");
        let carton = Container {
            name: "carton".to_owned(),
            tare: "150 g".parse().expect("a weight"),
            cost: Money::new(60),
            inside: inside.parse().expect("a size"),
            form: Form::Carton,
        };
        let piece = Piece {
            size: "33 x 20 x 12 cm".parse().expect("a size"),
            weight: "1250 g".parse().expect("a weight"),
            soft: false,
            fragility: Fragility::Sturdy,
        };
        Posted {
            units: System::GramsCentimetres,
            ..by_card(&card, piece, &[carton], Money::new(30))
        }
    }

    #[test]
    fn what_fits_no_container_is_said() {
        let packed = posted("33 x 20 x 12 cm");
        assert_eq!(
            (packed.short().as_str(), packed.loose),
            ("1400 g, carton", false)
        );
        let loose = posted("32 x 20 x 12 cm");
        assert_eq!(loose.short(), "1250 g, fits no container");
        assert!(loose.rough && loose.loose);
        let said = "None of your containers takes it: it goes as it is.";
        assert!(
            loose
                .lines(Currency::from_code("EUR").expect("a currency"))
                .contains(&said.to_owned())
        );
    }
}
