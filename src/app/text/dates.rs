//! Days, minutes and clock times in words.

use weekloom_engine::calendar::{Day, Weekday};

/// The weekday in full.
#[must_use]
pub const fn weekday(day: Weekday) -> &'static str {
    match day {
        Weekday::Monday => "Monday",
        Weekday::Tuesday => "Tuesday",
        Weekday::Wednesday => "Wednesday",
        Weekday::Thursday => "Thursday",
        Weekday::Friday => "Friday",
        Weekday::Saturday => "Saturday",
        Weekday::Sunday => "Sunday",
    }
}

/// The weekday, short.
#[must_use]
pub fn weekday_short(day: Weekday) -> &'static str {
    &weekday(day)[..3]
}

const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// "25 Nov", with the year when it is another than today's.
#[must_use]
pub fn date(day: Day, today: Day) -> String {
    let (year, month, date) = day.ymd();
    let month = MONTHS[month as usize - 1];
    if year == today.ymd().0 {
        format!("{date} {month}")
    } else {
        format!("{date} {month} {year}")
    }
}

/// "today", "tomorrow", "Friday" within the week, else the date.
#[must_use]
pub fn near(day: Day, today: Day) -> String {
    match day.days_since(today) {
        0 => "today".to_owned(),
        1 => "tomorrow".to_owned(),
        -1 => "yesterday".to_owned(),
        2..=6 => weekday(day.weekday()).to_owned(),
        _ => date(day, today),
    }
}

/// How long ago: "yesterday", "6 days ago", "3 weeks ago".
#[must_use]
pub fn ago(days: i32) -> String {
    match days {
        ..=0 => "today".to_owned(),
        1 => "yesterday".to_owned(),
        2..=13 => format!("{days} days ago"),
        14..=59 => format!("{} weeks ago", days / 7),
        _ => format!("{} months ago", days / 30),
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
    format!("{} min", (seconds + 30) / 60)
}
