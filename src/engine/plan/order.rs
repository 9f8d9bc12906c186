//! The order of a day, and which exercises share their rests.
//!
//! Start at [`order_day`]. What matters most goes first, big or small (Simão et
//! al. 2010, J Sports Sci Med 9:1-7); within that, compound before isolation,
//! because lifts gain more strength when done first (Nunes et al. 2021, Eur J
//! Sport Sci 21(2):149-157; size does not care). Ties go to the exercise whose
//! prime movers are rested, and then to the order that loses fewest reps by
//! [`crate::freshness`]; the exercise that opens the day stays. Trunk and grip come last, so that no tired trunk
//! stands under a heavy bar (common practice, no source).

use super::objective::{DayPicks, Model};
use super::{PlanItem, prescribe::prescribe};
use crate::catalogue::{Catalogue, Exercise, Kind, Pattern, Role};
use crate::freshness;
use crate::order::sort_by_key;
use crate::person::{Person, Priority};

/// Least tenths of a rep that exchanging two neighbours must save (the project's
/// own judgement): the model tells no finer, and the split's order is the usual
/// one.
const WORTH_EXCHANGING: u32 = 10;

/// An exercise of the day in its place.
pub(super) struct Placed {
    pub slot: usize,
    pub lift: usize,
    pub sets: u8,
    pub superset: Option<u8>,
}

/// Orders the filled slots of a day and numbers its supersets from 1.
pub(super) fn order_day(
    catalogue: &Catalogue,
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
    exchange_neighbours(&mut placed, catalogue, person, model, day);
    bring_pairs_together(&mut placed, pairs);
    placed
}

/// Exchanges neighbours of the same standing where that saves reps, until none
/// does. Heavy lifts never move back: high before low intensity (Ratamess
/// et al. 2009, MSSE 41(3):687-708).
fn exchange_neighbours(
    placed: &mut [Placed],
    catalogue: &Catalogue,
    person: &Person,
    model: &Model<'_>,
    day: usize,
) {
    let exercise = |item: &Placed| model.lifts[item.lift].exercise;
    let stands = |item: &Placed| {
        let rank = model.days[day][item.slot].rank;
        standing(exercise(item), rank, is_wanted(exercise(item), person))
    };
    // Its sets done straight: pairs are brought together afterwards.
    let lost = |placed: &[Placed]| {
        let items: Vec<PlanItem> = placed
            .iter()
            .map(|item| PlanItem {
                key: 0,
                prescription: prescribe(exercise(item), person, item.sets),
                superset: None,
                reasons: Vec::new(),
            })
            .collect();
        freshness::total(catalogue, &items).lost
    };
    let mut least = lost(placed);
    let mut at = 1;
    while at + 1 < placed.len() {
        let (one, next) = (at, at + 1);
        let is_heavy = exercise(&placed[one]).strain >= 2;
        if !is_heavy && stands(&placed[one]) == stands(&placed[next]) {
            placed.swap(one, next);
            let now = lost(placed);
            if now + WORTH_EXCHANGING <= least {
                least = now;
                at = 1;
                continue;
            }
            placed.swap(one, next);
        }
        at += 1;
    }
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

    /// In every split, standing decides, and within it no exchange of two
    /// neighbours would save a rep.
    #[test]
    fn no_exchange_of_neighbours_would_save_a_rep() {
        let catalogue = Catalogue::built_in();
        let person = crate::plan::tests::person();
        for split in crate::plan::split::built_in() {
            let model = Model::new(&catalogue, &person, &split).expect("a week");
            let (week, _) = crate::plan::solve::solve(&model);
            for (day, picks) in week.days.iter().enumerate() {
                let placed = order_day(&catalogue, &model, &person, day, picks, &[]);
                let stands = |item: &Placed| {
                    let exercise = model.lifts[item.lift].exercise;
                    standing(exercise, model.days[day][item.slot].rank, false)
                };
                assert!(placed.is_sorted_by_key(stands), "{} day {day}", split.id);
                let reps = |placed: &[Placed]| -> Vec<PlanItem> {
                    let item = |p: &Placed| PlanItem {
                        key: 0,
                        prescription: prescribe(model.lifts[p.lift].exercise, &person, p.sets),
                        superset: None,
                        reasons: Vec::new(),
                    };
                    placed.iter().map(item).collect()
                };
                let items = reps(&placed);
                let least = freshness::total(&catalogue, &items).lost;
                for at in 1..items.len().saturating_sub(1) {
                    let is_heavy = model.lifts[placed[at].lift].exercise.strain >= 2;
                    if is_heavy || stands(&placed[at]) != stands(&placed[at + 1]) {
                        continue;
                    }
                    let mut other = items.clone();
                    other.swap(at, at + 1);
                    let now = freshness::total(&catalogue, &other).lost;
                    assert!(now + WORTH_EXCHANGING > least, "{} day {day}", split.id);
                }
            }
        }
    }

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
