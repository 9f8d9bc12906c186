//! The very first session of an exercise: a guided climb, never a guess.
//!
//! Start at [`next_climb_load`]: from the lightest load the kit makes, each
//! set's reps and reps in reserve say how far the next may go.

use crate::estimate::percent_for;
use crate::load::{Direction, Ladder};
use crate::log::SetEntry;
use crate::plan::Prescription;
use crate::units::Load;

/// Most that one set of the climb may add, percent of the load: a quarter
/// (common practice, no source).
const MOST_PERCENT: i64 = 25;
/// Reps in reserve beyond the aim from which one step is taken though it is
/// larger than the table allows, as at the light end of a stack (common
/// practice, no source).
const PLENTY: u8 = 3;
/// Reps in reserve that mean "this or more": beyond five people cannot tell
/// (Hackett et al. 2017, JSCR 31(8):2162-2168: about one rep off with 0 to 5
/// left, more than two with 7 to 10). It is plenty whatever the aim.
const MOST_TOLD: u8 = 5;

/// Where the climb stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Climb {
    /// Nothing was lifted yet: begin with the lightest load.
    Begin(Load),
    /// The set was easy: go up.
    Up(Load),
    /// The set was as hard as aimed at, or effort was not said: stay.
    Stay(Load),
    /// The set was too hard: go down.
    Down(Load),
}

impl Climb {
    /// The load of the next set.
    #[must_use]
    pub const fn load(self) -> Load {
        match self {
            Self::Begin(load) | Self::Up(load) | Self::Stay(load) | Self::Down(load) => load,
        }
    }
}

/// The load of the next set of a first session, always one the kit makes.
///
/// The next load is the last one times the ratio of the table's percentages
/// for the reps aimed at and the reps shown (done plus in reserve; Haff and
/// Triplett, eds.), never more than a quarter up. What people leave unsaid
/// (Halperin et al. 2022, Sports Med 52(2):377-390: about one rep) is kept as
/// a margin. A load never goes up on a set whose effort was not said or that
/// missed the goal.
#[must_use]
pub fn next_climb_load(
    last: Option<&SetEntry>,
    ladder: &Ladder,
    prescription: &Prescription,
) -> Climb {
    let Some(last) = last else {
        return Climb::Begin(ladder.easiest());
    };
    let Some(here) = ladder.round_easier(last.load) else {
        return Climb::Stay(ladder.easiest());
    };
    let bottom = prescription.reps.0.min(prescription.reps.1);
    let aim = prescription.rir;
    let is_harder_than_aimed = last.rir.is_some_and(|rir| rir < aim);
    if last.count < bottom || is_harder_than_aimed {
        return ladder
            .easier(last.load)
            .map_or(Climb::Stay(here), Climb::Down);
    }
    let spare = match last.rir {
        Some(rir) if rir > aim => rir - aim,
        _ => return Climb::Stay(here),
    };
    let Some(next) = ladder.harder(last.load) else {
        return Climb::Stay(here);
    };
    let by_table = match ladder.direction() {
        Direction::MoreIsHarder => table_load(last, bottom.saturating_add(u16::from(aim))),
        // How much of the body is lifted is not known: one step at a time.
        Direction::LessIsHarder => Load::ZERO,
    };
    match ladder.round_down(by_table) {
        Some(load) if ladder.direction() == Direction::MoreIsHarder && load >= next => {
            Climb::Up(load)
        }
        _ if spare >= PLENTY || last.rir >= Some(MOST_TOLD) => Climb::Up(next),
        _ => Climb::Stay(here),
    }
}

/// The load at which the reps aimed at should leave the reserve aimed at.
fn table_load(last: &SetEntry, aimed: u16) -> Load {
    let shown = last
        .count
        .saturating_add(u16::from(last.rir.unwrap_or(0)))
        .min(20);
    let (Some(aimed), Some(shown)) = (percent_for(aimed.min(20)), percent_for(shown)) else {
        return last.load;
    };
    let grams = last.load.grams();
    let by_table = grams * i64::from(aimed) / i64::from(shown);
    Load::clamped(by_table.min(grams * (100 + MOST_PERCENT) / 100))
}
