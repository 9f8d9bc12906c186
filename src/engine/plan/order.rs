//! The order of a day, and which exercises share their rests.
//!
//! Start at [`order_day`]. What matters most goes first, big or small (Simão et
//! al. 2010, J Sports Sci Med 9:1-7); within that, compound before isolation,
//! because lifts gain more strength when done first (Nunes et al. 2021, Eur J
//! Sport Sci 21(2):149-157; size does not care). Ties go to the exercise whose
//! prime movers are rested. Trunk and grip come last, so that no tired trunk
//! stands under a heavy bar (common practice, no source).

use super::objective::{DayPicks, Model};
use crate::catalogue::{Exercise, Kind, Pattern, Role};
use crate::order::sort_by_key;
use crate::person::{Person, Priority};

/// An exercise of the day in its place.
pub(super) struct Placed {
    pub slot: usize,
    pub lift: usize,
    pub sets: u8,
    pub superset: Option<u8>,
}

/// Orders the filled slots of a day and numbers its supersets from 1.
pub(super) fn order_day(
    model: &Model<'_>,
    person: &Person,
    day: usize,
    picks: &DayPicks,
    pairs: &[Option<(u8, u8)>],
) -> Vec<Placed> {
    let mut open: Vec<Placed> = model
        .filled(day, picks)
        .map(|(slot, lift, sets)| Placed {
            slot,
            lift,
            sets,
            superset: None,
        })
        .collect();
    let mut placed: Vec<Placed> = Vec::with_capacity(open.len());
    while !open.is_empty() {
        let tired = placed.last().map_or(0, |last: &Placed| {
            prime_bits(model.lifts[last.lift].exercise)
        });
        let key = |item: &Placed| {
            let exercise = model.lifts[item.lift].exercise;
            (
                standing(
                    exercise,
                    model.days[day][item.slot].rank,
                    is_wanted(exercise, person),
                ),
                (prime_bits(exercise) & tired).count_ones(),
                item.slot,
            )
        };
        let next = (0..open.len())
            .min_by_key(|&i| key(&open[i]))
            .expect("the list is not empty");
        placed.push(open.remove(next));
    }
    bring_pairs_together(&mut placed, pairs);
    placed
}

/// What the person wants most and the day is about, then compound before
/// isolation, then rank.
fn standing(exercise: &Exercise, rank: u8, is_wanted: bool) -> u8 {
    let is_compound = exercise.kind == Kind::Compound;
    let is_last = exercise.role == Role::Trunk || exercise.pattern == Pattern::Wrist;
    match (is_last, is_compound, is_wanted, rank) {
        (true, ..) => 7,
        (_, true, true, 0..=2) | (_, true, false, 0 | 1) => 0,
        (_, false, true, _) | (_, true, true, _) => 1,
        (_, true, false, 2) => 2,
        (_, true, false, _) => 3,
        (_, false, false, 0 | 1) => 4,
        (_, false, false, 2) => 5,
        (_, false, false, _) => 6,
    }
}

/// Whether the person wants a muscle brought up that the exercise trains
/// directly.
fn is_wanted(exercise: &Exercise, person: &Person) -> bool {
    let wanted = |muscle| person.priorities.get(muscle) == Some(&Priority::More);
    exercise.prime.iter().any(wanted)
}

fn prime_bits(exercise: &Exercise) -> u32 {
    exercise
        .prime
        .iter()
        .fold(0, |bits, &muscle| bits | 1 << muscle as u32)
}

/// Moves the later partner of each superset up to the earlier one.
fn bring_pairs_together(placed: &mut Vec<Placed>, pairs: &[Option<(u8, u8)>]) {
    let mut ordered: Vec<(usize, usize)> = pairs
        .iter()
        .flatten()
        .filter_map(|&(a, b)| {
            let at = |slot: u8| placed.iter().position(|p| p.slot == usize::from(slot));
            let (a, b) = (at(a)?, at(b)?);
            Some((placed[a.min(b)].slot, placed[a.max(b)].slot))
        })
        .collect();
    sort_by_key(&mut ordered, |&(first, _)| {
        placed.iter().position(|p| p.slot == first)
    });
    for (number, (first, second)) in (1..).zip(ordered) {
        let from = placed
            .iter()
            .position(|p| p.slot == second)
            .expect("both partners are placed");
        let mut partner = placed.remove(from);
        let to = placed
            .iter()
            .position(|p| p.slot == first)
            .expect("both partners are placed");
        partner.superset = Some(number);
        placed[to].superset = Some(number);
        placed.insert(to + 1, partner);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Catalogue, ExerciseId};

    #[test]
    fn trunk_stands_last_and_compounds_first() {
        let catalogue = Catalogue::built_in();
        let of = |slug: &str, rank, is_wanted| {
            let exercise = catalogue.get(&ExerciseId::new(slug)).expect("known");
            standing(exercise, rank, is_wanted)
        };
        let bench = of("barbell-bench-press", 2, false);
        assert!(of("back-squat", 1, false) < bench);
        assert!(bench < of("dumbbell-curl", 1, false));
        assert!(of("dumbbell-curl", 2, false) < of("plank", 1, false));
        // What matters most goes first, big or small (Simão et al. 2010, J
        // Sports Sci Med 9:1-7).
        assert!(of("dumbbell-curl", 3, true) < bench);
        assert!(of("back-squat", 1, false) < of("dumbbell-curl", 3, true));
    }
}
