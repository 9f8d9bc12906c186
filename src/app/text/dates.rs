//! Days, minutes and clock times in words.

use super::language::{self, said};
use crate::say;
use weekloom_engine::calendar::{Day, Weekday};

/// The weekdays in the order of the person's week.
#[must_use]
pub fn weekdays() -> [Weekday; 7] {
    language::spoken().first_day.then_all()
}

/// The first day of a day's week, as the person counts weeks.
#[must_use]
pub fn week_start(day: Day) -> Day {
    day.back_to(language::spoken().first_day)
}

/// Where a weekday stands in the person's week, from 0.
#[must_use]
pub fn place_in_week(day: Weekday) -> usize {
    weekdays()
        .iter()
        .position(|&d| d == day)
        .unwrap_or_default()
}

/// "Wednesday 25 Nov".
#[must_use]
pub fn full(day: Day, today: Day) -> String {
    say!(
        "{weekday} {date}",
        weekday = weekday(day.weekday()),
        date = date(day, today)
    )
}

/// "Wed 25 Nov".
#[must_use]
pub fn full_short(day: Day, today: Day) -> String {
    say!(
        "{weekday} {date}",
        weekday = weekday_short(day.weekday()),
        date = date(day, today)
    )
}

/// The weekday in full.
#[must_use]
pub fn weekday(day: Weekday) -> &'static str {
    language::weekday(day)
}

/// The weekday, short.
#[must_use]
pub fn weekday_short(day: Weekday) -> &'static str {
    language::weekday_short(day)
}

/// "25 Nov", with the year when it is another than today's.
#[must_use]
pub fn date(day: Day, today: Day) -> String {
    let (year, month, date) = day.ymd();
    let is_this_year = year == today.ymd().0;
    language::date(date, month, (!is_this_year).then_some(year))
}

/// "today", "tomorrow", "Friday" within the week, else the date.
#[must_use]
pub fn near(day: Day, today: Day) -> String {
    match day.days_since(today) {
        0 => said("today"),
        1 => said("tomorrow"),
        -1 => said("yesterday"),
        2..=6 => weekday(day.weekday()).to_owned(),
        _ => date(day, today),
    }
}

/// How long ago: "yesterday", "6 days ago", "3 weeks ago".
#[must_use]
pub fn ago(days: i32) -> String {
    match days {
        ..=0 => said("today"),
        1 => said("yesterday"),
        2..=13 => say!("{days} days ago", days),
        14..=59 => say!("{days} weeks ago", days = days / 7),
        _ => say!("{days} months ago", days = days / 30),
    }
}

/// "1:05" of so many seconds.
#[must_use]
pub fn clock(seconds: u32) -> String {
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// Whole minutes of so many seconds, in words.
#[must_use]
pub fn minutes(seconds: u32) -> String {
    say!("{minutes} min", minutes = (seconds + 30) / 60)
}
