//! The files for other programs, read back by readers that are not ours.

use std::fs;

use icalendar::parser::{read_calendar, unfold};
use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Today, YourData};
use weekloom_tests::words;

#[test]
fn all_sets_and_the_coming_sessions_leave_as_files() {
    journey::run("taking along", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        let data = YourData(&page);
        data.open().await;
        // Nothing to write down yet: it says so, and makes no file.
        page.tap(Role::Button, words::SETS_AS_SHEET).await;
        page.sees(words::NO_SETS_YET).await;

        page.tap(Role::Button, words::SESSIONS_AS_CALENDAR).await;
        let file = journey.next_download(&page).await;
        let text = fs::read_to_string(&file).expect("the calendar is text");
        let unfolded = unfold(&text);
        let calendar = read_calendar(&unfolded).expect("a calendar");
        let days: Vec<String> = calendar
            .components
            .iter()
            .filter(|component| component.name == "VEVENT")
            .map(|event| event.find_prop("DTSTART").expect("a day").val.to_string())
            .collect();
        // Three sessions a week by default, the first of them today or soon.
        assert!((11..=13).contains(&days.len()), "{days:?}");
        assert!(days.windows(2).all(|pair| pair[0] < pair[1]), "{days:?}");

        page.tap(Role::Link, words::TODAY).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let exercise = gym.exercise().await;
        gym.left_in_me(2).await;
        gym.log().await;
        gym.log().await;
        gym.more().await;
        page.type_into(words::NOTE, "=grip, \"wide\" \u{fc}").await;
        page.tap(Role::Button, words::FINISH_EARLY).await;
        page.find(Role::Heading, words::SESSION_DONE).await;
        gym.leave().await;

        data.open().await;
        page.tap(Role::Button, words::SETS_AS_SHEET).await;
        let file = journey.next_download(&page).await;
        let text = fs::read_to_string(&file).expect("the table is text");
        let text = text.trim_start_matches('\u{feff}');
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let head = reader.headers().expect("a head").clone();
        assert_eq!(head, weekloom_store::sheet::COLUMNS.to_vec());
        let rows: Vec<csv::StringRecord> =
            reader.records().map(|row| row.expect("a row")).collect();
        assert_eq!(rows.len(), 2);
        let cell = |row: usize, name: &str| {
            let at = head.iter().position(|column| column == name);
            rows[row][at.expect("a column")].to_owned()
        };
        assert_eq!(cell(0, "exercise"), exercise);
        assert_eq!((cell(0, "set"), cell(1, "set")), ("1".into(), "2".into()));
        assert_eq!(cell(0, "rir"), "2");
        // A spreadsheet must not take the note for a formula.
        assert_eq!(cell(0, "note"), "'=grip, \"wide\" \u{fc}");
    });
}
