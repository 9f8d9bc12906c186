//! Out of time: which of the sets that are left are worth the minutes that are
//! left.
//!
//! Start at [`hurry`]. It weighs by the plan's own objective (worth of the
//! weekly sets, ceilings, cost of each set, basic patterns the week would lack,
//! supersets, shortened rests) and by the session clock. What a running session
//! does not know it leaves out: the slots of the split with their ranks, and
//! the usual number of sets.
//!
//! For given rests and supersets the choice of sets is exact: branch and bound,
//! whose bound fills the time with the best sets by worth for a second, sets
//! being worth less the more there are. Rests are tried at three lengths, and
//! supersets added one by one while they help.

use super::objective::{
    BASICS, Lift, MOST_PAIRS, MUSCLES, OVER_CEILING, PerMuscle, SHORTENED, UNCOVERED, WORTH_LEN,
    credit, pair_prices, worth_table,
};
use super::time::{self, Effort};
use super::{Prescription, dose};
use crate::catalogue::{Exercise, Muscle};
use crate::order;
use crate::person::Person;

/// Steps between the full and the least rest that are tried (the project's own
/// judgement).
const REST_STEPS: u16 = 2;

/// What of an exercise is still to do.
#[derive(Debug, Clone, Copy)]
pub struct Unfinished<'a> {
    /// The exercise.
    pub exercise: &'a Exercise,
    /// What is asked of it.
    pub prescription: &'a Prescription,
    /// Work sets left.
    pub left: u8,
    /// Whether set-up and warm-up lie behind.
    pub is_ready: bool,
    /// Those with the same number are done in turn; they stand together.
    pub superset: Option<u8>,
}

/// What the week holds beside the sets that are left.
#[derive(Debug, Clone, Default)]
pub struct Beside<'a> {
    /// The other days, each its exercises with their sets.
    pub days: Vec<Vec<(&'a Exercise, u8)>>,
    /// Work sets done today.
    pub today: Vec<(&'a Exercise, u8)>,
}

/// What is done in the time that is left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hurry {
    /// Sets of each unfinished exercise, in their order; nought lets it go.
    pub sets: Vec<u8>,
    /// Seconds of rest after a set of each.
    pub rests: Vec<u16>,
    /// Exercises to be done in turn that were not before.
    pub pairs: Vec<(usize, usize)>,
    /// Seconds it takes.
    pub seconds: u32,
    /// Muscles with the week's half sets before and now, where they differ.
    pub week: Vec<(Muscle, u32, u32)>,
    /// Points by which it beats doing nothing more.
    pub points: i64,
}

/// Seconds that all that is left would take.
#[must_use]
pub fn seconds_left(open: &[Unfinished<'_>]) -> u32 {
    let all: Vec<u8> = open.iter().map(|item| item.left).collect();
    let rests: Vec<u16> = open.iter().map(|item| item.prescription.rest_s).collect();
    clock(open, &all, &rests, &[])
}

/// The sets worth most in so many seconds. Nothing is ever added: at most what
/// is left of each exercise is done.
#[must_use]
pub fn hurry(person: &Person, beside: &Beside<'_>, open: &[Unfinished<'_>], seconds: u32) -> Hurry {
    let lifts: Vec<Lift<'_>> = open.iter().map(|o| Lift::new(o.exercise, person)).collect();
    let week = Week::new(person, beside);
    let prices = pair_prices(person);
    let mut best: Option<Found> = None;
    for step in 0..=REST_STEPS {
        let rests: Vec<u16> = open
            .iter()
            .zip(&lifts)
            .map(|(item, lift)| {
                let full = item.prescription.rest_s;
                let least = u16::try_from(lift.short_rest_s).map_or(full, |s| s.min(full));
                full - (full - least) * step / REST_STEPS / 5 * 5
            })
            .collect();
        let problem = Problem {
            open,
            lifts: &lifts,
            week: &week,
            rests: &rests,
            prices,
            seconds,
        };
        let found = problem.with_pairs();
        if best.as_ref().is_none_or(|best| found.points > best.points) {
            best = Some(found);
        }
    }
    let found = best.unwrap_or_default();
    let sets_of = |sets: &[u8]| {
        let mut half_sets = week.today;
        for (lift, &sets) in lifts.iter().zip(sets) {
            for &(m, one) in &lift.counts {
                half_sets[m] += one * u32::from(sets);
            }
        }
        half_sets
    };
    let all: Vec<u8> = open.iter().map(|item| item.left).collect();
    let (before, now) = (sets_of(&all), sets_of(&found.sets));
    let change = |m: usize| {
        let whole = |today: &PerMuscle| week.half_sets[m] + today[m];
        (Muscle::ALL[m], whole(&before), whole(&now))
    };
    Hurry {
        seconds: clock(open, &found.sets, &found.rests, &found.pairs),
        week: (0..MUSCLES)
            .map(change)
            .filter(|(_, before, now)| before != now)
            .collect(),
        sets: found.sets,
        rests: found.rests,
        pairs: found.pairs,
        points: found.points,
    }
}

/// Whether two exercises can share their rests: light enough in set-up and
/// strain, and no muscle works in both (the planner's own rule).
#[must_use]
pub fn can_share_rests(a: &Exercise, b: &Exercise) -> bool {
    let is_light = |e: &Exercise| e.strain <= 1 && e.setup_s <= 45;
    let works = |e: &Exercise, muscle: Muscle| e.half_sets_for(muscle) > 0;
    let shares = |&muscle: &Muscle| works(a, muscle) && works(b, muscle);
    is_light(a) && is_light(b) && !Muscle::ALL.iter().any(shares)
}

/// Seconds of so many sets with these rests, new pairs brought together.
fn clock(open: &[Unfinished<'_>], sets: &[u8], rests: &[u16], pairs: &[(usize, usize)]) -> u32 {
    let mut efforts = Vec::with_capacity(open.len());
    let effort = |i: usize, superset| Effort {
        sets: u32::from(sets[i]),
        rest_s: u32::from(rests[i]),
        ready_s: if open[i].is_ready || sets[i] == 0 {
            0
        } else {
            time::effort(open[i].exercise, open[i].prescription, None).ready_s
        },
        superset,
        ..time::effort(open[i].exercise, open[i].prescription, None)
    };
    for (i, item) in open.iter().enumerate().filter(|&(i, _)| sets[i] > 0) {
        // One whose partner is let go is done alone.
        let is_pair = |&(a, b): &(usize, usize)| (a == i || b == i) && sets[a] > 0 && sets[b] > 0;
        let pair = pairs.iter().position(is_pair);
        match pair {
            None => efforts.push(effort(i, item.superset)),
            Some(pair) => {
                let (a, b) = pairs[pair];
                let number = u8::try_from(200 + pair).ok();
                if i == a.min(b) {
                    efforts.push(effort(i, number));
                    efforts.push(effort(a.max(b), number));
                }
            }
        }
    }
    time::seconds(&efforts)
}

/// The week around the sets that are left.
struct Week {
    worth: Vec<Vec<i64>>,
    ceilings: Vec<u32>,
    /// Of the other days.
    half_sets: PerMuscle,
    credit: PerMuscle,
    /// Done today.
    today: PerMuscle,
    /// Basic patterns that the rest holds.
    covered: [bool; BASICS.len()],
}

impl Week {
    fn new(person: &Person, beside: &Beside<'_>) -> Self {
        let target = |&muscle: &Muscle| dose::target(muscle, person);
        let ceiling = |muscle: &Muscle| match dose::size(*muscle) {
            dose::Size::Minor => u32::MAX,
            _ => target(muscle).ceiling,
        };
        let mut week = Self {
            worth: Muscle::ALL.iter().map(|m| worth_table(target(m))).collect(),
            ceilings: Muscle::ALL.iter().map(ceiling).collect(),
            half_sets: [0; MUSCLES],
            credit: [0; MUSCLES],
            today: [0; MUSCLES],
            covered: [false; BASICS.len()],
        };
        let mut sum = |day: &[(&Exercise, u8)]| {
            let mut half_sets = [0; MUSCLES];
            for &(exercise, sets) in day.iter().filter(|(_, sets)| *sets > 0) {
                for (m, sum) in half_sets.iter_mut().enumerate() {
                    *sum += exercise.half_sets_for(Muscle::ALL[m]) * u32::from(sets);
                }
                let covers = |group: &&[_]| group.contains(&exercise.pattern);
                if let Some(basic) = BASICS.iter().position(covers) {
                    week.covered[basic] = true;
                }
            }
            half_sets
        };
        let days: Vec<PerMuscle> = beside.days.iter().map(|day| sum(day)).collect();
        week.today = sum(&beside.today);
        for day in days {
            for (m, half_sets) in day.into_iter().enumerate() {
                week.half_sets[m] += half_sets;
                week.credit[m] += credit(half_sets);
            }
        }
        week
    }

    /// Points of a muscle's week with so many half sets today.
    fn worth_of(&self, m: usize, today: u32) -> i64 {
        let eighths = (self.credit[m] + credit(today)) as usize;
        let over = (self.half_sets[m] + today).saturating_sub(self.ceilings[m]);
        self.worth[m][eighths.min(WORTH_LEN - 1)] - i64::from(over) * OVER_CEILING
    }
}

/// Sets with their rests and pairs, and what they are worth.
#[derive(Debug, Clone, Default)]
struct Found {
    sets: Vec<u8>,
    rests: Vec<u16>,
    pairs: Vec<(usize, usize)>,
    points: i64,
}

struct Problem<'p> {
    open: &'p [Unfinished<'p>],
    lifts: &'p [Lift<'p>],
    week: &'p Week,
    rests: &'p [u16],
    prices: [i64; 2],
    seconds: u32,
}

/// A branch of the search: so many exercises decided.
#[derive(Clone)]
struct Branch {
    sets: Vec<u8>,
    today: PerMuscle,
    covered: [bool; BASICS.len()],
    points: i64,
    /// Twice the seconds at least needed, the last rest included.
    twice_s: u32,
}

impl Problem<'_> {
    /// The best choice, supersets added one by one while they help.
    fn with_pairs(&self) -> Found {
        let mut best = self.choose(&[]);
        while best.pairs.len() < MOST_PAIRS {
            let is_free = |i: usize| {
                self.open[i].superset.is_none() && best.pairs.iter().all(|&(a, b)| a != i && b != i)
            };
            let mut better: Option<Found> = None;
            for a in (0..self.open.len()).filter(|&a| is_free(a)) {
                for b in (a + 1..self.open.len()).filter(|&b| is_free(b)) {
                    if !can_share_rests(self.open[a].exercise, self.open[b].exercise) {
                        continue;
                    }
                    let mut pairs = best.pairs.clone();
                    pairs.push((a, b));
                    let found = self.choose(&pairs);
                    let least = better.as_ref().map_or(best.points, |found| found.points);
                    // A pair of which one is let go is none.
                    let is_whole = found.sets[a] > 0 && found.sets[b] > 0;
                    if found.points > least && is_whole {
                        better = Some(found);
                    }
                }
            }
            match better {
                Some(found) => best = found,
                None => break,
            }
        }
        best
    }

    /// The best sets with these supersets.
    fn choose(&self, pairs: &[(usize, usize)]) -> Found {
        let root = Branch {
            sets: Vec::new(),
            today: self.week.today,
            covered: self.week.covered,
            points: 0,
            twice_s: 0,
        };
        let mut search = Search {
            problem: self,
            pairs,
            most_rest_s: self.rests.iter().copied().max().unwrap_or(0).into(),
            best: Found {
                sets: vec![0; self.open.len()],
                rests: self.rests.to_vec(),
                pairs: pairs.to_vec(),
                points: -self.pair_cost(pairs),
            },
        };
        search.go(&root);
        search.best
    }

    fn pair_cost(&self, pairs: &[(usize, usize)]) -> i64 {
        let compounds = |&(a, b): &(usize, usize)| {
            i64::from(self.lifts[a].is_compound) + i64::from(self.lifts[b].is_compound)
        };
        let price = |pair| self.prices[0] + compounds(pair) * self.prices[1];
        pairs.iter().map(price).sum()
    }

    /// Points of one set more of an exercise.
    fn gain(&self, branch: &Branch, i: usize, sets: u32) -> i64 {
        let lift = &self.lifts[i];
        let more = |&(m, one): &(usize, u32)| {
            let before = branch.today[m] + one * sets;
            self.week.worth_of(m, before + one) - self.week.worth_of(m, before)
        };
        let covers = lift.basic.is_some_and(|basic| !branch.covered[basic]);
        let shortened = self.open[i].prescription.rest_s - self.rests[i];
        lift.counts.iter().map(more).sum::<i64>()
            - lift.per_set_cost
            - i64::from(shortened) * SHORTENED
            + if covers && sets == 0 { UNCOVERED } else { 0 }
    }
}

struct Search<'p> {
    problem: &'p Problem<'p>,
    pairs: &'p [(usize, usize)],
    most_rest_s: u32,
    best: Found,
}

impl Search<'_> {
    fn go(&mut self, branch: &Branch) {
        let i = branch.sets.len();
        let problem = self.problem;
        if i == problem.open.len() {
            let points = branch.points - problem.pair_cost(self.pairs);
            let is_within =
                || clock(problem.open, &branch.sets, problem.rests, self.pairs) <= problem.seconds;
            if points > self.best.points && is_within() {
                self.best.points = points;
                self.best.sets.clone_from(&branch.sets);
            }
            return;
        }
        if self.bound(branch) <= self.best.points {
            return;
        }
        // All that may be had first: that is where the good ones are.
        let mut branches = vec![Branch {
            sets: [&branch.sets[..], &[0]].concat(),
            ..branch.clone()
        }];
        for sets in 1..=problem.open[i].left {
            let mut next = branches.last().expect("one with fewer").clone();
            next.points += problem.gain(branch, i, u32::from(sets) - 1);
            for &(m, one) in &problem.lifts[i].counts {
                next.today[m] += one;
            }
            if let Some(basic) = problem.lifts[i].basic {
                next.covered[basic] = true;
            }
            next.twice_s =
                branch.twice_s + 2 * self.ready_s(i) + u32::from(sets) * self.twice_set_s(i);
            next.sets[i] = sets;
            if next.twice_s > 2 * (problem.seconds + self.most_rest_s) {
                break;
            }
            branches.push(next);
        }
        for next in branches.iter().rev() {
            self.go(next);
        }
    }

    fn ready_s(&self, i: usize) -> u32 {
        if self.problem.open[i].is_ready {
            0
        } else {
            self.problem.lifts[i].ready_s
        }
    }

    /// Twice the seconds a set takes at least: partners may share their rest.
    fn twice_set_s(&self, i: usize) -> u32 {
        let item = &self.problem.open[i];
        let work_s = time::work_seconds(item.exercise, item.prescription.reps);
        let rest_s = u32::from(self.problem.rests[i]);
        let is_paired =
            item.superset.is_some() || self.pairs.iter().any(|&(a, b)| a == i || b == i);
        2 * work_s + if is_paired { rest_s } else { 2 * rest_s }
    }

    /// Points that no choice of the undecided sets can pass: the time filled
    /// with the sets worth most for a second, the last in part. Sets are worth
    /// less the more there are, and set-up is spread over all sets of an
    /// exercise, so that neither makes the bound too low.
    fn bound(&self, branch: &Branch) -> i64 {
        let problem = self.problem;
        let mut open: Vec<(i64, i64)> = Vec::new();
        for i in branch.sets.len()..problem.open.len() {
            let left = u32::from(problem.open[i].left);
            let twice_s = i64::from(self.twice_set_s(i) + 2 * self.ready_s(i) / left.max(1));
            for sets in 0..left {
                let gain = problem.gain(branch, i, sets);
                if gain > 0 {
                    open.push((gain, twice_s.max(1)));
                }
            }
        }
        order::sort_by(&mut open, |a, b| a.0 * b.1 > b.0 * a.1);
        let whole = 2 * (problem.seconds + self.most_rest_s);
        let mut time = i64::from(whole.saturating_sub(branch.twice_s));
        let mut points = branch.points - problem.pair_cost(self.pairs);
        for (gain, twice_s) in open {
            if twice_s > time {
                return points + gain * time / twice_s + 1;
            }
            time -= twice_s;
            points += gain;
        }
        points
    }
}

#[cfg(test)]
#[path = "hurry_tests.rs"]
mod tests;
