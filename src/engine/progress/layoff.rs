//! Time off, and planned deloads: both start lighter.

use super::record::Bout;
use crate::load::{Direction, Ladder};

/// Days off from which a layoff begins; below, nothing changes (common
/// practice, no source). A week off in the middle of nine cost some strength
/// gain and no strength (Coleman et al. 2024, PeerJ 12:e16777).
pub(super) const LAYOFF_DAYS: u32 = 14;

/// Percent of the last load to come back with after so many days off, never
/// rising with the days. That strength falls with time off, and more the
/// longer it lasts, is published (Bosquet et al. 2013, Scand J Med Sci Sports
/// 23:e140-149); so is that ten weeks cost little of it (Halonen et al. 2024,
/// Scand J Med Sci Sports). The sizes are cautious: common practice, no source.
#[must_use]
pub const fn layoff_percent(days: u32) -> u8 {
    match days {
        0..LAYOFF_DAYS => 100,
        LAYOFF_DAYS..28 => 95,
        28..56 => 90,
        56..182 => 80,
        _ => 60,
    }
}

/// Days after a return in which what was lifted before it still counts: the
/// level came back in about five weeks (Halonen et al. 2024, Scand J Med Sci
/// Sports), with room for a slow start.
const RETURN_DAYS: i32 = 70;

/// The hardest session before the last time off, where the sessions since are
/// still easier than it and not long ago.
pub(super) fn lifted_before<'a>(bouts: &'a [Bout], ladder: &Ladder) -> Option<&'a Bout> {
    if ladder.direction() == Direction::LessIsHarder {
        return None;
    }
    let basis = bouts.last()?;
    let is_gap = |pair: &[Bout]| {
        let days = pair[1].day.days_since(pair[0].day);
        u32::try_from(days).is_ok_and(|days| days >= LAYOFF_DAYS)
    };
    let back = bouts.windows(2).rposition(is_gap)? + 1;
    if basis.day.days_since(bouts[back].day) > RETURN_DAYS {
        return None;
    }
    // The last session before it, not the best ever: that may be long gone.
    let before = &bouts[back - 1];
    (before.load > basis.load && !before.missed()).then_some(before)
}

/// Percent of the last load in a deload. That coached lifters take less load
/// and more in reserve is published (Rogerson et al. 2024, Sports Med Open
/// 10:26); the size is common practice, no source.
pub const DELOAD_PERCENT: u8 = 90;

/// Reps in reserve a deload adds (direction: same source; size: common
/// practice, no source).
pub(super) const DELOAD_RIR: u8 = 1;
