//! Sums of masses without drift, in 1/100 000 g.
//!
//! A 45 lb plate is stored as 20 412 g but weighs 20 411.657 g. Eight of them
//! and the bar, summed in whole grams, would show as 405.01 lb. Here a load
//! that is a quarter-pound number rounded to grams is taken as that many
//! pounds, summed exactly, and rounded to whole grams once, at the end.
//!
//! This module never decides which loads exist.

use crate::units::{Load, Unit};

/// Parts of a gram the sums are kept in (definition).
const PER_GRAM: i64 = 100_000;
/// A pound in parts (definition: exactly 453.59237 g).
const PER_POUND: i64 = 45_359_237;

/// A mass in 1/100 000 g.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Mass(i64);

impl Mass {
    /// Nothing (definition).
    pub(super) const ZERO: Self = Self(0);

    /// The mass a load stands for.
    pub(super) fn of(load: Load) -> Self {
        let hundredths = load.hundredths(Unit::Lb);
        // Round numbers of kilograms stay kilograms; a quarter pound is the
        // finest plate made.
        let is_pounds = load.grams() % 50 != 0
            && hundredths % 25 == 0
            && Unit::Lb.load_from_hundredths(hundredths) == load;
        if is_pounds {
            Self(hundredths * PER_POUND / 100)
        } else {
            Self(load.grams() * PER_GRAM)
        }
    }

    /// This and another.
    pub(super) const fn plus(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }

    /// So many times this.
    pub(super) const fn times(self, count: i64) -> Self {
        Self(self.0 * count)
    }

    /// Whole grams, nearest; held to the bounds of a load.
    pub(super) fn load(self) -> Load {
        Load::clamped(self.grams())
    }

    /// Whole grams, nearest.
    pub(super) const fn grams(self) -> i64 {
        (self.0 + PER_GRAM / 2).div_euclid(PER_GRAM)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pound_plates_add_up_to_the_pounds_typed() {
        let plate = Load::parse("45", Unit::Lb).unwrap();
        for plates in 1..=20 {
            let sum = Mass::of(plate).times(plates).load();
            let typed = Load::parse(&(45 * plates).to_string(), Unit::Lb).unwrap();
            assert_eq!(sum, typed, "{plates} plates");
        }
    }

    #[test]
    fn kilogram_plates_stay_kilograms() {
        for grams in [250, 500, 1_000, 1_250, 2_500, 20_000, 25_000] {
            let load = Load::clamped(grams);
            assert_eq!(Mass::of(load).times(7).load().grams(), grams * 7);
        }
    }
}
