//! The plan edited by hand: undone and redone over several steps and a reload, mended by
//! one tap, and never lost between being seen and being kept.

use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Places, Today};
use weekloom_tests::words;

/// The plan's days as they stand on the screen.
async fn days(page: &Page) -> String {
    let script = "return [...document.querySelectorAll('ol.lines')].map((e) => e.innerText).join('\\n--\\n')";
    let found = page.script(script, vec![]).await;
    found.as_str().unwrap_or_default().to_owned()
}

async fn to_plan(page: &Page) {
    Places(page).go(words::PLAN).await;
    page.find(Role::Heading, words::YOUR_WEEK).await;
}

/// Opens the first exercise of the plan; its name.
async fn open_first(page: &Page) -> String {
    to_plan(page).await;
    let script = "const line = document.querySelector('ol.lines a'); line.click();
        return line.querySelector('.line__name').innerText";
    let name = page.script(script, vec![]).await;
    page.find(Role::Textbox, words::SETS).await;
    name.as_str().expect("a name").to_owned()
}

async fn back(page: &Page, name: &str) {
    let name = format!("{}: {name}", words::UNDO);
    page.tap(Role::Button, &name).await;
}

/// Waits until the plan kept holds as many exercises as the one shown.
async fn is_kept(page: &Page, shown: &str) {
    let count = shown.matches('\u{203a}').count();
    page.until("the plan to be kept", async || {
        let kept = page.kept("weekloom.plan").await;
        let text = kept.get("weekloom.plan")?.replace('\\', "");
        (text.matches("\"exercise\":").count() == count).then_some(())
    })
    .await;
}

#[test]
fn edits_are_undone_and_redone_step_by_step() {
    journey::run("editing", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        to_plan(&page).await;
        let before = days(&page).await;
        let name = open_first(&page).await;
        let sets: usize = page.value(words::SETS).await.parse().expect("a number");
        page.tap(Role::Button, &words::more(words::SETS)).await;
        page.tap(Role::Button, &words::more(words::SETS)).await;
        page.tap(Role::Button, &format!("\u{2193} {}", words::LATER))
            .await;
        page.tap(Role::Button, words::TAKE_OUT).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        let after = days(&page).await;
        is_kept(&page, &after).await;
        let (first, _) = after.split_once("--").expect("days");
        assert!(!first.contains(&name), "{name} is gone:\n{first}");

        // All the way back, each step by its name, over a reload in between.
        back(&page, &format!("take out {name}")).await;
        back(&page, &format!("{name} to another place")).await;
        journey.reload(&page).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        let of = |sets| format!("{} of {name}", words::sets(sets));
        back(&page, &of(sets + 2)).await;
        back(&page, &of(sets + 1)).await;
        assert_eq!(days(&page).await, before);

        // And forth again.
        for name in [
            of(sets + 1),
            of(sets + 2),
            format!("{name} to another place"),
        ] {
            let redo = format!("{}: {name}", words::REDO);
            page.tap(Role::Button, &redo).await;
        }
        page.tap(Role::Button, words::REDO).await;
        assert_eq!(days(&page).await, after);
        is_kept(&page, &after).await;
        journey.close().await;
        let page = journey.open().await;
        to_plan(&page).await;
        assert_eq!(days(&page).await, after, "edits are kept");
    });
}

#[test]
fn a_mend_is_one_tap_and_its_finding_goes() {
    journey::run("mending", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        // Take out until something is off that a tap mends.
        let first_mend = "const mend = document.querySelector('.mend');
            return mend && [mend.querySelector('strong').innerText,
                mend.closest('li').querySelector('p').innerText]";
        let mut taken = 0;
        let (mend, finding) = loop {
            open_first(&page).await;
            page.tap(Role::Button, words::TAKE_OUT).await;
            page.find(Role::Heading, words::YOUR_WEEK).await;
            taken += 1;
            let found = page.script(first_mend, vec![]).await;
            if let Some([mend, finding]) = found.as_array().map(Vec::as_slice) {
                let text = |v: &serde_json::Value| v.as_str().expect("text").to_owned();
                break (text(mend), text(finding));
            }
            assert!(taken < 12, "nothing was off");
        };
        let before = days(&page).await;
        page.sees(&finding).await;
        page.tap(Role::Button, &mend).await;
        page.misses(&finding).await;
        let after = days(&page).await;
        assert_ne!(before, after, "{mend}");
        page.tap(Role::Button, words::UNDO).await;
        page.sees(&finding).await;
        assert_eq!(days(&page).await, before);
    });
}

#[test]
fn a_plan_that_was_seen_outlives_a_reload() {
    journey::run("seen and kept", async |journey| {
        let page = journey.open().await;
        let opening = FirstOpening(&page);
        opening.read_cautions().await;
        // The page is loaded again at the very moment the plan is shown.
        let script = "new MutationObserver((_, watch) => {
            if (!document.querySelector('.welcome')) {
                watch.disconnect();
                sessionStorage.setItem('seen', document.querySelector('main').innerText);
                location.reload();
            }
        }).observe(document.body, { childList: true, subtree: true })";
        page.script(script, vec![]).await;
        page.tap(Role::Button, words::SKIP).await;
        let seen = "return sessionStorage.getItem('seen')";
        page.until("the reload", async || {
            page.script(seen, vec![]).await.as_str().map(drop)
        })
        .await;
        page.find(Role::Button, words::START).await;
        page.until("the plan that was seen", async || {
            (Today(&page).planned().await.len() >= 3).then_some(())
        })
        .await;
    });
}

/// A new place takes a screen reader to its heading.
#[test]
fn a_new_place_takes_the_focus_to_its_heading() {
    journey::run("focus", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        let focused = "const e = document.activeElement;
            return [e.tagName + ' ' + e.innerText, getComputedStyle(e).outlineStyle]";
        for (place, heading) in [
            (words::WEEK, words::THIS_WEEK),
            (words::PLAN, words::YOUR_WEEK),
            (words::KIT, words::KIT),
        ] {
            Places(&page).go(place).await;
            page.until("the focus on the heading", async || {
                let found = page.script(focused, vec![]).await;
                (found[0] == format!("H1 {heading}") && found[1] == "none").then_some(())
            })
            .await;
        }
    });
}

#[test]
fn what_a_limit_costs_is_told_when_it_is_asked_for() {
    journey::run("limits", async |journey| {
        let page = journey.open().await;
        ask_what_limits_cost(&page, "A full gym").await;
        page.sees("10 more minutes a session: ").await;
        page.misses(words::ASK_RELIEF).await;
        page.misses(words::WORKING_OUT).await;
    });
}

/// Weaves a week of half-hour sessions with this kit and asks what its limits cost.
async fn ask_what_limits_cost(page: &Page, kit: &str) {
    let opening = FirstOpening(page);
    opening.read_cautions().await;
    page.tap(Role::Radio, "30").await;
    opening.next(words::WITH_WHAT).await;
    page.tap(Role::Radio, kit).await;
    opening.next(words::ABOUT_YOU).await;
    opening.weave().await;
    to_plan(page).await;
    page.tap(Role::Button, words::ASK_RELIEF).await;
}

/// Half an hour with one's own weight: some muscles stay below what is advised, and the
/// app says what would bring them up.
#[test]
fn what_the_week_lacks_is_told_with_what_mends_it() {
    journey::run("lacks", async |journey| {
        let page = journey.open().await;
        ask_what_limits_cost(&page, "My own weight").await;
        page.misses(words::WORKING_OUT).await;
        let lacks = page.script(
            "const card = [...document.querySelectorAll('main section')]
                .find((s) => s.querySelector('h2')?.textContent === arguments[0]);
            return [...card.querySelectorAll('h3')].map((h) => [h.textContent,
                [...h.nextElementSibling.querySelectorAll('li')].map((l) => l.textContent)]);",
            vec![words::RELIEF.into()],
        );
        let lacks: Vec<(String, Vec<String>)> =
            serde_json::from_value(lacks.await).expect("what is lacking");
        assert!(!lacks.is_empty());
        assert!(lacks.iter().all(|(_, ways)| !ways.is_empty()), "{lacks:?}");
        let ways = || lacks.iter().flat_map(|(_, ways)| ways);
        assert!(ways().any(|way| way.starts_with("With ")), "{lacks:?}");
    });
}
