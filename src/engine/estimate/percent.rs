//! Percent of the 1RM that a number of reps to failure allows.

use crate::units::Load;

/// Percent of the 1RM for so many reps to failure (reps done plus reps in
/// reserve), 1 to 20; `None` outside.
///
/// Reps 1 to 12 and 15 stand in the resistance-training chapter of Haff and
/// Triplett (eds.), Essentials of Strength Training and Conditioning. For 12
/// reps the book gives 67 % and the association's downloadable chart 70 %: the
/// lower, which is the safer, is used. 13 and 14 take the value of 15; 16 to 20
/// take 60 % (an older ACSM-style continuum). No published grid of percent by
/// reps and reps in reserve was found; adding the two is a construction.
#[must_use]
pub const fn percent_for(reps_to_failure: u16) -> Option<u8> {
    Some(match reps_to_failure {
        1 => 100,
        2 => 95,
        3 => 93,
        4 => 90,
        5 => 87,
        6 => 85,
        7 => 83,
        8 => 80,
        9 => 77,
        10 => 75,
        11 => 70,
        12 => 67,
        13..=15 => 65,
        16..=20 => 60,
        _ => return None,
    })
}

/// So many percent of a load, rounded down to whole grams.
#[must_use]
pub fn share_of(load: Load, percent: u8) -> Load {
    Load::clamped(load.grams() * i64::from(percent) / 100)
}
