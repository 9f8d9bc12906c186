//! The second week: another split with the weekly sets of the first.
//!
//! Start at [`equal_week`]. It plans the week on that split and then changes
//! sets, one exercise or two at a time, as long as that brings the muscles'
//! weekly sets nearer. It keeps to the exercises the planner picked.

use crate::catalogue::{Catalogue, Exercise, HalfSets, Muscle};
use crate::person::Person;
use crate::plan::objective::SETS;
use crate::plan::{
    PickReason, Plan, PlanDay, PlanError, SplitId, dose, plan_week, prescribe, shorten_rests, time,
};

/// A week on a split with each muscle's weekly sets as near those of `like` as
/// sets per exercise and the person's minutes allow. [`super::compare`] tells
/// what differs even so.
///
/// # Errors
/// As [`plan_week`].
pub fn equal_week(
    catalogue: &Catalogue,
    person: &Person,
    like: &Plan,
    split: &SplitId,
) -> Result<Plan, PlanError> {
    let person = Person {
        split: Some(split.clone()),
        ..person.clone()
    };
    let mut plan = plan_week(catalogue, &person)?;
    plan.notes.clear();
    let mut table: Vec<Row> = Vec::new();
    for (day, planned) in plan.days.iter().enumerate() {
        for (at, item) in planned.items.iter().enumerate() {
            if let Some(exercise) = catalogue.get(&item.prescription.exercise) {
                table.push(Row { day, at, exercise });
            }
        }
    }
    let mut off = Off::between(catalogue, &plan, like, &person);
    loop {
        let mut best: Option<(i64, Moves)> = None;
        let mut consider = |moves: Moves, plan: &Plan, off: &Off| {
            let mut after = off.clone();
            for (row, by) in moves.into_iter().flatten() {
                after.add(table[row].exercise, by);
            }
            let gain = off.size() - after.size();
            if gain > best.map_or(0, |(most, _)| most)
                && fits(catalogue, &person, plan, &table, moves)
            {
                best = Some((gain, moves));
            }
        };
        let one = |row: usize| [(row, 1), (row, -1)].map(Some);
        for row in 0..table.len() {
            for first in one(row) {
                consider([first, None], &plan, &off);
                for other in row + 1..table.len() {
                    for second in one(other) {
                        consider([first, second], &plan, &off);
                    }
                }
            }
        }
        let Some((_, moves)) = best else { break };
        for (row, by) in moves.into_iter().flatten() {
            off.add(table[row].exercise, by);
        }
        change(&mut plan, &table, moves);
    }
    for day in &mut plan.days {
        rest(catalogue, &person, day);
        for item in &mut day.items {
            let Some(exercise) = catalogue.get(&item.prescription.exercise) else {
                continue;
            };
            for reason in &mut item.reasons {
                if let PickReason::Feeds { muscle, half_sets } = reason {
                    *half_sets =
                        exercise.half_sets_for(*muscle) * u32::from(item.prescription.sets);
                }
            }
        }
    }
    Ok(plan)
}

/// An exercise of the plan and its place.
struct Row<'a> {
    day: usize,
    at: usize,
    exercise: &'a Exercise,
}

/// Up to two changes of sets: the row of the table, and one up or down.
type Moves = [Option<(usize, i8)>; 2];

fn change(plan: &mut Plan, table: &[Row<'_>], moves: Moves) {
    for (row, by) in moves.into_iter().flatten() {
        let item = &mut plan.days[table[row].day].items[table[row].at];
        item.prescription.sets = item.prescription.sets.saturating_add_signed(by);
    }
}

/// Whether the changes keep within sets per exercise and the minutes, with rests
/// shortened as far as the planner shortens them.
fn fits(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    table: &[Row<'_>],
    moves: Moves,
) -> bool {
    let mut changed = plan.clone();
    change(&mut changed, table, moves);
    moves.into_iter().flatten().all(|(row, by)| {
        let Row { day, at, .. } = table[row];
        let day = &mut changed.days[day];
        let before = day.seconds;
        rest(catalogue, person, day);
        let sets = day.items[at].prescription.sets;
        (SETS.0..=SETS.1).contains(&sets)
            && (by < 0 || day.seconds <= before.max(u32::from(person.minutes) * 60))
    })
}

/// Gives a day the rests its minutes leave it, and measures it.
fn rest(catalogue: &Catalogue, person: &Person, day: &mut PlanDay) {
    for item in &mut day.items {
        if let Some(exercise) = catalogue.get(&item.prescription.exercise) {
            item.prescription.rest_s = prescribe(exercise, person, 2).rest_s;
        }
    }
    shorten_rests(catalogue, person, &mut day.items);
    day.seconds = time::session_seconds(catalogue, &day.items);
}

/// Half sets by which each muscle is above or below what is wanted, weighed.
#[derive(Clone)]
struct Off([(i64, i64); Muscle::ALL.len()]);

impl Off {
    fn between(catalogue: &Catalogue, plan: &Plan, like: &Plan, person: &Person) -> Self {
        let (has, wants) = (
            crate::plan::weekly_sets(catalogue, &plan.days),
            crate::plan::weekly_sets(catalogue, &like.days),
        );
        let mut off = [(0, 0); Muscle::ALL.len()];
        for &muscle in Muscle::ALL {
            let of = |sets: &crate::plan::WeeklySets| -> HalfSets {
                sets.get(&muscle).copied().unwrap_or(0)
            };
            off[muscle as usize] = (
                i64::from(of(&has)) - i64::from(of(&wants)),
                dose::target(muscle, person).weight,
            );
        }
        Self(off)
    }

    fn add(&mut self, exercise: &Exercise, by: i8) {
        for &muscle in exercise.prime.iter().chain(&exercise.assist) {
            self.0[muscle as usize].0 += i64::from(exercise.half_sets_for(muscle)) * i64::from(by);
        }
    }

    /// Squares: a large difference in one muscle is worse than two small ones.
    fn size(&self) -> i64 {
        self.0.iter().map(|&(off, weight)| off * off * weight).sum()
    }
}
