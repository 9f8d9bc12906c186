//! The next week knows the last one, and asks for more only where it was earned.

use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Today};
use weekloom_tests::words;

/// Experience with double progression for every exercise.
const SOME_TRAINING: &str = "Some training";

#[test]
fn the_second_week_raises_what_was_earned_and_says_why() {
    journey::run("second week", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon"], SOME_TRAINING, "kg")
            .await;
        let planned = Today(&page).planned().await;
        let [earned, held] = [&planned[0], &planned[1]];
        Today(&page).start().await;
        let gym = Gym(&page);

        assert_eq!(gym.exercise().await, earned.name);
        assert!(gym.fact(words::LAST_TIME).await.starts_with(words::NEVER));
        // The first exercise at the top of its goal with reps to spare, the second at the
        // bottom of its goal. They may come in turn.
        for _ in 0..earned.sets + held.sets {
            let (load, count) = if gym.exercise().await == earned.name {
                ("60", earned.goal.1)
            } else {
                assert_eq!(gym.exercise().await, held.name);
                ("40", held.goal.0)
            };
            gym.type_load(load).await;
            gym.type_count(&count.to_string()).await;
            gym.left_in_me(3).await;
            gym.log().await;
        }
        gym.finish_early().await;
        page.sees(words::WEEK_SO_FAR).await;
        page.misses(words::MORE_THAN_LAST).await;
        gym.leave().await;

        let page = journey.days_later(7).await;
        let gym = Gym(&page);
        Today(&page).start().await;
        assert_eq!(gym.exercise().await, earned.name);
        let last = gym.fact(words::LAST_TIME).await;
        assert!(
            last.contains("60 kg") && last.contains("7 days ago"),
            "{last}"
        );
        let aim = gym.fact(words::SUGGESTED).await;
        let load = load_in(&aim);
        assert!(load > 60.0 && load <= 66.0, "more, but no leap: {aim}");
        gym.why().await;
        page.sees("Up by").await;
        page.sees("all sets reached the top of the range").await;
        // The suggestion is what the button logs.
        assert!(gym.is_why_open().await);
        gym.log().await;
        assert!(
            !gym.is_why_open().await,
            "asked of one set, not of the next"
        );
        let logged = gym.kept_sets().await[0];
        assert_eq!(logged.load.grams() as f64, load * 1000.0);
        assert_eq!(logged.count, earned.goal.0);

        while gym.exercise().await == earned.name {
            gym.log().await;
        }
        assert_eq!(gym.exercise().await, held.name);
        assert_eq!(load_in(&gym.fact(words::SUGGESTED).await), 40.0);
        gym.why().await;
        page.sees("one more rep than last time").await;

        // The account says what rose, and only that.
        gym.finish_early().await;
        page.sees(words::MORE_THAN_LAST).await;
        let account = page.text().await.replace('\u{a0}', " ");
        let rise = account
            .lines()
            .find(|line| line.contains(", now "))
            .expect("what rose");
        assert!(rise.starts_with("60 kg"), "{rise}");
        let now = rise.rsplit("now ").next().unwrap_or_default();
        assert_eq!(load_in(now), load, "{rise}");
        assert_eq!(account.matches(", now ").count(), 1);
    });
}

/// The last number of kilograms in a text such as "2 × 62.5 kg × 8".
fn load_in(text: &str) -> f64 {
    let before = text.split(" kg").next().unwrap_or_default();
    let number = before
        .rsplit(|c: char| !c.is_ascii_digit() && c != '.')
        .next();
    number
        .and_then(|number| number.parse().ok())
        .unwrap_or_else(|| panic!("no load in '{text}'"))
}
