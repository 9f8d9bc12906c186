//! Finding a good week: greedy construction, local search to a standstill, then
//! whole days anew by the prices of the bound.
//!
//! Start at [`solve`]. The search is deterministic: neighbours are tried in a
//! fixed order (days, slots, candidates by id, sets) and a change is taken only
//! when it is worth strictly more points. This module knows nothing of training;
//! all judgement is in the objective.

mod roam;

use super::bound::{self, Prices};
use super::objective::{BASICS, DayPicks, DaySum, Model, Pick, SETS, SLOTS, Week, WeekSum};
use super::opening::{Opening, Others, Standing};
use super::strata::{self, Breadth};
use super::tight;
use crate::order::sort_by_key;

/// Rounds of the local search. Real problems come to rest in a handful; the
/// limit only makes the end certain (the project's own judgement).
const ROUNDS: usize = 40;

/// Rounds of planning whole days anew (the project's own judgement).
const REPLANS: usize = 24;
/// Rounds of polishing what came of it (the project's own judgement).
const POLISHES: usize = 3;
/// Unfinished days kept at each slot of a week of one day, which fall with the
/// square of the days, and the least of any (the project's own judgement).
const BEAM: (usize, usize) = (108, 24);
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
    let mut priced = Search::at(model, &bound::week_at(model, &prices));
    priced.improve();
    if priced.points > best.points {
        best = priced;
    }
    best.replan_all(&shortlists, &prices);
    if let Some(mut tight) = best.anew_if_tight() {
        tight.replan_all(&shortlists, &prices);
        best = tight;
    }
    best.polish(&shortlists, &prices);
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

#[derive(Clone)]
pub(super) struct Search<'m, 'a> {
    model: &'m Model<'a>,
    week: Week,
    sums: Vec<DaySum>,
    /// A day that is planned as if the others covered every basic pattern.
    free_day: Option<usize>,
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
        Self {
            model,
            free_day: None,
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
        }
    }

    /// A search that stands at this week.
    pub(super) fn at(model: &'m Model<'a>, week: &Week) -> Self {
        let mut search = Self::new(model);
        for (day, &picks) in week.days.iter().enumerate() {
            if let Some((points, sum)) = search.points_above(day, &picks, i64::MIN) {
                search.take(day, picks, sum, points);
            }
        }
        search
    }

    /// The rest of the week, as this day sees it.
    pub(super) fn others(&self, day: usize) -> Others<'_> {
        let week = Standing {
            sums: &self.sums,
            total: self.total,
            uses: &self.uses,
            covered: self.covered,
        };
        let cost = self.day_costs + self.repeats + self.recovery;
        let mut others = Others::new(self.model, (day, &self.week.days[day]), &week, cost);
        if self.free_day == Some(day) {
            others.covered = u8::MAX;
        }
        others
    }

    /// Points of the week if this day held these picks instead; `None` when
    /// they are not more than a threshold.
    fn points_above(&self, day: usize, picks: &DayPicks, threshold: i64) -> Option<(i64, DaySum)> {
        let model = self.model;
        let mut sum = model.sum_untimed(day, picks);
        let untimed = self.others(day).with(model, day, picks, &sum);
        // Haste only ever costs, and is dear to work out.
        if untimed <= threshold {
            return None;
        }
        let haste = model.haste(day, picks, untimed.saturating_sub(threshold))?;
        sum.add_cost(haste);
        Some((untimed - haste, sum))
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
        let found = self.better_content(day, slot, most);
        if let Some(picks) = found {
            self.take_anyway(day, picks);
        }
        found.is_some()
    }

    /// The day with the slot's best content, if that makes the week worth more.
    fn better_content(&self, day: usize, slot: usize, most: u8) -> Option<DayPicks> {
        let before = self.week.days[day][slot];
        let others = self.others(day);
        let open = Opening::new(self.model, &others, (day, slot), &self.week.days[day]);
        let mut best = (self.points, before);
        let mut consider = |content: Option<Pick>, untimed: i64| {
            if content != before
                && let Some(points) = open.timed(untimed, content, best.0)
            {
                best = (points, content);
            }
        };
        for candidate in 0..self.model.days[day][slot].candidates.len() as u16 {
            let with = open.with(candidate);
            for sets in SETS.0..=most {
                let pick = Pick { candidate, sets };
                consider(Some(pick), open.filled(with, pick));
            }
        }
        consider(None, open.empty());
        let (_, content) = best;
        (content != before).then(|| open.picks_with(content))
    }

    /// Takes the day's picks for better or worse.
    fn take_anyway(&mut self, day: usize, picks: DayPicks) {
        let sum = self.model.sum_day(day, &picks);
        let points = self.others(day).with(self.model, day, &picks, &sum);
        self.take(day, picks, sum, points);
    }

    fn improve(&mut self) {
        for _ in 0..ROUNDS {
            let mut moved = false;
            for day in 0..self.model.days.len() {
                moved |= self.improve_day(day);
            }
            if !moved {
                moved = self.trade_between_days();
            }
            if !moved {
                break;
            }
        }
    }

    /// Changes single slots, sets and places of the day.
    fn improve_day(&mut self, day: usize) -> bool {
        let mut moved = false;
        for slot in 0..self.model.days[day].len() {
            moved |= self.refill(day, slot, SETS.1);
        }
        moved |= self.move_sets(day);
        moved | self.change_places(day)
    }

    /// Plans day after day anew until none gets better: from nothing by the prices
    /// and from what is there by the clock; at other prices where that is not
    /// enough and the week is short.
    fn replan_all(&mut self, shortlists: &[Vec<Vec<Pick>>], prices: &Prices) {
        let is_small = self.model.days.len() <= 2 || self.is_short();
        for _ in 0..REPLANS {
            let mut moved = false;
            for is_usual in [true, false] {
                if moved || !(is_usual || is_small) {
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
                continue;
            }
            let moved = self.make_room()
                || self.is_short() && self.fill_anew(shortlists, &strata::NARROW)
                || self.pass_on(shortlists, prices);
            if !moved {
                break;
            }
        }
    }

    /// Roams, and looks at single days once more with a wider view where sessions are
    /// short, until that changes nothing.
    fn polish(&mut self, shortlists: &[Vec<Vec<Pick>>], prices: &Prices) {
        for _ in 0..POLISHES {
            self.roam(shortlists);
            if !self.is_short() || !self.fill_anew(shortlists, &strata::WIDE) {
                break;
            }
            self.improve();
            self.replan_all(shortlists, prices);
        }
    }

    /// Fills day after day anew by strata.
    fn fill_anew(&mut self, shortlists: &[Vec<Vec<Pick>>], breadth: &Breadth) -> bool {
        let mut moved = false;
        for (day, shortlists) in shortlists.iter().enumerate() {
            moved |= self.fill_day(day, shortlists, breadth);
        }
        moved
    }

    /// Fills the day anew by strata, the others as they are. Taken if it is better.
    fn fill_day(&mut self, day: usize, shortlists: &[Vec<Pick>], breadth: &Breadth) -> bool {
        let mut moved = false;
        for picks in self.fillings(day, shortlists, breadth) {
            moved |= self.take_if_better(day, picks);
        }
        moved
    }

    /// Ways to fill the day by strata, the others as they are.
    fn fillings(&self, day: usize, shortlists: &[Vec<Pick>], breadth: &Breadth) -> Vec<DayPicks> {
        let now = &self.week.days[day];
        strata::fillings(
            self.model,
            &self.others(day),
            (day, now),
            shortlists,
            breadth,
        )
    }

    /// Whether sessions are so short that every choice weighs more.
    const fn is_short(&self) -> bool {
        self.model.budget_s <= SHORT_S
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
        let others = self.others(day);
        let mut drafts = vec![Draft {
            picks: from,
            promise: 0,
        }];
        for slot in order {
            let mut next: Vec<Draft> = Vec::with_capacity(beam + 1);
            let now = before[slot].filter(|pick| !shortlists[slot].contains(pick));
            for draft in &drafts {
                let open = Opening::new(model, &others, (day, slot), &draft.picks);
                let contents = shortlists[slot].iter().copied().chain(now).map(Some);
                // A shortlist has each candidate with several numbers of sets.
                let mut known = [(u16::MAX, 0); SHORTLIST];
                for (at, content) in contents.chain([None]).enumerate() {
                    let least = match next.last() {
                        Some(draft) if next.len() == beam => draft.promise,
                        _ => i64::MIN,
                    };
                    let (untimed, seconds) = match content {
                        Some(pick) => {
                            let found = known.iter().find(|known| known.0 == pick.candidate);
                            let with = found.map_or_else(|| open.with(pick.candidate), |k| k.1);
                            if let Some(known) = known.get_mut(at) {
                                *known = (pick.candidate, with);
                            }
                            (open.filled(with, pick), open.seconds_with(pick))
                        }
                        None => (open.empty(), open.seconds),
                    };
                    // The clock only ever costs.
                    if untimed <= least {
                        continue;
                    }
                    let picks = open.picks_with(content);
                    let cost = match clock {
                        Clock::Price(second) => Some(second * i64::from(seconds)),
                        Clock::Haste(_) if seconds <= model.budget_s => Some(0),
                        Clock::Haste(second) => {
                            let most = untimed.saturating_sub(least);
                            model.haste_at(day, &picks, (0, second), most)
                        }
                    };
                    let Some(promise) = cost.map(|cost| untimed - cost).filter(|&p| p > least)
                    else {
                        continue;
                    };
                    let place = next.iter().position(|other| promise > other.promise);
                    next.insert(place.unwrap_or(next.len()), Draft { picks, promise });
                    next.truncate(beam);
                }
            }
            drafts = next;
        }
        drafts
    }

    /// A better week from nothing, if the one day there is has no time for a basic
    /// pattern.
    fn anew_if_tight(&self) -> Option<Self> {
        let model = self.model;
        let is_left_out = |basic: usize| model.uncovered_cost(basic, self.covered[basic]) > 0;
        if model.days.len() != 1 || !(0..BASICS.len()).any(is_left_out) {
            return None;
        }
        let mut anew = Self::new(model);
        let fillings = tight::fillings(model, &anew.others(0), 0);
        for picks in fillings {
            anew.take_if_better(0, picks);
        }
        anew.improve();
        (anew.points > self.points).then_some(anew)
    }

    /// Days that keep a slot out of rank, mostly for the sake of a basic pattern, and
    /// in short sessions days that alone cover one: plans each as if the others
    /// covered everything, then the others so that they do. Kept if the week is
    /// better for it.
    fn pass_on(&mut self, shortlists: &[Vec<Vec<Pick>>], prices: &Prices) -> bool {
        let days = self.model.days.len();
        for day in 0..days {
            let is_bound = self.model.is_out_of_rank(day, &self.week.days[day])
                || self.is_short() && self.covers_alone(day);
            if !is_bound {
                continue;
            }
            let mut trial = self.clone();
            trial.free_day = Some(day);
            trial.beam *= WIDER;
            let ways = if self.is_short() {
                trial.fillings(day, &shortlists[day], &strata::USUAL)
            } else {
                let second = prices.second[day] / bound::SCALE;
                let from = [
                    (Clock::Haste(UNSAVED[1]), self.week.days[day]),
                    (Clock::Price(second), [None; SLOTS]),
                ];
                let drafts = from.map(|how| trial.drafts(day, &shortlists[day], how));
                drafts.iter().flatten().map(|draft| draft.picks).collect()
            };
            let mut best: Option<(i64, DayPicks)> = None;
            for picks in ways {
                let least = best.map_or(self.points, |(points, _)| points);
                if let Some((points, _)) = trial.points_above(day, &picks, least) {
                    best = Some((points, picks));
                }
            }
            let Some((_, picks)) = best else { continue };
            trial.free_day = None;
            trial.take_anyway(day, picks);
            for other in (0..days).filter(|&other| other != day) {
                trial.answer(other, &shortlists[other], prices);
            }
            trial.improve();
            trial.beam = self.beam;
            if trial.points > self.points {
                *self = trial;
                return true;
            }
        }
        false
    }

    /// Whether the week would lack a basic pattern without this day.
    fn covers_alone(&self, day: usize) -> bool {
        let model = self.model;
        let basics = model.filled(day, &self.week.days[day]);
        let mut basics = basics.filter_map(|(_, lift, _)| model.lifts[lift].basic);
        basics.any(|basic| self.covered[basic] == 1)
    }

    /// Plans a day anew at several prices of its seconds and from what is there, and
    /// by strata in short sessions.
    fn answer(&mut self, day: usize, shortlists: &[Vec<Pick>], prices: &Prices) {
        let second = prices.second[day] / bound::SCALE;
        let now = self.week.days[day];
        if self.is_short() {
            self.fill_day(day, shortlists, &strata::USUAL);
        }
        for second in [second, second * 2 + 40, second / 2] {
            self.replan(day, shortlists, (Clock::Price(second), [None; SLOTS]));
        }
        for second in UNSAVED {
            self.replan(day, shortlists, (Clock::Haste(second), now));
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
        let others = self.others(day);
        let mut found = None;
        'given: for given in fewer.chain(nothing) {
            let mut picks = self.week.days[day];
            picks[other] = given;
            let open = Opening::new(self.model, &others, (day, slot), &picks);
            for candidate in 0..self.model.days[day][slot].candidates.len() as u16 {
                let with = open.with(candidate);
                for sets in SETS.0..=4 {
                    let pick = Pick { candidate, sets };
                    let untimed = open.filled(with, pick);
                    if let Some(points) = open.timed(untimed, Some(pick), self.points) {
                        found = Some((open.picks_with(Some(pick)), points));
                        break 'given;
                    }
                }
            }
        }
        let Some((picks, points)) = found else {
            return false;
        };
        let sum = self.model.sum_day(day, &picks);
        self.take(day, picks, sum, points);
        true
    }
}
