//! The page is loaded again in the middle of a rest.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Sheet, Today};
use weekloom_tests::words;

/// The timer shows whole seconds, and the page takes a moment to be read.
const SLACK_MS: i64 = 2_000;

#[test]
fn a_reload_in_mid_rest_changes_nothing() {
    journey::run("mid rest", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        let before = gym.resting().await;
        assert!(before.left_s > 20, "{before:?}");

        // More rest is more, and the end moves with it.
        page.tap(Role::Button, words::MORE_REST).await;
        let longer = gym.resting().await;
        let moved_ms = longer.end_ms() - before.end_ms();
        assert!((moved_ms - 15_000).abs() <= SLACK_MS, "moved {moved_ms} ms");

        // Numbers in hand, not logged.
        let count = gym.count_field().await;
        gym.type_count("7").await;
        if gym.load_field().await.is_some() {
            gym.type_load("42.5").await;
        }
        gym.left_in_me(3).await;

        journey.reload(&page).await;
        let after = gym.resting().await;
        let drift_ms = after.end_ms() - longer.end_ms();
        assert!(
            drift_ms.abs() <= SLACK_MS,
            "the rest ends {drift_ms} ms off"
        );
        assert_eq!(page.value(count).await, "7");
        if let Some(load) = gym.load_field().await {
            assert_eq!(page.value(load).await, "42.5");
        }
        gym.log().await;
        page.sees("\u{d7} 7, 3 left").await;

        // A rest that ran out while the page was away is over, not begun anew.
        gym.resting().await;
        page.tap(Role::Button, words::SKIP_REST).await;
        page.until("the rest to go", async || {
            (!gym.is_resting().await).then_some(())
        })
        .await;
        journey.reload(&page).await;
        assert_eq!(gym.progress().await.0, 2);
        assert!(!gym.is_resting().await);
    });
}

/// Counts the tones that a page sounds.
const COUNT_TONES: &str = "window.tones = 0;
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (...when) {
        window.tones += 1;
        return start.apply(this, when);
    };";

#[test]
fn a_rest_that_runs_out_is_heard_on_every_screen_and_the_next_set_follows() {
    journey::run("rest over", async |journey| {
        journey.inject(COUNT_TONES);
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.rest_little().await;
        page.tap(Role::Link, words::WEEK).await;
        page.find(Role::Heading, words::THIS_WEEK).await;
        // The motor is asked for too, whether the engine has one or not.
        page.until("the tone", async || {
            let tones = page.script("return window.tones", vec![]).await;
            (tones == 2).then_some(())
        })
        .await;
        page.tap(Role::Link, words::TODAY).await;
        page.sees(words::REST_OVER).await;
        gym.log().await;
        assert_eq!(gym.progress().await.0, 2);
        let tones = page.script("return window.tones", vec![]).await;
        assert_eq!(tones, 2, "one rest was over, with two notes");
    });
}

#[test]
fn the_back_button_closes_a_sheet_and_only_that() {
    journey::run("back button", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;

        gym.more().await;
        page.client().back().await.expect("back");
        Sheet(&page).is_gone().await;
        assert_eq!(gym.progress().await.0, 1);

        gym.whole().await;
        // The same by the keyboard.
        page.keys("\u{e00c}").await;
        Sheet(&page).is_gone().await;
        gym.log().await;
    });
}
