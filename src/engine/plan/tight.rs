//! Days too short for what a week should hold: filled from nothing with the
//! quickest exercises.
//!
//! Start at [`fillings`]. Where the minutes leave out a basic pattern, changing
//! the day slot by slot rarely finds room for it: every exercise would have to
//! become a quicker one at once, and each change alone is a loss. So the day is
//! filled with the fewest sets, and of all ways that cover the same patterns the
//! quick ones are kept. This module never judges a week: that is for the search.

use super::objective::{BASICS, DayPicks, MOST_PAIRS, Model, Pick, SETS, SLOTS, UNCOVERED};
use super::opening::{Opening, Others};
use crate::order::sort_by_key;

/// Ways kept at each slot for the same patterns (the project's own judgement).
const KEPT: usize = 4;
/// Points for a second by which ways that cover the same are compared: a pattern
/// more for every fifty (the project's own judgement: dear enough that the quick
/// ones are kept).
const SECOND: i64 = UNCOVERED / 50;

/// A day filled up to some slot.
#[derive(Clone, Copy)]
struct Filling {
    picks: DayPicks,
    /// Points of the week, whatever the minutes.
    points: i64,
    /// The least it takes, in as much haste as may be.
    seconds: u32,
    /// Basic patterns, as bits.
    covered: u8,
}

impl Filling {
    const fn promise(&self) -> i64 {
        self.points - SECOND * self.seconds as i64
    }
}

/// Ways to fill the day with the fewest sets that keep within its minutes, for
/// every choice of basic patterns the quick ones, the most promising first.
pub(super) fn fillings(model: &Model<'_>, others: &Others<'_>, day: usize) -> Vec<DayPicks> {
    let places = &model.days[day];
    let mut order: Vec<usize> = (0..places.len()).collect();
    sort_by_key(&mut order, |&slot| places[slot].keep);
    let mut kept = vec![Filling {
        picks: [None; SLOTS],
        points: 0,
        seconds: 0,
        covered: 0,
    }];
    for slot in order {
        let mut by_patterns: Vec<Vec<Filling>> = vec![Vec::new(); 1 << BASICS.len()];
        let mut keep = |filling: Filling| {
            let list = &mut by_patterns[usize::from(filling.covered)];
            let is_behind = |other: &Filling| filling.promise() > other.promise();
            let place = list.iter().position(is_behind).unwrap_or(list.len());
            list.insert(place, filling);
            list.truncate(KEPT);
        };
        for so_far in &kept {
            let open = Opening::new(model, others, (day, slot), &so_far.picks);
            keep(Filling {
                points: open.empty(),
                ..*so_far
            });
            for (candidate, at) in (0..).zip(&places[slot].candidates) {
                let pick = Pick {
                    candidate,
                    sets: SETS.0,
                };
                let basic = model.lifts[at.lift].basic;
                let (seconds, shared) = seconds_of(model, at.lift);
                keep(Filling {
                    picks: open.picks_with(Some(pick)),
                    points: open.filled(open.with(candidate), pick),
                    // About: as if each had a partner.
                    seconds: so_far.seconds + seconds - shared / 2,
                    covered: so_far.covered | basic.map_or(0, |basic| 1 << basic),
                });
            }
        }
        kept = by_patterns.into_iter().flatten().collect();
        for filling in &mut kept {
            filling.seconds = least_seconds(model, day, &filling.picks);
        }
        kept.retain(|filling| filling.seconds <= model.budget_s);
    }
    sort_by_key(&mut kept, |filling| -filling.points);
    kept.into_iter().map(|filling| filling.picks).collect()
}

/// Seconds of an exercise's fewest sets, rests as short as may be, and how many of
/// them are rests that a partner may share.
fn seconds_of(model: &Model<'_>, lift: usize) -> (u32, u32) {
    let lift = &model.lifts[lift];
    let sets = u32::from(SETS.0);
    let rests = sets * lift.short_rest_s;
    let shared = if lift.can_pair { rests } else { 0 };
    (lift.ready_s + sets * lift.work_s + rests, shared)
}

/// The least seconds of a day of fewest sets: rests as short as may be, the last
/// left out, and shared between the partners that save most.
fn least_seconds(model: &Model<'_>, day: usize, picks: &DayPicks) -> u32 {
    let mut seconds = 0;
    let mut last_rest = u32::MAX;
    let mut items = [(0, 0); SLOTS];
    for (at, (_, lift, _)) in model.filled(day, picks).enumerate() {
        let (all, shared) = seconds_of(model, lift);
        let lift = &model.lifts[lift];
        seconds += all;
        last_rest = last_rest.min(lift.short_rest_s);
        items[at] = (shared, lift.muscles);
    }
    let mut pairs = Vec::with_capacity(SLOTS * (SLOTS - 1) / 2);
    for (i, one) in items.iter().enumerate() {
        for (j, other) in items.iter().enumerate().skip(i + 1) {
            let saved = one.0.min(other.0);
            if saved > 0 && one.1 & other.1 == 0 {
                pairs.push((saved, 1 << i | 1 << j));
            }
        }
    }
    sort_by_key(&mut pairs, |&(saved, _)| std::cmp::Reverse(saved));
    let mut most = 0;
    most_saved(&pairs, (0, 0), MOST_PAIRS as u32, &mut most);
    seconds.saturating_sub(most + if seconds > 0 { last_rest } else { 0 })
}

/// The most that so many pairs more can save, of those without a common exercise
/// (bits) among the pairs by falling saving.
fn most_saved(pairs: &[(u32, u32)], (saved, used): (u32, u32), left: u32, most: &mut u32) {
    *most = saved.max(*most);
    for (at, &(more, both)) in pairs.iter().enumerate() {
        if left == 0 || saved + left * more <= *most {
            return;
        }
        if used & both == 0 {
            most_saved(
                &pairs[at + 1..],
                (saved + more, used | both),
                left - 1,
                most,
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::plan::split_of;
    use crate::plan::tests::Draw;

    /// A day of fewest sets keeps within its minutes just where the objective can
    /// make it fit.
    #[test]
    fn the_least_seconds_are_those_of_most_haste() {
        let catalogue = Catalogue::built_in();
        let (mut fitting, mut late) = (0, 0);
        for number in 0..60 {
            let mut person = Draw(number).person(&catalogue);
            person.minutes = 20 + 5 * (number % 5) as u16;
            let split = split_of(&person).expect("a split for the days");
            let model = Model::new(&catalogue, &person, &split).expect("plannable");
            for day in 0..model.days.len() {
                let mut picks = [None; SLOTS];
                for (slot, place) in model.days[day].iter().enumerate() {
                    let most = place.candidates.len() as u16;
                    if most == 0 {
                        continue;
                    }
                    picks[slot] = Some(Pick {
                        candidate: (number as u16 * 7 + slot as u16 * 3) % most,
                        sets: SETS.0,
                    });
                    let fits = least_seconds(&model, day, &picks) <= model.budget_s;
                    let fit = model.fit(day, &picks);
                    assert_eq!(
                        fits,
                        fit.seconds <= model.budget_s,
                        "person {number}, day {day}, slot {slot}: {fit:?}"
                    );
                    *(if fits { &mut fitting } else { &mut late }) += 1;
                }
            }
        }
        assert!(fitting > 100 && late > 100, "{fitting} and {late}");
    }
}
