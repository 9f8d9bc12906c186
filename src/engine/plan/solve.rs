//! Finding a good week: greedy construction, then local search to a standstill.
//!
//! Start at [`solve`]. The search is deterministic: neighbours are tried in a
//! fixed order (days, slots, candidates by id, sets) and a change is taken only
//! when it is worth strictly more points. This module knows nothing of training;
//! all judgement is in the objective.

use super::objective::{BASICS, DayPicks, DaySum, Model, Pick, SETS, Week, WeekSum};

/// Rounds of the local search. Real problems come to rest in a handful; the
/// limit only makes the end certain (the project's own judgement).
const ROUNDS: usize = 40;

/// The best week found and its points.
pub(super) fn solve(model: &Model<'_>) -> Week {
    // Two starts: every slot with its best content at once, and every slot with
    // the fewest sets first, so that a tight day holds many exercises before
    // any of them grows.
    let mut best: Option<Search<'_, '_>> = None;
    for most in [SETS.1, SETS.0] {
        let mut search = Search::new(model);
        search.fill_by_rank(most);
        search.improve();
        if best.as_ref().is_none_or(|b| search.points > b.points) {
            best = Some(search);
        }
    }
    best.map_or_else(|| model.empty_week(), |search| search.week)
}

struct Search<'m, 'a> {
    model: &'m Model<'a>,
    week: Week,
    sums: Vec<DaySum>,
    total: WeekSum,
    uses: Vec<u8>,
    covered: [u8; BASICS.len()],
    repeats: i64,
    recovery: i64,
    day_costs: i64,
    points: i64,
}

impl<'m, 'a> Search<'m, 'a> {
    fn new(model: &'m Model<'a>) -> Self {
        let week = model.empty_week();
        let sums: Vec<DaySum> = (0..model.days.len())
            .map(|d| model.sum_day(d, &week.days[d]))
            .collect();
        let points = model.score(&week).total();
        Self {
            model,
            day_costs: sums.iter().map(Model::cost_of).sum(),
            week,
            sums,
            total: WeekSum::default(),
            uses: vec![0; model.lifts.len()],
            covered: [0; BASICS.len()],
            repeats: 0,
            recovery: 0,
            points,
        }
    }

    /// Points of the week if this day held these picks instead; `None` when
    /// they are not more than a threshold.
    fn points_above(
        &mut self,
        day: usize,
        picks: &DayPicks,
        threshold: i64,
    ) -> Option<(i64, DaySum)> {
        let model = self.model;
        let mut sum = model.sum_untimed(day, picks);
        let old = self.sums[day];
        let total = self.total.with(Some(&old), &sum);
        let before = self.week.days[day];
        self.count(day, &before, picks);
        let repeats = self.repeats;
        let uncovered: i64 = (0..BASICS.len())
            .map(|b| model.uncovered_cost(b, self.covered[b]))
            .sum();
        self.count(day, picks, &before);
        let recovery = self.recovery_with(day, &sum);
        let rest = model.stimulus(&total)
            - repeats
            - uncovered
            - recovery
            - (self.day_costs - Model::cost_of(&old));
        // Haste only ever costs, and is dear to work out.
        if rest - Model::cost_of(&sum) <= threshold {
            return None;
        }
        model.add_haste(day, picks, &mut sum);
        let points = rest - Model::cost_of(&sum);
        (points > threshold).then_some((points, sum))
    }

    /// The week's recovery cost with another sum of one day.
    fn recovery_with(&self, day: usize, sum: &DaySum) -> i64 {
        let pairs = self.model.close_days().iter();
        let touched = pairs.filter(|&&(a, b)| a == day || b == day);
        let change: i64 = touched
            .map(|&(a, b)| {
                let at = |d: usize| if d == day { sum } else { &self.sums[d] };
                self.model.recovery_cost(at(a), at(b))
                    - self.model.recovery_cost(&self.sums[a], &self.sums[b])
            })
            .sum();
        self.recovery + change
    }

    /// Books the change of a day's picks in uses, repeats and patterns.
    fn count(&mut self, day: usize, old: &DayPicks, new: &DayPicks) {
        for slot in 0..self.model.days[day].len() {
            if old[slot] == new[slot] {
                continue;
            }
            for (pick, is_added) in [(old[slot], false), (new[slot], true)] {
                let Some(pick) = pick else { continue };
                let lift = self.model.lift_of(day, slot, pick);
                let step = |n: &mut u8| *n = if is_added { *n + 1 } else { *n - 1 };
                self.repeats -= self.model.repeat_cost(lift, self.uses[lift]);
                step(&mut self.uses[lift]);
                self.repeats += self.model.repeat_cost(lift, self.uses[lift]);
                if let Some(basic) = self.model.lifts[lift].basic {
                    step(&mut self.covered[basic]);
                }
            }
        }
    }

    fn take(&mut self, day: usize, picks: DayPicks, sum: DaySum, points: i64) {
        let old = self.week.days[day];
        self.count(day, &old, &picks);
        self.recovery = self.recovery_with(day, &sum);
        self.total = self.total.with(Some(&self.sums[day]), &sum);
        self.day_costs += Model::cost_of(&sum) - Model::cost_of(&self.sums[day]);
        self.sums[day] = sum;
        self.week.days[day] = picks;
        self.points = points;
    }

    /// Takes the day's picks if they are worth strictly more.
    fn take_if_better(&mut self, day: usize, picks: DayPicks) -> bool {
        let found = self.points_above(day, &picks, self.points);
        if let Some((points, sum)) = found {
            self.take(day, picks, sum, points);
        }
        found.is_some()
    }

    /// Fills slots by rank across the week, each with what helps most now.
    fn fill_by_rank(&mut self, most: u8) {
        let mut places: Vec<(u8, usize, usize)> = Vec::new();
        for (d, slots) in self.model.days.iter().enumerate() {
            for (s, place) in slots.iter().enumerate() {
                places.push((place.rank, s, d));
            }
        }
        crate::order::sort(&mut places);
        for (_, slot, day) in places {
            self.refill(day, slot, most);
        }
    }

    /// Gives the slot its best content: any candidate, up to so many sets, or
    /// nothing.
    fn refill(&mut self, day: usize, slot: usize, most: u8) -> bool {
        let mut picks = self.week.days[day];
        let before = picks[slot];
        let mut best: Option<(i64, DayPicks, DaySum)> = None;
        let mut consider = |search: &mut Self, content: Option<Pick>, picks: &mut DayPicks| {
            if content == before {
                return;
            }
            picks[slot] = content;
            let most = best.as_ref().map_or(search.points, |b| b.0);
            if let Some((points, sum)) = search.points_above(day, picks, most) {
                best = Some((points, *picks, sum));
            }
        };
        for candidate in 0..self.model.days[day][slot].candidates.len() {
            for sets in SETS.0..=most {
                #[expect(clippy::cast_possible_truncation, reason = "a few hundred at most")]
                let pick = Pick {
                    candidate: candidate as u16,
                    sets,
                };
                consider(self, Some(pick), &mut picks);
            }
        }
        consider(self, None, &mut picks);
        let is_better = best.is_some();
        if let Some((points, picks, sum)) = best {
            self.take(day, picks, sum, points);
        }
        is_better
    }

    fn improve(&mut self) {
        for _ in 0..ROUNDS {
            let mut moved = false;
            for day in 0..self.model.days.len() {
                for slot in 0..self.model.days[day].len() {
                    moved |= self.refill(day, slot, SETS.1);
                }
                moved |= self.move_sets(day);
            }
            if !moved {
                moved = self.trade_between_days();
            }
            if !moved {
                moved = self.make_room();
            }
            if !moved {
                break;
            }
        }
    }

    /// One set from one exercise of the day to another.
    fn move_sets(&mut self, day: usize) -> bool {
        let slots = self.model.days[day].len();
        let mut moved = false;
        for from in 0..slots {
            for to in 0..slots {
                let mut picks = self.week.days[day];
                let (Some(a), Some(b)) = (picks[from], picks[to]) else {
                    continue;
                };
                if from == to || a.sets <= SETS.0 || b.sets >= SETS.1 {
                    continue;
                }
                picks[from] = Some(Pick {
                    sets: a.sets - 1,
                    ..a
                });
                picks[to] = Some(Pick {
                    sets: b.sets + 1,
                    ..b
                });
                moved |= self.take_if_better(day, picks);
            }
        }
        moved
    }

    /// The exercises of two slots of different days change places.
    fn trade_between_days(&mut self) -> bool {
        let mut moved = false;
        for d1 in 0..self.model.days.len() {
            for d2 in d1 + 1..self.model.days.len() {
                for s1 in 0..self.model.days[d1].len() {
                    for s2 in 0..self.model.days[d2].len() {
                        moved |= self.trade(d1, s1, d2, s2);
                    }
                }
            }
        }
        moved
    }

    fn trade(&mut self, d1: usize, s1: usize, d2: usize, s2: usize) -> bool {
        let (Some(a), Some(b)) = (self.week.days[d1][s1], self.week.days[d2][s2]) else {
            return false;
        };
        let lift_a = self.model.lift_of(d1, s1, a);
        let lift_b = self.model.lift_of(d2, s2, b);
        if lift_a == lift_b {
            return false;
        }
        let find = |d: usize, s: usize, lift: usize, sets: u8| {
            self.model.days[d][s]
                .candidates
                .iter()
                .position(|c| c.lift == lift)
                .and_then(|at| u16::try_from(at).ok())
                .map(|candidate| Pick { candidate, sets })
        };
        let (Some(to_first), Some(to_second)) =
            (find(d1, s1, lift_b, a.sets), find(d2, s2, lift_a, b.sets))
        else {
            return false;
        };
        let (before, sum_before) = (self.week.days[d1], self.sums[d1]);
        let points_before = self.points;
        let mut first = before;
        first[s1] = Some(to_first);
        let Some((points, sum)) = self.points_above(d1, &first, i64::MIN) else {
            return false;
        };
        self.take(d1, first, sum, points);
        let mut second = self.week.days[d2];
        second[s2] = Some(to_second);
        let found = self.points_above(d2, &second, points_before);
        if let Some((points, sum)) = found {
            self.take(d2, second, sum, points);
        } else {
            self.take(d1, before, sum_before, points_before);
        }
        found.is_some()
    }

    /// Changes one slot while another of the day gives up a set, and fills an
    /// empty one while another gives up sets or goes empty: improvements that no
    /// single change reaches.
    fn make_room(&mut self) -> bool {
        let mut moved = false;
        for day in 0..self.model.days.len() {
            let slots = self.model.days[day].len();
            for slot in 0..slots {
                for other in (0..slots).filter(|&other| other != slot) {
                    moved |= self.make_room_in(day, slot, other);
                }
            }
        }
        moved
    }

    fn make_room_in(&mut self, day: usize, slot: usize, other: usize) -> bool {
        let Some(giving) = self.week.days[day][other] else {
            return false;
        };
        let is_empty = self.week.days[day][slot].is_none();
        let least = if is_empty {
            SETS.0
        } else {
            (giving.sets - 1).max(SETS.0)
        };
        let fewer = (least..giving.sets).map(|sets| Some(Pick { sets, ..giving }));
        let nothing = is_empty.then_some(None);
        for given in fewer.chain(nothing) {
            for candidate in 0..self.model.days[day][slot].candidates.len() {
                for sets in SETS.0..=4 {
                    let mut picks = self.week.days[day];
                    picks[other] = given;
                    #[expect(clippy::cast_possible_truncation, reason = "a few hundred at most")]
                    let pick = Pick {
                        candidate: candidate as u16,
                        sets,
                    };
                    picks[slot] = Some(pick);
                    if self.take_if_better(day, picks) {
                        return true;
                    }
                }
            }
        }
        false
    }
}
