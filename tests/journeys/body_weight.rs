//! The body's weight: asked for seldom, never needed, and counted where it is lifted.

use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

/// Lifts the body, with help.
const HELPED: &str = "Assisted pull-up";

#[test]
fn the_bodys_weight_is_asked_for_seldom_and_counts_where_it_is_lifted() {
    journey::run("body weight", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        // Nothing that was lifted so far lifts the body: nobody asks.
        train(&page, None).await;
        page.misses(words::BODY_WEIGHT_WHY).await;
        Gym(&page).leave().await;

        Places(&page).go(words::PLAN).await;
        for day in ["0", "1", "2"] {
            let add = format!("location.hash = '#/plan/{day}/add'");
            page.script(&add, vec![]).await;
            page.tap(Role::Disclosure, "vertical pull").await;
            page.tap(Role::Button, HELPED).await;
            page.find(Role::Heading, words::YOUR_WEEK).await;
        }

        // Not told: it is not asked for the next time either.
        let page = journey.days_later(2).await;
        train(&page, Some(HELPED)).await;
        page.find(Role::Heading, words::BODY_WEIGHT).await;
        page.tap(Role::Button, words::LIGHTER_NOT_NOW).await;
        page.misses(words::BODY_WEIGHT_WHY).await;
        Gym(&page).leave().await;
        let page = journey.days_later(35).await;
        train(&page, Some(HELPED)).await;
        page.misses(words::BODY_WEIGHT_WHY).await;
        Gym(&page).leave().await;

        // A quarter later it is, and told.
        let page = journey.days_later(60).await;
        train(&page, Some(HELPED)).await;
        weigh(&page, "7800").await;
        page.sees("Between 25 kg and 350 kg.").await;
        weigh(&page, "78,5").await;
        page.misses("Between 25 kg and 350 kg.").await;
        Gym(&page).leave().await;

        // It stands in the log, can be put right, and counts.
        Places(&page).go(words::LOG).await;
        page.tap(Role::Link, words::BODY_WEIGHT).await;
        page.sees("78.5 kg on").await;
        weigh(&page, "79").await;
        page.sees("79 kg on").await;
        journey.reload(&page).await;
        page.sees("79 kg on").await;
        level_is(&page, "Estimated 1RM, body included").await;

        Places(&page).go(words::LOG).await;
        page.tap(Role::Link, words::BODY_WEIGHT).await;
        page.tap(Role::Disclosure, words::LOOM_TABLE).await;
        page.tap(Role::Button, words::REMOVE).await;
        page.misses("79 kg on").await;
        level_is(&page, "Most reps at the usual load").await;
    });
}

/// Trains one set of an exercise, or of the first, and ends there.
async fn train(page: &Page, exercise: Option<&str>) {
    Today(page).start().await;
    let gym = Gym(page);
    if let Some(name) = exercise {
        gym.do_now(name).await;
        gym.type_load("30").await;
    }
    gym.log().await;
    gym.finish_early().await;
    page.find(Role::Heading, words::WEEK_SO_FAR).await;
}

async fn level_is(page: &Page, level: &str) {
    Places(page).go(words::LOG).await;
    page.tap(Role::Link, words::BY_EXERCISE).await;
    page.tap(Role::Link, HELPED).await;
    // Of all three days the weight is known on one only.
    page.find(Role::Heading, "Most reps at the usual load")
        .await;
    page.tap(Role::Radio, words::FOUR_WEEKS).await;
    page.find(Role::Heading, level).await;
}

/// Types what the body weighs, and leaves the field.
async fn weigh(page: &Page, text: &str) {
    page.type_into(words::BODY_WEIGHT_TODAY, text).await;
    page.keys("\u{e004}").await;
}
