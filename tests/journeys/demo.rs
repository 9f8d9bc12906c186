//! The demonstration: other people's logs, beside one's own and never in them.

use weekloom_store::Space;
use weekloom_store::demo::Crew;
use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today, YourData};
use weekloom_tests::words;

#[test]
fn the_demo_shows_its_crew_and_leaves_ones_own_data_alone() {
    journey::run("demo", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.finish_early().await;
        gym.leave().await;
        let data = YourData(&page);
        data.open().await;
        let own = page.kept(Space::Own.prefix()).await;

        page.tap(Role::Button, words::DEMO_ENTER).await;
        page.find(Role::Heading, words::DEMO_WHO).await;
        page.sees(words::DEMO_BANNER).await;
        page.tap(Role::Button, Crew::ALL[0].title()).await;
        let places = Places(&page);
        places.go(words::LOG).await;
        let sessions = page
            .until("twelve weeks of sessions", async || {
                let script = "return document.querySelectorAll('main li a').length";
                let found = page.script(script, vec![]).await.as_u64()?;
                (found >= 12).then_some(found)
            })
            .await;
        assert!(sessions >= 12);
        page.sees(words::DEMO_BANNER).await;

        // It can be trained in, and stays apart.
        places.go(words::TODAY).await;
        Today(&page).start().await;
        gym.log().await;
        page.sees(words::DEMO_BANNER).await;
        assert_eq!(page.kept(Space::Own.prefix()).await, own);

        page.tap(Role::Button, words::DEMO_LEAVE).await;
        page.misses(words::DEMO_BANNER).await;
        places.go(words::LOG).await;
        page.sees(&words::totals(1, 1)).await;
        assert_eq!(page.kept(Space::Own.prefix()).await, own);
        let left = page.kept(Space::Demo.prefix()).await;
        assert!(
            !left.keys().any(|key| key.contains("session")),
            "the demo left sessions behind: {:?}",
            left.keys()
        );
    });
}
