//! One exercise over the weeks: what was done of it, its level, its bests, and
//! whether it moved by more than such measurements scatter.
//!
//! Start at [`Series::read`]. Nothing here looks for causes.

use super::body::{self, Weights};
use crate::calendar::Day;
use crate::catalogue::{Catalogue, Exercise, ExerciseId, Loading, Measure};
use crate::estimate::{
    Confidence, ESTIMATE_PERMILLE, Estimate, TrendPoint, best_estimate, detectable_permille, trend,
};
use crate::load::Direction;
use crate::log::{Discomfort, SetEntry};
use crate::order::{self, Map};
use crate::plan::time;
use crate::progress::leaps;
use crate::session::{Session, SessionItem};
use crate::units::Load;

/// Days with a value that are enough to tell (common practice, no source):
/// three thirds of two.
pub const FEW_DAYS: usize = 6;
/// Days from the first to the last value that are enough to tell: gains of
/// trained people are measured over four weeks and more (Ratamess et al. 2009,
/// MSSE 41(3):687-708, figures from memory).
pub const FEW_WEEKS_DAYS: i32 = 27;
/// A change below this is none worth speaking of, tenths of a percent: the
/// smallest worthwhile difference is 2 to 4 % (do Nascimento et al. 2017, Biol
/// Sport 34(3):279-285); the middle is used.
pub const WORTHWHILE_PERMILLE: i64 = 30;
/// Scatter of reps at a fixed load, hundredths of a rep: 1.1 (Mitter et al.
/// 2022, PLoS ONE 17(5):e0268074, the larger of two).
pub const REPS_SCATTER: u32 = 110;

/// An exercise on one day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Done {
    /// The day.
    pub day: Day,
    /// The session it belongs to.
    pub session: String,
    /// The hardest load of its work sets, and the most reps (or seconds) with
    /// it; `None` where it hurt too much to do any.
    pub top: Option<(Load, u16)>,
    /// The best estimate of the 1RM that the day supports.
    pub estimate: Option<Estimate>,
    /// Work sets done.
    pub sets: u32,
    /// Work sets asked for.
    pub asked: u32,
    /// Reps in reserve of the hardest set as said, less those aimed at; `None`
    /// where no effort was said.
    pub effort: Option<i32>,
    /// Seconds of rest between work sets, on average, and as prescribed; `None`
    /// in supersets, with one set, and where sets carry no times.
    pub rest: Option<(u32, u32)>,
    /// Work sets of the session done before its first.
    pub before: u32,
    /// Work sets of the whole session.
    pub of: u32,
    /// A note of discomfort.
    pub discomfort: Option<Discomfort>,
    /// Whether the session was part of a deload.
    pub is_deload: bool,
}

/// The most that was lifted so many times.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RepBest {
    /// Reps (or seconds) in one set.
    pub count: u16,
    /// The hardest load; nought where the exercise has no number.
    pub load: Load,
    /// When it was first done.
    pub day: Day,
}

/// What the level of an exercise did.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Up by more than such measurements scatter.
    Rose,
    /// Down by more than they scatter.
    Fell,
    /// Neither up nor down by as much as would be worth speaking of.
    Still,
    /// Moved, but by no more than measurements scatter: not known.
    Unclear,
    /// Too few days or weeks to tell.
    Thin,
    /// Nothing published says how far such a measurement scatters.
    Unmeasured,
}

/// A verdict with what it rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Judgement {
    /// The verdict.
    pub verdict: Verdict,
    /// Days with a value.
    pub days: usize,
    /// Whole weeks from the first to the last.
    pub weeks: u32,
    /// Mean of the first third of the days and of the last, in the level's own
    /// numbers (grams, reps, seconds); nought where there are too few.
    pub thirds: (i64, i64),
    /// The last third of the days against the first third, tenths of a percent.
    pub permille: i64,
    /// The smallest change that is no scatter, tenths of a percent.
    pub detectable: i64,
    /// The smallest difference between one day and the mean of the first third
    /// that is no scatter, tenths of a percent; nought where that is not known. A
    /// single day scatters more than a mean does.
    pub detectable_in_a_day: i64,
    /// How far to trust it.
    pub confidence: Confidence,
}

/// What stands for the level of an exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Level {
    /// The estimated 1RM.
    OneRm,
    /// The estimated 1RM of an exercise that lifts the body too, its weight
    /// included.
    WholeOneRm,
    /// Most reps in a set at the load used most often.
    Reps,
    /// Most seconds in a set.
    Seconds,
}

/// One exercise over a span of days.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Series {
    /// The exercise.
    pub exercise: ExerciseId,
    /// What stands for its level.
    pub level: Level,
    /// What was done, earlier first.
    pub done: Vec<Done>,
    /// The estimates with their level and its band; empty without a 1RM.
    pub trend: Vec<TrendPoint>,
    /// Whether it moved.
    pub judgement: Judgement,
    /// The hardest load for each number of reps, fewest first; only those that
    /// no harder or equal load with more reps outdoes.
    pub bests: Vec<RepBest>,
}

/// Which loads are harder; `None` where there is no number.
#[must_use]
pub const fn direction(exercise: &Exercise) -> Option<Direction> {
    match exercise.loading {
        Loading::Bodyweight | Loading::Band => None,
        Loading::Assisted => Some(Direction::LessIsHarder),
        _ => Some(Direction::MoreIsHarder),
    }
}

/// What stands for the level of an exercise while the body's weight is not
/// known: without it no 1RM can be estimated where the body is lifted too.
#[must_use]
pub const fn level(exercise: &Exercise) -> Level {
    match (exercise.measure, exercise.loading) {
        (Measure::Seconds, _) => Level::Seconds,
        (
            Measure::Reps,
            Loading::Bodyweight | Loading::Band | Loading::Assisted | Loading::BodyweightPlus,
        ) => Level::Reps,
        (Measure::Reps, _) => Level::OneRm,
    }
}

/// Every exercise that was done, by id. Sessions come earlier first. Where the
/// body is lifted with the load and its weight is known on at least half of the
/// days, its 1RM stands for the level, the body included.
///
/// `is_whole` says that no session came before these: then the first day of
/// each exercise is left out of the verdict, for a second try is better by
/// practice alone (+9 % after one session; computed from the open data of
/// Hammarström et al. 2020, J Physiol 598:543-565).
#[must_use]
pub fn read(
    catalogue: &Catalogue,
    sessions: &[Session],
    weights: &Weights,
    is_whole: bool,
) -> Vec<Series> {
    let mut days: Map<ExerciseId, Vec<(Done, Vec<SetEntry>)>> = Map::new();
    for session in sessions {
        let of: usize = session.items.iter().map(SessionItem::work_sets_done).sum();
        for item in &session.items {
            let sets: Vec<SetEntry> = item.work_sets().copied().collect();
            if sets.is_empty() && item.discomfort.is_none() {
                continue;
            }
            let id = &item.prescription.exercise;
            let exercise = catalogue.get(id);
            let first = sets.first().map(|set| set.at);
            let before = session
                .items
                .iter()
                .flat_map(SessionItem::work_sets)
                .filter(|set| first.is_some_and(|first| set.at < first))
                .count();
            let aim = item.target.map_or(item.prescription.rir, |t| t.rir);
            let done = Done {
                day: session.day,
                session: session.id.clone(),
                top: None,
                estimate: None,
                sets: count(sets.len()),
                asked: u32::from(item.prescription.sets),
                effort: sets
                    .iter()
                    .filter_map(|set| set.rir)
                    .min()
                    .map(|rir| i32::from(rir) - i32::from(aim)),
                rest: exercise.and_then(|exercise| rest_of(exercise, item, &sets)),
                before: count(before),
                of: count(of),
                discomfort: item.discomfort,
                is_deload: session.is_deload,
            };
            days.get_or_insert_with(id.clone(), Vec::new)
                .push((done, sets));
        }
    }
    days.into_iter()
        .map(|(id, days)| Series::read(catalogue.get(&id), id, days, weights, is_whole))
        .collect()
}

pub(super) fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

/// Average seconds of rest between the work sets, and as prescribed. A set's own
/// seconds are worked out from its reps; who writes down all sets at the end of
/// the session has rested nobody knows how long.
fn rest_of(exercise: &Exercise, item: &SessionItem, sets: &[SetEntry]) -> Option<(u32, u32)> {
    if item.superset.is_some() || sets.len() < 2 {
        return None;
    }
    let rest = |pair: &[SetEntry]| {
        let reps = pair[1].count;
        let work = i64::from(time::work_seconds(exercise, (reps, reps)));
        pair[1].at.seconds_since(pair[0].at) - work
    };
    let rests: Vec<i64> = sets.windows(2).map(rest).collect();
    // Longer than a quarter of an hour was no rest but an interruption.
    if rests.iter().any(|&s| !(5..=900).contains(&s)) {
        return None;
    }
    let mean = rests.iter().sum::<i64>() / i64::try_from(rests.len()).ok()?;
    Some((
        u32::try_from(mean).ok()?,
        u32::from(item.prescription.rest_s),
    ))
}

impl Series {
    fn read(
        exercise: Option<&Exercise>,
        id: ExerciseId,
        days: Vec<(Done, Vec<SetEntry>)>,
        weights: &Weights,
        is_whole: bool,
    ) -> Self {
        let direction = exercise.and_then(direction);
        let mut level = exercise.map_or(Level::Seconds, level);
        if level == Level::Reps && exercise.is_some_and(body::lifts_whole_body) {
            let is_known = |day: Day| body::on(weights, day).is_some();
            let known = days.iter().filter(|(done, _)| is_known(done.day)).count();
            if known * 2 >= days.len() {
                level = Level::WholeOneRm;
            }
        }
        // Where effort is seldom said, what was said now and then would only
        // add scatter: all days are read as if nothing was.
        let said = days
            .iter()
            .filter(|(done, _)| done.effort.is_some())
            .count();
        let is_said = said * 2 >= days.len();
        let mut hardest: Option<Load> = None;
        let mut bests: Vec<RepBest> = Vec::new();
        let mut done = Vec::with_capacity(days.len());
        for (mut day, sets) in days {
            let sound = without_slips(&sets, hardest, direction);
            day.top = top_of(&sound, direction);
            if let Some((load, _)) = day.top {
                hardest = Some(match hardest {
                    Some(known) if !is_harder(direction, load, known) => known,
                    _ => load,
                });
            }
            if matches!(level, Level::OneRm | Level::WholeOneRm) {
                let mut read = sound.clone();
                if level == Level::WholeOneRm {
                    let body = body::on(weights, day.day);
                    let whole = |load| body::lifted(exercise?, body?, load);
                    read.retain_mut(|set| match whole(set.load) {
                        Some(load) => {
                            set.load = load;
                            true
                        }
                        None => false,
                    });
                }
                for set in &mut read {
                    set.rir = set.rir.filter(|_| is_said);
                }
                day.estimate = best_estimate(&read);
            }
            for set in &sound {
                add_best(&mut bests, direction, set, day.day);
            }
            done.push(day);
        }
        order::sort_by_key(&mut bests, |best| best.count);
        let estimates: Vec<(Day, Load)> = done
            .iter()
            .filter(|day| !day.is_deload)
            .filter_map(|day| Some((day.day, day.estimate?.value)))
            .collect();
        let judgement = judge(level, &done, is_whole);
        Self {
            exercise: id,
            level,
            trend: trend(&estimates),
            judgement,
            bests,
            done,
        }
    }

    /// What stands for the level on each day, in grams, reps or seconds by
    /// [`Series::level`]; lighter weeks are left out.
    #[must_use]
    pub fn values(&self) -> Vec<(Day, i64)> {
        let (values, _) = values(self.level, &self.done);
        values.iter().map(|value| (value.0, value.1)).collect()
    }

    /// Days with a note of discomfort: all, and painful ones among them.
    #[must_use]
    pub fn hurt(&self) -> (usize, usize) {
        let notes = |of: &dyn Fn(Discomfort) -> bool| {
            let noted = self.done.iter().filter_map(|day| day.discomfort);
            noted.filter(|&d| of(d)).count()
        };
        (notes(&|_| true), notes(&|d| d == Discomfort::Painful))
    }
}

fn is_harder(direction: Option<Direction>, a: Load, b: Load) -> bool {
    match direction {
        Some(Direction::MoreIsHarder) => a > b,
        Some(Direction::LessIsHarder) => a < b,
        None => false,
    }
}

/// The sets without a single one so far above all before that it looks like a
/// slip of the pen.
fn without_slips(
    sets: &[SetEntry],
    hardest: Option<Load>,
    direction: Option<Direction>,
) -> Vec<SetEntry> {
    let is_slip = |set: &SetEntry| {
        hardest.is_some_and(|hardest| leaps(direction, set.load, hardest))
            && sets.iter().filter(|other| other.load == set.load).count() == 1
    };
    sets.iter().filter(|set| !is_slip(set)).copied().collect()
}

fn top_of(sets: &[SetEntry], direction: Option<Direction>) -> Option<(Load, u16)> {
    let load_of = |set: &SetEntry| direction.map_or(Load::ZERO, |_| set.load);
    sets.iter()
        .map(|set| (load_of(set), set.count))
        .reduce(|a, b| {
            let is_better = is_harder(direction, b.0, a.0) || (a.0 == b.0 && b.1 > a.1);
            if is_better { b } else { a }
        })
}

fn add_best(bests: &mut Vec<RepBest>, direction: Option<Direction>, set: &SetEntry, day: Day) {
    let new = RepBest {
        count: set.count,
        load: direction.map_or(Load::ZERO, |_| set.load),
        day,
    };
    let outdoes = |a: &RepBest, b: &RepBest| {
        a.count >= b.count && (a.load == b.load || is_harder(direction, a.load, b.load))
    };
    if set.count == 0 || bests.iter().any(|known| outdoes(known, &new)) {
        return;
    }
    bests.retain(|known| !outdoes(&new, known));
    bests.push(new);
}

/// The values that stand for the level, and how far one of them scatters in
/// tenths of a percent; no scatter where none is published.
fn values(level: Level, done: &[Done]) -> (Vec<(Day, i64, bool)>, Option<u32>) {
    let sound = || done.iter().filter(|day| !day.is_deload);
    match level {
        Level::OneRm | Level::WholeOneRm => {
            let values = sound().filter_map(|day| {
                let estimate = day.estimate?;
                let is_sure = estimate.confidence == Confidence::Normal;
                Some((day.day, estimate.value.grams(), is_sure))
            });
            (values.collect(), Some(ESTIMATE_PERMILLE))
        }
        Level::Seconds => {
            let values = sound().filter_map(|day| Some((day.day, i64::from(day.top?.1), false)));
            (values.collect(), None)
        }
        Level::Reps => {
            let tops: Vec<(Day, Load, u16)> = sound()
                .filter_map(|day| day.top.map(|(load, count)| (day.day, load, count)))
                .collect();
            let uses = |load: Load| tops.iter().filter(|top| top.1 == load).count();
            let Some(usual) = tops.iter().map(|top| (uses(top.1), top.1)).max() else {
                return (Vec::new(), Some(0));
            };
            let values: Vec<(Day, i64, bool)> = tops
                .iter()
                .filter(|top| top.1 == usual.1)
                .map(|&(day, _, count)| (day, i64::from(count), true))
                .collect();
            let sum: i64 = values.iter().map(|value| value.1).sum();
            let days = i64::try_from(values.len()).unwrap_or(i64::MAX);
            // Scatter in reps, as a share of the mean.
            let permille = (i64::from(REPS_SCATTER) * 10 * days) / sum.max(1);
            (values, u32::try_from(permille).ok())
        }
    }
}

fn judge(level: Level, done: &[Done], is_whole: bool) -> Judgement {
    let (mut values, scatter) = values(level, done);
    if is_whole && values.len() > 1 {
        values.remove(0);
    }
    let span = match (values.first(), values.last()) {
        (Some(first), Some(last)) => last.0.days_since(first.0),
        _ => 0,
    };
    let mut found = Judgement {
        verdict: Verdict::Thin,
        days: values.len(),
        weeks: u32::try_from((span + 1) / 7).unwrap_or(0),
        thirds: (0, 0),
        permille: 0,
        detectable: 0,
        detectable_in_a_day: 0,
        confidence: Confidence::Low,
    };
    let third = values.len() / 3;
    if values.len() < FEW_DAYS || span < FEW_WEEKS_DAYS {
        return found;
    }
    let mean = |part: &[(Day, i64, bool)]| {
        let sum: i64 = part.iter().map(|value| value.1).sum();
        sum / i64::try_from(part.len()).unwrap_or(i64::MAX)
    };
    let (from, to) = (
        mean(&values[..third]),
        mean(&values[values.len() - third..]),
    );
    found.thirds = (from, to);
    found.permille = (to - from) * 1000 / from.max(1);
    let Some(detectable) = scatter.and_then(|s| detectable_permille(s, third, third)) else {
        found.verdict = Verdict::Unmeasured;
        return found;
    };
    found.detectable = i64::from(detectable);
    let in_a_day = scatter.and_then(|s| detectable_permille(s, third, 1));
    found.detectable_in_a_day = i64::from(in_a_day.unwrap_or(detectable));
    found.verdict = if found.permille > found.detectable {
        Verdict::Rose
    } else if -found.permille > found.detectable {
        Verdict::Fell
    } else if found.permille.abs() < WORTHWHILE_PERMILLE {
        Verdict::Still
    } else {
        Verdict::Unclear
    };
    let sure = values.iter().filter(|value| value.2).count();
    if sure * 2 >= values.len() {
        found.confidence = Confidence::Normal;
    }
    found
}
