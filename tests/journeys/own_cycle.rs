//! A cycle from nothing: made, woven, kept over a reload, filled by hand, removed.

use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::FirstOpening;
use weekloom_tests::words;

/// The lines of the page's lists, each as one text.
async fn lines(page: &Page) -> Vec<String> {
    let script = "return [...document.querySelectorAll('main ol.lines > li')]
        .map((e) => e.innerText.replace(/\\s+/g, ' ').trim())";
    let found = page.script(script, vec![]).await;
    let texts = found.as_array().into_iter().flatten();
    texts.filter_map(|v| Some(v.as_str()?.to_owned())).collect()
}

/// From the first opening to a cycle of two days made from nothing.
async fn made_from_nothing(page: &Page) {
    FirstOpening(page).read_cautions().await;
    page.tap(Role::Button, words::SKIP_TO_EDITING).await;
    page.find(Role::Heading, words::OWN_CYCLES).await;
    page.tap(Role::Button, words::FROM_NOTHING).await;
    page.find(Role::Textbox, words::CYCLE_NAME).await;
    page.type_into(words::CYCLE_NAME, "Storm week\n").await;
    page.find(Role::Heading, "Storm week").await;

    // An empty day is refused with words that say what to do.
    page.tap(Role::Button, words::WEAVE_IT).await;
    page.find(Role::Alert, "").await;
    page.sees("edit its days").await;

    page.tap(Role::Link, "1. Own day").await;
    for place in [
        "Squat",
        "Horizontal push",
        "Horizontal pull",
        "Trunk stability",
    ] {
        page.tap(Role::Button, place).await;
    }
    assert_eq!(lines(page).await.len(), 4);
    let up = format!("{}: horizontal push", words::EARLIER);
    page.tap(Role::Button, &up).await;
    assert!(lines(page).await[0].starts_with("Horizontal push"));
    page.tap(Role::Link, words::BACK).await;
    // The second day begins as a usual one.
    page.find(Role::Heading, words::CYCLE_DAYS).await;
    page.tap(Role::Button, "Pull").await;
    page.find(Role::Link, "2. Pull").await;
}

#[test]
fn a_cycle_from_nothing_is_woven_and_kept() {
    journey::run("own cycle woven", async |journey| {
        let page = journey.open().await;
        made_from_nothing(&page).await;
        page.tap(Role::Button, words::WEAVE_IT).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        page.sees("Storm week").await;
        page.find(Role::Heading, "1. Own day").await;
        page.find(Role::Heading, "2. Pull").await;
        let woven = lines(&page).await;
        assert!(woven.len() >= 8, "{woven:?}");

        // Over a reload and a closed browser; it is offered where a split is chosen.
        journey.reload(&page).await;
        journey.close().await;
        let page = journey.open().await;
        page.script("location.hash = '#/plan'", vec![]).await;
        page.sees("Storm week").await;
        assert_eq!(lines(&page).await, woven);
        page.tap(Role::Link, words::SHAPE).await;
        assert!(page.is_chosen(Role::Radio, "Storm week").await);

        // Edited later, and removed: the plan stays, the choice falls back.
        page.tap(Role::Link, words::OWN_CYCLES).await;
        page.tap(Role::Link, "Storm week").await;
        page.tap(Role::Link, "2. Pull").await;
        page.tap(Role::Button, words::TAKE_DAY_OUT).await;
        page.find(Role::Heading, words::CYCLE_DAYS).await;
        page.misses("2. Pull").await;
        page.tap(Role::Button, &words::of(words::UNDO, "Storm week"))
            .await;
        page.find(Role::Link, "2. Pull").await;
        page.tap(Role::Button, &words::of(words::REDO, "Storm week"))
            .await;
        page.misses("2. Pull").await;
        page.tap(Role::Button, words::REMOVE_CYCLE).await;
        page.tap(Role::Button, words::REMOVE_SURE).await;
        page.sees(words::CYCLE_GONE).await;

        // Removed by mistake: it comes back, and is trained by as before.
        page.tap(Role::Button, &words::of(words::UNDO, "Storm week"))
            .await;
        page.find(Role::Link, "Storm week").await;
        page.script("location.hash = '#/plan/shape'", vec![]).await;
        assert!(page.is_chosen(Role::Radio, "Storm week").await);
        page.tap(Role::Link, words::OWN_CYCLES).await;
        page.tap(Role::Button, &words::of(words::REDO, "Storm week"))
            .await;
        // Only the way back still names it.
        page.find(Role::Button, &words::of(words::UNDO, "Storm week"))
            .await;
        assert!(!page.has(Role::Link, "Storm week").await);
        page.script("location.hash = '#/plan'", vec![]).await;
        page.sees(words::OWN_CYCLE).await;
        assert_eq!(lines(&page).await, woven);
        page.tap(Role::Link, words::SHAPE).await;
        page.find(Role::Radio, "Full body, emphasis in turn").await;
        assert!(!page.has(Role::Radio, "Storm week").await);
    });
}

#[test]
fn a_cycle_is_filled_by_hand() {
    journey::run("own cycle by hand", async |journey| {
        let page = journey.open().await;
        made_from_nothing(&page).await;
        page.tap(Role::Button, words::PICK_MYSELF).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        let choose = words::choose("squat");
        page.tap(Role::Link, &choose).await;
        page.find(Role::Heading, words::ADD_EXERCISE).await;
        page.tap(Role::Button, "Back squat").await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        page.sees("Back squat").await;
        assert!(!page.has(Role::Link, &choose).await, "its place is taken");
        assert!(
            page.has(Role::Link, &words::choose("horizontal push"))
                .await
        );
        page.tap(Role::Button, words::UNDO).await;
        page.find(Role::Link, &choose).await;
    });
}
