//! The plan on paper: a page for each session, and nothing of the screen's furniture.

use std::io::Read as _;

use flate2::read::ZlibDecoder;
use weekloom_tests::browser::{Look, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Places};
use weekloom_tests::words;

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

        let pdf = page.printed().await;
        assert!(pdf.starts_with(b"%PDF-"), "no PDF");
        assert_eq!(pages_of(&pdf), 3, "pages of the PDF");
        let furniture = "return [...document.querySelectorAll('.nav, .page__head, .button')]
            .filter((e) => e.checkVisibility()).length";
        page.look(Look::Printed).await;
        assert_eq!(page.script(furniture, vec![]).await, 0);
    });
}

/// How many pages a PDF has: objects of that type, which may be packed in streams
/// (ISO 32000-1, 7.5.7).
fn pages_of(pdf: &[u8]) -> usize {
    let mut text = String::from_utf8_lossy(pdf).into_owned();
    let starts = pdf
        .windows(7)
        .enumerate()
        .filter(|(_, word)| word == b"stream\n");
    for (at, _) in starts {
        // What is not packed, or is a picture, only adds nothing.
        let mut unpacked = Vec::new();
        if ZlibDecoder::new(&pdf[at + 7..])
            .read_to_end(&mut unpacked)
            .is_ok()
        {
            text += &String::from_utf8_lossy(&unpacked);
        }
    }
    let of_type = |word: &str| text.matches(word).count();
    of_type("/Type /Page") - of_type("/Type /Pages")
}
