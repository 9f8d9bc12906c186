//! What the last weeks show, over the demonstration's logs and over too few of one's own.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{Demo, FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

#[test]
fn the_last_weeks_are_looked_through_and_too_few_say_so() {
    journey::run("looking back", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.finish_early().await;
        gym.leave().await;

        // One session: nothing can be told, and nothing is.
        let places = Places(&page);
        places.go(words::LOG).await;
        page.tap(Role::Link, words::REVIEW).await;
        page.find(Role::Heading, words::REVIEW).await;
        page.sees(words::NOT_ENOUGH).await;
        page.sees(&words::sets_done_of(1, 19)).await;
        page.misses(words::ROSE).await;

        // Nothing is proposed, but weeks with an end can begin all the same; the
        // last of them asks for the lighter one.
        page.tap(Role::Link, words::NEXT_BLOCK).await;
        page.find(Role::Heading, words::WHAT_CHANGES).await;
        page.sees(words::NOT_ENOUGH).await;
        page.misses(words::NO_CHANGE).await;
        page.sees(words::WEEK_STAYS).await;
        page.tap(Role::Button, words::BEGIN_BLOCK).await;
        page.sees(&words::week_of(1, 6)).await;
        let page = journey.days_later(30).await;
        page.find(Role::Button, words::START).await;
        page.misses(words::LIGHTER_MORE).await;
        page.misses(words::BLOCK_ENDED_MORE).await;
        let page = journey.days_later(5).await;
        page.sees(words::LIGHTER_IN_BLOCK).await;
        page.find(Role::Button, words::LIGHTER_TAKE).await;
        // The days of it say so, and what is left in them once it is taken.
        let places = Places(&page);
        places.go(words::WEEK).await;
        page.sees(words::LIGHTER_PLANNED).await;
        places.go(words::TODAY).await;
        page.tap(Role::Button, words::LIGHTER_TAKE).await;
        places.go(words::WEEK).await;
        page.sees(words::LIGHTER_SESSION).await;
        page.misses(words::LIGHTER_PLANNED).await;
        places.go(words::LOG).await;
        page.tap(Role::Link, words::REVIEW).await;
        page.sees(&words::week_of(6, 6)).await;
        let page = journey.days_later(7).await;
        // Said on Today, for a month, with the way to what it showed.
        page.find(Role::Heading, "Your block ended Sun 12 Apr")
            .await;
        page.tap(Role::Link, words::REVIEW).await;
        page.find(Role::Heading, words::REVIEW).await;
        let places = Places(&page);
        places.go(words::LOG).await;
        page.sees("Your block ended Sun 12 Apr").await;
        let page = journey.days_later(28).await;
        page.find(Role::Button, words::START).await;
        page.misses(words::BLOCK_ENDED_MORE).await;
        let places = Places(&page);

        // Twelve weeks of the crew's: something rose, and says by how much.
        Demo(&page).enter().await;
        places.go(words::LOG).await;
        page.tap(Role::Link, words::REVIEW).await;
        page.find(Role::Heading, words::ROSE).await;
        page.sees("could be scatter").await;
        page.misses(words::NOT_ENOUGH).await;
        page.find(Role::Heading, words::SETS_BY_MUSCLE).await;

        page.tap(Role::Link, words::NEXT_BLOCK).await;
        page.find(Role::Heading, words::WHAT_CHANGES).await;
        // A shoulder that hurt asks for fewer sets, and the week says what comes
        // of it; left out, nothing does.
        let text = page.text().await;
        let fewer: Vec<&str> = text
            .lines()
            .filter(|line| line.contains(" sets instead of "))
            .collect();
        assert!(!fewer.is_empty(), "{text}");
        let chest = |text: &str| numbers(text.lines().find(|line| line.starts_with("chest")));
        let went = |line: &&str| {
            let [to, from] = numbers(Some(line))[..2] else {
                panic!("two numbers: {line}");
            };
            from - to
        };
        let [now, then] = chest(&text)[..] else {
            panic!("now and then: {text}");
        };
        assert_eq!(now - then, fewer.iter().map(went).sum::<i32>());
        for line in &fewer {
            page.tap(Role::Checkbox, line).await;
        }
        page.sees(words::WEEK_STAYS).await;
        page.tap(Role::Checkbox, fewer[0]).await;
        page.misses(words::WEEK_STAYS).await;
        page.tap(Role::Button, words::BEGIN_BLOCK).await;
        page.sees(&words::week_of(1, 6)).await;
        // Only what was left on is in the plan now, after a reload too.
        journey.reload(&page).await;
        page.sees(&words::week_of(1, 6)).await;
        page.tap(Role::Link, words::NEXT_BLOCK).await;
        page.find(Role::Heading, words::WHAT_CHANGES).await;
        let text = page.text().await;
        assert!(!text.contains(fewer[0]), "{text}");
        assert!(fewer[1..].iter().all(|line| text.contains(line)), "{text}");
    });
}

/// The whole numbers in a line.
fn numbers(line: Option<&str>) -> Vec<i32> {
    let parts = line
        .unwrap_or_default()
        .split(|c: char| !c.is_ascii_digit());
    parts.filter_map(|part| part.parse().ok()).collect()
}
