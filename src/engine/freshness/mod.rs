//! Freshness: the reps that earlier work in a session costs later sets.
//!
//! Start at [`session_reps`] for a planned session and [`Muscles`] for the model
//! behind it. A set tires each muscle it trains; rest gives it back. That is all
//! there is in it: two numbers ([`FITTED`]), the same for every muscle and
//! person.
//!
//! What the studies cannot tell, and the model leaves out: how a hard set tires
//! the whole person, muscles it does not train included; how muscles and persons
//! differ; what sets well short of failure cost; and whatever goes on after an
//! hour. Fitted to one of its two studies alone it is up to two deviations off in
//! the other: take differences between two sessions from it, not single numbers. It
//! says nothing of growth, and never changes a plan.

use crate::catalogue::{Catalogue, Exercise, Measure, Muscle};
use crate::plan::{PlanItem, time};

/// One whole, for shares counted in millionths (definition).
const WHOLE: u32 = 1_000_000;

/// How fast muscles tire and recover.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Recovery {
    /// What a set to failure takes of what a prime mover has left, in
    /// thousandths; an assisting muscle loses half of that.
    pub taken: u32,
    /// Seconds in which half of a muscle's tiredness goes, at least 1.
    pub half_s: u32,
}

/// As the reps of Senna et al. 2009, J Sports Sci Med 8:197-202 (three
/// exercises, rests of two and five minutes) and Senna et al. 2017, J Hum
/// Kinet (bench press and chest fly in both orders) have it; `cargo xtask fit`
/// works it out and holds it against studies left aside.
pub const FITTED: Recovery = Recovery {
    taken: 370,
    half_s: 170,
};

/// How tired each muscle is.
#[derive(Debug, Clone)]
pub struct Muscles {
    /// By muscle, in millionths: nought is fresh.
    tired: [u32; Muscle::ALL.len()],
    recovery: Recovery,
}

impl Muscles {
    /// All of them fresh.
    #[must_use]
    pub const fn fresh(recovery: Recovery) -> Self {
        Self {
            tired: [0; Muscle::ALL.len()],
            recovery,
        }
    }

    /// Lets so many seconds pass.
    pub fn rest(&mut self, seconds: u32) {
        for tired in &mut self.tired {
            *tired = self.recovery.left(*tired, seconds);
        }
    }

    /// The share of its reps that a set of the exercise would lose now, in
    /// millionths: the muscle with least left ends the set, and an assisting
    /// one is asked for half.
    #[must_use]
    pub fn lost(&self, exercise: &Exercise) -> u32 {
        let of =
            |&muscle: &Muscle| self.tired[muscle as usize] / 2 * exercise.half_sets_for(muscle);
        let trained = exercise.prime.iter().chain(&exercise.assist);
        trained.map(of).max().unwrap_or(0)
    }

    /// Does a set: its muscles tire by how near to failure it goes, in
    /// thousandths (1000: to failure); all others rest meanwhile.
    pub fn work(&mut self, exercise: &Exercise, effort: u32, seconds: u32) {
        for &muscle in Muscle::ALL {
            let tired = &mut self.tired[muscle as usize];
            match exercise.half_sets_for(muscle) {
                0 => *tired = self.recovery.left(*tired, seconds),
                half_sets => {
                    let left = (WHOLE - *tired) / 1_000;
                    let taken = left * self.recovery.taken / 1_000 * effort.min(1_000);
                    *tired += taken / 2 * half_sets;
                }
            }
        }
    }
}

impl Recovery {
    /// What is left of tiredness after so many seconds: it halves and halves
    /// again, in straight lines between, so that every machine counts alike.
    const fn left(self, tired: u32, seconds: u32) -> u32 {
        let halves = seconds / self.half_s;
        if halves > 20 {
            return 0;
        }
        let tired = tired >> halves;
        tired - tired / 2 / self.half_s * (seconds % self.half_s)
    }
}

/// Reps of one exercise in a session, all its sets together, in tenths.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Reps {
    /// As planned: the middle of the range in every set. Nought for holds.
    pub planned: u32,
    /// Of these, what earlier work in the session is expected to cost at the
    /// load that a fresh set would take.
    pub lost: u32,
}

/// Expected reps of each item, in the items' order, for the planned rests.
/// Supersets go in turn. Exercises that the catalogue does not know count for
/// nothing.
#[must_use]
pub fn session_reps(catalogue: &Catalogue, items: &[PlanItem]) -> Vec<Reps> {
    let mut muscles = Muscles::fresh(FITTED);
    let mut all = vec![Reps::default(); items.len()];
    let mut at = 0;
    while at < items.len() {
        let group = items[at].superset;
        let alike = items[at..].iter().take_while(|i| i.superset == group);
        let end = at + if group.is_some() { alike.count() } else { 1 };
        let rounds = items[at..end].iter().map(|i| i.prescription.sets).max();
        for round in 0..rounds.unwrap_or(0) {
            let mut rest_s = 0;
            for (item, reps) in items[at..end].iter().zip(&mut all[at..end]) {
                let Some(exercise) = catalogue.get(&item.prescription.exercise) else {
                    continue;
                };
                if item.prescription.sets <= round {
                    continue;
                }
                let effort = time::effort(exercise, &item.prescription, None);
                if round == 0 {
                    muscles.rest(effort.ready_s);
                }
                rest_s = rest_s.max(effort.rest_s);
                let tenths = (item.prescription.reps.0 + item.prescription.reps.1) * 5;
                let tenths = u32::from(tenths);
                // With what is kept in reserve: tiredness takes from all of it.
                let able = tenths + u32::from(item.prescription.rir) * 10;
                if exercise.measure == Measure::Reps {
                    let lost = able * (muscles.lost(exercise) / 100) / (WHOLE / 100);
                    reps.planned += tenths;
                    reps.lost += lost.min(tenths);
                }
                let effort_permille = tenths * 1_000 / able.max(1);
                muscles.work(exercise, effort_permille, effort.work_s);
            }
            muscles.rest(rest_s);
        }
        at = end;
    }
    all
}

/// The reps of a whole session.
#[must_use]
pub fn total(catalogue: &Catalogue, items: &[PlanItem]) -> Reps {
    let mut sum = Reps::default();
    for reps in session_reps(catalogue, items) {
        sum.planned += reps.planned;
        sum.lost += reps.lost;
    }
    sum
}

#[cfg(test)]
mod tests;
