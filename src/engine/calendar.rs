//! Days and weekdays on the proleptic Gregorian calendar.
//!
//! Start at [`Day`]. A day is a plain date without a time zone: what the wall
//! calendar of the trainee says. This module never asks what day it is.

use std::fmt;

/// A date, as whole days since 1970-01-01.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Day(i32);

/// A moment, as whole milliseconds since 1970-01-01T00:00Z, by the wall clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Moment(pub i64);

/// A day of the week. Ordered from Monday (ISO 8601).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weekday {
    /// ISO day 1.
    Monday,
    /// ISO day 2.
    Tuesday,
    /// ISO day 3.
    Wednesday,
    /// ISO day 4.
    Thursday,
    /// ISO day 5.
    Friday,
    /// ISO day 6.
    Saturday,
    /// ISO day 7.
    Sunday,
}

impl Weekday {
    /// All seven, from Monday.
    pub const ALL: [Self; 7] = [
        Self::Monday,
        Self::Tuesday,
        Self::Wednesday,
        Self::Thursday,
        Self::Friday,
        Self::Saturday,
        Self::Sunday,
    ];

    /// 0 for Monday to 6 for Sunday.
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }

    /// All seven, from this one.
    #[must_use]
    pub fn then_all(self) -> [Self; 7] {
        std::array::from_fn(|after| Self::from_index(self.index() + after))
    }

    /// The weekday with this index; every seven start again at Monday.
    #[must_use]
    pub fn from_index(index: usize) -> Self {
        Self::ALL[index % 7]
    }
}

impl Day {
    /// The day so many days after 1970-01-01.
    #[must_use]
    pub const fn from_epoch_days(days: i32) -> Self {
        Self(days)
    }

    /// Days since 1970-01-01.
    #[must_use]
    pub const fn epoch_days(self) -> i32 {
        self.0
    }

    /// The day of a year, month (1–12) and day of month (1–31); `None` when
    /// the calendar has no such day or the year is outside 1–9999.
    ///
    /// The arithmetic is the public-domain "days from civil" algorithm
    /// (H. Hinnant, chrono-Compatible Low-Level Date Algorithms).
    #[must_use]
    pub fn from_ymd(year: i32, month: u32, day: u32) -> Option<Self> {
        if !(1..=9999).contains(&year) || !(1..=12).contains(&month) || day == 0 || day > 31 {
            return None;
        }
        let y = if month <= 2 { year - 1 } else { year };
        let era = y.div_euclid(400);
        let year_of_era = y.rem_euclid(400);
        let m = i32::try_from(month).ok()?;
        let d = i32::try_from(day).ok()?;
        let day_of_year = (153 * (if m > 2 { m - 3 } else { m + 9 }) + 2) / 5 + d - 1;
        let day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
        let found = Self(era * 146_097 + day_of_era - 719_468);
        (found.ymd() == (year, month, day)).then_some(found)
    }

    /// Year, month (1–12) and day of month (1–31).
    #[must_use]
    #[expect(clippy::cast_sign_loss, reason = "month and day are positive")]
    pub fn ymd(self) -> (i32, u32, u32) {
        let z = self.0 + 719_468;
        let era = z.div_euclid(146_097);
        let day_of_era = z.rem_euclid(146_097);
        let year_of_era =
            (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
        let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
        let mp = (5 * day_of_year + 2) / 153;
        let day = day_of_year - (153 * mp + 2) / 5 + 1;
        let month = if mp < 10 { mp + 3 } else { mp - 9 };
        let year = year_of_era + era * 400 + i32::from(month <= 2);
        (year, month as u32, day as u32)
    }

    /// Reads `YYYY-MM-DD` (ISO 8601); `None` for anything else.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let bytes = text.as_bytes();
        if bytes.len() != 10 || bytes[4] != b'-' || bytes[7] != b'-' {
            return None;
        }
        let digits = |range: std::ops::Range<usize>| -> Option<u32> {
            let part = text.get(range)?;
            part.bytes()
                .all(|b| b.is_ascii_digit())
                .then(|| part.parse().ok())
                .flatten()
        };
        let year = i32::try_from(digits(0..4)?).ok()?;
        Self::from_ymd(year, digits(5..7)?, digits(8..10)?)
    }

    /// The weekday.
    #[must_use]
    pub fn weekday(self) -> Weekday {
        // 1970-01-01 was a Thursday.
        Weekday::from_index((self.0 + 3).rem_euclid(7) as usize)
    }

    /// The day so many days later; earlier when negative.
    #[must_use]
    pub const fn plus(self, days: i32) -> Self {
        Self(self.0 + days)
    }

    /// Days from `earlier` to this day; negative when it is later.
    #[must_use]
    pub const fn days_since(self, earlier: Self) -> i32 {
        self.0 - earlier.0
    }

    /// The latest such weekday, this day included: with the weekday that weeks
    /// begin with, the first day of this day's week.
    #[must_use]
    #[expect(clippy::cast_possible_wrap, reason = "the index is below 7")]
    #[expect(clippy::cast_possible_truncation, reason = "the index is below 7")]
    pub fn back_to(self, weekday: Weekday) -> Self {
        Self(self.0 - (self.weekday().index() + 7 - weekday.index()) as i32 % 7)
    }

    /// The Monday of this day's week.
    #[must_use]
    pub fn monday(self) -> Self {
        self.back_to(Weekday::Monday)
    }
}

impl fmt::Display for Day {
    /// `YYYY-MM-DD` (ISO 8601).
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.ymd();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

impl Moment {
    /// Whole seconds from `earlier` to this moment; negative when it is later.
    #[must_use]
    pub const fn seconds_since(self, earlier: Self) -> i64 {
        (self.0 - earlier.0).div_euclid(1000)
    }

    /// The moment so many seconds later.
    #[must_use]
    pub const fn plus_seconds(self, seconds: i64) -> Self {
        Self(self.0 + seconds * 1000)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_day_of_two_centuries_round_trips() {
        let mut day = Day::from_ymd(1900, 1, 1).unwrap();
        let mut weekday = day.weekday().index();
        while day < Day::from_ymd(2101, 1, 1).unwrap() {
            let (y, m, d) = day.ymd();
            assert_eq!(Day::from_ymd(y, m, d), Some(day));
            assert_eq!(Day::parse(&day.to_string()), Some(day));
            assert_eq!(day.weekday().index(), weekday);
            weekday = (weekday + 1) % 7;
            day = day.plus(1);
        }
    }

    /// ISO 8601 worked facts: 2000-01-01 was a Saturday, 2026-11-25 a Wednesday.
    #[test]
    fn known_weekdays() {
        let cases = [
            ("1970-01-01", Weekday::Thursday),
            ("2000-01-01", Weekday::Saturday),
            ("2026-11-25", Weekday::Wednesday),
            ("2024-02-29", Weekday::Thursday),
        ];
        for (text, weekday) in cases {
            assert_eq!(Day::parse(text).unwrap().weekday(), weekday, "{text}");
        }
    }

    #[test]
    fn impossible_dates_are_refused() {
        for text in [
            "2026-02-29",
            "2026-13-01",
            "2026-00-10",
            "2026-04-31",
            "26-04-30",
            "2026/04/30",
            "0000-01-01",
            "+026-01-01",
        ] {
            assert_eq!(Day::parse(text), None, "{text}");
        }
    }
}
