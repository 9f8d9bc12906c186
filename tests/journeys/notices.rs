//! The platform says that a rest is over while another window is in front.

use serde_json::Value;
use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

/// The notices of this page that stand: title and text of each.
async fn notices(page: &Page) -> Vec<Value> {
    let ask = "const done = arguments[arguments.length - 1];
        navigator.serviceWorker.ready
            .then((worker) => worker.getNotifications())
            .then((notices) => done(notices.map((one) => [one.title, one.body])));";
    let found = page.client().execute_async(ask, vec![]).await;
    found
        .ok()
        .and_then(|found| found.as_array().cloned())
        .unwrap_or_default()
}

#[test]
fn a_notice_comes_only_when_wished_for_allowed_and_needed() {
    journey::run("notices", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Places(&page).go_to_kit(words::LOOKS).await;
        page.find(Role::Heading, words::LOOKS).await;

        // No browser gives every page notices: it is told, and the wish is not taken.
        let is_known = page.decide_on_notices(false).await;
        if !is_known {
            let is_here = page.has(Role::Checkbox, words::NOTICE).await;
            let said = match is_here {
                true => words::NOTICE_MORE,
                false => words::NOTICE_MISSING,
            };
            page.sees(said).await;
            return;
        }
        page.tap(Role::Checkbox, words::NOTICE).await;
        page.sees(words::NOTICE_REFUSED).await;
        assert!(!page.is_chosen(Role::Checkbox, words::NOTICE).await);

        assert!(page.decide_on_notices(true).await);
        page.tap(Role::Checkbox, words::NOTICE).await;
        page.sees(words::NOTICE_MORE).await;
        page.until("the wish to be taken", async || {
            page.is_chosen(Role::Checkbox, words::NOTICE)
                .await
                .then_some(())
        })
        .await;

        Places(&page).go(words::TODAY).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        let next = gym.exercise().await;
        let mut rest = gym.resting().await;
        while rest.left_s > 18 {
            page.tap(Role::Button, words::LESS_REST).await;
            rest = gym.resting().await;
        }
        // Another window comes in front. From there the notices can be asked for.
        let client = page.client().clone();
        let first = client.window().await.expect("a window");
        let numbers = client.current_url().await.expect("an address");
        let numbers = numbers.join(words::NUMBERS_AT).expect("an address");
        let other = client.new_window(true).await.expect("another").handle;
        client.switch_to_window(other).await.expect("in front");
        client.goto(numbers.as_str()).await.expect("it loads");
        let shown = page
            .until("the notice", async || {
                let shown = notices(&page).await;
                (!shown.is_empty()).then_some(shown)
            })
            .await;
        assert_eq!(shown.len(), 1, "{shown:?}");
        assert_eq!(shown[0][0], words::REST_OVER);
        assert_eq!(shown[0][1], next.as_str());

        // Whoever comes back knows.
        client.switch_to_window(first).await.expect("in front");
        page.until("the notice to go", async || {
            notices(&page).await.is_empty().then_some(())
        })
        .await;
        gym.log().await;
    });
}
