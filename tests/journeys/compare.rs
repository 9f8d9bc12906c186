//! The week beside another split: the figures, both looms, and an honest word.

use serde_json::Value;
use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Places};
use weekloom_tests::words;

#[test]
fn the_week_stands_beside_another_split_at_equal_sets() {
    journey::run("compare", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon", "Wed", "Fri"], "Some training", "kg")
            .await;
        Places(&page).go(words::PLAN).await;
        page.tap(Role::Link, words::COMPARE).await;
        page.find(Role::Heading, words::COMPARE).await;
        // Neither is sold as the better one.
        page.sees("neither is known to be better").await;
        page.find(Role::Heading, "Push / pull / legs").await;
        page.find(Role::Heading, words::IN_FIGURES).await;
        let script = "return [...document.querySelectorAll('main section > table tbody tr')]
            .map((row) => [...row.children].map((cell) => cell.innerText))";
        let rows = page.script(script, vec![]).await;
        let rows: Vec<Vec<String>> = serde_json::from_value(rows).expect("rows of words");
        let of = |what: &str| {
            let row = rows.iter().find(|row| row[0].contains(what));
            let row = row.unwrap_or_else(|| panic!("no row of '{what}' in {rows:?}"));
            [1, 2].map(|at| {
                let number = row[at].split(' ').next().unwrap_or_default();
                number.parse::<f64>().expect("a number first")
            })
        };
        // A full body week against one with each muscle once.
        let [spread, once] = of("Days a week");
        assert!(spread > once, "{spread} {once}");
        for what in ["Reps lost", "Longest wait"] {
            let [spread, once] = of(what);
            assert!(spread < once, "{what}: {spread} {once}");
        }
        // Two pictures, each with its numbers behind it.
        let looms = "return document.querySelectorAll('.loom svg').length";
        assert_eq!(page.script(looms, vec![]).await, Value::from(2));
        page.tap(Role::Disclosure, words::LOOM_TABLE).await;
        page.sees(words::ON_DAYS).await;
        Places(&page).go(words::PLAN).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
    });
}
