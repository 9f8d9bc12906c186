//! Every limit the engine accepts, in one table.
//!
//! Start at [`Bound`]. The limits say what a person may enter, not what is
//! wise: wisdom lives in the rules. This module never rounds or clamps on its
//! own; it refuses with the value and the allowed range.

use std::fmt;

/// A closed range of whole numbers with the name of what it limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bound {
    /// What is limited, with its unit, as it stands in an error text.
    pub what: &'static str,
    /// Least value allowed.
    pub least: i64,
    /// Greatest value allowed.
    pub most: i64,
}

/// A value lies outside its [`Bound`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OutOfBounds {
    /// The limit that was broken.
    pub bound: Bound,
    /// The value that broke it.
    pub value: i64,
}

impl fmt::Display for OutOfBounds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Bound { what, least, most } = self.bound;
        write!(f, "{what} {} is not between {least} and {most}", self.value)
    }
}

impl std::error::Error for OutOfBounds {}

impl Bound {
    const fn new(what: &'static str, least: i64, most: i64) -> Self {
        Self { what, least, most }
    }

    /// Returns the value if it lies within the bound.
    ///
    /// # Errors
    /// [`OutOfBounds`] names the value and the allowed range.
    pub fn check(self, value: i64) -> Result<i64, OutOfBounds> {
        if (self.least..=self.most).contains(&value) {
            Ok(value)
        } else {
            Err(OutOfBounds { bound: self, value })
        }
    }

    /// The nearest value within the bound, for steppers that stop at the ends.
    #[must_use]
    pub fn clamp(self, value: i64) -> i64 {
        value.clamp(self.least, self.most)
    }
}

/// Load on a bar, stack or belt, in grams. The heaviest raw lifts on record
/// are about half a tonne; a tonne leaves room for machines.
pub const LOAD_G: Bound = Bound::new("load in grams", 0, 1_000_000);
/// What a body weighs, in grams (the project's own judgement: room on both
/// sides of every adult, and none for a slip of a digit).
pub const BODY_G: Bound = Bound::new("body weight in grams", 25_000, 350_000);
/// Repetitions of one set.
pub const REPS: Bound = Bound::new("reps", 1, 100);
/// Minutes left of a session that ran out of time: a set with its rest, to a long
/// session (the project's own judgement).
pub const MINUTES_LEFT: Bound = Bound::new("minutes left", 3, 90);
/// Seconds of one timed set.
pub const HOLD_S: Bound = Bound::new("seconds", 1, 900);
/// Reps or seconds of one set where the exercise is not at hand to say which.
pub const COUNT: Bound = Bound::new("reps or seconds", 1, 900);
/// Repetitions in reserve.
pub const RIR: Bound = Bound::new("reps in reserve", 0, 10);
/// Sets of one exercise in one session.
pub const SETS: Bound = Bound::new("sets", 1, 10);
/// Rest between two sets, in seconds.
pub const REST_S: Bound = Bound::new("rest in seconds", 0, 900);
/// Minutes of one session.
pub const SESSION_MIN: Bound = Bound::new("minutes", 20, 180);
/// Training days in a week.
pub const DAYS: Bound = Bound::new("days a week", 1, 7);
/// Exercises in one session.
pub const SLOTS: Bound = Bound::new("exercises a day", 1, 12);
/// Pairs of one plate; nought takes it off the list.
pub const PLATE_PAIRS: Bound = Bound::new("pairs", 0, 20);
/// Age in years. Under 16 needs a coach in the room, not an app.
pub const AGE: Bound = Bound::new("age in years", 16, 100);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn check_refuses_with_value_and_range() {
        assert_eq!(REPS.check(8), Ok(8));
        let error = REPS.check(101).unwrap_err();
        assert_eq!(error.to_string(), "reps 101 is not between 1 and 100");
        assert_eq!(REPS.check(0).unwrap_err().value, 0);
    }
}
