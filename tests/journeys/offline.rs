//! After one visit, without any network.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

const SLACK_MS: i64 = 2_000;
/// The way back from the page of numbers.
const BACK_TO_APP: &str = "\u{2190} Back to Weekloom";

#[test]
fn after_one_visit_all_of_it_works_without_a_network() {
    journey::run("offline", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        journey.wait_for_offline_copy(&page).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.log().await;
        let before = gym.resting().await;
        let up = gym.exercise().await;
        let progress = gym.progress().await;

        // Off: no server, no net, and a browser that was closed in between.
        journey.go_offline(None).await;
        journey.close().await;
        let page = journey.open_empty().await;
        journey.go_offline(Some(&page)).await;
        // The browser looks for a newer worker and says so in vain.
        journey.forgive("sw.js");
        journey.enter(&page).await;

        let gym = Gym(&page);
        let after = gym.resting().await;
        let drift_ms = after.end_ms() - before.end_ms();
        assert!(
            drift_ms.abs() <= SLACK_MS,
            "the rest ends {drift_ms} ms off"
        );
        assert_eq!(gym.progress().await, progress);
        assert_eq!(gym.exercise().await, up);
        // The page of numbers is there too, and the set in hand waits for whoever reads it.
        gym.type_count("7").await;
        gym.why().await;
        page.tap(Role::Link, words::NUMBERS).await;
        page.find(Role::Heading, words::NUMBERS).await;
        page.sees("Rogerson D et al. 2024").await;
        page.tap(Role::Link, BACK_TO_APP).await;
        page.misses("Rogerson D et al. 2024").await;
        page.until("the exercise as before", async || {
            (gym.exercise().await == up).then_some(())
        })
        .await;
        gym.log().await;
        assert_eq!(gym.kept_sets().await[2].count, 7);

        let places = Places(&page);
        places.go(words::WEEK).await;
        page.find(Role::Heading, words::THIS_WEEK).await;
        places.go(words::PLAN).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        places.go(words::LOG).await;
        page.sees(words::LOG_EMPTY).await;
        for name in [words::EQUIPMENT, words::LOOKS, words::DATA] {
            places.go_to_kit(name).await;
            page.find(Role::Heading, name).await;
        }
        places.go_to_kit(words::CAUTIONS).await;
        page.sees(words::CAUTIONS_STOP).await;
        places.go(words::TODAY).await;
        gym.log().await;

        // Once more from nothing.
        journey.close().await;
        let page = journey.open_empty().await;
        journey.go_offline(Some(&page)).await;
        journey.enter(&page).await;
        assert_eq!(Gym(&page).progress().await, (progress.0 + 2, progress.1));
    });
}
