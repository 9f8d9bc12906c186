//! One slot of a day held open: what each way to fill it would make of the week.
//!
//! Start at [`Opening`]. Everything that the slot does not change is worked out
//! once, so that a content costs no more than the muscles it trains. The points
//! are those of [`super::objective`]; a test holds them to it. This module
//! never chooses.

use super::objective::{
    BASICS, DayPicks, DaySum, HEAVY_COST, HEAVY_FREE, MUSCLES, Model, OUT_OF_RANK, OVER_CEILING,
    PerMuscle, Pick, RECOVERY_COST, RECOVERY_FREE, SETS, SLOTS, WeekSum, credit,
};

/// Most days less than 48 h from a day of the cycle: the one before and the one
/// after (definition).
const NEIGHBOURS: usize = 2;

/// What a week has come to.
pub(super) struct Standing<'s> {
    /// Sums of its days.
    pub sums: &'s [DaySum],
    /// Half sets and credit.
    pub total: WeekSum,
    /// Days on which each lift stands.
    pub uses: &'s [u8],
    /// Lifts for each basic pattern.
    pub covered: [u8; BASICS.len()],
}

/// The rest of the week, as one day sees it.
pub(super) struct Others<'s> {
    sum: WeekSum,
    /// Points against the other days: their own costs, repeats and recovery among
    /// them.
    points: i64,
    /// Basic patterns they cover, as bits.
    pub covered: u8,
    /// Half sets of the days close by.
    neighbours: [PerMuscle; NEIGHBOURS],
    /// Large muscles, as bits.
    is_large: u32,
    /// Days on which each lift stands, this one among them.
    uses: &'s [u8],
    /// What stands on this day now.
    own: [usize; SLOTS],
    own_count: usize,
}

impl<'s> Others<'s> {
    /// The rest of a week, as this day with these picks sees it. The week costs so
    /// many points in all, but for patterns left out.
    pub(super) fn new(
        model: &Model<'_>,
        (day, picks): (usize, &DayPicks),
        week: &Standing<'s>,
        cost: i64,
    ) -> Self {
        let mut points = Model::cost_of(&week.sums[day]) - cost;
        let mut times = week.covered;
        let mut own = [0; SLOTS];
        let mut own_count = 0;
        for (_, lift, _) in model.filled(day, picks) {
            let twice = own[..own_count].iter().filter(|&&l| l == lift).count();
            let uses = week.uses[lift] - twice as u8;
            points += model.repeat_cost(lift, uses) - model.repeat_cost(lift, uses - 1);
            if let Some(basic) = model.lifts[lift].basic {
                times[basic] -= 1;
            }
            own[own_count] = lift;
            own_count += 1;
        }
        let mut neighbours = [[0; MUSCLES]; NEIGHBOURS];
        let mut count = 0;
        for &(a, b) in model.close_days() {
            if a == day || b == day {
                let other = &week.sums[if a == day { b } else { a }];
                points += model.recovery_cost(&week.sums[day], other);
                neighbours[count] = other.half_sets;
                count += 1;
            }
        }
        Self {
            sum: week.total.without(&week.sums[day]),
            points,
            covered: (0..BASICS.len()).fold(0, |bits, b| bits | u8::from(times[b] > 0) << b),
            neighbours,
            is_large: model.large_muscles.iter().fold(0, |bits, &m| bits | 1 << m),
            uses: week.uses,
            own,
            own_count,
        }
    }

    /// Points for one more day of a lift.
    #[inline(always)]
    fn again(&self, model: &Model<'_>, lift: usize) -> i64 {
        let uses = self.uses[lift];
        if uses == 0 {
            return 0;
        }
        let own = self.own[..self.own_count].iter();
        let uses = uses - own.filter(|&&l| l == lift).count() as u8;
        model.repeat_cost(lift, uses + 1) - model.repeat_cost(lift, uses)
    }

    /// Points of the week when the day holds these picks and comes to this sum.
    pub(super) fn with(
        &self,
        model: &Model<'_>,
        day: usize,
        picks: &DayPicks,
        sum: &DaySum,
    ) -> i64 {
        let mut points = self.points - Model::cost_of(sum);
        let mut covered = 0;
        for (_, lift, _) in model.filled(day, picks) {
            points -= self.again(model, lift);
            covered |= model.lifts[lift].basic.map_or(0, |basic| 1 << basic);
        }
        for (m, &half_sets) in (0..).zip(&sum.half_sets) {
            points += self.muscle(model, m, half_sets);
        }
        points - self.uncovered(model, covered)
    }

    /// Points of one muscle's week when the day holds so many half sets of it.
    #[inline(always)]
    fn muscle(&self, model: &Model<'_>, m: usize, half_sets: u32) -> i64 {
        let week = self.sum.half_sets[m] + half_sets;
        let over = i64::from(week.saturating_sub(model.ceilings[m]));
        let mut points =
            model.worth_of(m, self.sum.credit[m] + credit(half_sets)) - over * OVER_CEILING;
        if self.is_large & 1 << m != 0 {
            for other in &self.neighbours {
                let both = i64::from(half_sets.min(other[m]));
                points -= (both - RECOVERY_FREE).max(0) * RECOVERY_COST;
            }
        }
        points
    }

    /// Points against the basic patterns that neither they nor these cover.
    #[inline(always)]
    fn uncovered(&self, model: &Model<'_>, covered: u8) -> i64 {
        let missing = !(self.covered | covered);
        let missing = (0..BASICS.len()).filter(|basic| missing & 1 << basic != 0);
        missing.map(|basic| model.uncovered_cost(basic, 0)).sum()
    }
}

/// An empty slot beside the open one, and when it is no reproach.
#[derive(Clone, Copy, Default)]
struct Gap {
    keep: u8,
    /// The one lift that could still fill it; `None` where several could.
    only: Option<usize>,
}

/// A day with one slot open, within its week.
pub(super) struct Opening<'o, 'm, 'a> {
    model: &'m Model<'a>,
    others: &'o Others<'o>,
    day: usize,
    slot: usize,
    /// The day with the slot empty.
    pub picks: DayPicks,
    half_sets: PerMuscle,
    /// Points of each muscle so far.
    muscles: [i64; MUSCLES],
    /// Points of the week with the slot empty, but for what depends on the slot:
    /// the slot's own costs, ranks and patterns.
    points: i64,
    /// Lifts in the other slots.
    held: [usize; SLOTS],
    /// Ranks in which they are kept.
    keeps: [u8; SLOTS],
    count: usize,
    heavy: i64,
    covered: u8,
    /// What the other slots leave uncovered costs with the slot empty.
    uncovered: i64,
    gaps: [Gap; SLOTS],
    gap_count: usize,
    /// Lowest rank left out whatever stands in the slot.
    dropped: u8,
    /// Seconds of the other slots in straight sets, every rest counted.
    pub seconds: u32,
}

impl<'o, 'm, 'a> Opening<'o, 'm, 'a> {
    /// Opens a slot of a day that holds these picks.
    pub(super) fn new(
        model: &'m Model<'a>,
        others: &'o Others<'o>,
        (day, slot): (usize, usize),
        picks: &DayPicks,
    ) -> Self {
        let mut picks = *picks;
        picks[slot] = None;
        let mut open = Self {
            model,
            others,
            day,
            slot,
            picks,
            half_sets: [0; MUSCLES],
            muscles: [0; MUSCLES],
            points: others.points,
            held: [0; SLOTS],
            keeps: [0; SLOTS],
            count: 0,
            heavy: 0,
            covered: 0,
            uncovered: 0,
            gaps: [Gap::default(); SLOTS],
            gap_count: 0,
            dropped: u8::MAX,
            seconds: 0,
        };
        let places = &model.days[day];
        for (other, place) in places.iter().enumerate() {
            let Some(pick) = picks[other] else {
                open.points -= i64::from(other != slot) * place.empty_cost;
                continue;
            };
            let candidate = &place.candidates[usize::from(pick.candidate)];
            let lift = &model.lifts[candidate.lift];
            for &(m, one) in &lift.counts {
                open.half_sets[m] += one * u32::from(pick.sets);
            }
            open.points -= candidate.costs[usize::from(pick.sets - SETS.0)]
                + model.kin_cost(candidate.lift, &open.held[..open.count])
                + others.again(model, candidate.lift);
            open.heavy += i64::from(lift.is_heavy_spine);
            open.covered |= lift.basic.map_or(0, |basic| 1 << basic);
            open.seconds += lift.ready_s + u32::from(pick.sets) * (lift.work_s + lift.rest_s);
            open.held[open.count] = candidate.lift;
            open.keeps[open.count] = place.keep;
            open.count += 1;
        }
        for m in 0..MUSCLES {
            open.muscles[m] = others.muscle(model, m, open.half_sets[m]);
            open.points += open.muscles[m];
        }
        open.uncovered = others.uncovered(model, open.covered);
        for (other, place) in places.iter().enumerate() {
            if other == slot || picks[other].is_some() {
                continue;
            }
            match open.free(other) {
                (0, _) => {}
                (1, only) => {
                    open.gaps[open.gap_count] = Gap {
                        keep: place.keep,
                        only,
                    };
                    open.gap_count += 1;
                }
                _ => open.dropped = open.dropped.min(place.keep),
            }
        }
        open
    }

    /// How many lifts could still fill a slot, as far as it matters, and the last
    /// of them.
    fn free(&self, slot: usize) -> (usize, Option<usize>) {
        let place = &self.model.days[self.day][slot];
        if !place.may_run_out {
            return (place.candidates.len().min(1) * 2, None);
        }
        let held = &self.held[..self.count];
        let mut free = (0, None);
        for candidate in place.candidates.iter().filter(|c| !held.contains(&c.lift)) {
            free = (free.0 + 1, Some(candidate.lift));
            if free.0 > 1 {
                break;
            }
        }
        free
    }

    /// Points for what is kept though a rank before it is left out.
    fn out_of_rank(&self, dropped: u8) -> i64 {
        let late = self.keeps[..self.count]
            .iter()
            .filter(|&&keep| keep > dropped);
        OUT_OF_RANK * late.count() as i64
    }

    /// Points of the week with the slot empty, whatever the day's minutes.
    pub(super) fn empty(&self) -> i64 {
        let place = &self.model.days[self.day][self.slot];
        let gaps = self.gaps[..self.gap_count].iter().map(|gap| gap.keep);
        let mut dropped = gaps.fold(self.dropped, u8::min);
        if self.free(self.slot).0 > 0 {
            dropped = dropped.min(place.keep);
        }
        self.points
            - place.empty_cost
            - self.uncovered
            - self.out_of_rank(dropped)
            - (self.heavy - HEAVY_FREE).max(0) * HEAVY_COST
    }

    /// Points of the week with a candidate whatever its sets, but for the muscles
    /// it trains and its own costs.
    pub(super) fn with(&self, candidate: u16) -> i64 {
        let place = &self.model.days[self.day][self.slot];
        let lift_index = place.candidates[usize::from(candidate)].lift;
        let lift = &self.model.lifts[lift_index];
        let gaps = self.gaps[..self.gap_count].iter();
        let dropped = gaps
            .filter(|gap| gap.only != Some(lift_index))
            .fold(self.dropped, |least, gap| least.min(gap.keep));
        let covered = lift.basic.map_or(0, |basic| 1 << basic);
        let uncovered = if covered & !self.covered == 0 {
            self.uncovered
        } else {
            self.others.uncovered(self.model, self.covered | covered)
        };
        let heavy = self.heavy + i64::from(lift.is_heavy_spine);
        self.points
            - self.others.again(self.model, lift_index)
            - uncovered
            - self.out_of_rank(dropped)
            - i64::from(place.keep > dropped) * OUT_OF_RANK
            - (heavy - HEAVY_FREE).max(0) * HEAVY_COST
            - self.model.kin_cost(lift_index, &self.held[..self.count])
    }

    /// Points of the week with this content, whatever the day's minutes, from
    /// those that [`Self::with`] tells of its candidate.
    #[inline(always)]
    pub(super) fn filled(&self, with: i64, pick: Pick) -> i64 {
        let place = &self.model.days[self.day][self.slot];
        let candidate = &place.candidates[usize::from(pick.candidate)];
        let mut points = with - candidate.costs[usize::from(pick.sets - SETS.0)];
        for &(m, one) in &self.model.lifts[candidate.lift].counts {
            let half_sets = self.half_sets[m] + one * u32::from(pick.sets);
            points += self.others.muscle(self.model, m, half_sets) - self.muscles[m];
        }
        points
    }

    /// Seconds of the day with this content in straight sets, every rest counted.
    #[inline(always)]
    pub(super) fn seconds_with(&self, pick: Pick) -> u32 {
        let place = &self.model.days[self.day][self.slot];
        let lift = &self.model.lifts[place.candidates[usize::from(pick.candidate)].lift];
        self.seconds + lift.ready_s + u32::from(pick.sets) * (lift.work_s + lift.rest_s)
    }

    /// The day with this content.
    pub(super) fn picks_with(&self, content: Option<Pick>) -> DayPicks {
        let mut picks = self.picks;
        picks[self.slot] = content;
        picks
    }

    /// Points of the week with this content, of which the first are told without
    /// regard to the day's minutes; `None` when they are not more than a threshold.
    pub(super) fn timed(&self, untimed: i64, content: Option<Pick>, threshold: i64) -> Option<i64> {
        if untimed <= threshold {
            return None;
        }
        // A content that keeps within the minutes at leisure costs nothing more.
        let seconds = content.map_or(self.seconds, |pick| self.seconds_with(pick));
        if seconds <= self.model.budget_s {
            return Some(untimed);
        }
        let picks = self.picks_with(content);
        let most = untimed.saturating_sub(threshold);
        Some(untimed - self.model.haste(self.day, &picks, most)?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calendar::Weekday;
    use crate::catalogue::Catalogue;
    use crate::plan::solve::{self, Search};
    use crate::plan::split_of;

    /// Every content of every slot of a finished week and of its half-empty sister
    /// is worth what the objective says of the whole week.
    #[test]
    fn a_content_is_worth_what_the_week_is() {
        let catalogue = Catalogue::built_in();
        for (days, minutes) in [(1, 60), (2, 30), (4, 45), (6, 40)] {
            let mut person = crate::plan::tests::person();
            person.days = (0..days).map(Weekday::from_index).collect();
            person.minutes = minutes;
            let split = split_of(&person).expect("a split for the days");
            let model = Model::new(&catalogue, &person, &split).expect("plannable");
            let mut week = solve::solve(&model).0;
            for is_thinned in [false, true] {
                if is_thinned {
                    for (d, picks) in week.days.iter_mut().enumerate() {
                        picks[d % 3] = None;
                        picks[3] = None;
                    }
                }
                let search = Search::at(&model, &week);
                for d in 0..model.days.len() {
                    let others = search.others(d);
                    for slot in 0..model.days[d].len() {
                        let open = Opening::new(&model, &others, (d, slot), &week.days[d]);
                        let mut contents = vec![(None, open.empty())];
                        let candidates = &model.days[d][slot].candidates;
                        // Twice on a day is never taken, whatever it costs.
                        let once = (0..)
                            .zip(candidates)
                            .filter(|(_, c)| !open.held[..open.count].contains(&c.lift));
                        for (candidate, _) in once {
                            let with = open.with(candidate);
                            for sets in SETS.0..=SETS.1 {
                                let pick = Pick { candidate, sets };
                                contents.push((Some(pick), open.filled(with, pick)));
                            }
                        }
                        for (content, untimed) in contents {
                            let mut other = week.clone();
                            other.days[d][slot] = content;
                            let points = model.score(&other).total();
                            assert_eq!(open.timed(untimed, content, i64::MIN), Some(points));
                            assert_eq!(open.timed(untimed, content, points), None);
                            assert_eq!(
                                open.timed(untimed, content, points - 1),
                                Some(points),
                                "day {d} slot {slot}: {content:?}"
                            );
                        }
                    }
                }
            }
        }
    }
}
