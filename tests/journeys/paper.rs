//! The plan on paper: a page for each session, and nothing of the screen's furniture.

use weekloom_tests::browser::{Look, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Places};
use weekloom_tests::words;
use xtask::browser::Engine;

#[test]
fn each_session_has_a_page_with_a_box_for_each_set() {
    journey::run("paper", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon", "Wed", "Fri"], "Some training", "kg")
            .await;
        Places(&page).go(words::PLAN).await;
        page.tap(Role::Link, words::CARDS).await;
        page.find(Role::Heading, words::CARDS).await;
        let asked = "return [...document.querySelectorAll('.paper__item')].map((item) =>
            [Number(item.innerText.match(/(\\d+)\\s\u{d7}/)[1]), item.querySelectorAll('.paper__box').length])";
        let boxes: Vec<(u32, u32)> =
            serde_json::from_value(page.script(asked, vec![]).await).expect("counts");
        assert!(boxes.len() > 12, "{boxes:?}");
        assert!(boxes.iter().all(|(sets, boxes)| sets == boxes), "{boxes:?}");

        let pdf = decoded(&page.printed().await);
        assert!(pdf.starts_with(b"%PDF-"), "no PDF");
        let text = String::from_utf8_lossy(&pdf);
        let pages = text.matches("/Type /Page\n").count();
        // Firefox packs what says how many pages there are.
        if page.engine() == Engine::Chromium {
            assert_eq!(pages, 3, "pages of the PDF");
        }
        let furniture = "return [...document.querySelectorAll('.nav, .page__head, .button')]
            .filter((e) => e.checkVisibility()).length";
        page.look(Look::Printed).await;
        assert_eq!(page.script(furniture, vec![]).await, 0);
    });
}

/// Base64 (RFC 4648) as the browser hands it out.
fn decoded(text: &str) -> Vec<u8> {
    let place = |byte: u8| match byte {
        b'A'..=b'Z' => byte - b'A',
        b'a'..=b'z' => byte - b'a' + 26,
        b'0'..=b'9' => byte - b'0' + 52,
        b'+' => 62,
        _ => 63,
    };
    let bytes: Vec<u8> = text.bytes().filter(|b| *b != b'=').map(place).collect();
    let mut out = Vec::new();
    for four in bytes.chunks(4) {
        let sum = four
            .iter()
            .fold(0_u32, |sum, &six| sum << 6 | u32::from(six));
        let sum = sum << (6 * (4 - four.len()));
        out.extend(&sum.to_be_bytes()[1..four.len()]);
    }
    out
}
