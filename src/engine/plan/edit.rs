//! Editing a plan by hand: every edit gives a new plan, the old one stays.
//!
//! Start at [`Edit`] and [`Plan::edit`]. Keys of items never change; an added
//! item gets a new one. Reasons and notes stay as far as they are still true of
//! the edited plan, with their numbers put right. Nothing here judges an edit.

use super::objective::{BASICS, basic_of};
use super::{
    Focus, HARD, PickReason, Plan, PlanDay, PlanItem, PlanNote, prescribe, time, weekly_sets,
};
use crate::bounds::{self, OutOfBounds};
use crate::catalogue::{Catalogue, ExerciseId, HalfSets, Muscle, Pattern};
use crate::person::Person;
use std::fmt;
use std::slice::from_ref;

/// One change of a plan. Days are indices, keys those of items.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Edit {
    /// Another exercise in the item's place.
    Swap {
        /// The day.
        day: usize,
        /// The item.
        key: u16,
        /// What to do instead.
        exercise: ExerciseId,
    },
    /// So many working sets.
    Sets {
        /// The day.
        day: usize,
        /// The item.
        key: u16,
        /// [`bounds::SETS`].
        sets: u8,
    },
    /// Another goal range of reps, or of seconds for a timed exercise.
    Reps {
        /// The day.
        day: usize,
        /// The item.
        key: u16,
        /// Least and most.
        reps: (u16, u16),
    },
    /// Another rest after each set.
    Rest {
        /// The day.
        day: usize,
        /// The item.
        key: u16,
        /// Seconds, [`bounds::REST_S`].
        rest_s: u16,
    },
    /// Joined with the item after it into a superset, or parted from it.
    Superset {
        /// The day.
        day: usize,
        /// The item.
        key: u16,
    },
    /// At another place of the same or another day; past the end is the end.
    Move {
        /// The day.
        day: usize,
        /// The item.
        key: u16,
        /// The day it goes to.
        to_day: usize,
        /// Its place there.
        place: usize,
    },
    /// Taken out.
    Remove {
        /// The day.
        day: usize,
        /// The item.
        key: u16,
    },
    /// One more exercise at the end of a day.
    Add {
        /// The day.
        day: usize,
        /// The exercise.
        exercise: ExerciseId,
        /// [`bounds::SETS`].
        sets: u8,
    },
    /// One more day, without exercises, at the end of the cycle.
    AddDay,
    /// A day taken out, with all it holds.
    RemoveDay {
        /// The day.
        day: usize,
    },
    /// A day at another place of the cycle.
    MoveDay {
        /// The day.
        day: usize,
        /// Its new index.
        to: usize,
    },
}

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
    /// The only day cannot be taken out.
    LastDay,
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
            Self::LastDay => f.write_str("the plan has only this day; add another one first"),
        }
    }
}

impl std::error::Error for EditError {}

/// Greatest key of a plan item (definition: a running session numbers its own
/// from 1000).
const MOST_KEY: u16 = 999;

/// Days of a cycle (definition: four weeks of daily sessions).
const CYCLE: bounds::Bound = bounds::Bound {
    what: "days of the cycle",
    least: 1,
    most: 28,
};

impl PlanDay {
    /// The day in a deload: a third of the sets fewer, where an exercise has
    /// three or more. That coached lifters do fewer sets of the same exercises
    /// is published (Rogerson et al. 2024, Sports Med Open 10:26); the size is
    /// common practice, no source.
    #[must_use]
    pub fn lighter(&self, catalogue: &Catalogue) -> Self {
        let mut day = self.clone();
        for item in &mut day.items {
            item.prescription.sets -= item.prescription.sets / 3;
        }
        day.seconds = time::session_seconds(catalogue, &day.items);
        day
    }
}

impl Plan {
    /// The plan with one change.
    ///
    /// # Errors
    /// [`EditError`] says why the change cannot be made.
    pub fn edit(
        &self,
        catalogue: &Catalogue,
        person: &Person,
        edit: &Edit,
    ) -> Result<Self, EditError> {
        match *edit {
            Edit::Swap {
                day,
                key,
                ref exercise,
            } => self.swap(catalogue, person, day, key, exercise),
            Edit::Sets { day, key, sets } => self.set_sets(catalogue, day, key, sets),
            Edit::Reps { day, key, reps } => self.set_reps(catalogue, day, key, reps),
            Edit::Rest { day, key, rest_s } => self.set_rest(catalogue, day, key, rest_s),
            Edit::Superset { day, key } => self.toggle_superset(catalogue, day, key),
            Edit::Move {
                day,
                key,
                to_day,
                place,
            } => self.move_item(catalogue, day, key, to_day, place),
            Edit::Remove { day, key } => self.remove(catalogue, day, key),
            Edit::Add {
                day,
                ref exercise,
                sets,
            } => self.add(catalogue, person, day, exercise, sets),
            Edit::AddDay => self.add_day(catalogue),
            Edit::RemoveDay { day } => self.remove_day(catalogue, day),
            Edit::MoveDay { day, to } => self.move_day(catalogue, day, to),
        }
    }

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
        self.edit_item(catalogue, day, key, &|item| {
            item.prescription = prescribe(new, person, item.prescription.sets);
            // Those that speak of muscles and patterns may hold of the new one.
            item.reasons.retain(|reason| {
                matches!(
                    reason,
                    PickReason::CoversPattern(_)
                        | PickReason::Feeds { .. }
                        | PickReason::Priority(_)
                        | PickReason::LeadsDay
                )
            });
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
        self.edit_item(catalogue, day, key, &|item| {
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
        self.edit_item(catalogue, day, key, &|item| {
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
        self.edit_item(catalogue, day, key, &|item| {
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
        self.edit_item(catalogue, day, key, &|item| {
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
        plan.settle(catalogue, self, &Some);
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
        plan.settle(catalogue, self, &Some);
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
        plan.settle(catalogue, self, &Some);
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
        plan.settle(catalogue, self, &Some);
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
        edit: &dyn Fn(&mut PlanItem) -> Result<(), EditError>,
    ) -> Result<Self, EditError> {
        let at = self.place_of(day, key)?;
        let mut plan = self.clone();
        edit(&mut plan.days[day].items[at])?;
        plan.settle(catalogue, self, &Some);
        Ok(plan)
    }

    /// One more day without exercises, the person's own to fill.
    fn add_day(&self, catalogue: &Catalogue) -> Result<Self, EditError> {
        count(CYCLE, self.days.len() + 1)?;
        let mut plan = self.clone();
        plan.days.push(PlanDay {
            focus: Focus::Own,
            items: Vec::new(),
            seconds: 0,
        });
        plan.settle(catalogue, self, &Some);
        Ok(plan)
    }

    fn remove_day(&self, catalogue: &Catalogue, day: usize) -> Result<Self, EditError> {
        self.days.get(day).ok_or(EditError::NoSuchDay(day))?;
        if self.days.len() == 1 {
            return Err(EditError::LastDay);
        }
        let mut plan = self.clone();
        plan.days.remove(day);
        plan.settle(catalogue, self, &|old| match old {
            old if old == day => None,
            old if old > day => Some(old - 1),
            old => Some(old),
        });
        Ok(plan)
    }

    fn move_day(&self, catalogue: &Catalogue, day: usize, to: usize) -> Result<Self, EditError> {
        for day in [day, to] {
            self.days.get(day).ok_or(EditError::NoSuchDay(day))?;
        }
        let mut plan = self.clone();
        let moved = plan.days.remove(day);
        plan.days.insert(to, moved);
        let mut order: Vec<usize> = (0..self.days.len()).collect();
        order.remove(day);
        order.insert(to, day);
        plan.settle(catalogue, self, &|old| {
            order.iter().position(|&from| from == old)
        });
        Ok(plan)
    }

    /// Puts supersets, seconds, reasons and notes right after an edit. `moved`
    /// says where a day of the plan before is now.
    fn settle(
        &mut self,
        catalogue: &Catalogue,
        before: &Self,
        moved: &dyn Fn(usize) -> Option<usize>,
    ) {
        let covers = BASICS.map(|basic| holds(catalogue, &self.days, basic));
        for day in &mut self.days {
            renumber_supersets(&mut day.items);
            day.seconds = time::session_seconds(catalogue, &day.items);
            for (at, item) in day.items.iter_mut().enumerate() {
                still_why(catalogue, item, at == 0, &covers);
            }
        }
        let notes = std::mem::take(&mut self.notes);
        for note in notes {
            let still = self.still_noted(catalogue, note, before, moved);
            self.notes.extend(still);
        }
    }

    /// The note as it reads of this plan; `None` once it is no longer true.
    fn still_noted(
        &self,
        catalogue: &Catalogue,
        mut note: PlanNote,
        before: &Self,
        moved: &dyn Fn(usize) -> Option<usize>,
    ) -> Option<PlanNote> {
        let now = |day: u8| {
            let day = moved(usize::from(day))?;
            Some((self.days.get(day)?, u8::try_from(day).ok()?))
        };
        let is_true = match &mut note {
            PlanNote::PatternNotCovered(pattern) => {
                let patterns = basic_of(*pattern).map_or(&[][..], |basic| BASICS[basic]);
                holds(catalogue, &self.days, patterns) == 0
            }
            PlanNote::SlotDropped { day, patterns } => {
                let then = before.days.get(usize::from(*day))?;
                let (today, at) = now(*day)?;
                *day = at;
                holds(catalogue, from_ref(today), patterns)
                    <= holds(catalogue, from_ref(then), patterns)
            }
            PlanNote::BelowFloor {
                muscle,
                half_sets,
                floor,
            } => {
                *half_sets = half_sets_of(catalogue, &self.days, *muscle);
                *half_sets < *floor
            }
            PlanNote::OverTime { day, seconds } => {
                let then = before.days.get(usize::from(*day))?;
                let (today, at) = now(*day)?;
                let budget = then.seconds.saturating_sub(*seconds);
                (*day, *seconds) = (at, today.seconds.saturating_sub(budget));
                *seconds > 0
            }
            PlanNote::ShortRecovery { day, muscle } => {
                let next = (*day + 1) % u8::try_from(before.days.len()).ok()?;
                let ((first, at), (second, next)) = (now(*day)?, now(next)?);
                *day = at;
                usize::from(next) == (usize::from(at) + 1) % self.days.len()
                    && [first, second]
                        .into_iter()
                        .all(|day| half_sets_of(catalogue, from_ref(day), *muscle) >= HARD)
            }
        };
        is_true.then_some(note)
    }
}

/// Keeps the reasons that hold of the item as it is now. `covers` is how often
/// the week holds each basic pattern.
fn still_why(
    catalogue: &Catalogue,
    item: &mut PlanItem,
    is_first: bool,
    covers: &[usize; BASICS.len()],
) {
    let exercise = catalogue.get(&item.prescription.exercise);
    let sets = HalfSets::from(item.prescription.sets);
    let is_paired = item.superset.is_some();
    item.reasons.retain_mut(|reason| match reason {
        PickReason::CoversPattern(pattern) => {
            exercise.is_some_and(|e| e.pattern == *pattern)
                && basic_of(*pattern).is_some_and(|basic| covers[basic] == 1)
        }
        PickReason::Feeds { muscle, half_sets } => {
            *half_sets = exercise.map_or(0, |e| e.half_sets_for(*muscle)) * sets;
            *half_sets > 0
        }
        PickReason::Priority(muscle) => exercise.is_some_and(|e| e.prime.contains(muscle)),
        PickReason::LeadsDay => is_first,
        PickReason::SavesTime => is_paired,
        PickReason::EasyToLearn | PickReason::BestWithKit => true,
    });
}

/// How many exercises of these days are of one of the patterns.
fn holds(catalogue: &Catalogue, days: &[PlanDay], patterns: &[Pattern]) -> usize {
    let is_one = |item: &&PlanItem| {
        catalogue
            .get(&item.prescription.exercise)
            .is_some_and(|e| patterns.contains(&e.pattern))
    };
    days.iter()
        .flat_map(|day| &day.items)
        .filter(is_one)
        .count()
}

fn half_sets_of(catalogue: &Catalogue, days: &[PlanDay], muscle: Muscle) -> HalfSets {
    weekly_sets(catalogue, days)
        .get(&muscle)
        .copied()
        .unwrap_or(0)
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
    count(bounds::SLOTS, items + 1)
}

fn count(bound: bounds::Bound, things: usize) -> Result<(), EditError> {
    check(bound, i64::try_from(things).unwrap_or(i64::MAX))
}

fn check(bound: bounds::Bound, value: i64) -> Result<(), EditError> {
    bound
        .check(value)
        .map(|_| ())
        .map_err(EditError::OutOfBounds)
}
