//! What a cell means: days, loads, reps.

use weekloom_engine::calendar::Day;
use weekloom_engine::units::{Load, Unit};

/// Which of two numbers of a day comes first where only custom tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum DayOrder {
    /// 31/12.
    #[default]
    DayFirst,
    /// 12/31.
    MonthFirst,
}

/// Beginnings of the months' names in English and German.
const MONTHS: [&[&str]; 12] = [
    &["jan", "j\u{e4}n"],
    &["feb"],
    &["mar", "m\u{e4}r", "mrz"],
    &["apr"],
    &["may", "mai"],
    &["jun"],
    &["jul"],
    &["aug"],
    &["sep"],
    &["oct", "okt"],
    &["nov"],
    &["dec", "dez"],
];

/// What numbers of a day say for themselves about their order.
#[must_use]
pub fn told_order(text: &str) -> Option<DayOrder> {
    match parts(text)[..] {
        [
            Part::Number(a, 1..=2),
            Part::Number(b, 1..=2),
            Part::Number(..),
        ] => match (a, b) {
            (13..=31, 1..=12) => Some(DayOrder::DayFirst),
            (1..=12, 13..=31) => Some(DayOrder::MonthFirst),
            _ => None,
        },
        _ => None,
    }
}

/// Whether a day is spelled in numbers whose order only custom tells.
#[must_use]
pub fn needs_order(text: &str) -> bool {
    matches!(
        parts(text)[..],
        [Part::Number(a, 1..=2), Part::Number(b, 1..=2), Part::Number(..)]
            if a != b && (1..=12).contains(&a) && (1..=12).contains(&b)
    )
}

enum Part {
    /// Its value and how many digits it has.
    Number(u32, usize),
    /// A month, from 1.
    Month(u32),
}

/// Numbers and months of a text, up to where a time of day begins. Weekdays
/// and other words are passed over.
fn parts(text: &str) -> Vec<Part> {
    let text = text.trim();
    let bytes = text.as_bytes();
    let is_iso_time = |at: &usize| {
        matches!(bytes[*at], b'T' | b't')
            && *at > 0
            && bytes[at - 1].is_ascii_digit()
            && bytes.get(at + 1).is_some_and(u8::is_ascii_digit)
    };
    let date = match (0..bytes.len()).find(is_iso_time) {
        Some(at) => &text[..at],
        None => text,
    };
    let mut found = Vec::new();
    for word in date.split_whitespace() {
        if word.contains(':') {
            break;
        }
        for word in word.split(|c: char| !c.is_alphanumeric()) {
            if let Ok(number) = word.parse() {
                found.push(Part::Number(number, word.len()));
            } else if let Some(month) = month(word) {
                found.push(Part::Month(month));
            }
            if found.len() > 3 {
                return found;
            }
        }
    }
    found
}

fn month(word: &str) -> Option<u32> {
    let word = word.to_lowercase();
    let starts = |names: &&[&str]| names.iter().any(|name| word.starts_with(name));
    (1..)
        .zip(MONTHS.iter())
        .find(|(_, names)| starts(names))
        .map(|(month, _)| month)
}

/// The day a cell names: `2025-03-12`, `12.3.2025`, `12/03/25`, `12 Mar 2025`,
/// each also with a time of day behind it, or the number a spreadsheet keeps
/// for a day. `None` when it names none.
#[must_use]
pub fn day(text: &str, order: DayOrder) -> Option<Day> {
    let year = |year: u32, digits: usize| match digits {
        4 => i32::try_from(year).ok(),
        2 => i32::try_from(2000 + year).ok(),
        _ => None,
    };
    match parts(text)[..] {
        [
            Part::Number(y, 4),
            Part::Number(m, 1..=2),
            Part::Number(d, 1..=2),
        ] => Day::from_ymd(year(y, 4)?, m, d),
        // Written together, as file names have it.
        [Part::Number(all, 8)] => Day::from_ymd(year(all / 10_000, 4)?, all / 100 % 100, all % 100),
        // Days since 1899-12-30, as spreadsheets count: 1955 to 2064.
        [Part::Number(days, 5)] if (20_200..60_000).contains(&days) => {
            let first = Day::from_ymd(1899, 12, 30)?;
            Some(first.plus(i32::try_from(days).ok()?))
        }
        [
            Part::Number(a, 1..=2),
            Part::Number(b, 1..=2),
            Part::Number(y, digits),
        ] => {
            let (d, m) = match told_order(text).unwrap_or(order) {
                DayOrder::DayFirst => (a, b),
                DayOrder::MonthFirst => (b, a),
            };
            Day::from_ymd(year(y, digits)?, m, d)
        }
        [
            Part::Number(d, 1..=2),
            Part::Month(m),
            Part::Number(y, digits),
        ]
        | [
            Part::Month(m),
            Part::Number(d, 1..=2),
            Part::Number(y, digits),
        ] => Day::from_ymd(year(y, digits)?, m, d),
        [Part::Number(y, 4), Part::Month(m), Part::Number(d, 1..=2)] => {
            Day::from_ymd(year(y, 4)?, m, d)
        }
        _ => None,
    }
}

/// A decimal number with point or comma, in millionths; without a sign.
fn millionths(text: &str) -> Option<i64> {
    let (whole, part) = match text.find(['.', ',']) {
        Some(at) => (&text[..at], &text[at + 1..]),
        None => (text, ""),
    };
    let is_digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    if !is_digits(whole) || !is_digits(part) || whole.len() > 7 || whole.len() + part.len() == 0 {
        return None;
    }
    let mut value: i64 = if whole.is_empty() {
        0
    } else {
        whole.parse().ok()?
    };
    for place in 0..6 {
        let digit = part.as_bytes().get(place).map_or(0, |b| b - b'0');
        value = value * 10 + i64::from(digit);
    }
    Some(value)
}

/// The load a cell names, to the nearest gram: `62.5`, `62,5`, `62,5 kg`,
/// `135 lb`. A unit in the cell goes before the one given.
#[must_use]
pub fn load(text: &str, unit: Unit) -> Option<Load> {
    let text = text.trim().to_lowercase();
    let digits = text.trim_end_matches(|c: char| c.is_alphabetic() || c == '.');
    let unit = match text[digits.len()..].trim_matches('.') {
        "" => unit,
        other => unit_of(other)?,
    };
    let millionths = millionths(digits.trim())?;
    let micrograms_e5 = match unit {
        // Exact: 1 lb is 453.59237 g (International Yard and Pound Agreement 1959).
        Unit::Lb => i128::from(millionths) * 45_359_237,
        Unit::Kg => i128::from(millionths) * 100_000_000,
    };
    let grams = (micrograms_e5 + 50_000_000_000) / 100_000_000_000;
    Load::try_from_grams(i64::try_from(grams).ok()?).ok()
}

/// The unit a word names.
#[must_use]
pub fn unit_of(text: &str) -> Option<Unit> {
    match text.trim().trim_matches('.').to_lowercase().as_str() {
        "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" | "kilogramm" => Some(Unit::Kg),
        "lb" | "lbs" | "pound" | "pounds" | "pfund" => Some(Unit::Lb),
        _ => None,
    }
}

/// A whole number from 0 to 65535, also written with noughts after a point.
#[must_use]
pub fn whole(text: &str) -> Option<u16> {
    let text = text
        .trim()
        .trim_end_matches(|c: char| c.is_alphabetic())
        .trim();
    let millionths = millionths(text)?;
    (millionths % 1_000_000 == 0)
        .then(|| u16::try_from(millionths / 1_000_000).ok())
        .flatten()
}

/// Reps in reserve, 0 to 10, parts of a rep left out: fewer left is the
/// cautious reading.
#[must_use]
pub fn rir(text: &str) -> Option<u8> {
    let millionths = millionths(text.trim())?;
    u8::try_from(millionths / 1_000_000)
        .ok()
        .filter(|rir| *rir <= 10)
}

/// Reps in reserve by a rating of perceived exertion from 1 to 10, of which 10
/// is none left (Zourdos et al. 2016, JSCR 30(1):267-275).
#[must_use]
pub fn rir_by_exertion(text: &str) -> Option<u8> {
    let millionths = millionths(text.trim())?;
    let left = 10_000_000 - millionths;
    if millionths < 1_000_000 || left < 0 {
        return None;
    }
    u8::try_from(left / 1_000_000).ok()
}

/// Several values of one cell: `3x8` is three times 8, `8/8/6` and `8 8 6` are
/// three values. At most 20; `None` when it is neither.
#[must_use]
pub fn several(text: &str) -> Option<Vec<String>> {
    let text = text.trim().to_lowercase();
    if let Some((times, each)) = text.split_once(['x', '\u{d7}', '*']) {
        let times = usize::from(whole(times)?);
        let each = each.trim();
        let is_one = !each.is_empty() && !each.contains(['x', '\u{d7}', '*', '/']);
        return (is_one && (1..=20).contains(&times)).then(|| vec![each.to_owned(); times]);
    }
    let by = if text.contains('/') { '/' } else { ' ' };
    let all: Vec<String> = text.split(by).map(|v| v.trim().to_owned()).collect();
    let is_list = all.len() > 1 && all.len() <= 20;
    let is_plain = |v: &String| v.starts_with(|c: char| c.is_ascii_digit());
    (is_list && all.iter().all(is_plain)).then_some(all)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_read_as_people_write_them() {
        use DayOrder::{DayFirst, MonthFirst};
        let cases = [
            ("2025-03-12", DayFirst, "2025-03-12"),
            ("2025-03-12T18:30:00Z", DayFirst, "2025-03-12"),
            ("2025/3/12 06:15", MonthFirst, "2025-03-12"),
            ("12.3.2025", DayFirst, "2025-03-12"),
            ("12.03.25", DayFirst, "2025-03-12"),
            ("12/03/2025", DayFirst, "2025-03-12"),
            ("03/12/2025", MonthFirst, "2025-03-12"),
            // Only one reading is a day, whatever the custom.
            ("3/25/2025", DayFirst, "2025-03-25"),
            ("25/3/2025", MonthFirst, "2025-03-25"),
            ("12 Mar 2025", MonthFirst, "2025-03-12"),
            ("Wednesday, March 12, 2025", DayFirst, "2025-03-12"),
            ("Mi., 12. M\u{e4}rz 2025", DayFirst, "2025-03-12"),
            ("20250312", DayFirst, "2025-03-12"),
            // What spreadsheets keep for that day; 25569 is 1970-01-01 in all of them.
            ("45728", DayFirst, "2025-03-12"),
            ("25569", DayFirst, "1970-01-01"),
        ];
        for (text, order, expected) in cases {
            let found = day(text, order).map(|day| day.to_string());
            assert_eq!(found.as_deref(), Some(expected), "{text}");
        }
        for text in [
            "",
            "30.2.2025",
            "12.3",
            "monday",
            "13/13/2025",
            "1/2/3/4",
            "-",
            "99999",
        ] {
            assert_eq!(day(text, DayFirst), None, "{text}");
        }
    }

    #[test]
    fn loads_take_units_and_commas() {
        let cases = [
            ("62.5", Unit::Kg, 62_500),
            ("62,5 kg", Unit::Lb, 62_500),
            ("135 lbs.", Unit::Kg, 61_235),
            ("135", Unit::Lb, 61_235),
            // What a conversion elsewhere left behind.
            ("20.411657", Unit::Kg, 20_412),
            ("0", Unit::Kg, 0),
        ];
        for (text, unit, grams) in cases {
            assert_eq!(load(text, unit).map(Load::grams), Some(grams), "{text}");
        }
        for text in ["", "-5", "heavy", "1.234,5", "5 st", "1001", "1e3"] {
            assert_eq!(load(text, Unit::Kg), None, "{text}");
        }
    }

    #[test]
    fn counts_and_effort() {
        assert_eq!(whole("8"), Some(8));
        assert_eq!(whole("8.0"), Some(8));
        assert_eq!(whole("45 s"), Some(45));
        assert_eq!(whole("8.5"), None);
        assert_eq!(rir("2.5"), Some(2));
        assert_eq!(rir("11"), None);
        assert_eq!(rir_by_exertion("8"), Some(2));
        assert_eq!(rir_by_exertion("8,5"), Some(1));
        assert_eq!(rir_by_exertion("0"), None);
        assert_eq!(rir_by_exertion("11"), None);
        let list = |text: &str| several(text).unwrap_or_default().join(",");
        assert_eq!(list("3x8"), "8,8,8");
        assert_eq!(list("3 \u{d7} 8"), "8,8,8");
        assert_eq!(list("8/8/6"), "8,8,6");
        assert_eq!(list("8 8 6"), "8,8,6");
        assert_eq!(list("8"), "");
        assert_eq!(list("3x8x2"), "");
        assert_eq!(list("99x1"), "");
    }
}
