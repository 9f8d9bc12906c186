//! The session in one hand: taps counted, what is tapped often under the thumb, numbers that
//! run on, holds by the clock, and the climb to the first set.

use weekloom_engine::log::SetKind;
use weekloom_engine::session::Phase;
use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Looks, Places, Today};
use weekloom_tests::words;

/// Phones looked at: a small one and a large one.
const PHONES: [(f64, f64); 2] = [(360.0, 740.0), (430.0, 932.0)];
/// The part of the height, from below, a thumb reaches easily (common practice, no source).
const REACH: f64 = 0.4;
/// Least side of what is tapped, CSS pixels.
const TARGET: f64 = 48.0;

/// Loads put on by hand, in kilograms: not what is suggested.
const OTHER_LOAD: &str = "42.5";

#[test]
fn a_set_takes_few_taps() {
    journey::run("taps", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let before = page.taps();
        gym.log().await;
        assert_eq!(page.taps() - before, 1, "as suggested");

        // Other numbers: into the load, into the reps, log.
        let before = page.taps();
        let load = gym.load_field().await.expect("a load");
        page.type_into(load, OTHER_LOAD).await;
        let count = gym.count_field().await;
        page.type_into(count, "9").await;
        gym.log().await;
        assert_eq!(page.taps() - before, 3, "another load and other reps");
        page.sees("42.5 kg each \u{d7} 9").await;

        // One rep more than suggested: one step, log.
        let before = page.taps();
        page.tap(Role::Button, &words::more(words::REPS)).await;
        gym.log().await;
        assert_eq!(page.taps() - before, 2, "one rep more");

        let before = page.taps();
        page.tap(Role::Button, words::UNDO).await;
        page.sees(words::UNDONE).await;
        assert_eq!(page.taps() - before, 1, "undo");

        let before = page.taps();
        gym.swap().await;
        assert_eq!(page.taps() - before, 2, "swap");
    });
}

#[test]
fn what_is_tapped_often_lies_under_the_thumb() {
    journey::run("reach", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        let [_, of_rest, _] = reached(&page).await;
        assert_eq!(of_rest, Side::Right, "a right thumb skips the rest");

        Looks(&page).left_handed().await;
        Places(&page).go(words::TODAY).await;
        assert!(gym.is_resting().await);
        assert_eq!(reached(&page).await, [Side::Both, Side::Left, Side::Left]);

        // Chosen for good, not for this visit.
        journey.reload(&page).await;
        assert_eq!(reached(&page).await, [Side::Both, Side::Left, Side::Left]);
    });
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Left,
    Right,
    Both,
}

/// The side on which log, skip and undo lie; each must be large enough and low enough on
/// every phone, without scrolling.
async fn reached(page: &Page) -> [Side; 3] {
    let mut sides = [Side::Both; 3];
    for (width, height) in PHONES {
        page.resize(width as u32, height as u32).await;
        for (side, name) in sides
            .iter_mut()
            .zip(["Log ", words::SKIP_REST, words::UNDO])
        {
            let [left, top, right, bottom] = page.box_of(Role::Button, name).await;
            let what =
                format!("'{name}' at {left}, {top} to {right}, {bottom} of {width} × {height}");
            assert!(bottom <= height && top >= height * (1.0 - REACH), "{what}");
            assert!(right - left >= TARGET && bottom - top >= TARGET, "{what}");
            let middle = f64::midpoint(left, right);
            *side = if right - left > width * 0.6 {
                Side::Both
            } else if middle < width * 0.5 {
                Side::Left
            } else {
                Side::Right
            };
        }
    }
    sides
}

#[test]
fn a_number_runs_on_while_its_button_is_held_down() {
    journey::run("held down", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let reps = async || -> i32 { page.value(words::REPS).await.parse().expect("reps") };
        let more = words::more(words::REPS);
        let at_first = reps().await;

        // A slow tap is one tap.
        page.hold_down(Role::Button, &more, 200).await;
        page.until("one more", async || {
            (reps().await == at_first + 1).then_some(())
        })
        .await;

        // Held down it goes on, and stops when let go.
        page.hold_down(Role::Button, &more, 1500).await;
        let reached = reps().await;
        assert!(reached >= at_first + 4, "{at_first} became {reached}");
        tokio::time::sleep(std::time::Duration::from_millis(600)).await;
        assert_eq!(reps().await, reached, "let go");
        page.tap(Role::Button, &words::less(words::REPS)).await;
        assert_eq!(reps().await, reached - 1, "the next tap is one tap");

        // A field is typed over at each tap, whether it has the cursor or not.
        page.type_into(words::REPS, "90\n").await;
        page.type_into(words::REPS, "12\n").await;
        assert_eq!(reps().await, 12);
        gym.log().await;
        page.sees("\u{d7} 12").await;
    });
}

#[test]
fn a_hold_goes_by_the_clock() {
    journey::run("hold", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        page.script("location.hash = '#/plan/0/add'", vec![]).await;
        page.find(Role::Heading, words::ADD_EXERCISE).await;
        page.script(
            "for (const e of document.querySelectorAll('details')) e.open = true",
            vec![],
        )
        .await;
        page.tap(Role::Button, "Plank").await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        Places(&page).go(words::TODAY).await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.do_now("Plank").await;
        assert_eq!(gym.exercise().await, "Plank");

        page.tap(Role::Button, words::HOLD).await;
        page.find(Role::Timer, "").await;
        // The clock is the wall's: a reload does not stop it.
        journey.reload(&page).await;
        page.until("three seconds", async || {
            let text = page.text().await;
            ["0:03", "0:04", "0:05", "0:06"]
                .iter()
                .any(|t| text.contains(t))
                .then_some(())
        })
        .await;
        page.tap(Role::Button, words::HOLD_STOP).await;
        let held: u16 = page.value(words::SECONDS).await.parse().expect("seconds");
        assert!((3..=15).contains(&held), "{held} s");
        gym.log().await;
        let kept = gym.kept_sets().await;
        assert_eq!(kept.last().map(|set| set.count), Some(held));
    });
}

#[test]
fn the_climb_is_ticked_and_kept_apart_from_the_work() {
    journey::run("climb", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.type_load("60").await;
        let (done, of) = gym.progress().await;
        let sheet = gym.load_up().await;
        page.find(Role::Checkbox, "").await;
        let steps = page.all(Role::Checkbox, "").await.len();
        assert!(steps >= 1);
        page.tap(Role::Checkbox, "").await;
        page.until("the step in the log", async || {
            let kept = gym.kept_sets().await;
            (kept.len() == 1 && kept[0].kind == SetKind::WarmUp).then_some(())
        })
        .await;
        journey.reload(&page).await;
        page.find(Role::Checkbox, "").await;
        assert!(page.is_chosen(Role::Checkbox, "").await);
        // Taken back, and done again.
        page.tap(Role::Checkbox, "").await;
        page.until("no step in the log", async || {
            gym.kept_sets().await.is_empty().then_some(())
        })
        .await;
        page.tap(Role::Checkbox, "").await;
        sheet.close().await;
        assert_eq!(gym.progress().await, (done, of), "no work is done yet");
        page.sees("Warm-up ").await;
        gym.log().await;
        gym.is_saved((done + 1, of)).await;
        assert!(matches!(gym.kept().await.phase, Phase::Resting { .. }));

        // Harder than aimed at: a longer rest, and why.
        gym.left_in_me(0).await;
        gym.log().await;
        page.sees("s longer: it was harder than aimed at").await;
    });
}
