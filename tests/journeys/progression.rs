//! How a lift goes up is the trainee's to choose, and the choice outlives the plan.

use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Planned, Today};
use weekloom_tests::words;

/// Experience with double progression for every exercise.
const SOME_TRAINING: &str = "Some training";
/// What that comes to.
const USUAL: &str = "Reps, then load";
/// A rule that goes up on reps left, wherever in the goal the reps are.
const BY_EFFORT: &str = "By effort";

async fn open_rules(page: &Page, exercise: &str) {
    Places(page).go(words::PLAN).await;
    page.tap(Role::Link, exercise).await;
    page.find(Role::Radio, BY_EFFORT).await;
    page.sees(words::USUAL).await;
}

#[test]
fn a_rule_that_was_chosen_gives_the_next_load_and_says_so() {
    journey::run("choice of rule", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon"], SOME_TRAINING, "kg")
            .await;
        let planned = Today(&page).planned().await;
        let [lift, other] = [&planned[0], &planned[1]];
        open_rules(&page, &lift.name).await;
        assert!(page.is_chosen(Role::Radio, USUAL).await);
        page.tap(Role::Radio, BY_EFFORT).await;
        assert!(!page.is_chosen(Role::Radio, USUAL).await);

        // A new plan in which the exercise stays keeps it.
        Places(&page).go(words::PLAN).await;
        page.tap(Role::Link, words::SHAPE).await;
        page.tap(Role::Button, words::REWEAVE).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        journey.reload(&page).await;
        open_rules(&page, &lift.name).await;
        assert!(page.is_chosen(Role::Radio, BY_EFFORT).await);

        // The bottom of the goal with reps to spare: no evidence for the usual rule.
        Places(&page).go(words::TODAY).await;
        Today(&page).start().await;
        // They may come in turn.
        at_the_least(&page, [lift, other], Some("60")).await;

        let page = journey.days_later(7).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        assert_eq!(gym.exercise().await, lift.name);
        gym.why().await;
        page.sees("Up by").await;
        page.sees("every set left 4 reps or more").await;
        page.sees(&format!("{}: {BY_EFFORT}.", words::RULE)).await;

        // The reps left are no longer said: it goes by reps, and says so.
        at_the_least(&page, [lift, other], None).await;

        let page = journey.days_later(7).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        assert_eq!(gym.exercise().await, lift.name);
        gym.why().await;
        page.sees("No effort said, so it goes by reps. Same load, one more rep")
            .await;
    });
}

/// Does the least reps asked for in all sets of two exercises; at a load, with four reps
/// said to be left, or as suggested, with nothing said.
async fn at_the_least(page: &Page, [lift, other]: [&Planned; 2], load: Option<&str>) {
    let gym = Gym(page);
    for _ in 0..lift.sets + other.sets {
        let is_lift = gym.exercise().await == lift.name;
        let least = if is_lift { lift } else { other }.goal.0;
        if let Some(load) = load {
            gym.type_load(load).await;
        }
        gym.type_count(&least.to_string()).await;
        if load.is_some() {
            gym.left_in_me(4).await;
        }
        gym.log().await;
    }
    gym.finish_early().await;
    gym.leave().await;
}

/// Lifts the same as ever: the first exercise, and one set of the second.
async fn same_as_ever(page: &Page, sets: u16) {
    Today(page).start().await;
    let gym = Gym(page);
    for _ in 0..=sets {
        gym.type_load("40").await;
        gym.type_count("8").await;
        gym.left_in_me(2).await;
        gym.log().await;
    }
    gym.finish_early().await;
    gym.leave().await;
}

/// Whether a lighter week is proposed, once today has had the time to say so.
async fn is_proposed(page: &Page) -> bool {
    page.find(Role::Button, words::START).await;
    let settled = "const done = arguments[0];
        setTimeout(() => requestAnimationFrame(() => done(true)), 100);";
    let settled = page.client().execute_async(settled, vec![]).await;
    settled.expect("the page settles");
    page.has(Role::Heading, words::LIGHTER).await
}

#[test]
fn a_lighter_week_is_proposed_on_evidence_and_is_the_trainees_to_take() {
    journey::run("lighter week", async |journey| {
        let mut page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon"], SOME_TRAINING, "kg")
            .await;
        let planned = Today(&page).planned().await;
        let lift = &planned[0];
        for _ in 0..4 {
            assert!(!is_proposed(&page).await);
            same_as_ever(&page, lift.sets).await;
            page = journey.days_later(7).await;
        }
        // Four weeks, and nothing new in three.
        page.find(Role::Heading, words::LIGHTER).await;
        page.sees("Nothing new in three weeks").await;
        page.sees(&lift.name).await;
        page.tap(Role::Button, words::LIGHTER_NOT_NOW).await;
        journey.reload(&page).await;
        for _ in 0..2 {
            assert!(!is_proposed(&page).await, "not now holds for two weeks");
            same_as_ever(&page, lift.sets).await;
            page = journey.days_later(7).await;
        }
        page.find(Role::Heading, words::LIGHTER).await;
        page.tap(Role::Button, words::LIGHTER_TAKE).await;
        page.find(Role::Heading, "Lighter week, last day Sunday")
            .await;
        let lighter = Today(&page).planned().await;
        assert!(lighter[0].sets < lift.sets || lift.sets < 3);
        journey.reload(&page).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        page.sees(words::LIGHTER_SESSION).await;
        let aim = gym.fact(words::SUGGESTED).await;
        assert!(!aim.contains("40 kg"), "{aim}");
        gym.why().await;
        page.sees("A deload: about 90").await;
        gym.log().await;
        assert!(gym.kept().await.is_deload);
        gym.finish_early().await;
        gym.leave().await;

        // It ends by itself, and all goes on where it stood.
        page = journey.days_later(7).await;
        assert!(!is_proposed(&page).await);
        assert!(!page.has(Role::Heading, words::LIGHTER_SESSION).await);
        Today(&page).start().await;
        let gym = Gym(&page);
        assert_eq!(gym.exercise().await, lift.name);
        assert!(gym.fact(words::SUGGESTED).await.contains("40 kg"));
        assert!(!gym.kept().await.is_deload);
    });
}
