//! The opening offer.

use super::Ceiling;
use crate::money::{Currency, Money, down_to_step, nearest_step_of};

/// The lower of half the ceiling and two thirds of the ask, to the nearest whole coin (a tie goes up), and never over the
/// ceiling shown. `None` where that is nothing, or not under the ask. A coin is one whole unit of the currency, or the
/// cash step where that is greater. The rule is common practice, no source.
pub(super) fn opening(
    ceiling: &Ceiling,
    ask: Money,
    step: Money,
    currency: Currency,
) -> Option<Money> {
    let coin = currency.unit().max(step);
    let half = nearest_step_of(ceiling.exact, 1, 2, coin);
    let two_thirds = nearest_step_of(ask, 2, 3, coin);
    // Rounding keeps the order, so the lower of the two rounded is the lower one rounded.
    let offer = half.min(two_thirds).min(down_to_step(ceiling.shown, coin));
    (offer > Money::ZERO && offer < ask).then_some(offer)
}
