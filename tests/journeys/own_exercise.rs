//! An exercise of one's own: made, planned, lifted, and called by its name wherever it is.

use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

const NAME: &str = "Sledge drag, station path";
/// What carries a bar's load, as the kit has it.
const BARBELL: &str = "barbell and plates";
const BETTER: &str = "Sledge drag";

#[test]
fn an_own_exercise_is_made_planned_lifted_and_renamed() {
    journey::run("own exercise", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon"], "Some training", "kg")
            .await;
        open_new(&page).await;
        // Nothing is kept that cannot be worked with, and what is wrong is said.
        page.tap(Role::Button, words::SAVE_EXERCISE).await;
        page.sees("The name is not 1 to 48 characters").await;
        page.type_into(words::EXERCISE_NAME, NAME).await;
        page.tap(Role::Radio, "lunge").await;
        // The pattern brought its muscles; the name stayed.
        assert_eq!(page.value(words::EXERCISE_NAME).await, NAME);
        page.tap(Role::Disclosure, words::HOW_LOADED).await;
        page.tap(Role::Radio, "bar with plates").await;
        page.tap(Role::Disclosure, words::NUMBERS_OF_IT).await;
        page.type_into(words::GOAL_LEAST, "12").await;
        page.type_into(words::GOAL_MOST, "10").await;
        page.tap(Role::Button, words::SAVE_EXERCISE).await;
        page.find(Role::Alert, "").await;
        page.type_into(words::GOAL_MOST, "15").await;
        if !page.is_chosen(Role::Checkbox, BARBELL).await {
            page.tap(Role::Checkbox, BARBELL).await;
        }
        page.tap(Role::Button, words::SAVE_EXERCISE).await;
        page.find(Role::Heading, words::OWN_EXERCISES).await;
        page.find(Role::Link, NAME).await;

        // Its name belongs to it.
        open_new(&page).await;
        page.type_into(words::EXERCISE_NAME, NAME).await;
        page.tap(Role::Button, words::SAVE_EXERCISE).await;
        page.sees(words::NAME_TAKEN).await;

        journey.reload(&page).await;
        Places(&page).go(words::PLAN).await;
        page.tap(Role::Link, &format!("+ {}", words::ADD_EXERCISE))
            .await;
        page.tap(Role::Disclosure, "lunge").await;
        page.tap(Role::Button, NAME).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        page.sees(NAME).await;

        Places(&page).go(words::TODAY).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.do_now(NAME).await;
        assert_eq!(gym.exercise().await, NAME);
        gym.type_load("40").await;
        gym.type_count("12").await;
        gym.log().await;
        journey.reload(&page).await;
        gym.finish_early().await;
        page.sees(NAME).await;
        gym.leave().await;

        // Renamed, it is the same exercise.
        open_list(&page).await;
        page.tap(Role::Link, NAME).await;
        page.type_into(words::EXERCISE_NAME, BETTER).await;
        page.tap(Role::Button, words::SAVE_EXERCISE).await;
        page.find(Role::Heading, words::OWN_EXERCISES).await;
        Places(&page).go(words::LOG).await;
        page.tap(Role::Link, "Mon 2 Mar").await;
        page.sees(BETTER).await;
        page.sees("40 kg \u{d7} 12").await;
        page.misses(NAME).await;

        // What was logged keeps it.
        open_list(&page).await;
        page.tap(Role::Link, BETTER).await;
        page.tap(Role::Button, words::REMOVE_EXERCISE).await;
        page.sees(words::STILL_USED).await;
    });
}

async fn open_list(page: &Page) {
    Places(page).go_to_kit(words::OWN_EXERCISES).await;
    page.find(Role::Heading, words::OWN_EXERCISES).await;
}

async fn open_new(page: &Page) {
    open_list(page).await;
    page.tap(Role::Link, words::NEW_EXERCISE).await;
    page.find(Role::Textbox, words::EXERCISE_NAME).await;
}
