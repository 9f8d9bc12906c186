//! The history of one exercise as the rules read it.
//!
//! Start at [`Record::read`]: other exercises and warm-up sets out, sessions
//! of one day joined, slips of the pen set apart. Nothing here decides.

use super::Shown;
use crate::calendar::Day;
use crate::catalogue::ExerciseId;
use crate::load::Direction;
use crate::log::{Discomfort, Performance, SetEntry, SetKind};
use crate::units::Load;

/// A single set this far above anything before is doubted: more than half as
/// much again (common practice, no source).
const LEAP_PERCENT: i64 = 150;
/// A single set this far above anything before is never believed, not even when
/// it is shown again: a nought too many comes twice (common practice, no
/// source).
const NEVER_PERCENT: i64 = 300;
/// ... and at least this much heavier: at the light end of a rack one step is
/// half as much again, and no slip (common practice, no source).
const LEAP_AT_LEAST: Load = Load::kg(6);

/// One day's work sets at the hardest load of that day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Bout {
    pub(super) day: Day,
    pub(super) load: Load,
    /// Reps or seconds, and reps in reserve if said.
    pub(super) sets: Vec<(u16, Option<u8>)>,
    /// The goal it was done for.
    pub(super) goal: (u16, u16),
    pub(super) asked_sets: u8,
    pub(super) is_deload: bool,
}

/// How hard the sets were against what was aimed at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Effort {
    /// The last set said, and none said to be harder than aimed at. The sets
    /// before it were done with less fatigue.
    AsAimed,
    /// At least one said to be harder.
    Harder,
    /// None said to be harder, but the last was not said.
    Unsaid,
}

impl Bout {
    pub(super) fn least(&self) -> u16 {
        self.sets.iter().map(|&(count, _)| count).min().unwrap_or(0)
    }

    pub(super) fn last_count(&self) -> u16 {
        self.sets.last().map_or(0, |&(count, _)| count)
    }

    pub(super) fn least_rir(&self) -> Option<u8> {
        self.sets.iter().filter_map(|&(_, rir)| rir).min()
    }

    pub(super) fn has_all_sets(&self) -> bool {
        self.sets.len() >= usize::from(self.asked_sets)
    }

    pub(super) fn missed(&self) -> bool {
        self.least() < self.goal.0
    }

    pub(super) fn effort(&self, aim: u8) -> Effort {
        if self.least_rir().is_some_and(|rir| rir < aim) {
            Effort::Harder
        } else if self.is_effort_said() {
            Effort::AsAimed
        } else {
            Effort::Unsaid
        }
    }

    fn is_effort_said(&self) -> bool {
        self.sets.last().is_some_and(|&(_, rir)| rir.is_some())
    }

    /// Whether a set before the last one was taken to failure against the aim.
    pub(super) fn failed_early(&self, aim: u8) -> bool {
        let early = self.sets.len().saturating_sub(1);
        aim > 0 && self.sets[..early].iter().any(|&(_, rir)| rir == Some(0))
    }

    pub(super) fn shown(&self) -> Shown {
        Shown {
            day: self.day,
            load: self.load,
            counts: self.sets.iter().map(|&(count, _)| count).collect(),
            is_effort_said: self.is_effort_said(),
        }
    }
}

/// A single set that was left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Doubt {
    pub(super) load: Load,
    pub(super) before: Load,
}

/// The history of one exercise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Record {
    /// What counts for progression, earlier first: no deloads unless there is
    /// nothing else. Empty when nothing was done.
    pub(super) bouts: Vec<Bout>,
    /// Whether all there is are deloads: no evidence for more.
    pub(super) is_deload_only: bool,
    /// The last day with a set, deloads included.
    pub(super) last_day: Option<Day>,
    /// The note of the last session, if any.
    pub(super) discomfort: Option<Discomfort>,
    /// A set of the last session that was left out.
    pub(super) doubt: Option<Doubt>,
}

impl Record {
    /// Reads a history. `direction` says which loads are harder; without a
    /// load all sets of a day count.
    pub(super) fn read(
        id: &ExerciseId,
        history: &[Performance],
        direction: Option<Direction>,
    ) -> Self {
        let days = joined_days(id, history);
        let harder = |a: Load, b: Load| match direction {
            Some(Direction::LessIsHarder) => a < b,
            _ => a > b,
        };
        let mut record = Self {
            bouts: Vec::new(),
            is_deload_only: false,
            last_day: None,
            discomfort: None,
            doubt: None,
        };
        let mut hardest: Option<Load> = None;
        let mut deloads: Vec<Bout> = Vec::new();
        for day in days {
            record.discomfort = day.discomfort;
            let doubted_before = record.doubt.take();
            let mut sets = day.sets;
            if !sets.is_empty() {
                record.last_day = Some(day.day);
            }
            if let Some(top) = hardest_of(&sets, harder) {
                let others = sets.iter().filter(|set| set.load != top);
                let before =
                    hardest.or_else(|| hardest_of(&others.copied().collect::<Vec<_>>(), harder));
                let is_single = sets.iter().filter(|set| set.load == top).count() == 1;
                // Shown again the session after, it was no slip.
                let is_repeated = doubted_before.is_some_and(|doubt: Doubt| {
                    !leaps(direction, top, doubt.load)
                        && !leaps_by(NEVER_PERCENT, direction, top, doubt.before)
                });
                if let Some(before) = before
                    && is_single
                    && leaps(direction, top, before)
                    && !is_repeated
                {
                    record.doubt = Some(Doubt { load: top, before });
                    sets.retain(|set| set.load != top);
                }
            }
            let Some(top) = hardest_of(&sets, harder) else {
                continue;
            };
            hardest = Some(match hardest {
                Some(known) if !harder(top, known) => known,
                _ => top,
            });
            let bout = Bout {
                day: day.day,
                load: if direction.is_some() { top } else { Load::ZERO },
                sets: sets
                    .iter()
                    .filter(|set| direction.is_none() || set.load == top)
                    .map(|set| (set.count, set.rir))
                    .collect(),
                goal: day.goal,
                asked_sets: day.asked_sets,
                is_deload: day.is_deload,
            };
            if bout.is_deload {
                deloads.push(bout);
            } else {
                record.bouts.push(bout);
            }
        }
        if record.bouts.is_empty() {
            record.is_deload_only = !deloads.is_empty();
            record.bouts = deloads;
        }
        record
    }

    /// What the suggestion goes by.
    pub(super) fn basis(&self) -> Option<&Bout> {
        self.bouts.last()
    }

    /// The session before it.
    pub(super) fn previous(&self) -> Option<&Bout> {
        self.bouts.len().checked_sub(2).map(|at| &self.bouts[at])
    }
}

/// Whether a load is so far beyond another that a single set of it is doubted.
pub(crate) fn leaps(direction: Option<Direction>, load: Load, before: Load) -> bool {
    leaps_by(LEAP_PERCENT, direction, load, before)
}

fn leaps_by(percent: i64, direction: Option<Direction>, load: Load, before: Load) -> bool {
    match direction {
        Some(Direction::MoreIsHarder) => {
            before > Load::ZERO
                && load.grams() * 100 > before.grams() * percent
                && load.grams() - before.grams() >= LEAP_AT_LEAST.grams()
        }
        // Help cut to less than the same fraction.
        Some(Direction::LessIsHarder) => load.grams() * percent < before.grams() * 100,
        None => false,
    }
}

fn hardest_of(sets: &[SetEntry], harder: impl Fn(Load, Load) -> bool) -> Option<Load> {
    sets.iter().map(|set| set.load).reduce(
        |known, load| {
            if harder(load, known) { load } else { known }
        },
    )
}

struct JoinedDay {
    day: Day,
    sets: Vec<SetEntry>,
    goal: (u16, u16),
    asked_sets: u8,
    is_deload: bool,
    discomfort: Option<Discomfort>,
}

/// Performances of this exercise by day; two of one day are one.
fn joined_days(id: &ExerciseId, history: &[Performance]) -> Vec<JoinedDay> {
    let mut own: Vec<&Performance> = history
        .iter()
        .filter(|performance| performance.exercise() == id)
        .collect();
    crate::order::sort_by_key(&mut own, |performance| performance.day);
    let mut days: Vec<JoinedDay> = Vec::new();
    for performance in own {
        let sets = performance
            .sets
            .iter()
            .filter(|set| set.kind == SetKind::Work)
            .copied();
        let (a, b) = performance.prescription.reps;
        let asked = performance.prescription.sets;
        match days.last_mut() {
            Some(last) if last.day == performance.day => {
                last.sets.extend(sets);
                last.asked_sets = last.asked_sets.saturating_add(asked);
                last.is_deload &= performance.is_deload;
                last.discomfort = last.discomfort.max(performance.discomfort);
            }
            _ => days.push(JoinedDay {
                day: performance.day,
                sets: sets.collect(),
                goal: (a.min(b), a.max(b)),
                asked_sets: asked,
                is_deload: performance.is_deload,
                discomfort: performance.discomfort,
            }),
        }
    }
    days
}
