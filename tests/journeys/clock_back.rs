//! The clock of the phone is set back.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

#[test]
fn a_clock_set_back_a_year_loses_and_doubles_nothing() {
    journey::run("clock back", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.finish_early().await;
        gym.leave().await;
        // Another is under way when the clock goes wrong.
        let page = journey.days_later(2).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;

        let page = journey.days_later(-365).await;
        let gym = Gym(&page);
        let (done, of) = gym.progress().await;
        assert_eq!(done, 1);
        gym.log().await;
        assert_eq!(gym.progress().await, (2, of));
        journey.reload(&page).await;
        assert_eq!(gym.progress().await, (2, of));
        gym.finish_early().await;
        page.find(Role::Heading, words::WEEK_SO_FAR).await;
        gym.leave().await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(2, 3)).await;

        // Put right again: both are there, once, and training goes on.
        let page = journey.days_later(366).await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(2, 3)).await;
        Places(&page).go(words::TODAY).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.finish_early().await;
        gym.leave().await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(3, 4)).await;
    });
}
