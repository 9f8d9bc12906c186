//! How large a step up may be, and which one the kit offers.

use super::Shown;
use crate::load::{Direction, Ladder};
use crate::person::Status;
use crate::units::Load;

/// Least step worth taking, tenths of a percent: 2 % (Ratamess et al. 2009,
/// MSSE 41(3):687-708: 2 to 10 %).
const LEAST_PERMILLE: i64 = 20;

/// Greatest step taken without further reps, tenths of a percent: 10 % (same
/// source); 5 % for the advanced (Graves and Baechle, by secondary pages: new
/// lifters 5 to 10 %, advanced 2 to 5 %).
pub(super) const fn most_permille(status: Status) -> u32 {
    match status {
        Status::Novice | Status::Intermediate => 100,
        Status::Advanced => 50,
    }
}

/// What the kit offers above a load.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Step {
    /// Within the published percentage.
    Fine(Load),
    /// The smallest there is, above it, or not to be judged.
    Coarse(Load),
    /// Nothing harder.
    None,
}

/// A step against the load it starts from, in tenths of a percent, rounded up.
/// `None` where the number is help or nought: part of what is lifted is the
/// body, which is never guessed. Load added to the body counts against itself
/// alone, which can only overstate the step.
pub(super) fn permille(ladder: &Ladder, from: Load, to: Load) -> Option<u32> {
    if ladder.direction() == Direction::LessIsHarder || from == Load::ZERO {
        return None;
    }
    let grown = (to.grams() - from.grams()).max(0) * 1000;
    u32::try_from((grown + from.grams() - 1) / from.grams()).ok()
}

/// The step above what was shown: the smallest within the published
/// percentage, at least `least` grams where one such fits.
pub(super) fn next_step(ladder: &Ladder, last: &Shown, status: Status, least: Load) -> Step {
    let from = last.load;
    let Some(first) = ladder.harder(from) else {
        return Step::None;
    };
    let is_fine =
        |to| permille(ladder, from, to).is_some_and(|share| share <= most_permille(status));
    if !is_fine(first) {
        return Step::Coarse(first);
    }
    let is_worth_it = |to: Load| {
        let grown = to.grams() - from.grams();
        grown * 1000 >= from.grams() * LEAST_PERMILLE && grown >= least.grams()
    };
    let mut to = first;
    while !is_worth_it(to) {
        match ladder.harder(to) {
            Some(next) if is_fine(next) => to = next,
            _ => break,
        }
    }
    Step::Fine(to)
}

/// The hardest load within the published percentage that is no harder than
/// `most`; the next one where not even that fits. For ladders on which more is
/// harder.
pub(super) fn finest_within(ladder: &Ladder, last: &Shown, status: Status, most: Load) -> Load {
    let from = last.load;
    let ceiling = from.grams() * i64::from(1000 + most_permille(status)) / 1000;
    let rung = ladder.round_down(Load::clamped(ceiling.min(most.grams())));
    rung.filter(|&to| to > from)
        .or_else(|| ladder.harder(from))
        .unwrap_or(from)
}

/// So many percent of a load: less load, or as much more help.
pub(super) fn eased(ladder: &Ladder, load: Load, percent: u8) -> Load {
    let percent = i64::from(percent);
    let percent = match ladder.direction() {
        Direction::MoreIsHarder => percent,
        Direction::LessIsHarder => 200 - percent,
    };
    Load::clamped(load.grams() * percent / 100)
}

/// The load the kit makes for `percent` of what was shown, no harder than it;
/// the easiest there is where that is still too light to make.
pub(super) fn eased_rung(ladder: &Ladder, load: Load, percent: u8) -> Option<Load> {
    ladder
        .round_easier(eased(ladder, load, percent))
        .or_else(|| Some(ladder.easiest()).filter(|&easiest| !ladder.is_harder(easiest, load)))
}
