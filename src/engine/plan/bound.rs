//! What no week can be worth more than: a bound of our own, to say how near the
//! best a plan is without a solver at hand.
//!
//! Start at [`bound`]. Prices are put on what ties the week together: on each
//! half set of a muscle, on each day's seconds, on an exercise's coming back, on
//! near-identical lifts and on the basic patterns. With prices given every slot is decided on its own, and
//! whatever the prices, the sum is at least the worth of the best week
//! (Lagrangian duality). The prices are then moved to make the sum small. Left
//! out, which can only raise it: hard days running, the session cap, heavy lifts
//! beside each other, and that supersets need partners that fit.

use super::dose;
use super::objective::{
    BASICS, Candidate, KIN_PRICES, MILLI, MOST_PAIRS, MUSCLES, Model, OUT_OF_RANK, OVER_CEILING,
    Pick, SETS, SETS_COUNT, SHORTENED, SLOTS, Week,
};
use crate::order::{Map, sort, sort_by_key};

/// Parts of a point in which prices are kept (definition).
pub(super) const SCALE: i64 = 16;
/// How often the prices are moved (the project's own judgement: more brings
/// little).
const MOVES: usize = 160;
/// Moves without a better bound after which steps are halved (the project's own
/// judgement).
const PATIENCE: usize = 10;
/// How far a price of a half set moves beside one of a second (the project's own
/// judgement).
const HALF_SET_MOVES: i64 = 128;
/// Least step, as a share of the first (definition).
const LEAST_STEP: i64 = 4096;

/// Most points that are asked for an exercise that might stand on a day twice
/// (the project's own judgement).
const TWICE: i64 = 10_000 * MILLI;

/// Prices, in [`SCALE`]ths of a point.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Prices {
    /// Of a half set, by muscle.
    half_set: [i64; MUSCLES],
    /// Of a second, by day.
    pub second: Vec<i64>,
    /// Of an exercise's coming back, by lift.
    again: Vec<i64>,
    /// Of one of several near-identical lifts, by group of a day.
    kin: Vec<i64>,
    /// Of covering a basic pattern.
    basic: [i64; BASICS.len()],
}

/// One way to fill a slot and what it is worth at the prices.
#[derive(Debug, Clone, Copy)]
struct Offer {
    value: i64,
    lift: usize,
    pick: Pick,
    is_paired: bool,
}

/// The sum at some prices, and what the prices would have had to buy.
struct Sum {
    points: i64,
    half_sets: [i64; MUSCLES],
    seconds: Vec<i64>,
    uses: Vec<i64>,
    kin: Vec<i64>,
    basics: [i64; BASICS.len()],
}

/// A bound on the worth of any week, in points, and the prices that prove it.
/// The week given tells where to start and is worth so many points.
pub(super) fn bound(model: &Model<'_>, week: &Week, points: i64) -> (i64, Prices) {
    let mut relaxed = Relaxed::new(model);
    let mut prices = relaxed.first_prices(week);
    let mut best = (i64::MAX, prices.clone());
    let (mut step, mut waited) = (LEAST_STEP, 0);
    for _ in 0..MOVES {
        let sum = relaxed.sum(&prices);
        if sum.points < best.0 {
            best = (sum.points, prices.clone());
            waited = 0;
        } else {
            waited += 1;
            if waited == PATIENCE {
                step = (step / 2).max(1);
                waited = 0;
            }
        }
        let missed = sum.points - points * SCALE;
        if missed <= 0 || !relaxed.adjust(&mut prices, &sum, missed, step) {
            break;
        }
    }
    (best.0.div_euclid(SCALE) + 1, best.1)
}

/// What the slots hold where each is decided on its own at these prices, no
/// exercise twice a day.
pub(super) fn week_at(model: &Model<'_>, prices: &Prices) -> Week {
    let relaxed = Relaxed::new(model);
    let worth = relaxed.lift_worth(prices);
    let mut week = model.empty_week();
    for (d, picks) in week.days.iter_mut().enumerate() {
        let (_, offers) = relaxed.best_day(d, prices, &worth);
        for (s, offer) in offers.iter().enumerate() {
            let Some(offer) = offer else { continue };
            let is_first = offers[..s].iter().flatten().all(|o| o.lift != offer.lift);
            picks[s] = is_first.then_some(offer.pick);
        }
    }
    week
}

/// Numbers of sets of an exercise that come before all others in a shortlist (the
/// project's own judgement).
const SETS_TRIED: usize = 3;

/// The contents of every slot that are worth most at these prices, the best
/// first: by day and slot, so many each.
pub(super) fn shortlists(model: &Model<'_>, prices: &Prices, most: usize) -> Vec<Vec<Vec<Pick>>> {
    let relaxed = Relaxed::new(model);
    let worth = relaxed.lift_worth(prices);
    let list = |d: usize, s: usize| {
        let mut list = relaxed.ranked(prices, &worth, d, s);
        list.truncate(most);
        list
    };
    (0..model.days.len())
        .map(|d| (0..model.days[d].len()).map(|s| list(d, s)).collect())
        .collect()
}

struct Relaxed<'m, 'a> {
    model: &'m Model<'a>,
    /// Points of one more half set, by muscle, falling.
    steps: Vec<Vec<i64>>,
    /// Days on which a lift may stand.
    days_of: Vec<u8>,
    /// Rest after the last set that a day may leave out at most.
    last_rest: Vec<i64>,
    /// Groups of near-identical lifts that a lift belongs to, by day.
    kin_of: Vec<Vec<Vec<usize>>>,
    /// What each group asks for every lift beyond the first.
    kin_prices: Vec<i64>,
}

impl<'m, 'a> Relaxed<'m, 'a> {
    fn new(model: &'m Model<'a>) -> Self {
        let steps = (0..MUSCLES).map(|m| {
            let worth = |half_sets: u32| model.worth_of(m, half_sets * 4);
            (0..4 * dose::SESSION_CAP)
                .map(|h| {
                    let is_over = h >= model.ceilings[m];
                    worth(h + 1) - worth(h) - i64::from(is_over) * OVER_CEILING
                })
                .collect()
        });
        let mut days_of = vec![0; model.lifts.len()];
        let mut last_rest = Vec::new();
        let mut kin_of = Vec::new();
        let mut kin_prices = Vec::new();
        for places in &model.days {
            let mut slots_of: Map<usize, u8> = Map::new();
            for candidate in places.iter().flat_map(|place| &place.candidates) {
                *slots_of.get_or_insert_with(candidate.lift, || 0) += 1;
            }
            let lifts: Vec<usize> = slots_of.keys().copied().collect();
            let rests = lifts.iter().map(|&lift| model.lifts[lift].short_rest_s);
            last_rest.push(i64::from(rests.max().unwrap_or(0)));
            let mut of_lift = vec![Vec::new(); model.lifts.len()];
            for (level, &price) in KIN_PRICES.iter().enumerate() {
                let mut groups: Map<u16, Vec<usize>> = Map::new();
                for &lift in &lifts {
                    groups
                        .get_or_insert_with(model.lifts[lift].kin[level], Vec::new)
                        .push(lift);
                }
                for group in groups.values().filter(|group| group.len() > 1) {
                    for &lift in group {
                        of_lift[lift].push(kin_prices.len());
                    }
                    kin_prices.push(price * SCALE);
                }
            }
            // The same exercise twice a day is as near as can be.
            for (&lift, _) in slots_of.iter().filter(|&(_, &slots)| slots > 1) {
                of_lift[lift].push(kin_prices.len());
                kin_prices.push(TWICE * SCALE);
            }
            kin_of.push(of_lift);
            for lift in lifts {
                days_of[lift] += 1;
            }
        }
        Self {
            model,
            steps: steps.collect(),
            days_of,
            last_rest,
            kin_of,
            kin_prices,
        }
    }

    /// Prices that suit a week: what its next half set of each muscle is worth,
    /// and a usual price for the seconds of its full days.
    fn first_prices(&self, week: &Week) -> Prices {
        let model = self.model;
        let mut half_sets = [0_usize; MUSCLES];
        let mut second = Vec::new();
        let mut kin = vec![0; self.kin_prices.len()];
        let mut again = vec![0; model.lifts.len()];
        for (d, picks) in week.days.iter().enumerate() {
            for (_, lift, sets) in model.filled(d, picks) {
                for &(m, one) in &model.lifts[lift].counts {
                    half_sets[m] += one as usize * usize::from(sets);
                }
                for &group in &self.kin_of[d][lift] {
                    kin[group] += self.kin_prices[group].min(200 * MILLI * SCALE) / 2;
                }
                again[lift] += model.repeat_steps(lift)[0] * SCALE / 2;
            }
            let is_full = model.fit(d, picks).seconds * 10 >= model.budget_s * 9;
            second.push(if is_full { 60 * SCALE } else { 0 });
        }
        Prices {
            half_set: std::array::from_fn(|m| {
                let steps = &self.steps[m];
                let step = steps.get(half_sets[m]).copied().unwrap_or(0);
                step * SCALE
            }),
            second,
            again: (0..model.lifts.len())
                .map(
                    |lift| match again[lift].min(model.repeat_steps(lift)[0] * SCALE) {
                        price if self.days_of[lift] > 1 => price,
                        _ => 0,
                    },
                )
                .collect(),
            kin: (0..kin.len())
                .map(|g| kin[g].min(self.kin_prices[g]))
                .collect(),
            basic: [0; BASICS.len()],
        }
    }

    /// Worth of one set of each lift.
    fn lift_worth(&self, prices: &Prices) -> Vec<i64> {
        let of = |&(m, one): &(usize, u32)| prices.half_set[m] * i64::from(one);
        let lifts = self.model.lifts.iter();
        lifts.map(|lift| lift.counts.iter().map(of).sum()).collect()
    }

    /// Values of two, three, … sets of a candidate alone, and as half of a
    /// superset.
    fn offers(
        &self,
        prices: &Prices,
        worth: &[i64],
        day: usize,
        candidate: &Candidate,
    ) -> [(i64, i64); SETS_COUNT] {
        let model = self.model;
        let lift = &model.lifts[candidate.lift];
        let second = prices.second[day];
        let (rest, short) = (i64::from(lift.rest_s), i64::from(lift.short_rest_s));
        let mut once = lift.basic.map_or(0, |basic| prices.basic[basic])
            - prices.again[candidate.lift]
            - second * i64::from(lift.ready_s);
        for &group in &self.kin_of[day][candidate.lift] {
            once -= prices.kin[group];
        }
        let a_set = worth[candidate.lift] - second * (i64::from(lift.work_s) + rest)
            + (second - SHORTENED * SCALE).max(0) * (rest - short);
        let cost = SCALE * model.pair_cost(candidate.lift, candidate.lift);
        let mut offers = [(0, i64::MIN / 4); SETS_COUNT];
        for (at, offer) in offers.iter_mut().enumerate() {
            let n = i64::from(SETS.0) + at as i64;
            let alone = once + n * a_set - SCALE * candidate.costs[at];
            offer.0 = alone;
            if lift.can_pair {
                // Half of what it saves at most: its partner saves the other half.
                offer.1 = alone + (second * n * rest - cost) / 2;
            }
        }
        offers
    }

    /// Contents of a slot, the most worth first.
    fn ranked(&self, prices: &Prices, worth: &[i64], d: usize, s: usize) -> Vec<Pick> {
        let mut offers: Vec<(bool, i64, Pick)> = Vec::new();
        for (at, candidate) in (0..).zip(&self.model.days[d][s].candidates) {
            let of_candidate = self.offers(prices, worth, d, candidate);
            let mut of_lift: Vec<(i64, Pick)> = (SETS.0..)
                .zip(of_candidate)
                .map(|(sets, (alone, paired))| {
                    let pick = Pick {
                        candidate: at,
                        sets,
                    };
                    (alone.max(paired), pick)
                })
                .collect();
            sort_by_key(&mut of_lift, |&(value, pick)| (-value, pick.sets));
            for (order, (value, pick)) in of_lift.into_iter().enumerate() {
                offers.push((order >= SETS_TRIED, value, pick));
            }
        }
        sort_by_key(&mut offers, |&(is_last, value, pick)| {
            (is_last, -value, pick.candidate, pick.sets)
        });
        offers.into_iter().map(|(_, _, pick)| pick).collect()
    }

    fn sum(&mut self, prices: &Prices) -> Sum {
        let model = self.model;
        let mut sum = Sum {
            points: 0,
            half_sets: [0; MUSCLES],
            seconds: Vec::with_capacity(model.days.len()),
            uses: vec![0; model.lifts.len()],
            kin: vec![-1; self.kin_prices.len()],
            basics: [0; BASICS.len()],
        };
        for m in 0..MUSCLES {
            let bought = self.steps[m]
                .iter()
                .map(|&step| step * SCALE - prices.half_set[m]);
            for gain in bought.take_while(|&gain| gain > 0) {
                sum.points += gain;
                sum.half_sets[m] -= 1;
            }
        }
        for lift in 0..model.lifts.len() {
            let price = prices.again[lift];
            let [second, third, _] = model.repeat_steps(lift).map(|step| step * SCALE);
            sum.points += price + (price - second).max(0) + (price - third).max(0);
            sum.uses[lift] = -1 - i64::from(price > second) - i64::from(price > third);
        }
        for basic in 0..BASICS.len() {
            sum.points -= prices.basic[basic];
            sum.basics[basic] = -1;
        }
        sum.points += prices.kin.iter().sum::<i64>();
        let worth = self.lift_worth(prices);
        for d in 0..model.days.len() {
            self.add_day(d, prices, &worth, &mut sum);
        }
        sum
    }

    /// The best day at the prices, for each rank at which slots may begin to
    /// stay empty: its points and what it offers.
    fn best_day(&self, d: usize, prices: &Prices, worth: &[i64]) -> (i64, [Option<Offer>; SLOTS]) {
        let model = self.model;
        let places = &model.days[d];
        let none = Offer {
            value: i64::MIN / 4,
            lift: 0,
            pick: Pick {
                candidate: 0,
                sets: 0,
            },
            is_paired: false,
        };
        let mut alone = [none; SLOTS];
        let mut paired = [none; SLOTS];
        for (s, place) in places.iter().enumerate() {
            for (at, candidate) in (0..).zip(&place.candidates) {
                let offers = self.offers(prices, worth, d, candidate);
                for (sets, (value, with)) in (SETS.0..).zip(offers) {
                    let pick = Pick {
                        candidate: at,
                        sets,
                    };
                    for (best, value, is_paired) in
                        [(&mut alone[s], value, false), (&mut paired[s], with, true)]
                    {
                        if value > best.value {
                            *best = Offer {
                                value,
                                lift: candidate.lift,
                                pick,
                                is_paired,
                            };
                        }
                    }
                }
            }
        }
        let mut best = (i64::MIN, [None; SLOTS]);
        let mut ranks: Vec<u8> = places.iter().map(|place| place.keep).collect();
        ranks.push(u8::MAX);
        sort(&mut ranks);
        ranks.dedup();
        for rank in ranks {
            let found = self.day_from(d, rank, (&alone, &paired));
            if found.0 > best.0 {
                best = found;
            }
        }
        best
    }

    /// Adds the best day at the prices to the sum.
    fn add_day(&self, d: usize, prices: &Prices, worth: &[i64], sum: &mut Sum) {
        let model = self.model;
        let (points, offers) = self.best_day(d, prices, worth);
        let second = prices.second[d];
        let free = i64::from(model.budget_s) + self.last_rest[d];
        sum.points += points + second * free;
        let mut seconds = free;
        for offer in offers.iter().flatten() {
            let lift = &model.lifts[offer.lift];
            let sets = i64::from(offer.pick.sets);
            for &(m, one) in &lift.counts {
                sum.half_sets[m] += i64::from(one) * sets;
            }
            sum.uses[offer.lift] += 1;
            for &group in &self.kin_of[d][offer.lift] {
                sum.kin[group] += 1;
            }
            if let Some(basic) = lift.basic {
                sum.basics[basic] += 1;
            }
            let (rest, short) = (i64::from(lift.rest_s), i64::from(lift.short_rest_s));
            seconds -= i64::from(lift.ready_s) + sets * (i64::from(lift.work_s) + rest);
            if second > SHORTENED * SCALE {
                seconds += sets * (rest - short);
            }
            if offer.is_paired {
                seconds += sets * rest / 2;
            }
        }
        sum.seconds.push(seconds);
    }

    /// The best of a day on which slots before this rank are filled and those
    /// after it are out of rank.
    fn day_from(
        &self,
        d: usize,
        rank: u8,
        (alone, paired): (&[Offer; SLOTS], &[Offer; SLOTS]),
    ) -> (i64, [Option<Offer>; SLOTS]) {
        let places = &self.model.days[d];
        let mut chosen = [None; SLOTS];
        let mut points = 0;
        // What each slot gains by being part of a superset, and from what.
        let mut gains = [(0_i64, 0_usize); SLOTS];
        for (s, place) in places.iter().enumerate() {
            let empty = -place.empty_cost * SCALE;
            let late = i64::from(place.keep > rank) * OUT_OF_RANK * SCALE;
            let (single, double) = (alone[s].value - late, paired[s].value - late);
            // A slot whose every candidate stands elsewhere may stay empty.
            let may_be_empty = place.keep >= rank || place.may_run_out;
            let is_filled = !place.candidates.is_empty() && (single > empty || !may_be_empty);
            let base = if is_filled { single } else { empty };
            points += base;
            chosen[s] = is_filled.then_some(alone[s]);
            gains[s] = ((double - base).max(0), s);
        }
        let gains = &mut gains[..places.len()];
        sort_by_key(gains, |&(gain, s)| (-gain, s));
        for &(gain, s) in gains.iter().take(2 * MOST_PAIRS).filter(|g| g.0 > 0) {
            points += gain;
            chosen[s] = Some(paired[s]);
        }
        (points, chosen)
    }

    /// Moves the prices against what they bought too much or too little of;
    /// `false` when nothing is left to move.
    fn adjust(&self, prices: &mut Prices, sum: &Sum, missed: i64, step: i64) -> bool {
        let model = self.model;
        // A price at its limit that would move past it does not count.
        let mut moves: Vec<Move<'_>> = Vec::new();
        for (m, price) in prices.half_set.iter_mut().enumerate() {
            // Past the ceiling one more half set is worth less than nothing.
            let least = match model.ceilings[m] {
                u32::MAX => 0,
                _ => -OVER_CEILING * SCALE,
            };
            let slope = sum.half_sets[m] * HALF_SET_MOVES;
            moves.push(Move {
                price,
                slope,
                unit: HALF_SET_MOVES,
                least,
                most: i64::MAX,
            });
        }
        for (d, price) in prices.second.iter_mut().enumerate() {
            let slope = sum.seconds[d];
            moves.push(Move {
                price,
                slope,
                unit: 1,
                least: 0,
                most: i64::MAX,
            });
        }
        for (lift, price) in prices.again.iter_mut().enumerate() {
            if self.days_of[lift] > 1 {
                let most = model.repeat_steps(lift)[2] * SCALE;
                let slope = -sum.uses[lift] * HALF_SET_MOVES;
                moves.push(Move {
                    price,
                    slope,
                    unit: HALF_SET_MOVES,
                    least: 0,
                    most,
                });
            }
        }
        for (group, price) in prices.kin.iter_mut().enumerate() {
            let most = self.kin_prices[group];
            let slope = -sum.kin[group] * HALF_SET_MOVES;
            moves.push(Move {
                price,
                slope,
                unit: HALF_SET_MOVES,
                least: 0,
                most,
            });
        }
        for (basic, price) in prices.basic.iter_mut().enumerate() {
            let most = model.uncovered_cost(basic, 0) * SCALE;
            let slope = sum.basics[basic] * HALF_SET_MOVES;
            moves.push(Move {
                price,
                slope,
                unit: HALF_SET_MOVES,
                least: 0,
                most,
            });
        }
        moves.retain(|m| {
            m.slope != 0
                && (m.slope < 0 || *m.price > m.least)
                && (m.slope > 0 || *m.price < m.most)
        });
        let norm: i64 = moves.iter().map(|m| m.slope * m.slope).sum();
        if norm == 0 {
            return false;
        }
        for m in moves {
            let by = i128::from(missed) * i128::from(step) * i128::from(m.slope * m.unit)
                / (i128::from(norm) * i128::from(LEAST_STEP));
            let price = *m.price - i64::try_from(by).unwrap_or(0);
            *m.price = price.clamp(m.least, m.most);
        }
        true
    }
}

/// A price and what would make the sum smaller: it goes against the slope.
struct Move<'p> {
    price: &'p mut i64,
    slope: i64,
    /// How far it goes beside the others.
    unit: i64,
    least: i64,
    most: i64,
}
