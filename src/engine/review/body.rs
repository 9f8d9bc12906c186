//! The body's weight beside the logs: where the body is lifted with the load,
//! the 1RM is of both.

use crate::calendar::Day;
use crate::catalogue::{Equipment, Exercise, Loading};
use crate::order::Map;
use crate::units::Load;

/// Days on either side of a weighing for which it stands (the project's own
/// judgement): it is asked for about once a month.
pub const STANDS_DAYS: i32 = 45;

/// What the body weighed, by day.
pub type Weights = Map<Day, Load>;

/// What the body weighed about a day: the nearest weighing within
/// [`STANDS_DAYS`], the earlier of two as near.
#[must_use]
pub fn on(weights: &Weights, day: Day) -> Option<Load> {
    let distance = |weighed: Day| weighed.days_since(day).abs();
    let near = weights
        .iter()
        .filter(|(weighed, _)| distance(**weighed) <= STANDS_DAYS);
    near.min_by_key(|(weighed, _)| distance(**weighed))
        .map(|(_, weight)| *weight)
}

/// Whether the whole body is lifted with the load or the help: it hangs from a
/// bar, stands on its hands between two, or kneels on a counterweight. A loaded
/// push-up or back extension leaves a part of it on the floor, and how much
/// differs between people.
#[must_use]
pub fn lifts_whole_body(exercise: &Exercise) -> bool {
    let is_held = |needed: &Equipment| {
        matches!(
            needed,
            Equipment::PullUpBar | Equipment::DipBars | Equipment::AssistMachine
        )
    };
    matches!(
        exercise.loading,
        Loading::BodyweightPlus | Loading::Assisted
    ) && exercise.equipment.iter().any(is_held)
}

/// What is lifted where the whole body is lifted too: its weight and the load,
/// or less the help, as the 1RM of the pull-up is tested (Johnson et al. 2009,
/// JSCR 23(3):1022-1028). `None` where it is not, or the help carries all of it.
#[must_use]
pub fn lifted(exercise: &Exercise, body: Load, load: Load) -> Option<Load> {
    if !lifts_whole_body(exercise) {
        return None;
    }
    let grams = match exercise.loading {
        Loading::Assisted => body.grams() - load.grams(),
        _ => body.grams() + load.grams(),
    };
    (grams > 0).then(|| Load::clamped(grams))
}
