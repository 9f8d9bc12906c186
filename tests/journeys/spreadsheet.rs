//! Somebody's spreadsheet into the log: guessed, corrected, looked at, and only then kept.

use serde_json::json;
use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, YourData};
use weekloom_tests::words;

/// As a German spreadsheet writes it: semicolons, decimal commas, days before months.
const SHEET: &str = "Datum;\u{dc}bung;Gewicht (kg);Wdh;Bemerkung\r\n\
    14.01.2026;Back squat;82,5;5;\r\n\
    14.01.2026;Back squat;82,5;5;ging gut\r\n\
    14.01.2026;Walschulter heben;40;12;\r\n\
    16.01.2026;Barbell row;50;8;\r\n\
    16.01.2026;Barbell row;50;viele;\r\n\
    nie;Barbell row;50;8;\r\n";

#[test]
fn a_spreadsheet_is_looked_through_and_brought_in_once() {
    journey::run("spreadsheet", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        let file = journey.folder().join("bergstation.csv");
        std::fs::write(&file, SHEET).expect("the file is written");
        choose(&page, &file).await;

        // Columns by their heads, one name that is nothing known.
        page.find(Role::Heading, words::SHEET_COLUMNS).await;
        let columns = selected(&page, "column").await;
        assert_eq!(columns, ["day", "exercise", "load", "reps", "note"]);
        let names = selected(&page, "name").await;
        assert_eq!(names, ["is back-squat", "out", "is barbell-row"]);
        page.sees("2 new sessions, 3 sets").await;
        page.sees("From Wed 14 Jan to Fri 16 Jan").await;
        page.tap(Role::Disclosure, "3 rows need a look").await;
        page.sees("Line 4: left out, as you chose.").await;
        page.sees("Line 6: left out, \u{201c}viele\u{201d} is no number")
            .await;
        page.sees("Line 7: left out, \u{201c}nie\u{201d} is no day.")
            .await;

        // A new exercise in the likeness of another.
        choose_in(&page, "name-1", "like ").await;
        page.sees("2 new sessions, 4 sets").await;
        page.sees("1 new exercise of your own").await;
        // A column that is not what its head says leaves too little.
        choose_in(&page, "column-3", "other").await;
        page.sees(words::COLUMNS_LACK).await;
        page.misses(words::TAKE_SHEET).await;
        choose_in(&page, "column-3", "reps").await;
        page.find(Role::Button, words::TAKE_SHEET).await;
        assert!(page.kept("weekloom.session.").await.is_empty());

        page.tap(Role::Button, words::TAKE_SHEET).await;
        page.sees(&words::totals(2, 4)).await;
        journey.reload(&page).await;
        page.tap(Role::Link, "Wed 14 Jan").await;
        page.sees("82.5 kg \u{d7} 5, 5").await;
        page.sees("ging gut").await;
        page.sees("Walschulter heben").await;

        // The same file brings nothing twice.
        choose(&page, &file).await;
        page.sees("No session that the log does not have.").await;
        page.misses(words::TAKE_SHEET).await;

        // What is no table says so.
        let other = journey.folder().join("nothing.csv");
        std::fs::write(&other, "\n\n").expect("the file is written");
        page.give_file(words::CHOOSE_SHEET, &other).await;
        page.sees("The file is empty; choose another.").await;
    });
}

async fn choose(page: &Page, file: &std::path::Path) {
    YourData(page).open().await;
    page.tap(Role::Link, words::SPREADSHEET).await;
    page.find(Role::Heading, words::SPREADSHEET).await;
    page.give_file(words::CHOOSE_SHEET, file).await;
}

/// What is chosen in the lists whose ids begin so.
async fn selected(page: &Page, which: &str) -> Vec<String> {
    let script =
        "return [...document.querySelectorAll(`select[id^=${arguments[0]}-]`)].map((s) => s.value)";
    let found = page.script(script, vec![json!(which)]).await;
    serde_json::from_value(found).expect("values")
}

/// Chooses the first entry of a list whose value begins so.
async fn choose_in(page: &Page, id: &str, begins: &str) {
    let script = "const list = document.getElementById(arguments[0]);
        list.value = [...list.options].find((o) => o.value.startsWith(arguments[1])).value;
        list.dispatchEvent(new Event('change', { bubbles: true }))";
    page.script(script, vec![json!(id), json!(begins)]).await;
}
