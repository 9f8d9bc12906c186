//! Finding a good week: greedy construction, local search to a standstill, then
//! whole days anew by the prices of the bound.
//!
//! Start at [`solve`]. The search is deterministic: neighbours are tried in a
//! fixed order (days, slots, candidates by id, sets) and a change is taken only
//! when it is worth strictly more points. This module knows nothing of training;
//! all judgement is in the objective.

use super::bound::{self, Prices};
use super::objective::{BASICS, DayPicks, DaySum, Model, Pick, SETS, SLOTS, Week, WeekSum};
use crate::order::sort_by_key;

/// Rounds of the local search. Real problems come to rest in a handful; the
/// limit only makes the end certain (the project's own judgement).
const ROUNDS: usize = 40;

/// Days that are planned anew at least once, over all starts (the project's own
/// judgement).
const DAYS_REPLANNED: usize = 6;
/// Rounds of planning whole days anew (the project's own judgement).
const REPLANS: usize = 6;
/// Unfinished days kept at each slot (the project's own judgement).
const BEAM: usize = 12;
/// Contents of a slot that are tried in them, besides leaving it empty (the
/// project's own judgement).
const SHORTLIST: usize = 16;

/// The best week found, and a bound on the points of any.
pub(super) fn solve(model: &Model<'_>) -> (Week, i64) {
    // From every slot with its best content at once to every slot with the
    // fewest sets first, so that a tight day holds many exercises before any of
    // them grows.
    let mut starts: Vec<Search<'_, '_>> = [SETS.1, SETS.0, SETS.0 + 1]
        .into_iter()
        .map(|most| {
            let mut search = Search::new(model);
            search.fill_by_rank(most);
            search.improve();
            search
        })
        .collect();
    sort_by_key(&mut starts, |search| -search.points);
    let (most, prices) = bound::bound(model, &starts[0].week, starts[0].points);
    let shortlists = bound::shortlists(model, &prices, SHORTLIST);
    // Short weeks are quick, and hang more on each choice.
    starts.truncate((DAYS_REPLANNED / model.days.len()).max(1));
    for search in &mut starts {
        search.replan_all(&shortlists, &prices);
    }
    sort_by_key(&mut starts, |search| -search.points);
    let best = starts.swap_remove(0);
    (best.week, most.max(best.points))
}

/// Points for a second that haste cannot save while a day is planned anew (the
/// project's own judgement: one lets much pass, the other little).
const UNSAVED: [i64; 2] = [150, 600];

/// What the seconds of an unfinished day cost.
#[derive(Clone, Copy)]
enum Clock {
    /// So many points each, in straight sets.
    Price(i64),
    /// What haste costs, and so many points for each that haste cannot save.
    Haste(i64),
}

/// A day planned up to some slot.
#[derive(Clone, Copy)]
struct Draft {
    picks: DayPicks,
    /// Points, less the price of its seconds.
    promise: i64,
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
        let rest = self.points_with(day, picks, &sum) + Model::cost_of(&sum);
        // Haste only ever costs, and is dear to work out.
        if rest - Model::cost_of(&sum) <= threshold {
            return None;
        }
        model.add_haste(day, picks, &mut sum);
        let points = rest - Model::cost_of(&sum);
        (points > threshold).then_some((points, sum))
    }

    /// Points of the week if this day held these picks instead, whatever its
    /// minutes.
    fn untimed_points(&mut self, day: usize, picks: &DayPicks) -> i64 {
        let sum = self.model.sum_untimed(day, picks);
        self.points_with(day, picks, &sum)
    }

    /// Points of the week with these picks and their sum for the day.
    fn points_with(&mut self, day: usize, picks: &DayPicks, sum: &DaySum) -> i64 {
        let model = self.model;
        let old = self.sums[day];
        let total = self.total.with(Some(&old), sum);
        let before = self.week.days[day];
        self.count(day, &before, picks);
        let repeats = self.repeats;
        let uncovered: i64 = (0..BASICS.len())
            .map(|b| model.uncovered_cost(b, self.covered[b]))
            .sum();
        self.count(day, picks, &before);
        let recovery = self.recovery_with(day, sum);
        let other_days = self.day_costs - Model::cost_of(&old);
        model.stimulus(&total) - repeats - uncovered - recovery - other_days - Model::cost_of(sum)
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
                break;
            }
        }
    }

    /// Plans day after day anew until none gets better.
    fn replan_all(&mut self, shortlists: &[Vec<Vec<Pick>>], prices: &Prices) {
        for _ in 0..REPLANS {
            let mut moved = false;
            for (day, shortlists) in shortlists.iter().enumerate() {
                let second = prices.second[day] / bound::SCALE;
                for second in [second, second * 2 + 40, second / 2] {
                    let clock = Clock::Price(second);
                    moved |= self.replan(day, shortlists, (clock, [None; SLOTS]));
                }
                for second in UNSAVED {
                    let (clock, now) = (Clock::Haste(second), self.week.days[day]);
                    moved |= self.replan(day, shortlists, (clock, now));
                }
            }
            if moved {
                self.improve();
            } else if !self.make_room() {
                break;
            }
        }
    }

    /// Plans the day anew, the others as they are: slot by slot in order of
    /// emphasis, keeping the most promising few, from what stands there or from
    /// nothing. Taken if it is better.
    fn replan(
        &mut self,
        day: usize,
        shortlists: &[Vec<Pick>],
        (clock, from): (Clock, DayPicks),
    ) -> bool {
        let model = self.model;
        let mut order: Vec<usize> = (0..model.days[day].len()).collect();
        sort_by_key(&mut order, |&slot| model.days[day][slot].keep);
        let before = self.week.days[day];
        let mut drafts = vec![Draft {
            picks: from,
            promise: 0,
        }];
        for slot in order {
            let mut next: Vec<Draft> = Vec::with_capacity(BEAM + 1);
            let now = before[slot].filter(|pick| !shortlists[slot].contains(pick));
            for draft in &drafts {
                let contents = shortlists[slot].iter().copied().chain(now).map(Some);
                for content in contents.chain([None]) {
                    let mut picks = draft.picks;
                    picks[slot] = content;
                    let time = match clock {
                        Clock::Price(second) => {
                            second * i64::from(model.straight_seconds(day, &picks))
                        }
                        Clock::Haste(second) => model.haste(day, &picks, second),
                    };
                    let promise = self.untimed_points(day, &picks) - time;
                    let place = next.iter().position(|other| promise > other.promise);
                    next.insert(place.unwrap_or(next.len()), Draft { picks, promise });
                    next.truncate(BEAM);
                }
            }
            drafts = next;
        }
        let mut moved = false;
        for draft in drafts {
            moved |= self.take_if_better(day, draft.picks);
        }
        moved
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
