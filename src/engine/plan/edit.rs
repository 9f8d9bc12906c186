//! Editing a plan by hand: every edit gives a new plan, the old one stays.
//!
//! Start at [`Plan::swap`]. Keys of items never change; an added item gets a
//! new one. Notes that an edit may have made untrue are dropped: the audit
//! measures any plan afresh. Nothing here judges an edit.

use super::{Plan, PlanItem, PlanNote, prescribe, time};
use crate::bounds::{self, OutOfBounds};
use crate::catalogue::{Catalogue, ExerciseId};
use crate::person::Person;
use std::fmt;

/// An edit was refused; the plan is as it was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum EditError {
    /// The plan has no such day.
    NoSuchDay(usize),
    /// The day has no item with this key.
    NoSuchItem(u16),
    /// The catalogue has no such exercise.
    UnknownExercise(ExerciseId),
    /// The day already holds the exercise.
    AlreadyThere(ExerciseId),
    /// A number is outside its range.
    OutOfBounds(OutOfBounds),
    /// The lower end of the range is above its upper end.
    UpsideDown(u16, u16),
    /// No key is left.
    TooManyItems,
}

impl fmt::Display for EditError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSuchDay(day) => write!(f, "the plan has no day {}", day + 1),
            Self::NoSuchItem(key) => write!(f, "the day has no exercise with key {key}"),
            Self::UnknownExercise(id) => write!(f, "exercise '{id}' is not in the catalogue"),
            Self::AlreadyThere(id) => write!(
                f,
                "the day already holds '{id}'; give it more sets instead, or choose another"
            ),
            Self::OutOfBounds(error) => error.fmt(f),
            Self::UpsideDown(least, most) => {
                write!(
                    f,
                    "range {least} to {most} is upside down; start with the lower number"
                )
            }
            Self::TooManyItems => f.write_str("the plan holds as many exercises as it can"),
        }
    }
}

impl std::error::Error for EditError {}

/// Greatest key of a plan item (definition: a running session numbers its own
/// from 1000).
const MOST_KEY: u16 = 999;

impl Plan {
    /// The item with this key and the day it stands on.
    #[must_use]
    pub fn find(&self, key: u16) -> Option<(usize, &PlanItem)> {
        self.days.iter().enumerate().find_map(|(d, day)| {
            let item = day.items.iter().find(|item| item.key == key)?;
            Some((d, item))
        })
    }

    /// Another exercise in the item's place, with the same number of sets.
    ///
    /// # Errors
    /// [`EditError`] when day, item or exercise is unknown, or the exercise is
    /// already on the day.
    pub fn swap(
        &self,
        catalogue: &Catalogue,
        person: &Person,
        day: usize,
        key: u16,
        exercise: &ExerciseId,
    ) -> Result<Self, EditError> {
        let new = catalogue
            .get(exercise)
            .ok_or_else(|| EditError::UnknownExercise(exercise.clone()))?;
        self.refuse_double(day, exercise, Some(key))?;
        self.edit_item(catalogue, day, key, |item| {
            item.prescription = prescribe(new, person, item.prescription.sets);
            item.reasons.clear();
            Ok(())
        })
    }

    /// So many working sets.
    ///
    /// # Errors
    /// [`EditError`] when day or item is unknown or the number outside
    /// [`bounds::SETS`].
    pub fn set_sets(
        &self,
        catalogue: &Catalogue,
        day: usize,
        key: u16,
        sets: u8,
    ) -> Result<Self, EditError> {
        check(bounds::SETS, i64::from(sets))?;
        self.edit_item(catalogue, day, key, |item| {
            item.prescription.sets = sets;
            Ok(())
        })
    }

    /// Another goal range of reps, or of seconds for a timed exercise.
    ///
    /// # Errors
    /// [`EditError`] when day or item is unknown, the range is upside down or
    /// outside [`bounds::REPS`] ([`bounds::HOLD_S`] when timed).
    pub fn set_reps(
        &self,
        catalogue: &Catalogue,
        day: usize,
        key: u16,
        (least, most): (u16, u16),
    ) -> Result<Self, EditError> {
        self.edit_item(catalogue, day, key, |item| {
            let is_timed = catalogue
                .get(&item.prescription.exercise)
                .is_some_and(|e| e.measure == crate::catalogue::Measure::Seconds);
            let bound = if is_timed {
                bounds::HOLD_S
            } else {
                bounds::REPS
            };
            check(bound, i64::from(least))?;
            check(bound, i64::from(most))?;
            if least > most {
                return Err(EditError::UpsideDown(least, most));
            }
            item.prescription.reps = (least, most);
            Ok(())
        })
    }

    /// Another rest after each set, in seconds.
    ///
    /// # Errors
    /// [`EditError`] when day or item is unknown or the rest outside
    /// [`bounds::REST_S`].
    pub fn set_rest(
        &self,
        catalogue: &Catalogue,
        day: usize,
        key: u16,
        rest_s: u16,
    ) -> Result<Self, EditError> {
        check(bounds::REST_S, i64::from(rest_s))?;
        self.edit_item(catalogue, day, key, |item| {
            item.prescription.rest_s = rest_s;
            Ok(())
        })
    }

    /// Other reps in reserve to aim at.
    ///
    /// # Errors
    /// [`EditError`] when day or item is unknown or the number is above 5.
    pub fn set_rir(
        &self,
        catalogue: &Catalogue,
        day: usize,
        key: u16,
        rir: u8,
    ) -> Result<Self, EditError> {
        let bound = bounds::Bound {
            most: 5,
            ..bounds::RIR
        };
        check(bound, i64::from(rir))?;
        self.edit_item(catalogue, day, key, |item| {
            item.prescription.rir = rir;
            Ok(())
        })
    }

    /// The item at another place, of the same day or another one; a place past
    /// the end is the end.
    ///
    /// # Errors
    /// [`EditError`] when a day or the item is unknown, or the other day is full
    /// or already holds the exercise.
    pub fn move_item(
        &self,
        catalogue: &Catalogue,
        day: usize,
        key: u16,
        to_day: usize,
        place: usize,
    ) -> Result<Self, EditError> {
        let at = self.place_of(day, key)?;
        let target = self.days.get(to_day).ok_or(EditError::NoSuchDay(to_day))?;
        if to_day != day {
            let exercise = &self.days[day].items[at].prescription.exercise;
            self.refuse_double(to_day, exercise, None)?;
            refuse_full(target.items.len())?;
        }
        let mut plan = self.clone();
        let mut item = plan.days[day].items.remove(at);
        if to_day != day {
            item.superset = None;
        }
        let items = &mut plan.days[to_day].items;
        items.insert(place.min(items.len()), item);
        plan.settle(catalogue, &[day, to_day]);
        Ok(plan)
    }

    /// The plan without the item.
    ///
    /// # Errors
    /// [`EditError`] when day or item is unknown.
    pub fn remove(&self, catalogue: &Catalogue, day: usize, key: u16) -> Result<Self, EditError> {
        let at = self.place_of(day, key)?;
        let mut plan = self.clone();
        plan.days[day].items.remove(at);
        plan.settle(catalogue, &[day]);
        Ok(plan)
    }

    /// One more exercise at the end of the day, with a new key.
    ///
    /// # Errors
    /// [`EditError`] when the day or exercise is unknown, the day full or already
    /// holds it, or the sets outside [`bounds::SETS`].
    pub fn add(
        &self,
        catalogue: &Catalogue,
        person: &Person,
        day: usize,
        exercise: &ExerciseId,
        sets: u8,
    ) -> Result<Self, EditError> {
        let new = catalogue
            .get(exercise)
            .ok_or_else(|| EditError::UnknownExercise(exercise.clone()))?;
        check(bounds::SETS, i64::from(sets))?;
        let target = self.days.get(day).ok_or(EditError::NoSuchDay(day))?;
        self.refuse_double(day, exercise, None)?;
        refuse_full(target.items.len())?;
        let keys = self.days.iter().flat_map(|d| &d.items).map(|i| i.key);
        let key = keys.max().map_or(1, |most| most + 1);
        if key > MOST_KEY {
            return Err(EditError::TooManyItems);
        }
        let mut plan = self.clone();
        plan.days[day].items.push(PlanItem {
            key,
            prescription: prescribe(new, person, sets),
            superset: None,
            reasons: Vec::new(),
        });
        plan.settle(catalogue, &[day]);
        Ok(plan)
    }

    /// Joins an item with the one after it into a superset, or parts them when
    /// they are one.
    ///
    /// # Errors
    /// [`EditError`] when day or item is unknown or the item is the day's last.
    pub fn toggle_superset(
        &self,
        catalogue: &Catalogue,
        day: usize,
        key: u16,
    ) -> Result<Self, EditError> {
        let at = self.place_of(day, key)?;
        let items = &self.days[day].items;
        let next = items.get(at + 1).ok_or(EditError::NoSuchItem(key))?;
        let mut plan = self.clone();
        let edited = &mut plan.days[day].items;
        if items[at].superset.is_some() && items[at].superset == next.superset {
            edited[at + 1].superset = None;
        } else {
            let fresh = items.iter().filter_map(|i| i.superset).max().unwrap_or(0) + 1;
            let number = items[at].superset.unwrap_or(fresh);
            edited[at].superset = Some(number);
            edited[at + 1].superset = Some(number);
        }
        plan.settle(catalogue, &[day]);
        Ok(plan)
    }

    fn place_of(&self, day: usize, key: u16) -> Result<usize, EditError> {
        self.days
            .get(day)
            .ok_or(EditError::NoSuchDay(day))?
            .items
            .iter()
            .position(|item| item.key == key)
            .ok_or(EditError::NoSuchItem(key))
    }

    fn refuse_double(
        &self,
        day: usize,
        exercise: &ExerciseId,
        but: Option<u16>,
    ) -> Result<(), EditError> {
        let items = &self.days.get(day).ok_or(EditError::NoSuchDay(day))?.items;
        let is_there = items
            .iter()
            .any(|item| Some(item.key) != but && &item.prescription.exercise == exercise);
        if is_there {
            Err(EditError::AlreadyThere(exercise.clone()))
        } else {
            Ok(())
        }
    }

    fn edit_item(
        &self,
        catalogue: &Catalogue,
        day: usize,
        key: u16,
        edit: impl FnOnce(&mut PlanItem) -> Result<(), EditError>,
    ) -> Result<Self, EditError> {
        let at = self.place_of(day, key)?;
        let mut plan = self.clone();
        edit(&mut plan.days[day].items[at])?;
        plan.settle(catalogue, &[day]);
        Ok(plan)
    }

    /// Puts supersets, seconds and notes right after an edit.
    fn settle(&mut self, catalogue: &Catalogue, days: &[usize]) {
        for &day in days {
            let day = &mut self.days[day];
            renumber_supersets(&mut day.items);
            day.seconds = time::session_seconds(catalogue, &day.items);
        }
        self.notes.retain(|note| {
            matches!(
                note,
                PlanNote::PatternNotCovered(_) | PlanNote::SlotDropped { .. }
            )
        });
    }
}

/// Numbers runs of neighbours with the same number from 1 and frees items that
/// were left alone.
fn renumber_supersets(items: &mut [PlanItem]) {
    let mut number = 0;
    let mut at = 0;
    while at < items.len() {
        let mut end = at + 1;
        while end < items.len()
            && items[at].superset.is_some()
            && items[end].superset == items[at].superset
        {
            end += 1;
        }
        let renumbered = (end - at > 1).then(|| {
            number += 1;
            number
        });
        for item in &mut items[at..end] {
            item.superset = renumbered;
        }
        at = end;
    }
}

fn refuse_full(items: usize) -> Result<(), EditError> {
    #[expect(clippy::cast_possible_wrap, reason = "a day holds a dozen")]
    check(bounds::SLOTS, items as i64 + 1)
}

fn check(bound: bounds::Bound, value: i64) -> Result<(), EditError> {
    bound
        .check(value)
        .map(|_| ())
        .map_err(EditError::OutOfBounds)
}
