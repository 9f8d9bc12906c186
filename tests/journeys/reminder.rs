//! A word on the backup file after a month of training without one.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Today, YourData};
use weekloom_tests::words;

#[test]
fn a_backup_is_spoken_of_after_twelve_sessions_and_not_after_it_was_taken() {
    journey::run("reminder", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        // Ten days of somebody's spreadsheet.
        let mut sheet = "date,exercise,load,reps\n".to_owned();
        for day in 1..=10 {
            sheet += &format!("2026-02-{day:02},Back squat,80,5\n");
        }
        let file = journey.folder().join("log.csv");
        std::fs::write(&file, sheet).expect("the file is written");
        YourData(&page).open().await;
        page.tap(Role::Link, words::SPREADSHEET).await;
        page.give_file(words::CHOOSE_SHEET, &file).await;
        page.tap(Role::Button, words::TAKE_SHEET).await;
        page.sees(&words::totals(10, 10)).await;

        let page = journey.days_later(0).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.finish_early().await;
        page.find(Role::Heading, words::WEEK_SO_FAR).await;
        page.misses(words::UNSAVED_MORE).await;
        gym.leave().await;

        // The twelfth.
        let page = journey.days_later(2).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        page.misses(words::UNSAVED_MORE).await;
        gym.log().await;
        gym.finish_early().await;
        page.find(Role::Heading, &words::unsaved(12)).await;
        page.tap(Role::Button, words::BACKUP_OUT).await;
        journey.next_download(&page).await;
        page.misses(words::UNSAVED_MORE).await;
    });
}
