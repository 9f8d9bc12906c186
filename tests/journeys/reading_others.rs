//! Somebody else's log, read beside one's own: everything of it can be seen, nothing of
//! either can change.

use std::path::PathBuf;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::Catalogue;
use weekloom_store::demo::{self, Crew};
use weekloom_store::{MemoryShelf, Space, Store, backup};
use weekloom_tests::browser::Role;
use weekloom_tests::journey::{self, Journey};
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today};
use weekloom_tests::{others, words};

/// Long before the journeys' day, in the year before: a review up to today would find
/// nothing but missed sessions.
const MADE: &str = "2025-12-15";

/// The backup of one of the crew, as they would hand it over, and its sessions.
fn backup_of(journey: &Journey, member: Crew) -> (PathBuf, usize) {
    let made = Day::parse(MADE).expect("a day");
    let (mut store, _) = Store::open(MemoryShelf::new(), Space::Own, Vec::new());
    let catalogue = Catalogue::built_in();
    let changes = demo::changes(&store, &catalogue, member, made).expect("a log");
    let record = store.prepare(changes, weekloom_engine::calendar::Moment(0));
    store.commit(&record.expect("they fit"));
    let file = journey.folder().join(format!("{member:?}.json"));
    std::fs::write(&file, backup::export(&store, made).text).expect("a file");
    (file, store.sessions().len())
}

#[test]
fn the_log_of_another_is_read_and_nothing_of_either_changes() {
    journey::run("reading others", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        let (first, second) = (Crew::ALL[0], Crew::ALL[1]);
        let (file, sessions) = backup_of(journey, first);
        let (other_file, other_sessions) = backup_of(journey, second);
        assert_ne!(sessions, other_sessions);
        let places = Places(&page);
        Today(&page).start().await;
        Gym(&page).log().await;

        // Not in the middle of one's own session, and then nothing is kept.
        page.script("location.hash = '#/kit/others'", vec![]).await;
        page.sees(others::NOBODY).await;
        page.give_file(others::READ_THEIRS, &file).await;
        page.type_into(others::WHOSE, "Ines").await;
        page.tap(Role::Button, others::KEEP_AND_READ).await;
        page.sees(others::FINISH_FIRST_READ).await;
        page.sees(others::NOBODY).await;
        page.script("location.hash = '#/today'", vec![]).await;
        Gym(&page).finish_early().await;
        Gym(&page).leave().await;
        let mine = page.kept("weekloom").await;
        places.go_to_kit(others::OTHERS).await;
        page.sees(others::NOBODY).await;
        page.give_file(others::READ_THEIRS, &file).await;
        page.sees(&others::about("15 Dec 2025", sessions)).await;
        page.tap(Role::Button, others::KEEP_AND_READ).await;
        page.sees(others::NAME_FIRST).await;
        // A name is typed with letters: no keys for numbers.
        let keys = "return document.getElementById('whose').inputMode";
        assert_eq!(page.script(keys, vec![]).await, "");
        page.type_into(others::WHOSE, "Ines").await;
        page.tap(Role::Button, others::KEEP_AND_READ).await;

        // Their log, their days, their review; no way to train by it or to change it.
        page.sees(&format!("{sessions} sessions")).await;
        page.sees("You are reading Ines's log, as of Mon 15 Dec 2025")
            .await;
        assert!(!page.has(Role::Link, words::TODAY).await);
        page.tap(Role::Link, words::REVIEW).await;
        page.find(Role::Heading, words::REVIEW).await;
        page.find(Role::Heading, words::ROSE).await;
        page.misses(words::NEXT_BLOCK).await;
        page.tap(Role::Link, words::LOG).await;
        page.tap(Role::Link, words::BY_EXERCISE).await;
        page.tap(Role::Link, "Barbell row").await;
        page.find(Role::Heading, words::BESTS).await;
        page.tap(Role::Link, words::PLAN).await;
        page.find(Role::Heading, words::CHECKED_FOR_YOU).await;
        assert!(!page.has(Role::Link, words::SHAPE).await);
        page.tap(Role::Link, words::LOG).await;
        page.type_into(words::SEARCH_LOG, "row").await;
        page.sees("Barbell row: ").await;
        // The last session, whatever its day.
        let last = "document.querySelector('main .lines a[href^=\"#/log/0\"]').click()";
        page.script(last, vec![]).await;
        page.misses(words::SEARCH_LOG).await;
        page.sees("Barbell row").await;
        assert!(!page.has(Role::Button, words::REMOVE_SESSION).await);
        assert!(!page.has(Role::Disclosure, words::AMEND_SETS).await);
        // Places that one trains by lead back to their log.
        page.script("location.hash = '#/today'", vec![]).await;
        page.sees(&format!("{sessions} sessions")).await;
        assert!(!page.has(Role::Button, words::START).await);

        // Back to one's own, as it was.
        page.tap(Role::Button, others::BACK_TO_MINE).await;
        page.sees(&others::about("15 Dec 2025", sessions)).await;
        places.go(words::LOG).await;
        page.sees(&words::totals(1, 1)).await;
        assert_eq!(page.kept("weekloom").await, mine);

        // A second person, after a reload; both are found again.
        journey.reload(&page).await;
        places.go_to_kit(others::OTHERS).await;
        page.sees("Ines").await;
        page.give_file(others::READ_THEIRS, &other_file).await;
        page.type_into(others::WHOSE, "Quentin").await;
        page.tap(Role::Button, others::KEEP_AND_READ).await;
        page.sees("You are reading Quentin's log").await;
        page.sees(&format!("{other_sessions} sessions")).await;
        // A reload leads back to one's own.
        journey.reload(&page).await;
        page.sees(&words::totals(1, 1)).await;
        places.go_to_kit(others::OTHERS).await;
        page.sees("Quentin").await;
        let read = page.all(Role::Button, others::READ).await;
        assert_eq!(read.len(), 2, "Ines and Quentin, and nobody else");
        page.tap_control(&read[0]).await;
        page.sees("You are reading Ines's log").await;
        page.sees(&format!("{sessions} sessions")).await;
        page.tap(Role::Button, others::BACK_TO_MINE).await;

        // The same name gives way, and says so before.
        page.give_file(others::READ_THEIRS, &other_file).await;
        page.type_into(others::WHOSE, "Ines").await;
        page.sees(&others::gives_way("Ines")).await;
        page.tap(Role::Button, words::CANCEL).await;

        // No backup is kept of what is none.
        let broken = journey.folder().join("broken.json");
        std::fs::write(&broken, "{\"format\":\"weekloom-backup\"").expect("a file");
        page.give_file(others::READ_THEIRS, &broken).await;
        page.find(Role::Alert, "").await;

        // Removed once that is said twice.
        let forget = page.all(Role::Button, others::FORGET).await;
        page.tap_control(&forget[1]).await;
        page.tap(Role::Button, others::FORGET_SURE).await;
        page.misses("Quentin").await;
        page.sees("Ines").await;
        assert_eq!(page.kept("weekloom").await, mine);
    });
}
