//! Finding a good week: greedy construction, then local search to a standstill.
//!
//! Start at [`solve`]. The search is deterministic: neighbours are tried in a
//! fixed order (days, slots, candidates by id, sets) and a change is taken only
//! when it is worth strictly more points. This module knows nothing of training;
//! all judgement is in the objective.

use super::objective::{BASICS, DayPicks, DaySum, MUSCLES, Model, Pick, SETS, Week};

/// Rounds of the local search. Real problems come to rest in a handful; the
/// limit only makes the end certain.
const ROUNDS: usize = 40;

/// The best week found and its points.
pub(super) fn solve(model: &Model<'_>) -> Week {
    let mut search = Search::new(model);
    search.fill_by_rank();
    search.improve();
    search.week
}

struct Search<'m, 'a> {
    model: &'m Model<'a>,
    week: Week,
    sums: Vec<DaySum>,
    credit: [u32; MUSCLES],
    uses: Vec<u8>,
    covered: [u8; BASICS.len()],
    repeats: i64,
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
            credit: [0; MUSCLES],
            uses: vec![0; model.lifts.len()],
            covered: [0; BASICS.len()],
            repeats: 0,
            points,
        }
    }

    /// Points of the week if this day held these picks instead.
    fn points_with(&mut self, day: usize, picks: &DayPicks) -> (i64, DaySum) {
        let model = self.model;
        let sum = model.sum_day(day, picks);
        let old = self.sums[day];
        let mut credit = self.credit;
        for m in 0..MUSCLES {
            credit[m] = credit[m] + Model::credit_of(&sum)[m] - Model::credit_of(&old)[m];
        }
        let before = self.week.days[day];
        let (repeats, covered) = (self.repeats, self.covered);
        self.count(day, &before, picks);
        let repeats_then = self.repeats;
        let uncovered: i64 = (0..BASICS.len())
            .map(|b| model.uncovered_cost(b, self.covered[b]))
            .sum();
        self.count(day, picks, &before);
        debug_assert!(self.repeats == repeats && self.covered == covered);
        let recovery: i64 = model
            .close_days()
            .iter()
            .map(|&(a, b)| {
                let at = |d: usize| if d == day { &sum } else { &self.sums[d] };
                model.recovery_cost(at(a), at(b))
            })
            .sum();
        let day_costs = self.day_costs - Model::cost_of(&old) + Model::cost_of(&sum);
        let points = model.stimulus(&credit) - day_costs - repeats_then - uncovered - recovery;
        (points, sum)
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
        for m in 0..MUSCLES {
            self.credit[m] =
                self.credit[m] + Model::credit_of(&sum)[m] - Model::credit_of(&self.sums[day])[m];
        }
        self.day_costs += Model::cost_of(&sum) - Model::cost_of(&self.sums[day]);
        self.sums[day] = sum;
        self.week.days[day] = picks;
        self.points = points;
    }

    /// Takes the day's picks if they are worth strictly more.
    fn take_if_better(&mut self, day: usize, picks: DayPicks) -> bool {
        let (points, sum) = self.points_with(day, &picks);
        let is_better = points > self.points;
        if is_better {
            self.take(day, picks, sum, points);
        }
        is_better
    }

    /// Fills slots by rank across the week, each with what helps most now.
    fn fill_by_rank(&mut self) {
        let mut places: Vec<(u8, usize, usize)> = Vec::new();
        for (d, slots) in self.model.days.iter().enumerate() {
            for (s, place) in slots.iter().enumerate() {
                places.push((place.rank, s, d));
            }
        }
        places.sort_unstable();
        for (_, slot, day) in places {
            self.refill(day, slot);
        }
    }

    /// Gives the slot its best content: any candidate, any sets, or nothing.
    fn refill(&mut self, day: usize, slot: usize) -> bool {
        let mut picks = self.week.days[day];
        let before = picks[slot];
        let mut best: Option<(i64, DayPicks, DaySum)> = None;
        let mut consider = |search: &mut Self, content: Option<Pick>, picks: &mut DayPicks| {
            if content == before {
                return;
            }
            picks[slot] = content;
            let (points, sum) = search.points_with(day, picks);
            let most = best.as_ref().map_or(search.points, |b| b.0);
            if points > most {
                best = Some((points, *picks, sum));
            }
        };
        for candidate in 0..self.model.days[day][slot].candidates.len() {
            for sets in SETS.0..=SETS.1 {
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
                    moved |= self.refill(day, slot);
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
        let (before_1, sum_1) = (self.week.days[d1], self.sums[d1]);
        let points_before = self.points;
        let mut first = before_1;
        first[s1] = Some(to_first);
        let (points, sum) = self.points_with(d1, &first);
        self.take(d1, first, sum, points);
        let mut second = self.week.days[d2];
        second[s2] = Some(to_second);
        let (points, sum) = self.points_with(d2, &second);
        if points > points_before {
            self.take(d2, second, sum, points);
            true
        } else {
            self.take(d1, before_1, sum_1, points_before);
            false
        }
    }

    /// Changes one slot while another of the day gives up a set or changes its
    /// exercise, for improvements that no single change reaches.
    fn make_room(&mut self) -> bool {
        let mut moved = false;
        for day in 0..self.model.days.len() {
            for slot in 0..self.model.days[day].len() {
                for other in 0..self.model.days[day].len() {
                    if other == slot {
                        continue;
                    }
                    let Some(giving) = self.week.days[day][other] else {
                        continue;
                    };
                    let given = (giving.sets > SETS.0).then(|| Pick {
                        sets: giving.sets - 1,
                        ..giving
                    });
                    for candidate in 0..self.model.days[day][slot].candidates.len() {
                        for sets in SETS.0..=4 {
                            let mut picks = self.week.days[day];
                            picks[other] = given;
                            #[expect(
                                clippy::cast_possible_truncation,
                                reason = "a few hundred at most"
                            )]
                            let pick = Pick {
                                candidate: candidate as u16,
                                sets,
                            };
                            picks[slot] = Some(pick);
                            if self.take_if_better(day, picks) {
                                moved = true;
                                break;
                            }
                        }
                    }
                }
            }
        }
        moved
    }
}
