//! What the search tries besides where sessions are short: there every choice
//! weighs more, and a good week may differ from a better one in several at once.
//!
//! Start at [`Search::follow_through`]. The rules of [`super`] hold: fixed order,
//! and only what is worth strictly more is kept.

use super::super::bound::{self, Prices};
use super::super::objective::{DayPicks, MILLI, Pick, SETS, SLOTS};
use super::super::strata;
use super::{Clock, Search, UNSAVED};

/// Changes of other slots that may follow one for the worse (the project's own
/// judgement: more brings little).
const FOLLOWING: usize = 3;
/// Rounds in which two days are planned by turns once one of them was emptied (the
/// project's own judgement: more brings little).
const TURNS: usize = 2;
/// Points that a week may still be behind after such a change (the project's own
/// judgement: who is further behind hardly ever catches up).
const PATIENCE: i64 = 1000 * MILLI;

impl Search<'_, '_> {
    /// Changes one slot even for the worse, and lets the others of the day follow,
    /// one after the other what helps most: improvements of up to [`FOLLOWING`]
    /// changes more.
    pub(super) fn follow_through(&mut self, shortlists: &[Vec<Vec<Pick>>]) -> bool {
        let model = self.model;
        let mut moved = false;
        for (day, shortlists) in shortlists.iter().enumerate() {
            for (slot, shortlist) in shortlists.iter().enumerate() {
                for content in shortlist.iter().copied().map(Some).chain([None]) {
                    let mut picks = self.week.days[day];
                    if picks[slot] == content {
                        continue;
                    }
                    picks[slot] = content;
                    let lift = content.map(|pick| model.lift_of(day, slot, pick));
                    for (other, pick) in picks.iter_mut().enumerate() {
                        let is_twice = |p: Pick| Some(model.lift_of(day, other, p)) == lift;
                        *pick = pick.filter(|&p| other == slot || !is_twice(p));
                    }
                    let mut trial = self.clone();
                    trial.take_anyway(day, picks);
                    let least = self.points - PATIENCE;
                    for _ in 0..FOLLOWING {
                        if trial.points > self.points || !trial.follow(day, slot, least) {
                            break;
                        }
                    }
                    if trial.points > self.points {
                        *self = trial;
                        moved = true;
                    }
                }
            }
        }
        moved
    }

    /// The change of one of the day's other slots that helps most, if the week is
    /// then worth more than now and more than so many points.
    fn follow(&mut self, day: usize, slot: usize, least: i64) -> bool {
        let mut best = None;
        for other in (0..self.model.days[day].len()).filter(|&other| other != slot) {
            let least = best.map_or(self.points.max(least), |(points, _)| points);
            best = self.better_content(day, other, SETS.1, least).or(best);
        }
        if let Some((_, picks)) = best {
            self.take_anyway(day, picks);
        }
        best.is_some()
    }

    /// Fills day after day anew.
    pub(super) fn fill_anew(&mut self, shortlists: &[Vec<Vec<Pick>>]) -> bool {
        let mut moved = false;
        for (day, shortlists) in shortlists.iter().enumerate() {
            for picks in self.fillings(day, shortlists) {
                moved |= self.take_if_better(day, picks);
            }
        }
        moved
    }

    /// Empties one day and plans another and then it anew, by turns, for every two:
    /// what the week needs of it may be better done on the other.
    pub(super) fn rebuild_two(&mut self, shortlists: &[Vec<Vec<Pick>>], prices: &Prices) -> bool {
        let days = self.model.days.len();
        let mut moved = false;
        for one in 0..days {
            for emptied in (0..days).filter(|&emptied| emptied != one) {
                let mut trial = self.clone();
                trial.take_anyway(emptied, [None; SLOTS]);
                for _ in 0..TURNS {
                    let before = trial.points;
                    for day in [one, emptied] {
                        let second = prices.second[day] / bound::SCALE;
                        let now = trial.week.days[day];
                        for how in [
                            (Clock::Price(second), [None; SLOTS]),
                            (Clock::Haste(UNSAVED[1]), now),
                        ] {
                            trial.replan(day, &shortlists[day], how);
                        }
                    }
                    trial.improve();
                    if trial.points > self.points || trial.points == before {
                        break;
                    }
                }
                if trial.points > self.points {
                    *self = trial;
                    moved = true;
                }
            }
        }
        moved
    }

    /// Ways to fill the day, the others as they are.
    pub(super) fn fillings(&self, day: usize, shortlists: &[Vec<Pick>]) -> Vec<DayPicks> {
        let now = &self.week.days[day];
        strata::fillings(self.model, &self.others(day), (day, now), shortlists)
    }
}
