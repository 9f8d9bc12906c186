//! The rack is taken, or time runs out: the order and the extent of a session change
//! while it runs.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Today};
use weekloom_tests::words;

#[test]
fn the_order_changes_and_two_exercises_go_in_turn() {
    journey::run("busy rack", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let taken = gym.exercise().await;

        // Later: the next one comes up in its place.
        let sheet = gym.whole().await;
        sheet.unfold(&taken).await;
        page.tap(Role::Button, words::DO_LATER).await;
        sheet.close().await;
        let up = gym.exercise().await;
        assert_ne!(up, taken);
        let kept = gym.kept().await;
        assert_eq!(kept.current, Some(0));

        // In turn with another: after a set of the one comes a set of the other.
        let sheet = gym.whole().await;
        sheet.unfold(&up).await;
        let offer = words::in_turn_with("");
        let offered = page.all(Role::Button, &offer).await;
        let partner = offered.first().expect("a partner without a shared muscle");
        let text = partner.element.text().await.expect("its name");
        let name = text.replacen(&offer, "", 1);
        page.tap(Role::Button, &words::in_turn_with(&name)).await;
        page.until("a pair", async || {
            let session = gym.kept().await;
            (session.items[0].superset.is_some()
                && session.items[0].superset == session.items[1].superset)
                .then_some(())
        })
        .await;
        sheet.close().await;
        gym.log().await;
        assert_eq!(gym.exercise().await, name);
        gym.log().await;
        assert_eq!(gym.exercise().await, up);

        // On its own again, and no set is lost by any of it.
        let sheet = gym.whole().await;
        sheet.unfold(&up).await;
        page.tap(Role::Button, words::UNPAIR).await;
        page.until("no pair", async || {
            let session = gym.kept().await;
            session
                .items
                .iter()
                .all(|i| i.superset.is_none())
                .then_some(())
        })
        .await;
        sheet.close().await;
        assert_eq!(gym.progress().await.0, 2);
        assert_eq!(gym.kept_sets().await.len(), 2);
    });
}

#[test]
fn out_of_time_keeps_what_is_worth_most_and_says_what_goes() {
    journey::run("short of time", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        let (_, of) = gym.progress().await;

        gym.whole().await;
        page.tap(Role::Button, words::SHORT_OF_TIME).await;
        // More than enough: nothing to accept.
        page.type_into(words::MINUTES_LEFT, "90\n").await;
        page.sees("nothing has to go").await;
        assert!(!page.has(Role::Button, words::SHORT_ACCEPT).await);
        // Nonsense is refused in words. A field that is left and tapped again is typed anew.
        let leave = "document.activeElement.blur()";
        page.script(leave, vec![]).await;
        page.type_into(words::MINUTES_LEFT, "soon\n").await;
        page.sees("is not a number").await;

        page.script(leave, vec![]).await;
        page.type_into(words::MINUTES_LEFT, "12\n").await;
        page.sees("What is worth most takes").await;
        page.sees("left out").await;
        page.tap(Role::Button, words::SHORT_ACCEPT).await;
        let shorter = page
            .until("a shorter session", async || {
                let (done, now) = gym.progress().await;
                (done == 1 && now > 1 && now < of).then_some((done, now))
            })
            .await;
        gym.is_saved(shorter).await;
        let left: usize = {
            let session = gym.kept().await;
            session.items.iter().map(|i| i.work_sets_left()).sum()
        };
        // A set with its rest takes more than a minute.
        assert!((1..=12).contains(&left), "{left} sets in 12 minutes");

        gym.log().await;
        assert_eq!(gym.kept_sets().await.len(), 2);
    });
}
