//! The app is open twice.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Today};
use weekloom_tests::words;

#[test]
fn a_second_window_follows_and_takes_over_when_the_first_goes() {
    journey::run("two windows", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        let client = page.client().clone();
        let first = client.window().await.expect("a window");
        let before = page.kept("").await;

        let second = client
            .new_window(true)
            .await
            .expect("a second window")
            .handle;
        client
            .switch_to_window(second.clone())
            .await
            .expect("it comes to the front");
        journey.prepare(&page).await;
        journey.enter(&page).await;
        page.find(Role::Alert, words::OTHER_WINDOW).await;
        let (done, of) = gym.progress().await;
        assert_eq!(done, 1);
        // Whatever is tried here, nothing is damaged, and nothing is claimed as saved.
        if page.has(Role::Button, "Log ").await {
            gym.tap_log().await;
            page.find(Role::Alert, words::OTHER_WINDOW).await;
            assert!(!page.has(Role::Status, words::SAVED).await);
        }
        assert_eq!(page.kept("").await, before);

        client
            .switch_to_window(first.clone())
            .await
            .expect("it comes to the front");
        gym.log().await;
        assert_eq!(gym.progress().await, (2, of));
        journey.listen().await;

        client
            .switch_to_window(second.clone())
            .await
            .expect("it comes to the front");
        page.until("the first window's set in the second", async || {
            (gym.progress().await == (2, of)).then_some(())
        })
        .await;
        page.find(Role::Alert, words::OTHER_WINDOW).await;

        client
            .switch_to_window(first)
            .await
            .expect("it comes to the front");
        client.close_window().await.expect("it closes");

        client
            .switch_to_window(second)
            .await
            .expect("it comes to the front");
        page.misses(words::OTHER_WINDOW).await;
        page.until("both sets in the second window", async || {
            (gym.progress().await == (2, of)).then_some(())
        })
        .await;
        gym.log().await;
        assert_eq!(gym.progress().await, (3, of));
    });
}
