//! A tablet or a desk: what belongs together stands side by side.

use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

/// A desk's window.
const DESK: (u32, u32) = (1280, 800);

/// The names that can be unfolded beside the set, or none where there is no such pane.
async fn beside(page: &Page) -> Vec<String> {
    let script = "const pane = document.querySelector('aside');
        if (!pane?.checkVisibility()) return [];
        return [...pane.querySelectorAll('summary')].map((e) => e.innerText.split('\\n')[0])";
    let found = page.script(script, vec![]).await;
    serde_json::from_value(found).expect("names")
}

#[test]
fn the_whole_session_stands_beside_the_set_and_the_loom_beside_the_week() {
    journey::run("wide screen", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        let planned = Today(&page).planned().await;
        page.resize(DESK.0, DESK.1).await;

        // The coming days and what they come to, without scrolling.
        Places(&page).go(words::WEEK).await;
        let week = page.box_of(Role::Heading, words::LOOM).await;
        let days = page.find(Role::Link, words::CANT_MAKE_IT).await;
        let days = days.element.rectangle().await.expect("a box");
        assert!(week[0] > days.0 + days.2, "{week:?} lies beside {days:?}");
        assert!(week[3] < f64::from(DESK.1), "{week:?} is in sight");

        // Two days of the plan.
        Places(&page).go(words::PLAN).await;
        let first = page.box_of(Role::Heading, "1. ").await;
        let second = page.box_of(Role::Heading, "2. ").await;
        assert!((first[1] - second[1]).abs() < 1.0, "{first:?} {second:?}");
        assert!(first[2] <= second[0], "{first:?} {second:?}");

        // Every exercise of the session beside the set; one is taken from there.
        Places(&page).go(words::TODAY).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let all = page.until("the whole session beside the set", async || {
            let all = beside(&page).await;
            (all.len() == planned.len()).then_some(all)
        });
        let all = all.await;
        assert_eq!(gym.exercise().await, all[0]);
        page.tap(Role::Disclosure, &all[1]).await;
        page.tap(Role::Button, words::DO_NOW).await;
        page.until("the second exercise", async || {
            (gym.exercise().await == all[1]).then_some(())
        })
        .await;
        gym.log().await;
        page.until("the set beside it", async || {
            let script = "return document.querySelectorAll('aside summary')[1].innerText";
            let told = page.script(script, vec![]).await;
            told.as_str()?.contains('\u{d7}').then_some(())
        })
        .await;

        // A window that is made narrow is a phone's.
        page.resize(360, 740).await;
        page.until("the set alone", async || {
            beside(&page).await.is_empty().then_some(())
        })
        .await;
        gym.log().await;
        assert_eq!(gym.kept_sets().await.len(), 2);
    });
}
