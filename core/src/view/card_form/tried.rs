//! A parcel tried on a card: what each service asks for it, or why it doesn't take it.

use crate::measure::{MeasureError, ParcelSize, Unit, Weight};
use crate::money::{Currency, plain};
use crate::postage::{Hint, MAX_ZONES, Over, Parcel, Quote, RateCard, To, What, quote};
use crate::view::measures::{Units, typed, typed_size};

/// A parcel as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TriedParcel {
    /// Its weight.
    pub weight: String,
    /// Its three sides; all empty when its size isn't known.
    pub sides: [String; 3],
    /// The zone, by its place; `None` while the buyer is unknown.
    pub zone: Option<usize>,
    /// A container at a flat price, by its name; empty for none.
    pub container: String,
}

/// What a service says to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// The service's name.
    pub service: String,
    /// Its quote, or why there is none.
    pub quote: Result<Quote, String>,
    /// Whether no other service asks less.
    pub is_best: bool,
}

impl TriedParcel {
    /// The parcel that is typed, in the units of the card's first service.
    ///
    /// # Errors
    /// What is wrong with it, as a sentence.
    pub fn read(&self, card: &RateCard) -> Result<(Weight, Option<ParcelSize>), String> {
        let unit = card
            .services
            .first()
            .map_or("oz", |first| first.unit.symbol());
        let length = card
            .services
            .first()
            .map_or("in", |first| Units::of(first.unit).length);
        let weight = typed(&self.weight, unit);
        let weight = weight.map_err(|error: MeasureError| format!("Weight: {error}"))?;
        if self.sides.iter().all(|side| side.trim().is_empty()) {
            return Ok((weight, None));
        }
        let size = typed_size(&self.sides, length);
        let size = size.map_err(|error| format!("Size: {error}"))?;
        Ok((weight, Some(size)))
    }
}

/// What each service of a card says to a parcel.
///
/// # Errors
/// What is wrong with the parcel as typed.
pub fn told(card: &RateCard, tried: &TriedParcel) -> Result<Vec<Told>, String> {
    let (weight, size) = tried.read(card)?;
    let container = (!tried.container.is_empty()).then_some(tried.container.as_str());
    let parcel = Parcel {
        weight,
        size,
        container,
    };
    let to = tried
        .zone
        .filter(|zone| *zone < MAX_ZONES)
        .map_or(To::Mix, To::Zone);
    let mut all = Vec::with_capacity(card.services.len());
    let mut least = None;
    for service in &card.services {
        let quote = quote(card, service, &parcel, to).map_err(|refused| refused.to_string());
        if let Ok(quote) = &quote {
            least = Some(least.map_or(quote.total, |least| quote.total.min(least)));
        }
        all.push(Told {
            service: service.name.clone(),
            quote,
            is_best: false,
        });
    }
    for told in &mut all {
        let total = told.quote.as_ref().ok().map(|quote| quote.total);
        told.is_best = total.is_some() && total == least;
    }
    Ok(all)
}

impl What {
    /// What a line of a quote is for, in words.
    pub fn words(&self) -> String {
        match self {
            Self::UpTo(weight) => format!("Up to {weight}"),
            Self::Flat(container) => format!("{container}, flat price"),
            Self::Surcharge(over) => match over {
                Over::Longest(most) => format!("Longest side over {most}"),
                Over::LengthAndGirth(most) => format!("Length and girth over {most}"),
                Over::Volume(most) => format!("Over {most}"),
            },
        }
    }
}

impl Hint {
    /// The hint as a sentence.
    pub fn sentence(&self, currency: Currency) -> String {
        match self {
            Self::Under {
                room,
                more: Some(more),
            } => format!(
                "{room} under the next step, which costs {} more.",
                plain(*more, currency)
            ),
            Self::Under { room, more: None } => {
                format!("{room} under the most that is taken.")
            }
            Self::Over { by, saves } => {
                format!("{by} less, and it costs {} less.", plain(*saves, currency))
            }
        }
    }
}
