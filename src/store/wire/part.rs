//! The small parts every wire shape is made of: checked numbers and slugs.

pub(super) use super::Read;
use super::WireError;
use weekloom_engine::bounds::{self, Bound};
use weekloom_engine::calendar::{Day, Moment, Weekday};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::plan::Prescription;
use weekloom_engine::units::Load;

/// Days of the years 1 to 9999, the ones the calendar can spell.
const DAY: Bound = bound("day", -719_162, 2_932_896);
/// Milliseconds of the years 1970 to 9999.
const MOMENT_MS: Bound = bound("moment in milliseconds", 0, 253_402_300_799_999);
/// Reps done or seconds held. Nought is a set that failed at once.
pub(super) const COUNT: Bound = bound("reps or seconds", 0, 900);
/// A goal of reps or seconds.
pub(super) const GOAL: Bound = bound("goal of reps or seconds", 1, 900);
/// Days of a cycle.
pub(super) const CYCLE: Bound = bound("days of the cycle", 1, 28);
/// Index of a day of the cycle.
pub(super) const CYCLE_DAY: Bound = bound("day of the cycle", 0, 27);

pub(super) const fn bound(what: &'static str, least: i64, most: i64) -> Bound {
    Bound { what, least, most }
}

/// A number within a bound, in its own narrow type.
pub(super) fn number<T: TryFrom<i64>>(place: &str, bound: Bound, value: impl Into<i64>) -> Read<T> {
    let value = value.into();
    bound.check(value).map_err(|e| WireError::new(place, e))?;
    T::try_from(value).map_err(|_| WireError::new(place, format!("{value} is too large")))
}

/// How many of something there are.
pub(super) fn count(place: &str, bound: Bound, value: usize) -> Read<()> {
    number::<i64>(place, bound, i64::try_from(value).unwrap_or(i64::MAX)).map(|_| ())
}

pub(super) fn load(place: &str, grams: i64) -> Read<Load> {
    Load::try_from_grams(grams).map_err(|e| WireError::new(place, e))
}

pub(super) fn day(place: &str, days: i32) -> Read<Day> {
    number(place, DAY, days).map(Day::from_epoch_days)
}

pub(super) fn moment(place: &str, ms: i64) -> Read<Moment> {
    number(place, MOMENT_MS, ms).map(Moment)
}

/// ISO weekday number, 1 for Monday.
pub(super) fn weekday_number(weekday: Weekday) -> u8 {
    1 + weekday as u8
}

/// Weekdays by ISO number, ascending, without repeats.
pub(super) fn weekdays(place: &str, numbers: &[u8]) -> Read<Vec<Weekday>> {
    count(place, bounds::DAYS, numbers.len())?;
    if !numbers.is_sorted_by(|a, b| a < b) {
        return Err(WireError::new(place, "weekdays are not in order"));
    }
    numbers
        .iter()
        .map(|n| number::<usize>(place, bound("weekday", 1, 7), *n))
        .map(|index| index.map(|i| Weekday::from_index(i - 1)))
        .collect()
}

/// A word out of a fixed list.
pub(super) fn word<T>(place: &str, text: &str, read: impl Fn(&str) -> Option<T>) -> Read<T> {
    read(text).ok_or_else(|| WireError::new(place, format!("'{}' is not known", clip(text))))
}

/// A slug: 1 to 64 small letters, digits and hyphens.
pub(super) fn slug<'a>(place: &str, text: &'a str) -> Read<&'a str> {
    let fits = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
    if (1..=64).contains(&text.len()) && text.bytes().all(fits) {
        Ok(text)
    } else {
        let what = format!(
            "'{}' is not 1 to 64 small letters, digits and hyphens",
            clip(text)
        );
        Err(WireError::new(place, what))
    }
}

pub(super) fn exercise(place: &str, text: &str) -> Read<ExerciseId> {
    slug(place, text).map(ExerciseId::new)
}

/// An id of a session: 1 to 40 letters, digits, hyphens, points, underscores.
pub(super) fn session_id(place: &str, text: &str) -> Read<String> {
    let fits = |b: u8| b.is_ascii_alphanumeric() || matches!(b, b'-' | b'.' | b'_');
    if (1..=40).contains(&text.len()) && text.bytes().all(fits) {
        Ok(text.to_owned())
    } else {
        let what = format!(
            "'{}' is not 1 to 40 letters, digits, hyphens, points and underscores",
            clip(text)
        );
        Err(WireError::new(place, what))
    }
}

pub(super) fn prescription_wire(p: &Prescription) -> [u16; 5] {
    [
        u16::from(p.sets),
        p.reps.0,
        p.reps.1,
        u16::from(p.rir),
        p.rest_s,
    ]
}

/// `[sets, least, most, rir, rest]`.
pub(super) fn prescription(exercise: ExerciseId, wire: [u16; 5]) -> Read<Prescription> {
    let [sets, least, most, rir, rest_s] = wire;
    if least > most {
        let what = format!("the goal range {least} to {most} runs backwards");
        return Err(WireError::new("prescription", what));
    }
    Ok(Prescription {
        exercise,
        sets: number("prescription", bounds::SETS, sets)?,
        reps: (
            number("prescription", GOAL, least)?,
            number("prescription", GOAL, most)?,
        ),
        rir: number("prescription", bounds::RIR, rir)?,
        rest_s: number("prescription", bounds::REST_S, rest_s)?,
    })
}

/// Reads every element and says which one failed.
pub(super) fn each<W, T>(
    place: &str,
    wire: impl IntoIterator<Item = W>,
    mut read: impl FnMut(W) -> Read<T>,
) -> Read<Vec<T>> {
    let mut list = Vec::new();
    for (i, w) in wire.into_iter().enumerate() {
        list.push(read(w).map_err(|error| error.at(place, i))?);
    }
    Ok(list)
}

fn clip(text: &str) -> String {
    text.chars().take(40).collect()
}
