//! Timed holds.

use super::*;

#[test]
fn a_hold_counts_by_the_wall_clock() {
    let rows = [
        (0, Some(1)),
        (1, Some(1)),
        (47, Some(47)),
        // Forgotten in the pocket: no more than one may hold.
        (4_000, Some(900)),
        // Clock set forward by an hour, and back by an hour.
        (3_630, Some(900)),
        (-3_570, None),
    ];
    for (seconds, held) in rows {
        assert_eq!(held_s(T0, at(seconds)), held, "{seconds} s");
    }
    // Not a second that was not held.
    assert_eq!(held_s(T0, Moment(T0.0 + 29_999)), Some(29));
}
