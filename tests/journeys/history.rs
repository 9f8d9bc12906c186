//! Past sessions: put right with what they were beside it, found, and a year of them.

use weekloom_engine::session::{Session, SessionItem};
use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{Demo, FirstOpening, Gym, Places, Today};
use weekloom_tests::words;

async fn open_monday(page: &Page) {
    Places(page).go(words::LOG).await;
    page.tap(Role::Link, "Mon 2 Mar").await;
    page.find(Role::Heading, "Monday").await;
}

#[test]
fn a_past_session_is_put_right_and_says_what_it_was() {
    journey::run("history", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon"], "Some training", "kg")
            .await;
        let planned = Today(&page).planned().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let name = gym.exercise().await;
        // A slip of the thumb, and one set too many.
        for load in ["600", "60"] {
            if gym.exercise().await != name {
                gym.do_now(&name).await;
            }
            gym.type_load(load).await;
            gym.type_count("8").await;
            gym.log().await;
        }
        gym.finish_early().await;
        gym.leave().await;
        assert_eq!(planned[0].name, name);

        open_monday(&page).await;
        page.sees("600 kg").await;
        page.tap(Role::Disclosure, words::AMEND_SETS).await;
        page.tap(Role::Button, words::AMEND).await;
        page.type_into(words::LOAD, "57.5").await;
        page.tap(Role::Button, words::KEEP).await;
        let was = words::set_was(1, "600 kg \u{d7} 8", "2 Mar");
        page.sees(&was).await;
        page.sees("57.5").await;

        // Kept, with its trace.
        journey.reload(&page).await;
        page.sees(&was).await;
        page.sees("57.5").await;
        page.tap(Role::Disclosure, words::AMEND_SETS).await;
        let amend = page.all(Role::Button, words::AMEND).await;
        page.tap_control(&amend[1]).await;
        page.tap(Role::Button, words::REMOVE).await;
        page.sees(&words::set_taken_out(2, "60 kg \u{d7} 8", "2 Mar"))
            .await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(1, 1)).await;

        // A set that was never logged, and what was not said then.
        open_monday(&page).await;
        page.tap(Role::Disclosure, words::AMEND_SETS).await;
        page.tap(Role::Button, words::ADD_SET).await;
        page.type_into(words::REPS, "7").await;
        page.tap(Role::Button, words::KEEP).await;
        page.sees(&words::set_put_in(2, "2 Mar")).await;
        if !page.has(Role::Button, words::REMARKS).await {
            page.tap(Role::Disclosure, words::AMEND_SETS).await;
        }
        page.tap(Role::Button, words::REMARKS).await;
        page.tap(Role::Radio, words::HURTS_MILD).await;
        page.type_into(words::NOTE, "bar rolled").await;
        page.tap(Role::Button, words::KEEP).await;
        let was = words::remark_was("", words::HURTS_NOT, "2 Mar");
        page.sees(&was).await;
        journey.reload(&page).await;
        page.sees(&was).await;
        page.sees("bar rolled").await;
        page.sees("57.5 kg \u{d7} 8").await;
        Places(&page).go(words::LOG).await;
        page.sees(&words::totals(1, 2)).await;
        page.type_into(words::SEARCH_LOG, "rolled").await;
        page.sees("bar rolled").await;

        // The next session goes by what is right.
        let page = journey.days_later(7).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let last = gym.fact(words::LAST_TIME).await;
        assert!(last.contains("57.5") && !last.contains("600"), "{last}");
        gym.log().await;
        gym.finish_early().await;
        gym.leave().await;

        // A whole session leaves only when that was said twice.
        open_monday(&page).await;
        page.sees("bar rolled").await;
        page.tap(Role::Button, words::REMOVE_SESSION).await;
        page.tap(Role::Button, words::CANCEL).await;
        page.tap(Role::Button, words::REMOVE_SESSION).await;
        page.tap(Role::Button, words::REMOVE_SURE).await;
        page.sees(words::SESSION_REMOVED).await;
        page.sees(&words::totals(1, 1)).await;
        journey.reload(&page).await;
        page.misses("Mon 2 Mar").await;
    });
}

#[test]
fn the_log_is_searched_and_a_year_of_it_is_woven() {
    journey::run("a year", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Demo(&page).enter().await;
        let places = Places(&page);
        places.go(words::LOG).await;
        let sets = |session: &Session| session.items.iter().map(SessionItem::work_sets_done).sum();
        let logged: Vec<usize> = Demo(&page).log().await.iter().map(sets).collect();
        page.sees(&words::totals(logged.len(), logged.iter().sum()))
            .await;

        // By a note, by an exercise, and by what is nowhere.
        page.type_into(words::SEARCH_LOG, "PINCH").await;
        page.sees("Left shoulder, a pinch at the bottom.").await;
        page.misses("Back squat").await;
        page.type_into(words::SEARCH_LOG, "leg curl").await;
        page.sees("Sliding leg curl: ").await;
        page.misses("pinch").await;
        page.type_into(words::SEARCH_LOG, "harpoon").await;
        page.sees(&words::nothing_found("harpoon")).await;

        // No week stands in two years, and none is lost between them.
        page.tap(Role::Link, words::YEAR).await;
        page.find(Role::Heading, "2026").await;
        let this_year = woven(&page).await;
        page.tap(Role::Link, "2025").await;
        page.find(Role::Heading, "2025").await;
        let last_year = woven(&page).await;
        assert!(this_year > 0 && last_year > 0);
        assert_eq!(this_year + last_year, logged.iter().sum::<usize>());
        assert!(!page.has(Role::Link, "2024").await);
        let row = page.all(Role::Disclosure, "").await;
        page.tap_control(&row[0]).await;
        page.tap(Role::Link, "Wed 24 Dec 2025").await;
        page.find(Role::Heading, "Wednesday 24 Dec 2025").await;
    });
}

/// Work sets of every session of the demonstration.
/// Sets of all the rows of the year.
async fn woven(page: &Page) -> usize {
    let text = page.text().await;
    let sets = |line: &str| line.strip_suffix(" sets")?.parse::<usize>().ok();
    text.lines().filter_map(sets).sum()
}
