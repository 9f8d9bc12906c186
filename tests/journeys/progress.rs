//! An exercise over time and the weeks by muscle, against what stands in the log.

use std::collections::BTreeMap;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::{Catalogue, Muscle};
use weekloom_engine::log::SetKind;
use weekloom_engine::session::Session;
use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{Demo, FirstOpening, Places};
use weekloom_tests::words;

const ROW: &str = "barbell-row";

#[test]
fn an_exercise_and_the_weeks_show_what_the_log_holds() {
    journey::run("progress", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Demo(&page).enter().await;
        let places = Places(&page);
        places.go(words::LOG).await;
        page.sees("33 sessions").await;
        let log = Demo(&page).log().await;

        page.tap(Role::Link, words::BY_EXERCISE).await;
        page.find(Role::Heading, words::BY_EXERCISE).await;
        page.tap(Role::Link, "Barbell row").await;
        page.find(Role::Heading, "Barbell row").await;
        let days = sets_of(&log, ROW);
        // As many rows behind the picture as days, and the heaviest set first among
        // the bests of its number of reps.
        let rows = "return document.querySelectorAll('main details tbody tr').length";
        assert_eq!(page.script(rows, vec![]).await, days.len());
        page.find(Role::Heading, words::BESTS).await;
        let heaviest = days.values().flatten().max().expect("a set");
        let best = format!("{} kg \u{d7} {}", heaviest.0 / 1000, heaviest.1);
        page.sees(&best).await;
        page.sees("more than scatter").await;
        // A point for each day outside the lighter week.
        let lighter = log.iter().filter(|s| s.is_deload && has(s, ROW)).count();
        let points = "return document.querySelectorAll('svg.chart circle').length";
        assert_eq!(page.script(points, vec![]).await, days.len() - lighter);
        // The trend between the edges of its band, at each of these days; and the same in
        // the table, below the level of the day.
        page.sees("Trend now: ").await;
        let corners = "return [...document.querySelectorAll('svg.chart path')]
            .map((path) => path.getAttribute('d').split(/[ML]/).length - 1)";
        let each = days.len() - lighter;
        let corners = page.script(corners, vec![]).await;
        assert_eq!(corners, serde_json::json!([each, each, each]));
        let bands = "return [...document.querySelectorAll('main details tbody tr')]
            .filter((row) => /^\\d[\\d.]*\u{2013}\\d[\\d.]*\\skg$/.test(row.cells[2].querySelector('div')?.textContent ?? '')).length";
        assert_eq!(page.script(bands, vec![]).await, each);

        // The picture stands alone: no class, no style of the page.
        page.tap(Role::Button, words::SAVE_PICTURE).await;
        let file = journey.next_download(&page).await;
        let picture = std::fs::read_to_string(file).expect("the picture");
        assert!(picture.starts_with("<svg") && picture.contains("xmlns="));
        assert!(picture.contains("fill=\"rgb"), "{picture}");
        assert!(picture.contains("Barbell row. Estimated 1RM"), "{picture}");
        assert!(picture.contains("</title>"), "{picture}");
        assert!(
            picture.contains("Barbell row \u{b7} Estimated 1RM"),
            "{picture}"
        );
        assert!(!picture.contains("class=") && !picture.contains("var("));

        // Four weeks are too few to tell.
        page.tap(Role::Radio, words::FOUR_WEEKS).await;
        page.sees(words::NOT_ENOUGH).await;

        places.go(words::LOG).await;
        page.tap(Role::Link, words::BY_MUSCLE).await;
        page.find(Role::Heading, "Chest").await;
        let chest = chest_by_week(&log);
        let told = page
            .script(
                "const card = [...document.querySelectorAll('main section')]
                    .find((s) => s.querySelector('h2').textContent === 'Chest');
                card.querySelector('details').open = true;
                return [...card.querySelectorAll('tbody tr')].map((row) => [row.cells[1].textContent, row.cells[2].textContent])",
                vec![],
            )
            .await;
        let told: Vec<(String, String)> = serde_json::from_value(told).expect("cells");
        let (told, planned): (Vec<String>, Vec<String>) = told.into_iter().unzip();
        let mut expected: Vec<String> = chest.values().rev().map(half_sets).collect();
        // The week that has just begun.
        expected.insert(0, "0".to_owned());
        assert_eq!(told, expected);
        // Whole weeks of the plan ask for the same, lighter and older ones for less.
        assert_eq!(planned.len(), told.len());
        assert!(
            planned[0] != "0" && planned.iter().any(|sets| *sets != planned[0]),
            "{planned:?}"
        );

        // Its picture is a file too, with its name above it; and so is all there is.
        page.tap(Role::Radio, words::EVERYTHING).await;
        page.find(Role::Heading, "Chest").await;
        page.script(
            "[...document.querySelectorAll('main section')]
                .find((s) => s.querySelector('h2').textContent === 'Chest')
                .querySelector('details').open = true",
            vec![],
        )
        .await;
        page.tap(Role::Button, words::SAVE_PICTURE).await;
        let file = journey.next_download(&page).await;
        let picture = std::fs::read_to_string(file).expect("the picture");
        assert!(picture.contains("Chest: sets by week"), "{picture}");
        assert!(picture.matches("<rect").count() > 10, "{picture}");

        places.go(words::LOG).await;
        page.tap(Role::Link, words::BODY_WEIGHT).await;
        page.tap(Role::Button, words::SAVE_PICTURE).await;
        let file = journey.next_download(&page).await;
        let picture = std::fs::read_to_string(file).expect("the picture");
        assert!(picture.contains(words::BODY_WEIGHT), "{picture}");
        assert!(picture.contains("<circle"), "{picture}");
    });
}

fn has(session: &Session, exercise: &str) -> bool {
    let mut items = session.items.iter();
    items.any(|i| i.prescription.exercise.as_str() == exercise && i.work_sets_done() > 0)
}

/// Grams and reps of the work sets of each day.
fn sets_of(log: &[Session], exercise: &str) -> BTreeMap<Day, Vec<(i64, u16)>> {
    let mut days = BTreeMap::new();
    for session in log.iter().filter(|session| has(session, exercise)) {
        let items = session.items.iter();
        let sets = items
            .filter(|item| item.prescription.exercise.as_str() == exercise)
            .flat_map(|item| &item.sets)
            .filter(|set| set.kind == SetKind::Work)
            .map(|set| (set.load.grams(), set.count));
        days.insert(session.day, sets.collect());
    }
    days
}

/// Half sets of the chest in each week that was trained.
fn chest_by_week(log: &[Session]) -> BTreeMap<Day, usize> {
    let catalogue = Catalogue::built_in();
    let mut weeks = BTreeMap::new();
    for session in log {
        let mut half = 0;
        for item in &session.items {
            let exercise = catalogue.get(&item.prescription.exercise).expect("known");
            if exercise.prime.contains(&Muscle::Chest) {
                half += 2 * item.work_sets_done();
            } else if exercise.assist.contains(&Muscle::Chest) {
                half += item.work_sets_done();
            }
        }
        *weeks.entry(session.day.monday()).or_default() += half;
    }
    weeks
}

fn half_sets(half: &usize) -> String {
    let rest = if half % 2 == 1 { "\u{bd}" } else { "" };
    format!("{}{rest}", half / 2)
}
