//! Why an exercise stands in the plan, and what the plan could not do: both
//! worked out from the finished week, never canned.
//!
//! Start at [`reasons`] and [`notes`].

use super::objective::{BASICS, MUSCLES, Model, Week, basic_of};
use super::order::Placed;
use super::split::Split;
use super::{PickReason, PlanDay, PlanNote, WeeklySets, dose, weekly_sets};
use crate::catalogue::{Catalogue, Exercise, HalfSets, Muscle};
use crate::kit::Kit;
use crate::person::{Person, Priority, Status};

/// Half sets of a muscle in one session from which a session counts as hard on
/// it (common practice, no source).
pub const HARD: HalfSets = 10;

/// What the reasons of a week are worked out from.
pub(super) struct Grounds<'a, 'b> {
    pub model: &'b Model<'a>,
    pub catalogue: &'b Catalogue,
    pub person: &'b Person,
    pub split: &'b Split,
    /// The week's half sets, and the same as eighths of sets per muscle.
    pub week: WeeklySets,
    /// How often each basic pattern comes in the week.
    pub basics: [u8; BASICS.len()],
}

impl<'a, 'b> Grounds<'a, 'b> {
    pub(super) fn new(
        model: &'b Model<'a>,
        catalogue: &'b Catalogue,
        person: &'b Person,
        split: &'b Split,
        week: &Week,
    ) -> Self {
        let mut basics = [0; BASICS.len()];
        let mut sets = WeeklySets::new();
        for (d, picks) in week.days.iter().enumerate() {
            for (_, lift, n) in model.filled(d, picks) {
                let lift = &model.lifts[lift];
                if let Some(basic) = lift.basic {
                    basics[basic] += 1;
                }
                for &muscle in Muscle::ALL {
                    let added = lift.exercise.half_sets_for(muscle) * HalfSets::from(n);
                    if added > 0 {
                        *sets.get_or_insert_with(muscle, || 0) += added;
                    }
                }
            }
        }
        Self {
            model,
            catalogue,
            person,
            split,
            week: sets,
            basics,
        }
    }
}

/// Why this exercise stands here; at least one reason.
pub(super) fn reasons(
    grounds: &Grounds<'_, '_>,
    day: usize,
    item: &Placed,
    is_first: bool,
) -> Vec<PickReason> {
    let exercise = grounds.model.lifts[item.lift].exercise;
    let place = &grounds.model.days[day][item.slot];
    let mut reasons = Vec::new();
    if is_first && place.rank <= 1 {
        reasons.push(PickReason::LeadsDay);
    }
    if basic_of(exercise.pattern).is_some_and(|basic| grounds.basics[basic] == 1) {
        reasons.push(PickReason::CoversPattern(exercise.pattern));
    }
    if let Some(&muscle) = exercise
        .prime
        .iter()
        .find(|m| grounds.person.priorities.get(m) == Some(&Priority::More))
    {
        reasons.push(PickReason::Priority(muscle));
    }
    let (muscle, half_sets) = most_fed(grounds, exercise, item.sets);
    reasons.push(PickReason::Feeds { muscle, half_sets });
    let is_learner = grounds.person.status == Status::Novice || grounds.person.is_older;
    let has_harder = place
        .candidates
        .iter()
        .any(|c| grounds.model.lifts[c.lift].exercise.skill > exercise.skill.max(1));
    if is_learner && exercise.skill <= 1 && has_harder {
        reasons.push(PickReason::EasyToLearn);
    }
    if kit_narrows(grounds.catalogue, &grounds.person.kit, exercise) {
        reasons.push(PickReason::BestWithKit);
    }
    if item.superset.is_some() {
        reasons.push(PickReason::SavesTime);
    }
    reasons
}

/// The muscle for which the week would lose most without this exercise.
fn most_fed(grounds: &Grounds<'_, '_>, exercise: &Exercise, sets: u8) -> (Muscle, HalfSets) {
    let mut best: Option<(i64, Muscle, HalfSets)> = None;
    for (index, &muscle) in Muscle::ALL.iter().enumerate().take(MUSCLES) {
        let added = exercise.half_sets_for(muscle) * HalfSets::from(sets);
        if added == 0 {
            continue;
        }
        let with = grounds.week.get(&muscle).copied().unwrap_or(added);
        let lost = grounds.model.worth_of(index, with * 4)
            - grounds.model.worth_of(index, (with - added.min(with)) * 4);
        // A direct set tells more about why than an indirect one.
        let telling = lost * i64::from(exercise.half_sets_for(muscle));
        if best.is_none_or(|(most, _, _)| telling > most) {
            best = Some((telling, muscle, added));
        }
    }
    best.map_or((Muscle::Abdominals, 0), |(_, muscle, added)| {
        (muscle, added)
    })
}

/// Whether the kit rules out at least half of the exercises of this pattern.
fn kit_narrows(catalogue: &Catalogue, kit: &Kit, exercise: &Exercise) -> bool {
    let same = || {
        catalogue
            .iter()
            .filter(|other| other.pattern == exercise.pattern)
    };
    same().filter(|other| kit.allows(other)).count() * 2 <= same().count()
}

/// What the week could not do.
pub(super) fn notes(grounds: &Grounds<'_, '_>, week: &Week, days: &[PlanDay]) -> Vec<PlanNote> {
    let mut notes = Vec::new();
    for (basic, patterns) in BASICS.iter().enumerate() {
        if !grounds.model.can_cover(basic) {
            notes.push(PlanNote::PatternNotCovered(patterns[0]));
        }
    }
    for (d, slots) in grounds.model.days.iter().enumerate() {
        for s in 0..slots.len() {
            let picks = &week.days[d];
            let is_dropped = picks[s].is_none() && grounds.model.could_fill(d, s, picks);
            if is_dropped && grounds.model.is_too_late_for(d, s, picks) {
                notes.push(PlanNote::SlotDropped {
                    day: u8::try_from(d).unwrap_or(u8::MAX),
                    patterns: grounds.split.days[d].slots[s].patterns.clone(),
                });
            }
        }
    }
    notes.extend(measured_notes(grounds.catalogue, grounds.person, days));
    notes
}

/// The notes that follow from the prescriptions alone.
pub(super) fn measured_notes(
    catalogue: &Catalogue,
    person: &Person,
    days: &[PlanDay],
) -> Vec<PlanNote> {
    let mut notes = Vec::new();
    let sets = weekly_sets(catalogue, days);
    for &muscle in Muscle::ALL {
        let floor = dose::target(muscle, person).floor;
        let half_sets = sets.get(&muscle).copied().unwrap_or(0);
        if half_sets < floor {
            notes.push(PlanNote::BelowFloor {
                muscle,
                half_sets,
                floor,
            });
        }
    }
    let budget = u32::from(person.minutes) * 60;
    for (d, day) in (0..).zip(days) {
        if day.seconds > budget {
            notes.push(PlanNote::OverTime {
                day: d,
                seconds: day.seconds - budget,
            });
        }
    }
    for (a, b) in super::objective::close_days(person, days.len()) {
        let of = |d: usize| weekly_sets(catalogue, &days[d..=d]);
        let (first, second) = (of(a), of(b));
        for &muscle in Muscle::ALL {
            let hard = |sets: &WeeklySets| sets.get(&muscle).is_some_and(|&n| n >= HARD);
            if dose::size(muscle) == dose::Size::Large && hard(&first) && hard(&second) {
                notes.push(PlanNote::ShortRecovery {
                    day: u8::try_from(a).unwrap_or(u8::MAX),
                    muscle,
                });
            }
        }
    }
    notes
}
