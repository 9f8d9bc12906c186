//! What makes one week better than another: the objective, in whole points.
//!
//! Start at [`score`] for a week as it stands and [`Model`] for many weeks of
//! the same person. One point is a hundred-thousandth of the square root of a
//! weekly set of a muscle of weight 1; [`MILLI`] points are a thousandth for a
//! muscle of weight 100. Every term is whole-number arithmetic and either
//! linear or a concave staircase in the sets, so that a mixed-integer programme
//! can state the same objective: [`super::programme`] does. This module never
//! searches.
//!
//! Costs are the project's own judgement unless a source stands beside them.
//! They say what a coach would rather not do; they are small beside the worth
//! of a muscle's first sets and large beside its twentieth.

use super::dose::{self, SESSION_CAP};
use super::prescribe::{goal_range, rest, short_rest};
use super::split::{Slot, Split};
use super::staples::{self, Standing};
use super::{PlanError, time};
use crate::catalogue::{
    Catalogue, Exercise, ExerciseId, JointDemand, Kind, Loading, Muscle, Pattern, Role,
};
use crate::person::{Person, Priority, Status};

/// Points in a thousandth of the square root of a set, for a muscle of weight
/// 100 (definition).
pub const MILLI: i64 = 100;

/// Fewest and most sets of one exercise the planner gives: two to three for
/// strength (Phillips et al. 2026, MSSE, position stand, by secondary pages);
/// four to six do more for size than two to three (Krieger 2010, JSCR
/// 24(4):1150-1159), five of them at most (the project's own judgement).
pub const SETS: (u8, u8) = (2, 5);
/// How many numbers of sets that is (definition).
pub(super) const SETS_COUNT: usize = 4;

/// Most slots of a day (definition: as many as a person may ask for).
pub(super) const SLOTS: usize = 12;
pub(super) const MUSCLES: usize = Muscle::ALL.len();

/// Where a slot stands among those to be kept that only another exercise of the
/// same job can fill (definition: last).
const MAKESHIFT: u8 = 9;
/// Most supersets of a day (the project's own judgement).
pub(super) const MOST_PAIRS: usize = 3;
/// Points for a second by which the day's rests are shortened: shorter rests
/// cost reps in later sets (Senna et al. 2009, J Sports Sci Med 8:197-202).
pub(super) const SHORTENED: i64 = 2 * MILLI;
/// Points for a half set past a muscle's weekly ceiling (the project's own
/// judgement).
pub(super) const OVER_CEILING: i64 = 120 * MILLI;
/// Points for keeping a slot while one of more emphasis is left out (the
/// project's own judgement).
pub(super) const OUT_OF_RANK: i64 = 4000 * MILLI;
/// Heavy lifts carried by the spine that a day may hold without cost (the
/// project's own judgement).
pub(super) const HEAVY_FREE: i64 = 1;
/// Points for each heavy lift more (the project's own judgement).
pub(super) const HEAVY_COST: i64 = 2500 * MILLI;
/// Half sets of a large muscle on two days running that are no strain (the
/// project's own judgement).
pub(super) const RECOVERY_FREE: i64 = 4;
/// Points for each half set more (the project's own judgement).
pub(super) const RECOVERY_COST: i64 = 20 * MILLI;
/// Points for a basic pattern the week lacks though it could hold it (the
/// project's own judgement).
pub(super) const UNCOVERED: i64 = 5000 * MILLI;
/// Points for what must not be: seconds over the budget, or the same exercise
/// twice a day (definition: more than anything else can bring).
pub(super) const NEVER: i64 = 1_000_000 * MILLI;

/// An exercise with its sets in a slot of a day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DraftItem {
    /// Index of the slot in the split's day.
    pub slot: u8,
    /// The exercise.
    pub exercise: ExerciseId,
    /// Working sets.
    pub sets: u8,
}

/// A week before order, rest and reasons: what the objective judges.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanDraft {
    /// The days of the split, each its filled slots.
    pub days: Vec<Vec<DraftItem>>,
}

/// What a week is worth, in points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Score {
    /// Worth of the weekly sets, floors and ceilings included.
    pub stimulus: i64,
    /// Costs within the days: exercises, sets off the norm, near-identical
    /// lifts, empty slots, haste.
    pub day_costs: i64,
    /// Cost of exercises that come back on several days.
    pub repeats: i64,
    /// Cost of basic patterns the week lacks though it could hold them.
    pub uncovered: i64,
    /// Cost of muscles trained hard two days running.
    pub recovery: i64,
}

impl Score {
    /// Worth less costs.
    #[must_use]
    pub const fn total(&self) -> i64 {
        self.stimulus - self.day_costs - self.repeats - self.uncovered - self.recovery
    }
}

/// A basic pattern every week should hold: a squat or lunge, a hinge, both
/// pushes, both pulls, the trunk (common practice, no source; Iversen et al.
/// 2021, Sports Med 51:2079-2095, asks at least for one leg press or squat, one
/// push and one pull).
pub const BASICS: [&[Pattern]; 7] = [
    &[Pattern::Squat, Pattern::Lunge],
    &[Pattern::Hinge],
    &[Pattern::HorizontalPush],
    &[Pattern::VerticalPush],
    &[Pattern::HorizontalPull],
    &[Pattern::VerticalPull],
    &[Pattern::TrunkFlexion, Pattern::TrunkStability],
];

/// Judges a week against the person's split (or the default for their days).
///
/// # Errors
/// [`PlanError`] when the person's answers allow no plan, or the draft holds an
/// exercise or slot the person cannot have.
pub fn score(
    catalogue: &Catalogue,
    person: &Person,
    draft: &PlanDraft,
) -> Result<Score, PlanError> {
    let split = super::split_of(person)?;
    let model = Model::new(catalogue, person, &split)?;
    let week = model
        .read(draft)
        .ok_or_else(|| PlanError::NotInSplit(split.id.clone()))?;
    Ok(model.score(&week))
}

/// What fills the slots of one day: candidate and sets, or nothing.
pub(super) type DayPicks = [Option<Pick>; SLOTS];

/// A candidate of a slot, by index, with its sets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Pick {
    pub candidate: u16,
    pub sets: u8,
}

/// An exercise that may fill a slot.
#[derive(Debug, Clone, Copy)]
pub(super) struct Candidate {
    /// Index into [`Model::lifts`].
    pub lift: usize,
    /// Points it costs to have it in this slot at all.
    cost: i64,
    /// Points of two, three, … sets of it in this slot, whatever else the day
    /// holds.
    pub costs: [i64; SETS_COUNT],
}

/// A slot with everything that may fill it.
pub(super) struct Place {
    pub rank: u8,
    /// Place in the order in which slots give way, the last first: the rank, or
    /// [`MAKESHIFT`].
    pub keep: u8,
    pub candidates: Box<[Candidate]>,
    /// Whether every candidate might stand elsewhere on the day, so that its
    /// being empty is no reproach.
    pub may_run_out: bool,
    /// Points for leaving it empty.
    pub empty_cost: i64,
}

/// An exercise with everything that does not depend on the slot worked out.
pub(super) struct Lift<'a> {
    pub exercise: &'a Exercise,
    /// Muscles with the half sets one set counts for them.
    pub counts: Box<[(usize, u32)]>,
    /// Muscles with a count, as bits.
    pub muscles: u32,
    /// Points of each set, whatever it trains.
    pub per_set_cost: i64,
    pub ready_s: u32,
    pub work_s: u32,
    /// Rest after a set.
    pub rest_s: u32,
    /// The least it may be shortened to.
    pub short_rest_s: u32,
    /// Index into [`BASICS`].
    pub basic: Option<usize>,
    /// Heavy, and carried by the spine.
    pub is_heavy_spine: bool,
    /// Light enough in set-up and strain to share its rests.
    pub can_pair: bool,
    pub is_compound: bool,
    /// Groups of near-identical lifts it belongs to, by [`KIN_PRICES`].
    pub kin: [u16; KIN_PRICES.len()],
    /// Norm of sets, by index `sets - 2`, for a leading slot and for others.
    norm: [[i64; 4]; 2],
}

pub(super) type PerMuscle = [u32; MUSCLES];

/// What one day comes to.
#[derive(Debug, Clone, Copy)]
pub(super) struct DaySum {
    /// Half sets per muscle.
    pub half_sets: PerMuscle,
    /// Eighths of a set per muscle credited to the week.
    pub credit: PerMuscle,
    cost: i64,
}

/// Half sets and credit of the whole week.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct WeekSum {
    pub half_sets: PerMuscle,
    pub credit: PerMuscle,
}

impl DaySum {
    /// Adds points against the day.
    pub(super) fn add_cost(&mut self, cost: i64) {
        self.cost += cost;
    }
}

impl WeekSum {
    /// The week without a day.
    pub(super) fn without(&self, day: &DaySum) -> Self {
        let mut week = *self;
        for m in 0..MUSCLES {
            week.half_sets[m] -= day.half_sets[m];
            week.credit[m] -= day.credit[m];
        }
        week
    }

    /// The week with a day's sum added in place of an old one.
    pub(super) fn with(&self, old: Option<&DaySum>, new: &DaySum) -> Self {
        let mut week = *self;
        for m in 0..MUSCLES {
            week.half_sets[m] += new.half_sets[m];
            week.credit[m] += new.credit[m];
            if let Some(old) = old {
                week.half_sets[m] -= old.half_sets[m];
                week.credit[m] -= old.credit[m];
            }
        }
        week
    }
}

/// How a day fits its minutes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Fit {
    /// Upper bound of the seconds: the shortest rest counts as the last.
    pub seconds: u32,
    /// Seconds of rest given up over the day, in `seconds` already.
    pub shortened: u32,
    /// Slots done in turn.
    pub pairs: [Option<(u8, u8)>; MOST_PAIRS],
    /// Points the haste costs.
    cost: i64,
}

/// What a day takes at leisure.
struct Pace {
    /// Exercises that may share their rests, so many.
    items: [Item; SLOTS],
    count: usize,
    seconds: u32,
    /// Seconds that shortened rests could save without any superset.
    most_shortened: u32,
    /// Seconds over the minutes.
    need: u32,
    /// More than haste could save in all, if any is needed.
    most_haste: u32,
}

/// An exercise of a day that may share its rests.
#[derive(Clone, Copy, Default)]
struct Item {
    slot: u8,
    is_compound: bool,
    muscles: u32,
    sets: u32,
    rest_s: u32,
    short_rest_s: u32,
}

/// Two exercises that might share their rests.
#[derive(Debug, Clone, Copy, Default)]
struct Pairing {
    /// Points it is better than shortening rests by as many seconds.
    gain: i32,
    cost: i32,
    saved: u16,
    /// What shortening can no longer save because of it.
    less_to_shorten: u16,
    i: u8,
    j: u8,
}

/// A choice of pairings, and what the day then comes to.
#[derive(Clone, Copy)]
struct Matching {
    taken: [usize; MOST_PAIRS],
    count: usize,
    cost: i64,
    saved: u32,
    less_to_shorten: u32,
    used: u32,
}

/// The search for the cheapest way to save so many seconds.
struct Haste<'p> {
    /// By falling gain.
    open: &'p [Pairing],
    need: u32,
    /// Seconds that shortened rests could save without any superset.
    most_shortened: u32,
    /// What it must cost less than: the least found so far.
    most: i64,
    best: Option<Matching>,
}

impl Haste<'_> {
    /// Tries every set of pairings without a common exercise that starts with
    /// these, the next taken from `from` on.
    fn try_all(&mut self, so_far: Matching, from: usize) {
        let left = self.need.saturating_sub(so_far.saved);
        if left + so_far.less_to_shorten <= self.most_shortened || left == 0 {
            let cost = so_far.cost + i64::from(left) * SHORTENED;
            if cost < self.most {
                self.most = cost;
                self.best = Some(so_far);
            }
        }
        if left == 0 || so_far.count == MOST_PAIRS {
            return;
        }
        for at in from..self.open.len() {
            let pairing = self.open[at];
            let more = (MOST_PAIRS - so_far.count) as i64 * i64::from(pairing.gain.max(0));
            let least = so_far.cost + i64::from(left) * SHORTENED - more;
            if least >= self.most {
                return;
            }
            let bits = 1_u32 << pairing.i | 1 << pairing.j;
            if so_far.used & bits != 0 {
                continue;
            }
            let mut with = so_far;
            with.taken[with.count] = at;
            with.count += 1;
            with.cost += i64::from(pairing.cost);
            with.saved += u32::from(pairing.saved);
            with.less_to_shorten += u32::from(pairing.less_to_shorten);
            with.used |= bits;
            self.try_all(with, at + 1);
        }
    }
}

/// Eighths of a set that a session's half sets of a muscle count in the week.
#[inline(always)]
pub(super) fn credit(half_sets: u32) -> u32 {
    let over = half_sets.saturating_sub(SESSION_CAP);
    (half_sets - over) * 4 + over * dose::CREDIT_OVER_CAP_QUARTERS.unsigned_abs() as u32
}

/// A whole week by candidate indices.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Week {
    pub days: Vec<DayPicks>,
}

/// One person's planning problem: slots, candidates and every coefficient of
/// the objective.
pub struct Model<'a> {
    pub(super) lifts: Box<[Lift<'a>]>,
    pub(super) days: Box<[Box<[Place]>]>,
    /// Points of so many eighths of a weekly set, per muscle.
    worth: Box<[Box<[i64]>]>,
    /// Half sets a week that should not be passed, per muscle; no limit for minor
    /// muscles, which other work decides.
    pub(super) ceilings: [u32; MUSCLES],
    /// Pairs of cycle days less than 48 h apart.
    close_days: Vec<(usize, usize)>,
    /// Muscles the recovery cost looks at.
    pub(super) large_muscles: Vec<usize>,
    /// Points for a superset, and more for each compound lift in it: learners
    /// and the old do better with one thing at a time.
    pair_prices: [i64; 2],
    /// Basics that at least one lift could cover.
    coverable: [bool; BASICS.len()],
    pub(super) budget_s: u32,
}

/// Eighths of a weekly set the worth tables reach (definition).
pub(super) const WORTH_LEN: usize = 80 * 8;

impl<'a> Model<'a> {
    /// Works out the problem of this person.
    ///
    /// # Errors
    /// [`PlanError`] says which answer allows no plan.
    pub fn new(
        catalogue: &'a Catalogue,
        person: &Person,
        split: &Split,
    ) -> Result<Self, PlanError> {
        super::check(person)?;
        let mut lifts: Box<[Lift<'a>]> = catalogue
            .iter()
            .filter(|exercise| super::is_allowed(exercise, person))
            .map(|exercise| Lift::new(exercise, person))
            .collect();
        if lifts.is_empty() {
            return Err(PlanError::NothingPossible);
        }
        let days = split
            .days
            .iter()
            .map(|day| {
                day.slots
                    .iter()
                    .take(SLOTS)
                    .enumerate()
                    .map(|(index, slot)| Place::new(slot, index == 0, &lifts, person))
                    .collect()
            })
            .map(|places: Vec<Place>| {
                note_shared(rescue_empty_day(places, &lifts)).into_boxed_slice()
            })
            .collect();
        number_kin(&mut lifts);
        let coverable =
            std::array::from_fn(|basic| lifts.iter().any(|lift| lift.basic == Some(basic)));
        Ok(Self {
            days,
            worth: Muscle::ALL
                .iter()
                .map(|&m| worth_table(dose::target(m, person)).into_boxed_slice())
                .collect(),
            ceilings: std::array::from_fn(|m| {
                let muscle = Muscle::ALL[m];
                if dose::size(muscle) == dose::Size::Minor {
                    u32::MAX
                } else {
                    dose::target(muscle, person).ceiling
                }
            }),
            close_days: close_days(person, split.days.len()),
            large_muscles: (0..MUSCLES)
                .filter(|&m| dose::size(Muscle::ALL[m]) == dose::Size::Large)
                .collect(),
            pair_prices: pair_prices(person),
            coverable,
            budget_s: u32::from(person.minutes) * 60,
            lifts,
        })
    }

    /// The week of a draft; `None` when a slot or exercise is not in the model.
    pub(super) fn read(&self, draft: &PlanDraft) -> Option<Week> {
        if draft.days.len() != self.days.len() {
            return None;
        }
        let mut week = self.empty_week();
        for (d, items) in draft.days.iter().enumerate() {
            for item in items {
                let slot = usize::from(item.slot);
                let candidate = self.days[d]
                    .get(slot)?
                    .candidates
                    .iter()
                    .position(|c| self.lifts[c.lift].exercise.id == item.exercise)?;
                if !(SETS.0..=SETS.1).contains(&item.sets) {
                    return None;
                }
                week.days[d][slot] = Some(Pick {
                    candidate: u16::try_from(candidate).ok()?,
                    sets: item.sets,
                });
            }
        }
        Some(week)
    }

    /// The week as a draft.
    pub(super) fn write(&self, week: &Week) -> PlanDraft {
        let day = |d: usize| {
            let filled = self.filled(d, &week.days[d]);
            let items = filled.map(|(slot, lift, sets)| DraftItem {
                slot: slot as u8,
                exercise: self.lifts[lift].exercise.id.clone(),
                sets,
            });
            items.collect()
        };
        PlanDraft {
            days: (0..self.days.len()).map(day).collect(),
        }
    }

    pub(super) fn empty_week(&self) -> Week {
        Week {
            days: vec![[None; SLOTS]; self.days.len()],
        }
    }

    #[inline(always)]
    pub(super) fn lift_of(&self, day: usize, slot: usize, pick: Pick) -> usize {
        self.days[day][slot].candidates[usize::from(pick.candidate)].lift
    }

    /// The filled slots of a day: slot, lift, sets.
    pub(super) fn filled<'b>(
        &'b self,
        day: usize,
        picks: &'b DayPicks,
    ) -> impl Iterator<Item = (usize, usize, u8)> + 'b {
        picks.iter().enumerate().filter_map(move |(slot, pick)| {
            pick.map(|pick| (slot, self.lift_of(day, slot, pick), pick.sets))
        })
    }

    pub(super) fn score(&self, week: &Week) -> Score {
        let sums: Vec<DaySum> = (0..self.days.len())
            .map(|d| self.sum_day(d, &week.days[d]))
            .collect();
        let mut uses = vec![0_u8; self.lifts.len()];
        let mut covered = [0_u8; BASICS.len()];
        for (d, picks) in week.days.iter().enumerate() {
            for (_, lift, _) in self.filled(d, picks) {
                uses[lift] += 1;
                if let Some(basic) = self.lifts[lift].basic {
                    covered[basic] += 1;
                }
            }
        }
        let empty = WeekSum::default();
        let week = sums.iter().fold(empty, |week, sum| week.with(None, sum));
        Score {
            stimulus: self.stimulus(&week),
            day_costs: sums.iter().map(|sum| sum.cost).sum(),
            repeats: uses
                .iter()
                .enumerate()
                .map(|(lift, &n)| self.repeat_cost(lift, n))
                .sum(),
            uncovered: (0..BASICS.len())
                .map(|basic| self.uncovered_cost(basic, covered[basic]))
                .sum(),
            recovery: self
                .close_days
                .iter()
                .map(|&(a, b)| self.recovery_cost(&sums[a], &sums[b]))
                .sum(),
        }
    }

    /// Worth of the week's credit, less what its half sets pass the ceilings by:
    /// those count in full, also past a session's cap.
    pub(super) fn stimulus(&self, week: &WeekSum) -> i64 {
        let of = |m: usize| {
            let over = week.half_sets[m].saturating_sub(self.ceilings[m]);
            self.worth_of(m, week.credit[m]) - i64::from(over) * OVER_CEILING
        };
        (0..MUSCLES).map(of).sum()
    }

    /// Points a muscle's weekly credit is worth.
    #[inline(always)]
    pub(super) fn worth_of(&self, muscle: usize, eighths: u32) -> i64 {
        self.worth[muscle][(eighths as usize).min(WORTH_LEN - 1)]
    }

    /// Cost of an exercise coming back on several days: main lifts may come
    /// twice, because practice helps strength; others would rather vary.
    pub(super) fn repeat_cost(&self, lift: usize, uses: u8) -> i64 {
        let steps = self.repeat_steps(lift);
        (1..uses)
            .map(|again| steps[usize::from(again - 1).min(steps.len() - 1)])
            .sum()
    }

    /// Points for the second, the third and each further day of an exercise.
    #[inline(always)]
    pub(super) fn repeat_steps(&self, lift: usize) -> [i64; 3] {
        if self.is_compound(lift) {
            [40 * MILLI, 120 * MILLI, 200 * MILLI]
        } else {
            [60 * MILLI, 120 * MILLI, 200 * MILLI]
        }
    }

    pub(super) fn uncovered_cost(&self, basic: usize, times: u8) -> i64 {
        if times == 0 && self.coverable[basic] {
            UNCOVERED
        } else {
            0
        }
    }

    /// Whether any exercise left to the person covers this basic pattern.
    pub(super) const fn can_cover(&self, basic: usize) -> bool {
        self.coverable[basic]
    }

    /// Cost of training a large muscle hard two days running: at least 48 h
    /// between sessions of a muscle are advised (Garber et al. 2011, MSSE
    /// 43(7):1334-1359); soft, because trials at equal weekly sets do not
    /// support a hard rule.
    pub(super) fn recovery_cost(&self, a: &DaySum, b: &DaySum) -> i64 {
        self.large_muscles
            .iter()
            .map(|&m| {
                let both = i64::from(a.half_sets[m].min(b.half_sets[m]));
                (both - RECOVERY_FREE).max(0) * RECOVERY_COST
            })
            .sum()
    }

    pub(super) fn close_days(&self) -> &[(usize, usize)] {
        &self.close_days
    }

    pub(super) fn cost_of(sum: &DaySum) -> i64 {
        sum.cost
    }

    pub(super) fn sum_day(&self, day: usize, picks: &DayPicks) -> DaySum {
        let mut sum = self.sum_untimed(day, picks);
        sum.cost += self.haste(day, picks, i64::MAX).unwrap_or(NEVER);
        sum
    }

    /// What it costs to fit the day into its minutes; never less than nothing.
    /// `None` when it is as much as `most` or more.
    pub(super) fn haste(&self, day: usize, picks: &DayPicks, most: i64) -> Option<i64> {
        self.haste_at(day, picks, (NEVER, MILLI), most)
    }

    /// The same with other points for seconds that cannot be saved: once, and for
    /// each.
    pub(super) fn haste_at(
        &self,
        day: usize,
        picks: &DayPicks,
        (any, each): (i64, i64),
        most: i64,
    ) -> Option<i64> {
        let cost = |fit: &Fit| {
            let over = i64::from(fit.seconds.saturating_sub(self.budget_s));
            fit.cost + over * each + i64::from(over > 0) * any
        };
        let within = |fit: Fit| Some(cost(&fit)).filter(|&cost| cost < most);
        match self.fit_within(day, picks, most) {
            Ok(fit) => within(fit),
            // Too dear, or what cannot be: which of them counts only where the
            // latter would do.
            Err(hopeless) if cost(&hopeless) < most => within(self.fit(day, picks)),
            Err(_) => None,
        }
    }

    /// The day's sum without regard to its minutes.
    pub(super) fn sum_untimed(&self, day: usize, picks: &DayPicks) -> DaySum {
        let mut half_sets = [0_u32; MUSCLES];
        let mut cost = 0;
        let mut heavy = 0_i64;
        let mut met = [0_usize; SLOTS];
        let mut count = 0;
        let places = &self.days[day];
        let least_dropped = self.least_dropped(day, picks);
        for (slot, place) in places.iter().enumerate() {
            let Some(pick) = picks[slot] else {
                cost += place.empty_cost;
                continue;
            };
            if place.keep > least_dropped {
                cost += OUT_OF_RANK;
            }
            let candidate = &place.candidates[usize::from(pick.candidate)];
            let lift = &self.lifts[candidate.lift];
            for &(m, one) in &lift.counts {
                half_sets[m] += one * u32::from(pick.sets);
            }
            cost += candidate.costs[usize::from(pick.sets - SETS.0)];
            heavy += i64::from(lift.is_heavy_spine);
            cost += self.kin_cost(candidate.lift, &met[..count]);
            met[count] = candidate.lift;
            count += 1;
        }
        cost += (heavy - HEAVY_FREE).max(0) * HEAVY_COST;
        DaySum {
            half_sets,
            credit: half_sets.map(credit),
            cost,
        }
    }

    /// The pieces of a muscle's worth with their slopes, falling: eighths of a
    /// weekly set, and points for each. Beyond the last more is worth nothing.
    pub(super) fn pieces(&self, muscle: usize) -> Vec<(i64, i64)> {
        let mut pieces: Vec<(i64, i64)> = Vec::new();
        for two in self.worth[muscle].windows(2) {
            let slope = two[1] - two[0];
            match pieces.last_mut() {
                Some((length, last)) if *last == slope => *length += 1,
                _ => pieces.push((1, slope)),
            }
        }
        pieces.retain(|&(_, slope)| slope > 0);
        pieces
    }

    /// Cost of one more lift beside those the day already holds: what each group
    /// it shares with one of them asks, and the same exercise never.
    pub(super) fn kin_cost(&self, lift: usize, met: &[usize]) -> i64 {
        let kin = &self.lifts[lift].kin;
        let mut shared = [0; KIN_PRICES.len()];
        let mut cost = 0;
        for &other in met {
            let its = &self.lifts[other].kin;
            // Nothing is nearer kin than what is not even of the same pattern.
            if its[0] == kin[0] {
                for level in 0..KIN_PRICES.len() {
                    if its[level] == kin[level] {
                        shared[level] = KIN_PRICES[level];
                    }
                }
                if other == lift {
                    cost = NEVER;
                }
            }
        }
        for price in shared {
            cost += price;
        }
        cost
    }

    /// How the day fits its minutes at least cost: straight sets, supersets,
    /// shorter rests, or both. Where nothing makes it fit, `seconds` is over, by
    /// about what cannot be saved.
    pub(super) fn fit(&self, day: usize, picks: &DayPicks) -> Fit {
        match self.fit_within(day, picks, i64::MAX) {
            Ok(fit) | Err(fit) => fit,
        }
    }

    /// What the day takes at leisure, and what haste could save at most.
    #[inline(always)]
    fn pace(&self, day: usize, picks: &DayPicks) -> Pace {
        let mut pace = Pace {
            items: [Item::default(); SLOTS],
            count: 0,
            seconds: 0,
            most_shortened: 0,
            need: 0,
            most_haste: 0,
        };
        // The shortest rest counts as the last one, which nobody waits for.
        let mut last_rest = u32::MAX;
        let mut rests = [0_u32; SLOTS];
        for (slot, place) in self.days[day].iter().enumerate() {
            let Some(pick) = picks[slot] else { continue };
            let lift = &self.lifts[place.candidates[usize::from(pick.candidate)].lift];
            let sets = u32::from(pick.sets);
            pace.seconds += lift.ready_s + sets * (lift.work_s + lift.rest_s);
            pace.most_shortened += sets * (lift.rest_s - lift.short_rest_s);
            last_rest = last_rest.min(lift.short_rest_s);
            if lift.can_pair {
                rests[pace.count] = sets * lift.short_rest_s;
                pace.items[pace.count] = Item {
                    slot: slot as u8,
                    is_compound: lift.is_compound,
                    muscles: lift.muscles,
                    sets,
                    rest_s: lift.rest_s,
                    short_rest_s: lift.short_rest_s,
                };
                pace.count += 1;
            }
        }
        pace.seconds -= if last_rest == u32::MAX { 0 } else { last_rest };
        pace.need = pace.seconds.saturating_sub(self.budget_s);
        if pace.need > 0 {
            // A pair saves no more than all rests of either partner.
            crate::order::sort_by(&mut rests[..pace.count], |a, b| a > b);
            let most_saved: u32 = rests.iter().skip(1).step_by(2).take(MOST_PAIRS).sum();
            pace.most_haste = pace.most_shortened + most_saved;
        }
        pace
    }

    /// What haste costs at least, whoever could share rests with whom.
    #[inline(always)]
    fn least_cost(&self, pace: &Pace) -> i64 {
        // With so many supersets, what is left is shortened.
        let mut least = i64::from(pace.need) * SHORTENED;
        let mut rests = [0_u32; SLOTS];
        let rests = &mut rests[..pace.count];
        for (rest, item) in rests.iter_mut().zip(&pace.items) {
            *rest = item.sets * item.rest_s;
        }
        crate::order::sort_by(rests, |a, b| a > b);
        let mut saved = 0;
        for (pairs, rest) in (1..).zip(rests.iter().skip(1).step_by(2).take(MOST_PAIRS)) {
            saved += rest;
            let left = i64::from(pace.need.saturating_sub(saved)) * SHORTENED;
            least = least.min(pairs * self.pair_prices[0] + left);
        }
        least
    }

    /// What the day's haste costs at least, and so much for each second that none
    /// can save: quick to tell.
    pub(super) fn least_haste(&self, day: usize, picks: &DayPicks, unsaved: i64) -> i64 {
        let pace = self.pace(day, picks);
        if pace.need == 0 {
            return 0;
        }
        let over = pace.need.saturating_sub(pace.most_haste);
        self.least_cost(&pace) + i64::from(over) * unsaved
    }

    /// How the day fits its minutes if that costs less than `most`, or else how it
    /// comes out where nothing makes it fit.
    fn fit_within(&self, day: usize, picks: &DayPicks, most: i64) -> Result<Fit, Fit> {
        let pace = self.pace(day, picks);
        let Pace {
            items,
            count,
            seconds,
            most_shortened,
            need,
            most_haste,
        } = pace;
        let straight = Fit {
            seconds,
            shortened: 0,
            pairs: [None; MOST_PAIRS],
            cost: 0,
        };
        if need == 0 {
            return Ok(straight);
        }
        // Where even the most that haste could save is too little, the hopeless
        // day is not looked at further.
        if most_haste < need {
            return Ok(Fit {
                seconds: seconds - most_haste,
                shortened: most_haste,
                cost: i64::from(most_haste) * SHORTENED,
                ..straight
            });
        }
        let hopeless = Fit {
            seconds: self.budget_s + 60,
            shortened: most_shortened,
            cost: i64::from(need) * SHORTENED,
            ..straight
        };
        if self.least_cost(&pace) >= most {
            return Err(hopeless);
        }
        // By falling gain.
        let mut open = [Pairing::default(); SLOTS * (SLOTS - 1) / 2];
        let mut pairs = 0;
        for i in 0..count {
            for j in i + 1..count {
                if items[i].muscles & items[j].muscles == 0 {
                    let pairing = self.pairing(&items, (i, j));
                    let mut at = pairs;
                    while at > 0 && open[at - 1].gain < pairing.gain {
                        open[at] = open[at - 1];
                        at -= 1;
                    }
                    open[at] = pairing;
                    pairs += 1;
                }
            }
        }
        let open = &open[..pairs];
        let mut haste = Haste {
            open,
            need,
            most_shortened,
            most,
            best: None,
        };
        let none = Matching {
            taken: [0; MOST_PAIRS],
            count: 0,
            cost: 0,
            saved: 0,
            less_to_shorten: 0,
            used: 0,
        };
        haste.try_all(none, 0);
        let Some(matching) = haste.best else {
            return Err(hopeless);
        };
        let shortened = need.saturating_sub(matching.saved);
        let mut fit = Fit {
            seconds: seconds - matching.saved - shortened,
            shortened,
            pairs: [None; MOST_PAIRS],
            cost: haste.most,
        };
        for (pair, &at) in fit.pairs.iter_mut().zip(&matching.taken[..matching.count]) {
            let slot = |item: u8| items[usize::from(item)].slot;
            *pair = Some((slot(open[at].i), slot(open[at].j)));
        }
        Ok(fit)
    }

    /// What two exercises save when their rounds share the longer rest.
    fn pairing(&self, items: &[Item; SLOTS], (i, j): (usize, usize)) -> Pairing {
        let (one, other) = (&items[i], &items[j]);
        let rounds = one.sets.min(other.sets);
        let rest = one.rest_s.min(other.rest_s);
        let saved = rounds * rest;
        let less = rounds * (rest - one.short_rest_s.min(other.short_rest_s));
        let compounds = i64::from(one.is_compound) + i64::from(other.is_compound);
        let cost = self.pair_prices[0] + compounds * self.pair_prices[1];
        // A handful of rounds of minutes at most.
        Pairing {
            gain: (i64::from(saved) * SHORTENED - cost) as i32,
            cost: cost as i32,
            saved: saved as u16,
            less_to_shorten: less as u16,
            i: i as u8,
            j: j as u8,
        }
    }

    /// Rank of the empty slot of most emphasis that could be filled.
    fn least_dropped(&self, day: usize, picks: &DayPicks) -> u8 {
        let places = &self.days[day];
        (0..places.len())
            .filter(|&slot| picks[slot].is_none() && self.could_fill(day, slot, picks))
            .map(|slot| places[slot].keep)
            .min()
            .unwrap_or(u8::MAX)
    }

    /// Whether the day keeps a slot while one of more emphasis is empty.
    pub(super) fn is_out_of_rank(&self, day: usize, picks: &DayPicks) -> bool {
        let least = self.least_dropped(day, picks);
        self.filled(day, picks)
            .any(|(slot, _, _)| self.days[day][slot].keep > least)
    }

    /// Whether an empty slot has a candidate that the day does not hold yet.
    pub(super) fn could_fill(&self, day: usize, slot: usize, picks: &DayPicks) -> bool {
        let place = &self.days[day][slot];
        let is_free = |lift: usize| self.filled(day, picks).all(|(_, other, _)| other != lift);
        if place.may_run_out {
            place.candidates.iter().any(|c| is_free(c.lift))
        } else {
            !place.candidates.is_empty()
        }
    }

    /// Whether nothing that could fill the empty slot would fit the minutes even
    /// with the fewest sets, everything else as it is.
    pub(super) fn is_too_late_for(&self, day: usize, slot: usize, picks: &DayPicks) -> bool {
        let is_free = |lift: usize| self.filled(day, picks).all(|(_, other, _)| other != lift);
        (0..)
            .zip(&self.days[day][slot].candidates)
            .all(|(candidate, c)| {
                let mut picks = *picks;
                picks[slot] = Some(Pick {
                    candidate,
                    sets: SETS.0,
                });
                let fit = self.fit(day, &picks);
                !is_free(c.lift) || fit.seconds > self.budget_s || fit.shortened > 0
            })
    }

    /// What a superset costs: little for two isolation exercises; more with a
    /// compound lift, which keeps two stations and tires the whole body.
    pub(super) fn pair_cost(&self, a: usize, b: usize) -> i64 {
        let compounds = [a, b].map(|lift| i64::from(self.is_compound(lift)));
        self.pair_prices[0] + (compounds[0] + compounds[1]) * self.pair_prices[1]
    }

    #[inline(always)]
    pub(super) fn is_compound(&self, lift: usize) -> bool {
        self.lifts[lift].is_compound
    }
}

/// Points for a superset, and more for each compound lift in it: learners and
/// the old do better with one thing at a time (the project's own judgement).
pub(super) fn pair_prices(person: &Person) -> [i64; 2] {
    if person.status == Status::Novice || person.is_older {
        [210 * MILLI, 165 * MILLI]
    } else {
        [140 * MILLI, 110 * MILLI]
    }
}

impl<'a> Lift<'a> {
    pub(super) fn new(exercise: &'a Exercise, person: &Person) -> Self {
        let counts: Box<[(usize, u32)]> = (0..MUSCLES)
            .map(|m| (m, exercise.half_sets_for(Muscle::ALL[m])))
            .filter(|&(_, half_sets)| half_sets > 0)
            .collect();
        let strain = i64::from(exercise.strain);
        let is_spine = exercise.joints.contains(&JointDemand::LoadedSpine);
        Self {
            exercise,
            muscles: counts.iter().fold(0, |bits, &(m, _)| bits | 1 << m),
            counts,
            per_set_cost: MILLI
                * (12 + strain * if person.is_older { 24 } else { 12 } + i64::from(is_spine) * 6),
            ready_s: u32::from(exercise.setup_s) + time::warm_up_seconds(exercise),
            work_s: time::work_seconds(exercise, goal_range(exercise, person)),
            rest_s: u32::from(rest(exercise, person)),
            short_rest_s: u32::from(short_rest(exercise, person)),
            basic: BASICS
                .iter()
                .position(|patterns| patterns.contains(&exercise.pattern)),
            is_heavy_spine: is_spine && exercise.strain >= 2,
            can_pair: exercise.strain <= 1 && exercise.setup_s <= 45,
            is_compound: exercise.kind == Kind::Compound,
            kin: [0; KIN_PRICES.len()],
            norm: [norm(exercise, person, true), norm(exercise, person, false)],
        }
    }
}

/// Points for two to five sets: three to four sets of a compound and two to
/// three of an isolation exercise are the norm, one more where the day leads,
/// one fewer for novices (common practice, no source).
fn norm(exercise: &Exercise, person: &Person, is_leading: bool) -> [i64; 4] {
    let is_compound = exercise.kind == Kind::Compound && exercise.role != Role::Trunk;
    let points = match (person.status, is_compound, is_leading) {
        (Status::Novice, true, true) => [400, 0, 160, 600],
        (Status::Novice, true, false) => [50, 0, 260, 800],
        (Status::Novice, false, _) => [0, 30, 260, 800],
        // Twos on a main lift are a waste of its warm-up.
        (_, true, true) => [600, 60, 0, 320],
        (_, true, false) => [350, 10, 0, 360],
        (_, false, true) => [120, 70, 0, 260],
        (_, false, false) => [30, 0, 110, 400],
    };
    // What is to be brought up may have its fourth and fifth set.
    let wanted = |muscle| person.priorities.get(muscle) == Some(&Priority::More);
    let share = if exercise.prime.iter().any(wanted) {
        4
    } else {
        1
    };
    let [two, three, four, five] = points.map(|milli| milli * MILLI);
    [two, three, four / share, five / share]
}

impl Place {
    fn new(slot: &Slot, opens: bool, lifts: &[Lift<'_>], person: &Person) -> Self {
        let mut candidates = Vec::new();
        for (index, lift) in lifts.iter().enumerate() {
            let exercise = lift.exercise;
            let trains = slot
                .muscle
                .is_none_or(|muscle| exercise.prime.contains(&muscle));
            let place = slot.patterns.iter().position(|&p| p == exercise.pattern);
            if let (Some(place), true, true) = (place, trains, exercise.role == slot.role) {
                #[expect(clippy::cast_possible_wrap, reason = "a handful of patterns")]
                let preference = place as i64 * 70 * MILLI;
                candidates.push(Candidate {
                    lift: index,
                    cost: preference + pick_cost(exercise, slot, opens, person),
                    costs: [0; SETS_COUNT],
                });
            }
        }
        let is_makeshift = candidates.is_empty();
        if is_makeshift {
            // Better another exercise of the same job than a hole in the day.
            for (index, lift) in lifts.iter().enumerate() {
                let exercise = lift.exercise;
                let trains = slot
                    .muscle
                    .is_none_or(|muscle| exercise.half_sets_for(muscle) > 0);
                if exercise.role == slot.role && trains {
                    candidates.push(Candidate {
                        lift: index,
                        cost: 200 * MILLI + pick_cost(exercise, slot, opens, person),
                        costs: [0; SETS_COUNT],
                    });
                }
            }
        }
        keep_the_best_of_a_kind(&mut candidates, lifts, person.minutes);
        for candidate in &mut candidates {
            let lift = &lifts[candidate.lift];
            let norm = lift.norm[usize::from(slot.rank > 1)];
            candidate.costs = std::array::from_fn(|at| {
                let sets = i64::from(SETS.0) + at as i64;
                candidate.cost + lift.per_set_cost * sets + norm[at]
            });
        }
        let empty_cost = match (candidates.is_empty(), is_makeshift, slot.rank) {
            // What nothing can fill is nobody's fault.
            (true, ..) => 0,
            (_, true, _) => 150,
            (_, _, 0 | 1) => 2600,
            (_, _, 2) => 1300,
            (_, _, 3) => 800,
            _ => 250,
        };
        Self {
            rank: slot.rank,
            keep: if is_makeshift { MAKESHIFT } else { slot.rank },
            candidates: candidates.into_boxed_slice(),
            may_run_out: false,
            empty_cost: empty_cost * MILLI,
        }
    }
}

/// Candidates kept of those that train the same muscles alike (the project's
/// own judgement).
const KEPT_OF_A_KIND: usize = 4;
/// Points a second of session time is worth when candidates are thinned out, in
/// an hour and for each minute less: about what the next set, or the next
/// exercise, would bring in the same time (the project's own judgement).
const SECOND: [i64; 2] = [60, 4];

/// Of candidates that count the same for every muscle, keeps the few that cost
/// least, time included; the rest could never be chosen but to avoid a repeat.
fn keep_the_best_of_a_kind(candidates: &mut Vec<Candidate>, lifts: &[Lift<'_>], minutes: u16) {
    let second = SECOND[0] + SECOND[1] * (60 - i64::from(minutes)).max(0);
    let price = |c: &Candidate| {
        let lift = &lifts[c.lift];
        let seconds = lift.ready_s + 3 * (lift.work_s + lift.rest_s);
        c.cost + 3 * lift.per_set_cost + i64::from(seconds) * second
    };
    let kept: Vec<Candidate> = candidates
        .iter()
        .filter(|c| {
            let is_ahead = |other: &&Candidate| {
                lifts[other.lift].counts == lifts[c.lift].counts
                    && (price(other), other.lift) < (price(c), c.lift)
            };
            candidates.iter().filter(is_ahead).count() < KEPT_OF_A_KIND
        })
        .copied()
        .collect();
    *candidates = kept;
}

/// A day none of whose slots can be filled takes whatever can be done.
fn rescue_empty_day(mut places: Vec<Place>, lifts: &[Lift<'_>]) -> Vec<Place> {
    if places.iter().all(|place| place.candidates.is_empty()) {
        for place in &mut places {
            place.candidates = (0..lifts.len())
                .map(|lift| Candidate {
                    lift,
                    cost: 500 * MILLI,
                    costs: std::array::from_fn(|at| {
                        let sets = i64::from(SETS.0) + at as i64;
                        500 * MILLI + lifts[lift].per_set_cost * sets + lifts[lift].norm[0][at]
                    }),
                })
                .collect();
        }
    }
    places
}

/// Marks the slots whose every candidate might stand elsewhere on the day.
fn note_shared(mut places: Vec<Place>) -> Vec<Place> {
    let may_run_out = |s: usize| {
        let own = &places[s].candidates;
        let shares = |other: &Place| {
            let mut lifts = other.candidates.iter().map(|c| c.lift);
            lifts.any(|lift| own.iter().any(|c| c.lift == lift))
        };
        let others = (0..places.len()).filter(|&t| t != s && shares(&places[t]));
        others.count() >= own.len()
    };
    let found: Vec<bool> = (0..places.len()).map(may_run_out).collect();
    for (place, may_run_out) in places.iter_mut().zip(found) {
        place.may_run_out = may_run_out;
    }
    places
}

/// Points for having the exercise in the slot at all.
fn pick_cost(exercise: &Exercise, slot: &Slot, opens: bool, person: &Person) -> i64 {
    let mut milli = i64::from(exercise.setup_s) / 3;
    if person.disliked.contains(&exercise.id) {
        milli += 700;
    }
    // Joint-friendly where there is a choice.
    #[expect(clippy::cast_possible_wrap, reason = "a handful of demands")]
    let joints = exercise.joints.len() as i64;
    milli += joints * if person.is_older { 40 } else { 12 };
    milli += match (person.status, exercise.skill) {
        (_, 0) | (Status::Intermediate | Status::Advanced, 1 | 2) | (Status::Advanced, 3) => 0,
        (Status::Novice, 1) => 15,
        (Status::Novice, 2) => 350,
        (Status::Intermediate, _) => 150,
        (Status::Novice, _) => 900,
        (Status::Advanced, _) => 0,
    };
    if person.is_older {
        milli += i64::from(exercise.skill) * 60 + i64::from(exercise.strain) * 60;
    }
    milli += ease_cost(exercise, person);
    let is_learner = person.status == Status::Novice || person.is_older;
    let standing = staples::standing(&exercise.id, is_learner);
    milli += match standing {
        Standing::Main => 0,
        Standing::Usual => 30,
        Standing::Special => 320,
    };
    if exercise.kind == Kind::Compound && slot.patterns.first() == Some(&exercise.pattern) {
        milli -= main_lift_bonus(exercise, standing, slot, opens, person);
    }
    milli * MILLI
}

/// What it is worth, in thousandths, to give a compound slot a main lift. Who
/// has trained a while leads with free weights: the skill is there, strength is
/// specific to the lift, and a barbell's longer set-up and rests are paid for
/// (common practice, no source).
fn main_lift_bonus(
    exercise: &Exercise,
    standing: Standing,
    slot: &Slot,
    opens: bool,
    person: &Person,
) -> i64 {
    let is_free = matches!(
        exercise.loading,
        Loading::Barbell | Loading::DumbbellPair | Loading::BodyweightPlus
    ) || (exercise.loading == Loading::Bodyweight && standing == Standing::Main);
    let is_strong = person.status != Status::Novice && !person.is_older;
    let bonus = match (standing, is_strong && is_free, slot.rank) {
        (Standing::Main, true, 0 | 1) => 400,
        (Standing::Main, true, 2) => 220,
        (Standing::Main, _, _) => 100,
        (Standing::Usual, true, 0 | 1) => 120,
        (Standing::Usual, true, 2) => 60,
        _ => 0,
    };
    let opener = match exercise.loading {
        Loading::Barbell if is_strong && standing == Standing::Main => 300,
        _ => 160,
    };
    bonus + i64::from(bonus > 0 && opens) * opener
}

/// Points for an exercise that cannot be made harder by a small step: bands,
/// and body-weight moves, the more the easier they are for who has trained.
fn ease_cost(exercise: &Exercise, person: &Person) -> i64 {
    if exercise.role == Role::Trunk {
        return 0;
    }
    let is_trained = person.status != Status::Novice;
    match exercise.loading {
        Loading::Band => 220,
        Loading::Bodyweight => match exercise.skill {
            0 if is_trained => 420,
            0 => 200,
            1 if is_trained => 260,
            1 => 220,
            _ if is_trained && staples::standing(&exercise.id, false) != Standing::Main => 160,
            _ => 0,
        },
        _ => 0,
    }
}

/// Points for each lift of a day beyond the first that has, besides the pattern
/// and the first prime mover, nothing more, the way of loading, all muscles, or
/// all muscles and the angle in common (the project's own judgement).
pub(super) const KIN_PRICES: [i64; 4] = [60 * MILLI, 160 * MILLI, 120 * MILLI, 120 * MILLI];

/// Numbers the groups of near-identical lifts. At each level a group has the
/// number of its first member.
fn number_kin(lifts: &mut [Lift<'_>]) {
    for i in 0..lifts.len() {
        let own = u16::try_from(i).unwrap_or(u16::MAX);
        let mut kin = [own; KIN_PRICES.len()];
        for other in (0..i).rev() {
            let (a, b) = (lifts[i].exercise, lifts[other].exercise);
            if a.pattern != b.pattern || a.prime.first() != b.prime.first() {
                continue;
            }
            let is_same_work = lifts[i].counts == lifts[other].counts;
            let is_incline = |exercise: &Exercise| staples::is_incline(&exercise.id);
            let shared = [
                true,
                a.loading == b.loading,
                is_same_work,
                is_same_work && a.joints == b.joints && is_incline(a) == is_incline(b),
            ];
            for (level, is_shared) in shared.into_iter().enumerate() {
                if is_shared {
                    kin[level] = lifts[other].kin[level];
                }
            }
        }
        lifts[i].kin = kin;
    }
}

/// Pairs of days of the cycle that lie less than 48 h apart, the turn of the
/// week included.
pub(crate) fn close_days(person: &Person, cycle: usize) -> Vec<(usize, usize)> {
    let mut pairs = Vec::new();
    let week = person.days.len();
    if week < 2 || cycle < 2 {
        return pairs;
    }
    for d in 0..cycle {
        let next = (d + 1) % cycle;
        let from = person.days[d % week].index();
        let to = person.days[(d + 1) % week].index();
        if (to + 7 - from) % 7 == 1 && d != next {
            pairs.push((d, next));
        }
    }
    pairs
}

/// Points of 0, 1, … eighths of a weekly set of one muscle: the response up to
/// what is enough, a quarter of it up to the ceiling, nothing beyond; up to the
/// floor more on top.
pub(super) fn worth_table(target: dose::Target) -> Vec<i64> {
    let eighths = |half_sets: u32| i64::from(half_sets) * 4;
    let (floor, enough, ceiling) = (
        eighths(target.floor),
        eighths(target.enough),
        eighths(target.ceiling),
    );
    let first = target.weight.max(30) * 40;
    let mut points = 0;
    let mut table = vec![points];
    let mut response = 0;
    for v in 0..WORTH_LEN as i64 - 1 {
        let before = response;
        response = dose::response(v + 1);
        let full = (response - before) * target.weight;
        points += match v {
            _ if v < enough => full,
            _ if v < ceiling => full / 4,
            _ => 0,
        };
        points += if v < floor { first } else { 0 };
        table.push(points);
    }
    table
}

/// Whether two muscles' sets meet in one basic pattern.
pub(super) fn basic_of(pattern: Pattern) -> Option<usize> {
    BASICS.iter().position(|group| group.contains(&pattern))
}
