//! What the last weeks show, over the demonstration's logs and over too few of one's own.

use weekloom_store::demo::Crew;
use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today, YourData};
use weekloom_tests::words;

#[test]
fn the_last_weeks_are_looked_through_and_too_few_say_so() {
    journey::run("looking back", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.finish_early().await;
        gym.leave().await;

        // One session: nothing can be told, and nothing is.
        let places = Places(&page);
        places.go(words::LOG).await;
        page.tap(Role::Link, words::REVIEW).await;
        page.find(Role::Heading, words::REVIEW).await;
        page.sees(words::NOT_ENOUGH).await;
        page.sees(&words::sets_done_of(1, 19)).await;
        page.misses(words::ROSE).await;

        // Twelve weeks of the crew's: something rose, and says by how much.
        YourData(&page).open().await;
        page.tap(Role::Button, words::DEMO_ENTER).await;
        page.tap(Role::Button, Crew::ALL[0].title()).await;
        places.go(words::LOG).await;
        page.tap(Role::Link, words::REVIEW).await;
        page.find(Role::Heading, words::ROSE).await;
        page.sees("could be scatter").await;
        page.misses(words::NOT_ENOUGH).await;
        page.find(Role::Heading, words::SETS_BY_MUSCLE).await;
    });
}
