//! A session from its start to its place in the log.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

/// No session of an hour has more sets.
const MOST_SETS: usize = 60;

#[test]
fn a_session_is_logged_as_suggested_in_one_tap_a_set() {
    journey::run("as suggested", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        let planned = Today(&page).planned().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let (_, of) = gym.progress().await;
        let asked: usize = planned.iter().map(|p| usize::from(p.sets)).sum();
        assert_eq!(of, asked, "the session asks for what the plan shows");
        assert!(of <= MOST_SETS);

        let before = page.taps();
        for _ in 0..of {
            gym.log().await;
        }
        assert_eq!(page.taps() - before, of, "one tap for each set");
        page.find(Role::Heading, words::ALL_DONE).await;

        gym.finish().await;
        for exercise in &planned {
            page.sees(&exercise.name).await;
        }
        page.sees(&words::sets(of)).await;
        gym.leave().await;

        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(1, of)).await;
        page.tap(Role::Link, "Mon 2 Mar").await;
        for exercise in &planned {
            page.sees(&exercise.name).await;
        }
        Places(&page).go(words::TODAY).await;
        page.sees(words::DONE_TODAY).await;
    });
}

#[test]
fn every_verb_of_the_session_does_what_it_says() {
    journey::run("verbs", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let first = gym.exercise().await;

        // Effort goes with the set, and a number typed is taken without a confirmation.
        let count = gym.count_field().await;
        page.type_into(count, "11").await;
        gym.left_in_me(2).await;
        gym.log().await;
        page.sees("\u{d7} 11, 2 left").await;
        let (done, of) = gym.progress().await;
        assert_eq!(done, 1);

        // Undo takes the set back.
        page.tap(Role::Button, words::UNDO).await;
        page.sees(words::UNDONE).await;
        assert_eq!(gym.progress().await, (0, of));
        gym.log().await;

        // Nonsense is refused with a reason, and cannot be logged.
        page.type_into(count, "many\n").await;
        page.sees("is not a number").await;
        gym.tap_log().await;
        assert_eq!(gym.progress().await, (1, of));
        gym.type_count("12").await;
        page.misses("is not a number").await;
        gym.log().await;

        // A logged set can be amended, and one too many removed.
        let sheet = gym.whole().await;
        sheet.unfold(&first).await;
        page.tap(Role::Button, words::AMEND).await;
        page.type_into(count, "9\n").await;
        page.tap(Role::Button, words::KEEP).await;
        page.sees(&format!("{}: ", words::set_of_short(1))).await;
        page.sees("\u{d7} 9").await;
        sheet.close().await;
        let counts: Vec<u16> = gym.kept_sets().await.iter().map(|s| s.count).collect();
        assert_eq!(counts, [9, 12]);

        // A little discomfort is noted; pain advises to stop.
        page.tap(Role::Button, words::HURTS).await;
        page.tap(Role::Radio, words::HURTS_MILD).await;
        page.sees(words::HURTS_MILD_ADVICE).await;
        page.tap(Role::Radio, words::HURTS_PAINFUL).await;
        page.sees(words::HURTS_ADVICE).await;
        page.type_into(words::NOTE, "left shoulder").await;
        sheet.close().await;

        // Another exercise takes the place of the one that is up.
        gym.whole().await;
        page.tap(Role::Button, words::CLOSE).await;
        sheet.is_gone().await;
        let other = gym.swap().await;
        assert_ne!(other, first);
        gym.log().await;

        // Pause, and on.
        gym.more().await;
        page.tap(Role::Button, words::PAUSE).await;
        page.find(Role::Heading, words::PAUSED).await;
        page.tap(Role::Button, words::RESUME).await;
        gym.log().await;
        let (done, _) = gym.progress().await;

        gym.finish_early().await;
        page.sees("left shoulder").await;
        page.sees(&words::sets(done)).await;
        gym.leave().await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(1, done)).await;
    });
}
