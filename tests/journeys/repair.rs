//! A session that cannot be done: told what each way means, settled, taken back;
//! a pause that owes nothing; other equipment for some days.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Places, Today};
use weekloom_tests::words;

#[test]
fn a_session_that_cannot_be_done_is_settled_and_kept() {
    journey::run("repair", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon", "Wed", "Fri"], "Some training", "kg")
            .await;
        let first = Today(&page).planned().await;
        let places = Places(&page);
        let cant = |when: &str| format!("{}: {when}", words::CANT_MAKE_IT);
        let way = |name: &str| format!("{}: {name}", words::DO_THIS);

        // Monday cannot be: what each way does is said before it is chosen.
        places.go(words::WEEK).await;
        page.tap(Role::Link, &cant("Monday 2 Mar")).await;
        page.find(Role::Heading, words::CANT_MAKE_IT).await;
        page.sees("Sets in these seven days").await;
        page.find(Role::Button, &way("Move everything on")).await;
        page.tap(Role::Button, &way("Let it go")).await;
        page.sees(words::LET_GO).await;
        places.go(words::TODAY).await;
        page.find(Role::Heading, words::REST_DAY).await;

        // It is kept: on Wednesday the second day is due.
        let page = journey.days_later(2).await;
        let places = Places(&page);
        page.find(Role::Button, words::START).await;
        let second = Today(&page).planned().await;
        assert_ne!(first, second);

        // Taken back, the first is due again, and so it is when moved on.
        places.go(words::WEEK).await;
        let take_back = format!("{}: Monday 2 Mar", words::TAKE_BACK);
        page.tap(Role::Button, &take_back).await;
        page.find(Role::Link, &cant("Monday 2 Mar")).await;
        places.go(words::TODAY).await;
        page.until("the first day again", async || {
            (Today(&page).planned().await == first).then_some(())
        })
        .await;
        places.go(words::WEEK).await;
        page.tap(Role::Link, &cant("Wednesday 4 Mar")).await;
        page.tap(Role::Button, &way("Move everything on")).await;
        page.sees(words::MOVED_ON).await;

        // A pause of a week: nothing is due, nothing is missed.
        page.tap(Role::Link, words::AWAY).await;
        page.find(Role::Heading, words::PAUSE_TRAINING).await;
        page.tap(Role::Button, words::PAUSE_NOW).await;
        page.sees("Nothing is owed").await;
        let page = journey.days_later(5).await;
        let places = Places(&page);
        places.go(words::WEEK).await;
        page.sees("Nothing is owed").await;
        page.tap(Role::Link, words::AWAY).await;
        page.tap(Role::Button, words::END_PAUSE).await;

        // Other equipment from today on: other exercises, and back again.
        page.find(Role::Button, words::PAUSE_NOW).await;
        page.tap(Role::Button, words::PLAN_JOURNEY).await;
        page.sees("Other equipment until").await;
        places.go(words::TODAY).await;
        page.find(Role::Button, words::START).await;
        let away = Today(&page).planned().await;
        assert!(
            away.iter()
                .all(|there| first.iter().all(|own| own.name != there.name))
        );
        places.go(words::WEEK).await;
        page.tap(Role::Link, words::AWAY).await;
        page.tap(Role::Button, words::END_TRAVEL).await;
        page.find(Role::Button, words::PLAN_JOURNEY).await;
        places.go(words::TODAY).await;
        page.until("the own plan", async || {
            (Today(&page).planned().await == first).then_some(())
        })
        .await;
    });
}

#[test]
fn on_a_journey_a_swap_is_for_what_is_there() {
    journey::run("swap on a journey", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon", "Wed", "Fri"], "Some training", "kg")
            .await;
        Places(&page).go(words::WEEK).await;
        page.tap(Role::Link, words::AWAY).await;
        page.tap(Role::Button, words::PLAN_JOURNEY).await;
        page.sees("Other equipment until").await;
        Places(&page).go(words::TODAY).await;
        let there = Today(&page).planned().await;
        page.tap(Role::Button, words::START).await;
        page.tap(Role::Button, words::SWAP).await;
        // What could stand in for the first of that day, with a floor and a bar.
        page.sees(&there[0].name).await;
        let script = "return [...document.querySelectorAll('dialog ul.lines > li')]
            .map((e) => e.innerText.toLowerCase())";
        let offered = page
            .until("exercises to swap for", async || {
                let found = page.script(script, vec![]).await;
                let lines = found.as_array()?.clone();
                (!lines.is_empty()).then_some(lines)
            })
            .await;
        for line in offered.iter().filter_map(|line| line.as_str()) {
            for missing in ["dumbbell", "barbell", "machine", "cable", "kettlebell"] {
                assert!(!line.contains(missing), "{missing} in {line}");
            }
            assert!(line.contains("push-up"), "a press like the first: {line}");
        }
    });
}
