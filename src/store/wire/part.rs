//! The small parts every stored value is made of: checked numbers and slugs.

use crate::json::{Json, Misfit, Read, Reader, numbers};
use weekloom_engine::bounds::{self, Bound};
use weekloom_engine::calendar::{Day, Moment, Weekday};
use weekloom_engine::catalogue::{Equipment, ExerciseId, JointDemand, Muscle, Pattern};
use weekloom_engine::log::Discomfort;
use weekloom_engine::person::{Priority, Status};
use weekloom_engine::plan::split::Focus;
use weekloom_engine::plan::{Prescription, SplitId};
use weekloom_engine::progress::Rule;
use weekloom_engine::session::NOTE_CHARS;
use weekloom_engine::units::Load;

/// Days of the years 1 to 9999, the ones the calendar can spell.
const DAY: Bound = bound("day", -719_162, 2_932_896);
/// Milliseconds of the years 1970 to 9999.
const MOMENT_MS: Bound = bound("moment in milliseconds", 0, 253_402_300_799_999);
/// Reps done or seconds held. Nought is a set that failed at once.
pub(super) const COUNT: Bound = bound("reps or seconds", 0, 900);
/// A goal of reps or seconds.
const GOAL: Bound = bound("goal of reps or seconds", 1, 900);
/// Days of a cycle.
pub(super) const CYCLE: Bound = bound("days of the cycle", 1, 28);
/// Index of a day of the cycle.
const CYCLE_DAY: Bound = bound("day of the cycle", 0, 27);

#[expect(clippy::cast_possible_wrap, reason = "a few hundred")]
const NOTE: Bound = bound("characters of a note", 0, NOTE_CHARS as i64);

pub(super) const fn bound(what: &'static str, least: i64, most: i64) -> Bound {
    Bound { what, least, most }
}

/// A note on an exercise.
pub(super) fn note(reader: &mut Reader<'_>) -> Read<String> {
    let note = String::read(reader)?;
    count(NOTE, note.chars().count())?;
    Ok(note)
}

/// A number within a bound.
pub(super) fn within(bound: Bound, value: i64) -> Read<i64> {
    bound.check(value).map_err(Misfit::value)
}

/// A number within a bound, in its own narrow type.
pub(super) fn narrow<T: TryFrom<i64>>(bound: Bound, value: i64) -> Read<T> {
    T::try_from(within(bound, value)?)
        .map_err(|_| Misfit::value(format_args!("{value} is too large")))
}

/// Reads a number within a bound, in its own narrow type.
pub(super) fn number<T: TryFrom<i64>>(reader: &mut Reader<'_>, bound: Bound) -> Read<T> {
    narrow(bound, i64::read(reader)?)
}

/// How many of something there are.
pub(super) fn count(bound: Bound, value: usize) -> Read<()> {
    within(bound, i64::try_from(value).unwrap_or(i64::MAX)).map(|_| ())
}

pub(super) fn cycle_day(reader: &mut Reader<'_>) -> Read<u8> {
    number(reader, CYCLE_DAY)
}

impl Json for Load {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        load(i64::read(reader)?)
    }

    fn write(&self, out: &mut String) {
        self.grams().write(out);
    }
}

pub(super) fn load(grams: i64) -> Read<Load> {
    Load::try_from_grams(grams).map_err(Misfit::value)
}

/// Days since 1970-01-01.
impl Json for Day {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        number(reader, DAY).map(Self::from_epoch_days)
    }

    fn write(&self, out: &mut String) {
        i64::from(self.epoch_days()).write(out);
    }
}

/// Milliseconds since 1970-01-01T00:00Z.
impl Json for Moment {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        moment(i64::read(reader)?)
    }

    fn write(&self, out: &mut String) {
        self.0.write(out);
    }
}

pub(super) fn moment(ms: i64) -> Read<Moment> {
    within(MOMENT_MS, ms).map(Moment)
}

/// ISO weekday number, 1 for Monday.
impl Json for Weekday {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        weekday(i64::read(reader)?)
    }

    fn write(&self, out: &mut String) {
        (1 + *self as i64).write(out);
    }
}

fn weekday(number: i64) -> Read<Weekday> {
    let number: usize = narrow(bound("weekday", 1, 7), number)?;
    Ok(Weekday::from_index(number - 1))
}

/// Weekdays, ascending, without repeats.
pub(super) fn weekdays(reader: &mut Reader<'_>) -> Read<Vec<Weekday>> {
    let numbers: Vec<i64> = Vec::read(reader)?;
    count(bounds::DAYS, numbers.len())?;
    if !numbers.is_sorted_by(|a, b| a < b) {
        return Err(Misfit::value("weekdays are not in order"));
    }
    numbers.into_iter().map(weekday).collect()
}

macro_rules! slugs {
    ($($type:ident)+) => { $(
        impl Json for $type {
            fn read(reader: &mut Reader<'_>) -> Read<Self> {
                word(reader, Self::from_slug)
            }

            fn write(&self, out: &mut String) {
                crate::json::text(out, self.slug());
            }
        }
    )+ };
}
slugs!(Discomfort Equipment Focus JointDemand Muscle Pattern Priority Rule Status);

/// A word out of a fixed list.
pub(super) fn word<T>(reader: &mut Reader<'_>, find: impl Fn(&str) -> Option<T>) -> Read<T> {
    known(&String::read(reader)?, find)
}

/// What a word stands for.
pub(super) fn known<T>(text: &str, find: impl Fn(&str) -> Option<T>) -> Read<T> {
    find(text).ok_or_else(|| refused(text, "is not known"))
}

#[cold]
fn refused(text: &str, why: &str) -> Misfit {
    let start: String = text.chars().take(40).collect();
    Misfit::value(format_args!("'{start}' {why}"))
}

/// A slug: 1 to 64 small letters, digits and hyphens.
fn slug(reader: &mut Reader<'_>) -> Read<String> {
    checked_slug(String::read(reader)?)
}

fn checked_slug(text: String) -> Read<String> {
    let fits = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
    if (1..=64).contains(&text.len()) && text.bytes().all(fits) {
        Ok(text)
    } else {
        Err(refused(
            &text,
            "is not 1 to 64 small letters, digits and hyphens",
        ))
    }
}

/// The id of an exercise that names a field.
pub(super) fn exercise_id(name: &str) -> Read<ExerciseId> {
    checked_slug(name.to_owned()).map(|text| ExerciseId::new(&text))
}

impl Json for ExerciseId {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        slug(reader).map(|text| Self::new(&text))
    }

    fn write(&self, out: &mut String) {
        crate::json::text(out, self.as_str());
    }
}

impl Json for SplitId {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        slug(reader).map(|text| Self::new(&text))
    }

    fn write(&self, out: &mut String) {
        crate::json::text(out, self.as_str());
    }
}

/// An id of a session: 1 to 40 letters, digits, hyphens, points, underscores.
pub(super) fn session_id(reader: &mut Reader<'_>) -> Read<String> {
    let text = String::read(reader)?;
    let fits = |b: u8| b.is_ascii_alphanumeric() || matches!(b, b'-' | b'.' | b'_');
    if (1..=40).contains(&text.len()) && text.bytes().all(fits) {
        Ok(text)
    } else {
        Err(refused(
            &text,
            "is not 1 to 40 letters, digits, hyphens, points and underscores",
        ))
    }
}

/// Writes `[sets, least, most, rir, rest]`: the range of the goal in reps or
/// seconds, the rest in seconds.
pub(super) fn write_prescription(p: &Prescription, out: &mut String) {
    let list = [
        p.sets.into(),
        p.reps.0.into(),
        p.reps.1.into(),
        p.rir.into(),
        p.rest_s.into(),
    ];
    numbers(out, &list.map(Some));
}

pub(super) fn prescription(reader: &mut Reader<'_>, exercise: ExerciseId) -> Read<Prescription> {
    let list: Vec<i64> = Vec::read(reader)?;
    let [sets, least, most, rir, rest_s] = list[..] else {
        return Err(Misfit::value("it is not 5 numbers"));
    };
    if least > most {
        return Err(Misfit::value(format_args!(
            "the goal range {least} to {most} runs backwards"
        )));
    }
    Ok(Prescription {
        exercise,
        sets: narrow(bounds::SETS, sets)?,
        reps: (narrow(GOAL, least)?, narrow(GOAL, most)?),
        rir: narrow(bounds::RIR, rir)?,
        rest_s: narrow(bounds::REST_S, rest_s)?,
    })
}
