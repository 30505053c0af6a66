//! The middle and the slow end of a list of times.

use std::fmt;

/// Times in ms, sorted.
pub struct Times(Vec<f64>);

impl Times {
    pub fn of(mut times: Vec<f64>) -> Self {
        times.sort_by(f64::total_cmp);
        Self(times)
    }

    /// The time that this share of them does not exceed: nearest rank (type 1 of Hyndman and Fan).
    fn quantile(&self, share: f64) -> f64 {
        // Lists here have a few hundred entries at most, so the casts are exact.
        #[allow(
            clippy::cast_precision_loss,
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss
        )]
        let rank = (share * self.0.len() as f64).ceil() as usize;
        self.0.get(rank.max(1) - 1).copied().unwrap_or(f64::NAN)
    }

    /// How many times longer the middle one is than that of another list.
    pub fn ratio(&self, other: &Self) -> f64 {
        self.quantile(0.5) / other.quantile(0.5)
    }
}

impl fmt::Display for Times {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = format!("{:.1} ({:.1})", self.quantile(0.5), self.quantile(0.95));
        out.pad(&text)
    }
}
