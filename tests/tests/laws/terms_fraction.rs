//! Exact fractions, for the model of the terms.

/// A fraction with a positive denominator.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fraction(i128, i128);

impl Fraction {
    pub const NOTHING: Self = Self(0, 1);

    pub fn new(over: i128, under: i128) -> Self {
        let common = common_divisor(over.abs(), under);
        Self(over / common, under / common)
    }

    pub fn whole(number: i128) -> Self {
        Self(number, 1)
    }

    pub fn plus(self, other: Self) -> Self {
        let common = common_divisor(self.1, other.1);
        let (mine, theirs) = (other.1 / common, self.1 / common);
        Self::new(self.0 * mine + other.0 * theirs, self.1 * mine)
    }

    pub fn minus(self, other: Self) -> Self {
        self.plus(Self(-other.0, other.1))
    }

    /// So many millionths of it.
    pub fn part(self, rate: i128) -> Self {
        let rate = Self::new(rate, 1_000_000);
        let (left, right) = (Self::new(self.0, rate.1), Self::new(rate.0, self.1));
        Self::new(left.0 * right.0, left.1 * right.1)
    }

    pub fn is_under(self, other: Self) -> bool {
        self.minus(other).0 < 0
    }

    /// To the nearest whole, exactly half away from nothing.
    pub fn rounded(self) -> i128 {
        let size = self.0.abs();
        let (whole, rest) = (size / self.1, size % self.1);
        (whole + i128::from(2 * rest >= self.1)) * self.0.signum()
    }

    /// Is it no further than this from a whole number?
    pub fn is_within(self, gap: i128, number: i128) -> bool {
        (self.0 - number * self.1).abs() <= gap * self.1
    }
}

/// By Euclid. The second is over nothing.
fn common_divisor(mut a: i128, mut b: i128) -> i128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}
