//! Loads in whole grams, and the two units people read them in.
//!
//! Start at [`Load`]. Conversions are exact to a hundredth of the unit shown:
//! a number typed in pounds comes back as the same number of pounds. This
//! module never rounds to what a kit can make; see the `load` module for that.

use crate::bounds::{self, OutOfBounds};
use std::fmt;

/// Grams in one international avoirdupois pound, times 100 000 (exact:
/// 453.59237 g; International Yard and Pound Agreement 1959).
const POUND_E5: i64 = 45_359_237;

/// A load in whole grams, 0 to 1 000 kg.
///
/// What it means depends on how the exercise is loaded: the whole bar with its
/// plates, one dumbbell of the pair, the pin of a stack, weight added to the
/// body, or the help of an assisted machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Load(i32);

/// The unit a person reads and types loads in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Unit {
    /// Kilograms.
    #[default]
    Kg,
    /// International pounds of 453.59237 g.
    Lb,
}

/// A typed number was refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NumberError {
    /// Nothing was typed.
    Empty,
    /// Holds something that is no decimal number.
    NotANumber(String),
    /// More digits after the point than the unit keeps.
    TooFine,
    /// Outside the allowed range.
    OutOfBounds(OutOfBounds),
}

impl fmt::Display for NumberError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("nothing was typed; type a number"),
            Self::NotANumber(text) => write!(f, "'{text}' is not a number"),
            Self::TooFine => f.write_str("more than two digits after the point"),
            Self::OutOfBounds(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for NumberError {}

impl Load {
    /// No load at all: the body alone, or an empty stack.
    pub const ZERO: Self = Self(0);

    /// A load of so many grams.
    ///
    /// # Errors
    /// [`OutOfBounds`] when not within 0 to 1 000 000 g.
    pub fn try_from_grams(grams: i64) -> Result<Self, OutOfBounds> {
        #[expect(clippy::cast_possible_truncation, reason = "the bound is a million")]
        bounds::LOAD_G.check(grams).map(|g| Self(g as i32))
    }

    /// A load of so many grams, held to 0 to 1 000 000 g.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "the bound is a million")]
    pub fn clamped(grams: i64) -> Self {
        Self(bounds::LOAD_G.clamp(grams) as i32)
    }

    /// Whole kilograms, for tables in code and tests.
    #[must_use]
    pub const fn kg(kilograms: u16) -> Self {
        Self(kilograms as i32 * 1000)
    }

    /// Grams.
    #[must_use]
    pub const fn grams(self) -> i64 {
        self.0 as i64
    }

    /// Reads what a person typed: digits with at most one point or comma and
    /// two digits after it, blanks around it ignored.
    ///
    /// # Errors
    /// [`NumberError`] says what is wrong with the text.
    ///
    /// ```
    /// use weekloom_engine::units::{Load, Unit};
    /// assert_eq!(Load::parse("62,5", Unit::Kg).unwrap().grams(), 62_500);
    /// assert_eq!(Load::parse("135", Unit::Lb).unwrap().show(Unit::Lb), "135");
    /// ```
    pub fn parse(text: &str, unit: Unit) -> Result<Self, NumberError> {
        let hundredths = parse_hundredths(text)?;
        let grams = match unit {
            Unit::Kg => hundredths * 10,
            Unit::Lb => round_div(hundredths * POUND_E5, 10_000_000),
        };
        Self::try_from_grams(grams).map_err(NumberError::OutOfBounds)
    }

    /// Hundredths of the unit, rounded to the nearest.
    #[must_use]
    pub fn hundredths(self, unit: Unit) -> i64 {
        match unit {
            Unit::Kg => round_div(self.grams(), 10),
            Unit::Lb => round_div(self.grams() * 10_000_000, POUND_E5),
        }
    }

    /// The number as it is shown, with a point, at most two digits after it
    /// and no trailing noughts; without the unit.
    #[must_use]
    pub fn show(self, unit: Unit) -> String {
        let hundredths = self.hundredths(unit);
        let (whole, part) = (hundredths / 100, hundredths % 100);
        match part {
            0 => format!("{whole}"),
            p if p % 10 == 0 => format!("{whole}.{}", p / 10),
            p => format!("{whole}.{p:02}"),
        }
    }
}

impl Unit {
    /// One hundredth of this unit times `hundredths`, in grams, nearest.
    #[must_use]
    pub fn load_from_hundredths(self, hundredths: i64) -> Load {
        Load::clamped(match self {
            Self::Kg => hundredths * 10,
            Self::Lb => round_div(hundredths * POUND_E5, 10_000_000),
        })
    }

    /// The unit's symbol.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Kg => "kg",
            Self::Lb => "lb",
        }
    }
}

/// Reads a non-negative decimal with at most two digits after its point or
/// comma, as hundredths.
///
/// # Errors
/// [`NumberError`] says what is wrong with the text.
pub fn parse_hundredths(text: &str) -> Result<i64, NumberError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(NumberError::Empty);
    }
    let refused = || NumberError::NotANumber(text.chars().take(20).collect());
    let (whole, part) = match text.find(['.', ',']) {
        Some(at) => (&text[..at], &text[at + 1..]),
        None => (text, ""),
    };
    let digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    if !digits(whole) || !digits(part) || (whole.is_empty() && part.is_empty()) || whole.len() > 9 {
        return Err(refused());
    }
    if part.trim_end_matches('0').len() > 2 {
        return Err(NumberError::TooFine);
    }
    let whole: i64 = if whole.is_empty() {
        0
    } else {
        whole.parse().map_err(|_| refused())?
    };
    let part = part.trim_end_matches('0');
    let hundredths = match part.len() {
        0 => 0,
        1 => part.parse::<i64>().map_err(|_| refused())? * 10,
        _ => part.parse::<i64>().map_err(|_| refused())?,
    };
    Ok(whole * 100 + hundredths)
}

/// Reads a whole number within a bound, as typed.
///
/// # Errors
/// [`NumberError`] says what is wrong with the text.
pub fn parse_whole(text: &str, bound: bounds::Bound) -> Result<i64, NumberError> {
    let hundredths = parse_hundredths(text)?;
    if hundredths % 100 != 0 {
        return Err(NumberError::NotANumber(text.trim().to_owned()));
    }
    bound
        .check(hundredths / 100)
        .map_err(NumberError::OutOfBounds)
}

fn round_div(numerator: i64, denominator: i64) -> i64 {
    (numerator + denominator / 2).div_euclid(denominator)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pounds_round_trip_to_the_hundredth() {
        for hundredths in 0..=220_000 {
            let load = Unit::Lb.load_from_hundredths(hundredths);
            assert_eq!(load.hundredths(Unit::Lb), hundredths);
        }
    }

    #[test]
    fn kilograms_round_trip_to_the_hundredth() {
        for hundredths in 0..=100_000 {
            let load = Unit::Kg.load_from_hundredths(hundredths);
            assert_eq!(load.hundredths(Unit::Kg), hundredths);
        }
    }

    /// 1 kg = 2.20462 lb, the factor printed on plates and tables.
    #[test]
    fn a_kilogram_is_2_20_pounds() {
        assert_eq!(Load::kg(1).show(Unit::Lb), "2.2");
        assert_eq!(Load::kg(100).show(Unit::Lb), "220.46");
        assert_eq!(Load::parse("45", Unit::Lb).unwrap().grams(), 20_412);
    }

    #[test]
    fn typed_numbers_take_point_or_comma() {
        let cases = [
            ("62.5", 62_500),
            ("62,5", 62_500),
            (" 60 ", 60_000),
            (".5", 500),
            ("7.", 7_000),
            ("1.250", 1_250),
            ("0", 0),
        ];
        for (text, grams) in cases {
            assert_eq!(
                Load::parse(text, Unit::Kg).unwrap().grams(),
                grams,
                "{text}"
            );
        }
    }

    #[test]
    fn nonsense_is_refused_in_words() {
        let cases = [
            ("", "nothing was typed; type a number"),
            ("abc", "'abc' is not a number"),
            ("-5", "'-5' is not a number"),
            ("1e3", "'1e3' is not a number"),
            ("1.2.3", "'1.2.3' is not a number"),
            (".", "'.' is not a number"),
            ("1.125", "more than two digits after the point"),
            ("1001", "load in grams 1001000 is not between 0 and 1000000"),
            ("99999999999", "'99999999999' is not a number"),
        ];
        for (text, words) in cases {
            let error = Load::parse(text, Unit::Kg).unwrap_err();
            assert_eq!(error.to_string(), words, "{text:?}");
        }
    }

    #[test]
    fn shown_without_trailing_noughts() {
        assert_eq!(Load::clamped(62_500).show(Unit::Kg), "62.5");
        assert_eq!(Load::clamped(1_250).show(Unit::Kg), "1.25");
        assert_eq!(Load::clamped(60_000).show(Unit::Kg), "60");
    }

    #[test]
    fn whole_numbers_keep_their_bound() {
        assert_eq!(parse_whole("8", bounds::REPS), Ok(8));
        assert!(parse_whole("8.5", bounds::REPS).is_err());
        assert!(parse_whole("0", bounds::REPS).is_err());
    }
}
