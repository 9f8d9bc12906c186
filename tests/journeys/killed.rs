//! The browser dies, right after a set was acknowledged and at worse moments.

use weekloom_tests::journey;
use weekloom_tests::torture::torture;

/// `cargo xtask torture` kills it two hundred times.
const KILLS: usize = 8;
/// Any other does as well.
const SEED: u64 = 7;

#[test]
fn no_acknowledged_set_is_lost_or_doubled_when_the_browser_is_killed() {
    journey::run("killed", async |journey| {
        let tally = torture(journey, KILLS, SEED).await;
        assert_eq!((tally.lost, tally.doubled), (0, 0), "{tally:?}");
        assert!(tally.acknowledged >= KILLS / 2, "{tally:?}");
    });
}
