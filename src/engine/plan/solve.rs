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

/// Rounds of planning whole days anew (the project's own judgement).
const REPLANS: usize = 6;
/// Unfinished days kept at each slot of a week of one day, which fall with the
/// square of the days, and the least of any (the project's own judgement).
const BEAM: (usize, usize) = (108, 8);
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
    let mut best = starts.swap_remove(0);
    let (most, prices) = bound::bound(model, &best.week, best.points);
    let shortlists = bound::shortlists(model, &prices, SHORTLIST);
    // What the prices themselves would choose is another start.
    let mut priced = Search::new(model);
    for (day, picks) in bound::week_at(model, &prices).days.into_iter().enumerate() {
        if let Some((points, sum)) = priced.points_above(day, &picks, i64::MIN) {
            priced.take(day, picks, sum, points);
        }
    }
    priced.improve();
    if priced.points > best.points {
        best = priced;
    }
    best.replan_all(&shortlists, &prices);
    (best.week, most.max(best.points))
}

/// Points for a second that haste cannot save while a day is planned anew (the
/// project's own judgement: one lets much pass, the other little).
const UNSAVED: [i64; 2] = [300, 900];

/// How much wider the beam is where a day passes something on to others (the
/// project's own judgement).
const WIDER: usize = 8;

/// Seconds of a session up to which every choice weighs more (the project's own
/// judgement).
const SHORT_S: u32 = 35 * 60;

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

/// The rest of the week, as one day sees it.
#[derive(Debug, Clone, Default)]
struct Others {
    sum: WeekSum,
    /// Points against the other days: their own costs and repeats among them.
    points: i64,
    /// Points for one more day of each exercise.
    again: Vec<i64>,
    /// Basic patterns they cover, as bits.
    covered: u8,
}

#[derive(Clone)]
struct Search<'m, 'a> {
    model: &'m Model<'a>,
    week: Week,
    sums: Vec<DaySum>,
    others: Vec<Others>,
    /// Unfinished days kept at each slot.
    beam: usize,
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
        let mut search = Self {
            model,
            others: vec![Others::default(); model.days.len()],
            beam: (BEAM.0 / model.days.len().pow(2)).max(BEAM.1),
            day_costs: sums.iter().map(Model::cost_of).sum(),
            week,
            sums,
            total: WeekSum::default(),
            uses: vec![0; model.lifts.len()],
            covered: [0; BASICS.len()],
            repeats: 0,
            recovery: 0,
            points,
        };
        search.see_others();
        search
    }

    /// Points of the week if this day held these picks instead; `None` when
    /// they are not more than a threshold.
    fn points_above(&self, day: usize, picks: &DayPicks, threshold: i64) -> Option<(i64, DaySum)> {
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
    fn untimed_points(&self, day: usize, picks: &DayPicks) -> i64 {
        let sum = self.model.sum_untimed(day, picks);
        self.points_with(day, picks, &sum)
    }

    /// Points of the week with these picks and their sum for the day.
    fn points_with(&self, day: usize, picks: &DayPicks, sum: &DaySum) -> i64 {
        let model = self.model;
        let others = &self.others[day];
        let mut points = others.points + model.stimulus_with(&others.sum, sum);
        let mut covered = others.covered;
        for (_, lift, _) in model.filled(day, picks) {
            points -= others.again[lift];
            if let Some(basic) = model.lifts[lift].basic {
                covered |= 1 << basic;
            }
        }
        for basic in (0..BASICS.len()).filter(|basic| covered & 1 << basic == 0) {
            points -= model.uncovered_cost(basic, 0);
        }
        points - self.recovery_with(day, sum) - Model::cost_of(sum)
    }

    /// Works out what every day's picks are judged beside.
    fn see_others(&mut self) {
        let model = self.model;
        for day in 0..model.days.len() {
            let mut uses = self.uses.clone();
            let mut times = self.covered;
            let mut repeats = self.repeats;
            for (_, lift, _) in model.filled(day, &self.week.days[day]) {
                repeats -= model.repeat_cost(lift, uses[lift]);
                uses[lift] -= 1;
                repeats += model.repeat_cost(lift, uses[lift]);
                if let Some(basic) = model.lifts[lift].basic {
                    times[basic] -= 1;
                }
            }
            let again = |lift: usize| {
                model.repeat_cost(lift, uses[lift] + 1) - model.repeat_cost(lift, uses[lift])
            };
            self.others[day] = Others {
                sum: self.total.without(&self.sums[day]),
                points: -repeats - (self.day_costs - Model::cost_of(&self.sums[day])),
                again: (0..uses.len()).map(again).collect(),
                covered: (0..BASICS.len()).fold(0, |bits, b| bits | u8::from(times[b] > 0) << b),
            };
        }
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
        self.see_others();
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
                moved |= self.change_places(day);
            }
            if !moved {
                moved = self.trade_between_days();
            }
            if !moved {
                break;
            }
        }
    }

    /// Plans day after day anew until none gets better: from nothing by the prices
    /// and from what is there by the clock; at other prices where that is not
    /// enough and the week is short.
    fn replan_all(&mut self, shortlists: &[Vec<Vec<Pick>>], prices: &Prices) {
        let is_short = self.model.days.len() <= 2 || self.model.budget_s <= SHORT_S;
        for _ in 0..REPLANS {
            let mut moved = false;
            for is_usual in [true, false] {
                if moved || !(is_usual || is_short) {
                    break;
                }
                for (day, shortlists) in shortlists.iter().enumerate() {
                    let second = prices.second[day] / bound::SCALE;
                    let (by_price, by_clock): (&[i64], i64) = if is_usual {
                        (&[second], UNSAVED[0])
                    } else {
                        (&[second * 2 + 40, second / 2], UNSAVED[1])
                    };
                    for &second in by_price {
                        let clock = Clock::Price(second);
                        moved |= self.replan(day, shortlists, (clock, [None; SLOTS]));
                    }
                    let now = self.week.days[day];
                    moved |= self.replan(day, shortlists, (Clock::Haste(by_clock), now));
                }
            }
            if moved {
                self.improve();
            } else if !self.make_room() && !self.pass_on(shortlists, prices) {
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
        let mut moved = false;
        for draft in self.drafts(day, shortlists, (clock, from)) {
            moved |= self.take_if_better(day, draft.picks);
        }
        moved
    }

    /// The most promising ways to fill the day.
    fn drafts(
        &self,
        day: usize,
        shortlists: &[Vec<Pick>],
        (clock, from): (Clock, DayPicks),
    ) -> Vec<Draft> {
        let model = self.model;
        let mut order: Vec<usize> = (0..model.days[day].len()).collect();
        // What is to be added comes first, so that the rest can make room for it.
        sort_by_key(&mut order, |&slot| {
            let is_kept = matches!(clock, Clock::Haste(_)) && from[slot].is_some();
            (is_kept, model.days[day][slot].keep)
        });
        let before = self.week.days[day];
        let beam = self.beam;
        let mut drafts = vec![Draft {
            picks: from,
            promise: 0,
        }];
        for slot in order {
            let mut next: Vec<Draft> = Vec::with_capacity(beam + 1);
            let now = before[slot].filter(|pick| !shortlists[slot].contains(pick));
            for draft in &drafts {
                let contents = shortlists[slot].iter().copied().chain(now).map(Some);
                for content in contents.chain([None]) {
                    let mut picks = draft.picks;
                    picks[slot] = content;
                    let mut promise = self.untimed_points(day, &picks);
                    // The clock only ever costs.
                    let is_late = |promise: i64| {
                        next.len() == beam && next.last().is_some_and(|d| promise <= d.promise)
                    };
                    if is_late(promise) {
                        continue;
                    }
                    promise -= match clock {
                        Clock::Price(second) => {
                            second * i64::from(model.straight_seconds(day, &picks))
                        }
                        Clock::Haste(second) => model.haste(day, &picks, second),
                    };
                    if is_late(promise) {
                        continue;
                    }
                    let place = next.iter().position(|other| promise > other.promise);
                    next.insert(place.unwrap_or(next.len()), Draft { picks, promise });
                    next.truncate(beam);
                }
            }
            drafts = next;
        }
        drafts
    }

    /// Days that keep a slot out of rank, mostly for the sake of a basic pattern:
    /// plans each as if the others covered everything, then the others so that
    /// they do. Kept if the week is better for it.
    fn pass_on(&mut self, shortlists: &[Vec<Vec<Pick>>], prices: &Prices) -> bool {
        let days = self.model.days.len();
        for day in 0..days {
            if !self.model.is_out_of_rank(day, &self.week.days[day]) {
                continue;
            }
            let mut trial = self.clone();
            trial.others[day].covered = u8::MAX;
            trial.beam *= WIDER;
            let second = prices.second[day] / bound::SCALE;
            let from = [(Clock::Haste(UNSAVED[1]), self.week.days[day])];
            let drafts = from
                .into_iter()
                .chain([(Clock::Price(second), [None; SLOTS])]);
            let mut best: Option<(i64, DayPicks)> = None;
            for draft in drafts.flat_map(|how| trial.drafts(day, &shortlists[day], how)) {
                let least = best.map_or(i64::MIN, |(points, _)| points);
                if let Some((points, _)) = trial.points_above(day, &draft.picks, least) {
                    best = Some((points, draft.picks));
                }
            }
            let Some((_, picks)) = best else { continue };
            trial.see_others();
            if let Some((points, sum)) = trial.points_above(day, &picks, i64::MIN) {
                trial.take(day, picks, sum, points);
            }
            for other in (0..days).filter(|&other| other != day) {
                let second = prices.second[other] / bound::SCALE;
                let now = trial.week.days[other];
                let shortlists = &shortlists[other];
                for second in [second, second * 2 + 40, second / 2] {
                    trial.replan(other, shortlists, (Clock::Price(second), [None; SLOTS]));
                }
                for second in UNSAVED {
                    trial.replan(other, shortlists, (Clock::Haste(second), now));
                }
            }
            trial.improve();
            if trial.points > self.points {
                trial.beam = self.beam;
                *self = trial;
                return true;
            }
        }
        false
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

    /// Two exercises of the day change slots.
    fn change_places(&mut self, day: usize) -> bool {
        let slots = self.model.days[day].len();
        let mut moved = false;
        for one in 0..slots {
            for other in one + 1..slots {
                let mut picks = self.week.days[day];
                let (Some(a), Some(b)) = (picks[one], picks[other]) else {
                    continue;
                };
                let lifts = [(one, a), (other, b)].map(|(s, p)| self.model.lift_of(day, s, p));
                picks[one] = self.pick_of((day, one), lifts[1], b.sets);
                picks[other] = self.pick_of((day, other), lifts[0], a.sets);
                if picks[one].is_some() && picks[other].is_some() {
                    moved |= self.take_if_better(day, picks);
                }
            }
        }
        moved
    }

    /// The lift as a pick of this slot, if it is a candidate there.
    fn pick_of(&self, (day, slot): (usize, usize), lift: usize, sets: u8) -> Option<Pick> {
        let candidates = &self.model.days[day][slot].candidates;
        let at = candidates.iter().position(|c| c.lift == lift)?;
        let candidate = u16::try_from(at).ok()?;
        Some(Pick { candidate, sets })
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
        let (Some(to_first), Some(to_second)) = (
            self.pick_of((d1, s1), lift_b, a.sets),
            self.pick_of((d2, s2), lift_a, b.sets),
        ) else {
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
