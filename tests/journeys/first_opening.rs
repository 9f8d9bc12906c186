//! From nothing to a plan.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Places, Today};
use weekloom_tests::words;

/// Most taps to a plan when every answer offered is taken.
const MOST_TAPS: usize = 4;
/// Most taps to a plan past the questions.
const MOST_TAPS_SKIPPING: usize = 2;

#[test]
fn taking_every_default_gives_a_plan_in_few_taps() {
    journey::run("defaults", async |journey| {
        let page = journey.open().await;
        let opening = FirstOpening(&page);
        opening.read_cautions().await;
        opening.next(words::WITH_WHAT).await;
        opening.next(words::ABOUT_YOU).await;
        opening.weave().await;
        assert!(page.taps() <= MOST_TAPS, "it took {} taps", page.taps());

        // The journey's day is a Monday, and Monday is among the days offered.
        page.find(Role::Button, words::START).await;
        let planned = Today(&page).planned().await;
        assert!(planned.len() >= 3, "a thin day: {planned:?}");
        assert!(
            planned.iter().all(|p| p.sets > 0 && p.goal.0 > 0),
            "{planned:?}"
        );

        // Kept: it is there after the browser was closed.
        journey.close().await;
        let page = journey.open().await;
        assert_eq!(Today(&page).planned().await, planned);
    });
}

#[test]
fn skipping_gives_a_plan_that_can_be_edited() {
    journey::run("skipping", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        assert!(
            page.taps() <= MOST_TAPS_SKIPPING,
            "it took {} taps",
            page.taps()
        );
        assert!(Today(&page).planned().await.len() >= 3);
        Places(&page).go(words::PLAN).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        page.find(Role::Link, words::SHAPE).await;
    });
}

#[test]
fn nonsense_is_refused_and_nothing_is_kept_of_it() {
    journey::run("nonsense", async |journey| {
        let page = journey.open().await;
        let opening = FirstOpening(&page);
        opening.read_cautions().await;
        opening.train_on(&[]).await;
        page.tap(Role::Button, words::NEXT).await;
        page.find(Role::Alert, words::NEED_A_DAY).await;
        assert!(page.has(Role::Heading, words::WHEN).await);
        assert!(!page.kept("weekloom.").await.contains_key("weekloom.plan"));

        // Mended, it goes on.
        opening.train_on(&["Tue", "Sat"]).await;
        opening.next(words::WITH_WHAT).await;
        opening.next(words::ABOUT_YOU).await;
        opening.weave().await;
        // Monday is a rest day now, and what comes next is shown.
        page.sees(words::REST_DAY).await;
        assert!(!Today(&page).planned().await.is_empty());
    });
}
