//! A timed hold under way, by the wall clock.

use crate::bounds::HOLD_S;
use crate::calendar::Moment;

/// Whole seconds held since a moment: what is logged, so never rounded up, at
/// least one and at most [`HOLD_S`]. A clock that was set back while holding
/// has nothing to say; then it is `None`, and the person says how long.
#[must_use]
pub fn held_s(since: Moment, now: Moment) -> Option<u16> {
    let seconds = now.seconds_since(since);
    if now < since {
        return None;
    }
    u16::try_from(HOLD_S.clamp(seconds)).ok()
}
