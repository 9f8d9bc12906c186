//! Time off, and planned deloads: both start lighter.

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

/// Percent of the last load in a deload. That coached lifters take less load
/// and more in reserve is published (Rogerson et al. 2024, Sports Med Open
/// 10:26); the size is common practice, no source.
pub const DELOAD_PERCENT: u8 = 90;

/// Reps in reserve a deload adds (direction: same source; size: common
/// practice, no source).
pub(super) const DELOAD_RIR: u8 = 1;
