//! Two weeks side by side.
//!
//! Start at [`compare`]; [`equal_week`] makes the second week, on another split,
//! with the weekly sets of the first. In trials with equal weekly sets, split and
//! full body grow muscle alike (Ramos-Campo et al. 2024, JSCR 38(7):1330-1340),
//! so nothing here scores one above the other for growth: it says how the work
//! lies in the week and what that is known to buy.

mod equal;
#[cfg(test)]
mod tests;

pub use equal::equal_week;

use crate::audit::audit;
use crate::catalogue::{Catalogue, HalfSets, Muscle};
use crate::freshness::{self, Reps};
use crate::loom::loom;
use crate::person::Person;
use crate::plan::{Plan, dose};

/// One muscle's week.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MuscleFigures {
    /// The muscle.
    pub muscle: Muscle,
    /// Half sets a week.
    pub half_sets: HalfSets,
    /// Days a week with a direct set.
    pub frequency: u8,
    /// Most half sets in one session.
    pub largest_dose: HalfSets,
    /// Most days between two sessions with a direct set; a week and more where
    /// there is only one or none.
    pub longest_gap: u8,
    /// Hours of the week in the growth window ([`crate::loom::GROWTH_WINDOW_H`]).
    pub window_h: u32,
}

/// A week in figures. What is said of muscles is said of those that have a
/// weekly floor: minor ones are worked along with the others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figures {
    /// By muscle, in catalogue order.
    pub muscles: Vec<MuscleFigures>,
    /// Days a week a muscle is trained directly, the mean, in tenths.
    pub frequency_tenths: u32,
    /// The large muscle with the largest dose in one session, and its half sets.
    pub largest_dose: (Muscle, HalfSets),
    /// The large muscle, of those trained, with the longest gap, and its days.
    pub longest_gap: (Muscle, u8),
    /// Hours of the week a muscle is in the growth window, the mean.
    pub window_h: u32,
    /// Reps of the week and what earlier work in each session costs of them.
    pub reps: Reps,
    /// Seconds of all sessions.
    pub seconds: u32,
    /// Seconds of the longest session.
    pub longest_session: u32,
}

impl Figures {
    /// The share of the planned reps that is lost, in thousandths.
    #[must_use]
    pub const fn lost_permille(&self) -> u32 {
        self.reps.lost * 1_000
            / if self.reps.planned == 0 {
                1
            } else {
                self.reps.planned
            }
    }
}

/// One of the two weeks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The first.
    First,
    /// The second.
    Second,
}

/// What can be said of the two.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Their weekly sets match: for growth neither is known to be better
    /// (Ramos-Campo et al. 2024, JSCR 38(7):1330-1340).
    GrowAlike,
    /// Their weekly sets differ by more than a little: that may matter
    /// more than how the week is split (Schoenfeld et al. 2017, J Sports Sci
    /// 35(11):1073-1082).
    SetsDiffer,
    /// This week loses fewer reps to tiredness within its sessions.
    Fresher(Side),
    /// This week asks less of a muscle in one session.
    SmallerDoses(Side),
    /// This week leaves muscles for a shorter time.
    ShorterGaps(Side),
    /// This week trains muscles on more days, which goes with somewhat more
    /// strength (Grgic et al. 2018, Sports Med 48:1207-1220), little of it once
    /// the sets are equal.
    MoreOften(Side),
    /// This week takes less time.
    Quicker(Side),
}

/// Two weeks and what can be said of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Comparison {
    /// The first week.
    pub first: Figures,
    /// The second week.
    pub second: Figures,
    /// Muscles with a floor whose weekly half sets differ: the first's and the
    /// second's.
    pub unequal: Vec<(Muscle, HalfSets, HalfSets)>,
    /// What can be said, in a fixed order.
    pub verdict: Vec<Verdict>,
}

/// Half sets of a muscle that may differ between weeks called equal, and the
/// share of them, as one in so many (the project's own judgement): two sets are
/// about 0.7 points of size gained (Schoenfeld et al. 2017, J Sports Sci
/// 35(11):1073-1082), less than can be told in one person.
const EQUAL_WITHIN: (HalfSets, HalfSets) = (4, 6);

/// Differences worth a word: lost reps in thousandths of the planned, half sets
/// of the largest dose, days of the longest gap, tenths of a day of the mean
/// frequency, seconds of the week (the project's own judgement).
const WORTH_SAYING: [u32; 5] = [10, 4, 1, 5, 600];

/// How a difference is said, and both weeks' numbers.
type Said = (fn(Side) -> Verdict, u32, u32);

/// Measures two weeks of one person against each other.
#[must_use]
pub fn compare(catalogue: &Catalogue, person: &Person, first: &Plan, second: &Plan) -> Comparison {
    let (first, second) = (
        figures(catalogue, person, first),
        figures(catalogue, person, second),
    );
    let both = first.muscles.iter().zip(&second.muscles);
    let unequal: Vec<(Muscle, HalfSets, HalfSets)> = both
        .filter(|(a, b)| a.half_sets != b.half_sets)
        .map(|(a, b)| (a.muscle, a.half_sets, b.half_sets))
        .collect();
    let is_equal = unequal.iter().all(|&(_, a, b)| {
        let (half_sets, one_in) = EQUAL_WITHIN;
        a.abs_diff(b) <= half_sets || a.abs_diff(b) * one_in <= a.max(b)
    });
    let mut verdict = vec![if is_equal {
        Verdict::GrowAlike
    } else {
        Verdict::SetsDiffer
    }];
    // Each where less is better; of days a week, more.
    let days = |figures: &Figures| 70 - figures.frequency_tenths.min(70);
    let said: [Said; 5] = [
        (
            Verdict::Fresher,
            first.lost_permille(),
            second.lost_permille(),
        ),
        (
            Verdict::SmallerDoses,
            first.largest_dose.1,
            second.largest_dose.1,
        ),
        (
            Verdict::ShorterGaps,
            first.longest_gap.1.into(),
            second.longest_gap.1.into(),
        ),
        (Verdict::MoreOften, days(&first), days(&second)),
        (Verdict::Quicker, first.seconds, second.seconds),
    ];
    for ((say, a, b), worth) in said.into_iter().zip(WORTH_SAYING) {
        if a.abs_diff(b) >= worth {
            verdict.push(say(if a < b { Side::First } else { Side::Second }));
        }
    }
    Comparison {
        first,
        second,
        unequal,
        verdict,
    }
}

/// A week in figures.
#[must_use]
pub fn figures(catalogue: &Catalogue, person: &Person, plan: &Plan) -> Figures {
    let audit = audit(catalogue, person, plan);
    let threads = loom(catalogue, plan, &person.days);
    let mut muscles = Vec::new();
    for week in &audit.muscles {
        if dose::size(week.muscle) == dose::Size::Minor {
            continue;
        }
        let thread = threads.iter().find(|thread| thread.muscle == week.muscle);
        muscles.push(MuscleFigures {
            muscle: week.muscle,
            half_sets: week.half_sets,
            frequency: week.frequency,
            largest_dose: week.largest_dose,
            longest_gap: week.gap_days.map_or(7, |(_, most)| most),
            window_h: thread.map_or(0, |thread| thread.window_hours()),
        });
    }
    let mean = |of: fn(&MuscleFigures) -> u32| {
        muscles.iter().map(of).sum::<u32>() / u32::try_from(muscles.len().max(1)).unwrap_or(1)
    };
    // The first of those alike, so that ties go by the catalogue's order.
    let (mut largest_dose, mut longest_gap) = ((Muscle::Chest, 0), (Muscle::Chest, 0));
    for week in &muscles {
        let is_large = dose::size(week.muscle) == dose::Size::Large;
        if is_large && week.largest_dose > largest_dose.1 {
            largest_dose = (week.muscle, week.largest_dose);
        }
        if is_large && week.frequency > 0 && week.longest_gap > longest_gap.1 {
            longest_gap = (week.muscle, week.longest_gap);
        }
    }
    let mut reps = Reps::default();
    for day in &plan.days {
        let of_day = freshness::total(catalogue, &day.items);
        reps.planned += of_day.planned;
        reps.lost += of_day.lost;
    }
    let seconds = audit.days.iter().map(|day| day.seconds);
    Figures {
        frequency_tenths: mean(|muscle| u32::from(muscle.frequency) * 10),
        largest_dose,
        longest_gap,
        window_h: mean(|muscle| muscle.window_h),
        reps,
        longest_session: seconds.clone().max().unwrap_or(0),
        seconds: seconds.sum(),
        muscles,
    }
}
