//! What is being typed on Decide: texts as the keypad made them, kept through a crash.

use super::keys::pressed;
use crate::id::{KindId, VenueId};
use crate::json::{Object, read_form};
use crate::money::{Currency, Money, MoneyError, parse};
use crate::packing::Heft;
use serde::{Deserialize, Serialize};

/// A field that the keypad types into.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Field {
    /// What the seller wants.
    #[default]
    Ask,
    /// Sells for, low.
    Low,
    /// Sells for, likely.
    Likely,
    /// Sells for, high.
    High,
    /// Postage.
    Postage,
    /// Packing.
    Packing,
    /// What the work costs that it needs.
    Work,
}

impl Field {
    /// All fields.
    pub const ALL: [Self; 7] = [
        Self::Ask,
        Self::Likely,
        Self::Low,
        Self::High,
        Self::Postage,
        Self::Packing,
        Self::Work,
    ];

    /// The field's name on the page and in tests.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ask => "ask",
            Self::Low => "low",
            Self::Likely => "likely",
            Self::High => "high",
            Self::Postage => "postage",
            Self::Packing => "packing",
            Self::Work => "work",
        }
    }

    /// The field that "next" goes to: asking, then the likely price before its low and high. What is said of sending is off the round.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::Ask => Self::Likely,
            Self::Likely => Self::Low,
            Self::Low => Self::High,
            Self::High | Self::Postage | Self::Packing | Self::Work => Self::Ask,
        }
    }
}

/// A key of the keypad that changes the field's text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Press {
    /// A digit, 0 to 9.
    Digit(u8),
    /// The point.
    Point,
    /// The key of half a unit (see [`half_key`]).
    Half,
    /// Takes the last sign away.
    RubOut,
    /// Empties the field.
    Clear,
}

/// What the key of half a unit types: `.50`, or `00` in a currency without decimals.
#[must_use]
pub fn half_key(currency: Currency) -> String {
    match usize::from(currency.exponent()) {
        0 => "00".to_owned(),
        decimals => format!(".{:0<decimals$}", 5),
    }
}

/// Everything typed on Decide.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Object")]
pub struct DecideDraft {
    /// Asking price.
    pub ask: String,
    /// Low price.
    pub low: String,
    /// Likely price.
    pub likely: String,
    /// High price.
    pub high: String,
    /// Postage; empty means the venue's usual one.
    pub postage: String,
    /// Packing; empty means the venue's usual one.
    pub packing: String,
    /// What the work costs that it needs before it can be sold; empty for none.
    pub work: String,
    /// Whether it is sold through a paid promotion, when said of this thing alone.
    pub promoted: Option<bool>,
    /// What the thing is called.
    pub name: String,
    /// The venue to judge this thing on; the usual one when none is chosen.
    pub venue: Option<VenueId>,
    /// What kind of thing it is.
    pub kind: Option<KindId>,
    /// Its size and heft, while its kind is not known.
    pub heft: Option<Heft>,
    /// Whether it is paid for otherwise than in cash.
    pub other: bool,
    /// Where the keypad types.
    pub focus: Field,
    /// Whether everything but the asking price is hidden from the seller.
    pub covered: bool,
    /// Whether the next digit starts the field anew: it has just been stepped into.
    pub fresh: bool,
}

read_form!(DecideDraft: ask low likely high postage packing work promoted name venue kind heft other focus covered fresh);

impl DecideDraft {
    /// The text of a field.
    #[must_use]
    pub fn text(&self, field: Field) -> &str {
        match field {
            Field::Ask => &self.ask,
            Field::Low => &self.low,
            Field::Likely => &self.likely,
            Field::High => &self.high,
            Field::Postage => &self.postage,
            Field::Packing => &self.packing,
            Field::Work => &self.work,
        }
    }

    fn text_mut(&mut self, field: Field) -> &mut String {
        match field {
            Field::Ask => &mut self.ask,
            Field::Low => &mut self.low,
            Field::Likely => &mut self.likely,
            Field::High => &mut self.high,
            Field::Postage => &mut self.postage,
            Field::Packing => &mut self.packing,
            Field::Work => &mut self.work,
        }
    }

    /// Puts a text into a field as it is typed; what is wrong with it shows when it is read.
    pub fn set_text(&mut self, field: Field, text: String) {
        *self.text_mut(field) = text;
    }

    /// The amount in a field; none when it is empty.
    ///
    /// # Errors
    /// When the text is no amount of the currency, with a sentence.
    pub fn amount(&self, field: Field, currency: Currency) -> Result<Option<Money>, MoneyError> {
        match self.text(field) {
            "" => Ok(None),
            text => parse(text, currency).map(Some),
        }
    }

    /// Everything but what is asked and where the keypad stands. Most keys at a table leave this as it is.
    #[must_use]
    pub fn unasked(&self) -> Self {
        Self {
            ask: String::new(),
            focus: Field::default(),
            fresh: false,
            covered: false,
            ..self.clone()
        }
    }

    /// Moves the keypad to a field. A digit typed there first replaces what stands in it.
    pub fn go(&mut self, field: Field) {
        self.focus = field;
        self.fresh = true;
    }

    /// Types one key into the field in focus. A key that would make the text no amount is not taken.
    ///
    /// # Errors
    /// Why the key was not taken, with a sentence.
    pub fn press(&mut self, press: Press, currency: Currency) -> Result<(), MoneyError> {
        let after = pressed(self.text(self.focus), self.fresh, press, currency)?;
        *self.text_mut(self.focus) = after;
        self.fresh = false;
        Ok(())
    }

    /// Whether anything is typed that a reload would lose.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.name.is_empty()
            && self.kind.is_none()
            && self.heft.is_none()
            && Field::ALL.iter().all(|field| self.text(*field).is_empty())
    }

    /// The draft once a purchase is saved: empty, still covered if it was, on the usual venue again. Buy steps into the asking price, so an
    /// asking price that is no longer fresh was typed while the disk was busy: it belongs to the next thing, and stays.
    #[must_use]
    pub fn after_buy(&self) -> Self {
        let typed_since = self.focus == Field::Ask && !self.fresh;
        Self {
            covered: self.covered,
            ask: if typed_since {
                self.ask.clone()
            } else {
                String::new()
            },
            ..Self::default()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(code: &str, presses: &[Press]) -> (String, Option<MoneyError>) {
        let currency = Currency::from_code(code).expect("a currency");
        let mut draft = DecideDraft::default();
        let last = presses
            .iter()
            .map(|press| draft.press(*press, currency).err())
            .last()
            .flatten();
        (draft.ask, last)
    }

    #[test]
    fn keys_spell_amounts_and_refuse_what_is_none() {
        use Press::{Clear, Digit, Half, Point, RubOut};
        let check = |code, presses: &[Press], text: &str, refused: Option<MoneyError>| {
            assert_eq!(
                typed(code, presses),
                (text.to_owned(), refused),
                "{presses:?}"
            );
        };
        check("USD", &[Digit(6)], "6", None);
        check("USD", &[Digit(0), Digit(6)], "6", None);
        check("USD", &[Digit(6), Half], "6.50", None);
        check("USD", &[Half], "0.50", None);
        check("USD", &[Digit(6), Point, Digit(2), Half], "6.50", None);
        check("USD", &[Point, Digit(5)], "0.5", None);
        check(
            "USD",
            &[Digit(6), Point, Point],
            "6.",
            Some(MoneyError::ManyPoints),
        );
        check(
            "USD",
            &[Digit(6), Half, Digit(1)],
            "6.50",
            Some(MoneyError::TooFine { decimals: 2 }),
        );
        check("USD", &[Digit(6), RubOut], "", None);
        check("USD", &[RubOut], "", None);
        check("USD", &[Digit(6), Digit(6), Clear], "", None);
        check("JPY", &[Digit(6), Half], "600", None);
        check("JPY", &[Half], "0", None);
        check("JPY", &[Digit(0), Half, Digit(5)], "5", None);
        check(
            "JPY",
            &[Digit(6), Point],
            "6",
            Some(MoneyError::TooFine { decimals: 0 }),
        );
        check("KWD", &[Digit(6), Half], "6.500", None);
    }

    #[test]
    fn a_field_stepped_into_is_typed_anew_but_rubbed_out_sign_by_sign() {
        let usd = Currency::from_code("USD").expect("a currency");
        let mut draft = DecideDraft {
            ask: "12".into(),
            ..DecideDraft::default()
        };
        draft.go(Field::Ask);
        draft.press(Press::RubOut, usd).expect("taken");
        assert_eq!(draft.ask, "1");
        draft.go(Field::Ask);
        draft.press(Press::Digit(9), usd).expect("taken");
        assert_eq!(draft.ask, "9");
    }

    #[test]
    fn what_is_typed_while_a_purchase_is_saved_belongs_to_the_next_thing() {
        let usd = Currency::from_code("USD").expect("a currency");
        let mut draft = DecideDraft {
            ask: "6".into(),
            likely: "26".into(),
            name: "dress".into(),
            covered: true,
            ..DecideDraft::default()
        };
        draft.go(Field::Ask);
        assert_eq!(draft.after_buy().ask, "");
        draft.press(Press::Digit(7), usd).expect("taken");
        let next = draft.after_buy();
        assert_eq!(
            (next.ask.as_str(), next.likely.as_str(), next.name.as_str()),
            ("7", "", "")
        );
        assert!(next.covered && !next.fresh);
    }

    #[test]
    fn digits_end_where_amounts_do() {
        let (text, last) = typed("USD", &[Press::Digit(9); 18]);
        assert_eq!(last, Some(MoneyError::TooLarge));
        assert_eq!(text, "99999999");
    }
}
