//! Exact decimal sums for the few places that need them, so that bare operators on decimals stay out of the rest.

use rust_decimal::Decimal;

/// The exact product, or `None` when it doesn't fit 28 digits.
pub fn product(left: Decimal, right: Decimal) -> Option<Decimal> {
    let exact = left.checked_mul(right)?;
    // A product with more than 28 decimals is rounded by the library; it is exact only when no decimal was dropped.
    let scale = left.normalize().scale() + right.normalize().scale();
    (exact.is_zero() || scale <= Decimal::MAX_SCALE).then(|| exact.normalize())
}
