//! Estimates over time: a smoothed level with a band, and what counts as a
//! change.
//!
//! Start at [`trend`] for the picture and [`change`] for the verdict. A change
//! smaller than strength tests scatter is no change.

use crate::calendar::Day;
use crate::units::Load;

/// Scatter of a repeated 1RM test, tenths of a percent: median coefficient of
/// variation 4.2 % (Grgic et al. 2020, Sports Med Open 6:31).
pub const TEST_PERMILLE: u32 = 42;
/// Scatter of an estimated 1RM, tenths of a percent: the test's 4.2 % and an
/// equation error of 4 % together (arithmetic on Grgic et al. 2020 and the
/// spread of the equations).
pub const ESTIMATE_PERMILLE: u32 = 58;
/// Normal quantile of a 95 % band (definition).
const Z95: f64 = 1.96;
/// Weight of the newest estimate in the level (common practice, no source).
const NEWEST: f64 = 0.3;

/// An estimate, the level it belongs to and the band of that level.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TrendPoint {
    /// The day.
    pub day: Day,
    /// The estimate of the day.
    pub estimate: Load,
    /// The smoothed level.
    pub level: Load,
    /// Lower edge of its 95 % band.
    pub low: Load,
    /// Upper edge of its 95 % band.
    pub high: Load,
}

/// Whether something changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// Up by more than the scatter.
    Up,
    /// Down by more than the scatter.
    Down,
    /// Within the scatter: not known.
    Unclear,
}

/// The level of a series of estimates, earlier first: exponentially weighted,
/// with the band its scatter leaves. Estimates of nought are passed over.
#[must_use]
pub fn trend(estimates: &[(Day, Load)]) -> Vec<TrendPoint> {
    let mut points: Vec<TrendPoint> = Vec::new();
    // The level in grams, and the sum of its squared weights.
    let mut state: Option<(f64, f64)> = None;
    for &(day, estimate) in estimates.iter().filter(|(_, load)| *load > Load::ZERO) {
        let grams = grams(estimate);
        let (level, squares) = match state {
            None => (grams, 1.0),
            Some((level, squares)) => (
                level + NEWEST * (grams - level),
                NEWEST * NEWEST + (1.0 - NEWEST) * (1.0 - NEWEST) * squares,
            ),
        };
        state = Some((level, squares));
        let half = level * Z95 * f64::from(ESTIMATE_PERMILLE) / 1000.0 * squares.sqrt();
        points.push(TrendPoint {
            day,
            estimate,
            level: load(level),
            low: load(level - half),
            high: load(level + half),
        });
    }
    points
}

/// The smallest difference that 95 times in 100 is no scatter, tenths of a
/// percent, between the means of `before` and `after` measurements that each
/// scatter by `permille`. `None` where one side has none.
#[must_use]
pub fn detectable_permille(permille: u32, before: usize, after: usize) -> Option<u32> {
    if before == 0 || after == 0 {
        return None;
    }
    #[expect(clippy::cast_precision_loss, reason = "counts of sessions")]
    let spread = (1.0 / before as f64 + 1.0 / after as f64).sqrt();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a small positive number"
    )]
    let detectable = (Z95 * f64::from(permille) * spread).round() as u32;
    Some(detectable)
}

/// Whether the mean of the later estimates differs from that of the earlier
/// ones by more than estimates scatter.
#[must_use]
pub fn change(before: &[Load], after: &[Load]) -> Change {
    let Some(detectable) = detectable_permille(ESTIMATE_PERMILLE, before.len(), after.len()) else {
        return Change::Unclear;
    };
    let mean = |loads: &[Load]| {
        let sum: i64 = loads.iter().map(|load| load.grams()).sum();
        sum / i64::try_from(loads.len()).unwrap_or(i64::MAX)
    };
    let (from, to) = (mean(before), mean(after));
    let margin = from * i64::from(detectable);
    if (to - from) * 1000 > margin {
        Change::Up
    } else if (from - to) * 1000 > margin {
        Change::Down
    } else {
        Change::Unclear
    }
}

#[expect(clippy::cast_precision_loss, reason = "at most a million grams")]
fn grams(load: Load) -> f64 {
    load.grams() as f64
}

#[expect(clippy::cast_possible_truncation, reason = "about a million grams")]
fn load(grams: f64) -> Load {
    Load::clamped(grams.round() as i64)
}
