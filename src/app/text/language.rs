//! The language of the words: English as it stands in the source, or the same
//! sentences from a file of the chosen language.
//!
//! Start at [`tr`]. The English text is the key, as in gettext: a text without
//! a translation shows in English, and `cargo xtask tidy` names it. Sentences
//! with places are made by [`say!`](crate::say), so that another language may
//! put the places in another order. What a person typed is only ever put into
//! a place and never looked up.

use std::cell::Cell;
use std::fmt::{Display, Write as _};
use weekloom_engine::calendar::Weekday;

/// Languages there are, each by its own name.
pub const LANGUAGES: [(&str, &str); 2] = [("en", "English"), ("de", "Deutsch")];

/// Names, signs and orders where the boot script gave none.
const PLAIN: &str = "en\n.\n0\nMonday\tTuesday\tWednesday\tThursday\tFriday\tSaturday\tSunday\nMon\tTue\tWed\tThu\tFri\tSat\tSun\nJan\tFeb\tMar\tApr\tMay\tJun\tJul\tAug\tSep\tOct\tNov\tDec\n{day} {month}\n{day} {month} {year}";

/// How the person's language and region write things.
pub struct Spoken {
    /// The language, as in the document's `lang`.
    pub tag: &'static str,
    /// Between whole numbers and decimals.
    pub decimal: &'static str,
    /// The day a week begins with.
    pub first_day: Weekday,
    /// Weekdays from Monday.
    weekdays: &'static str,
    weekdays_short: &'static str,
    months: &'static str,
    date: &'static str,
    date_with_year: &'static str,
    /// English and its translation, in the order of the English bytes.
    words: Vec<(&'static str, &'static str)>,
}

thread_local! {
    static SPOKEN: Cell<Option<&'static Spoken>> = const { Cell::new(None) };
}

/// Takes up a language as the boot script packs it: a line each for tag,
/// decimal sign, first day (0 is Monday), weekdays, short ones, months, date and
/// date with its year; after them the texts, each behind a record separator,
/// with its translation behind a unit separator.
/// What is shown already stays as it is, so this comes before the first screen.
pub fn speak(pack: String) {
    SPOKEN.set(Some(Box::leak(Box::new(parse(pack.leak())))));
}

fn parse(pack: &'static str) -> Spoken {
    let mut lines = pack.splitn(9, '\n');
    let mut line = || lines.next().unwrap_or_default();
    Spoken {
        tag: line(),
        decimal: line(),
        first_day: Weekday::from_index(line().parse().unwrap_or_default()),
        weekdays: line(),
        weekdays_short: line(),
        months: line(),
        date: line(),
        date_with_year: line(),
        words: words(line()),
    }
}

fn words(list: &'static str) -> Vec<(&'static str, &'static str)> {
    let each = list.split('\u{1e}');
    each.filter_map(|pair| pair.split_once('\u{1f}')).collect()
}

/// What is spoken now.
#[must_use]
pub fn spoken() -> &'static Spoken {
    SPOKEN.get().unwrap_or_else(|| {
        speak(PLAIN.to_owned());
        spoken()
    })
}

/// A text of the app in the person's language. One that was looked up already
/// stays as it is: `cargo xtask tidy` sees to it that no translation is the
/// English of something else.
#[must_use]
#[inline(never)]
pub fn tr(english: &str) -> &str {
    let words = &spoken().words;
    match words.binary_search_by(|(key, _)| (*key).cmp(english)) {
        Ok(at) => words[at].1,
        Err(_) => english,
    }
}

/// The same as a text of its own.
#[must_use]
pub fn said(english: &'static str) -> String {
    tr(english).to_owned()
}

/// A sentence with its places filled; write [`say!`](crate::say) instead.
#[must_use]
#[inline(never)]
pub fn fill(template: &str, places: &[(&str, &dyn Display)]) -> String {
    let mut text = String::new();
    let mut rest = tr(template);
    while let Some((before, after)) = rest.split_once('{') {
        text.push_str(before);
        let (name, after) = after.split_once('}').unwrap_or((after, ""));
        if let Some((_, value)) = places.iter().find(|place| place.0 == name) {
            let _ = write!(text, "{value}");
        }
        rest = after;
    }
    text.push_str(rest);
    text
}

/// A sentence with places, in the person's language: a literal, then for each
/// `{place}` in it a name, with its value where no variable is called so.
#[macro_export]
macro_rules! say {
    (@value $name:ident) => { &$name };
    (@value $name:ident $value:expr) => { &$value };
    ($template:literal $(, $name:ident $(= $value:expr)?)* $(,)?) => {
        $crate::text::language::fill(
            $template,
            &[$((stringify!($name), $crate::say!(@value $name $($value)?) as &dyn ::std::fmt::Display)),*],
        )
    };
}

/// A refusal of the engine or the store in the person's language. It comes
/// with its numbers and quoted names in it; without them it is the text looked
/// up, and where the whole has no translation, each of its parts may have one.
#[must_use]
pub fn made(english: &str) -> String {
    let mut template = String::new();
    let mut values: Vec<&str> = Vec::new();
    let mut rest = english;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit() || c == '\'') {
        template.push_str(&rest[..at]);
        rest = &rest[at..];
        let length = match rest[1..].find('\'') {
            Some(end) if rest.starts_with('\'') => end + 2,
            _ => rest
                .find(|c: char| !c.is_ascii_digit() && c != '.')
                .unwrap_or(rest.len())
                .max(1),
        };
        let _ = write!(template, "{{{}}}", values.len());
        values.push(&rest[..length]);
        rest = &rest[length..];
    }
    template.push_str(rest);
    let found = tr(&template);
    if found == template {
        for stop in ["; ", ": "] {
            if let Some((first, second)) = english.split_once(stop) {
                return [&made(first), stop, &made(second)].concat();
            }
        }
        return english.to_owned();
    }
    let names: Vec<String> = (0..values.len()).map(|at| at.to_string()).collect();
    let mut places: Vec<(&str, &dyn Display)> = Vec::new();
    for (name, value) in names.iter().zip(&values) {
        places.push((name, value));
    }
    fill(&template, &places)
}

/// A shown number with the person's decimal sign.
#[must_use]
pub fn number(shown: &str) -> String {
    shown.replace('.', spoken().decimal)
}

fn nth(list: &'static str, at: usize) -> &'static str {
    list.split('\t').nth(at).unwrap_or_default()
}

/// A weekday by its name.
#[must_use]
pub fn weekday(day: Weekday) -> &'static str {
    nth(spoken().weekdays, day.index())
}

/// A weekday, short.
#[must_use]
pub fn weekday_short(day: Weekday) -> &'static str {
    nth(spoken().weekdays_short, day.index())
}

/// A date, with its year where one is given.
#[must_use]
pub fn date(day: u32, month: u32, year: Option<i32>) -> String {
    let spoken = spoken();
    let month = nth(spoken.months, month as usize - 1);
    match year {
        Some(year) => fill(
            spoken.date_with_year,
            &[("day", &day), ("month", &month), ("year", &year)],
        ),
        None => fill(spoken.date, &[("day", &day), ("month", &month)]),
    }
}
