//! The browser dies right after a set was acknowledged.

use weekloom_tests::browser::Page;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Today};

const ROUNDS: usize = 3;

#[test]
fn no_acknowledged_set_is_lost_when_the_browser_is_killed() {
    journey::run("killed", async |journey| {
        let mut page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let (_, of) = Gym(&page).progress().await;
        let mut acknowledged = Vec::new();
        for round in 0..ROUNDS {
            let first = log_one(&page, acknowledged.len()).await;
            acknowledged.push(first);
            journey.listen().await;
            let second = log_one(&page, acknowledged.len()).await;
            acknowledged.push(second);
            journey.kill().await;

            page = journey.open().await;
            let gym = Gym(&page);
            assert_eq!(
                gym.progress().await,
                (acknowledged.len(), of),
                "round {round}"
            );
            let kept: Vec<u16> = gym.kept_sets().await.iter().map(|s| s.count).collect();
            assert_eq!(kept, acknowledged, "round {round}");
        }
    });
}

/// Logs a set with reps of its own, so that each can be told from the others.
async fn log_one(page: &Page, number: usize) -> u16 {
    let gym = Gym(page);
    let count = 21 + u16::try_from(number).expect("a few sets");
    gym.type_count(&count.to_string()).await;
    gym.log().await;
    count
}
