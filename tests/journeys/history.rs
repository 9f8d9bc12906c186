//! A past session can be put right, and tells what it was.

use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

async fn open_monday(page: &Page) {
    Places(page).go(words::LOG).await;
    page.tap(Role::Link, "Mon 2 Mar").await;
    page.find(Role::Heading, "Monday").await;
}

#[test]
fn a_past_session_is_put_right_and_says_what_it_was() {
    journey::run("history", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon"], "Some training", "kg")
            .await;
        let planned = Today(&page).planned().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let name = gym.exercise().await;
        // A slip of the thumb, and one set too many.
        for load in ["600", "60"] {
            if gym.exercise().await != name {
                gym.do_now(&name).await;
            }
            gym.type_load(load).await;
            gym.type_count("8").await;
            gym.log().await;
        }
        gym.finish_early().await;
        gym.leave().await;
        assert_eq!(planned[0].name, name);

        open_monday(&page).await;
        page.sees("600 kg").await;
        page.tap(Role::Disclosure, words::AMEND_SETS).await;
        page.tap(Role::Button, words::AMEND).await;
        page.type_into(words::LOAD, "57.5").await;
        page.tap(Role::Button, words::KEEP).await;
        let was = words::set_was(1, "600 kg \u{d7} 8", "2 Mar");
        page.sees(&was).await;
        page.sees("57.5").await;

        // Kept, with its trace.
        journey.reload(&page).await;
        page.sees(&was).await;
        page.sees("57.5").await;
        page.tap(Role::Disclosure, words::AMEND_SETS).await;
        let amend = page.all(Role::Button, words::AMEND).await;
        page.tap_control(&amend[1]).await;
        page.tap(Role::Button, words::REMOVE).await;
        page.sees(&words::set_taken_out(2, "60 kg \u{d7} 8", "2 Mar"))
            .await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(1, 1)).await;

        // The next session goes by what is right.
        let page = journey.days_later(7).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let last = gym.fact(words::LAST_TIME).await;
        assert!(last.contains("57.5") && !last.contains("600"), "{last}");
        gym.log().await;
        gym.finish_early().await;
        gym.leave().await;

        // A whole session leaves only when that was said twice.
        open_monday(&page).await;
        page.tap(Role::Button, words::REMOVE_SESSION).await;
        page.tap(Role::Button, words::CANCEL).await;
        page.tap(Role::Button, words::REMOVE_SESSION).await;
        page.tap(Role::Button, words::REMOVE_SURE).await;
        page.sees(words::SESSION_REMOVED).await;
        page.sees(&words::totals(1, 1)).await;
        journey.reload(&page).await;
        page.misses("Mon 2 Mar").await;
    });
}
