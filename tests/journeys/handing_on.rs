//! A plan goes from one phone to another: scanned from the screen by an independent
//! reader, pasted, and as a file.

use weekloom_engine::plan::Plan;
use weekloom_store::{AcceptedPlan, MemoryShelf, Shelf, Space, Store};
use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Places, Today, YourData};
use weekloom_tests::words;

#[test]
fn a_plan_is_scanned_looked_at_and_taken() {
    journey::run("handing on", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page)
            .answer(&["Mon", "Thu"], "Some training", "kg")
            .await;
        let given = kept_plan(&page).await;
        open_hand(&page).await;
        let link = page.value(words::PLAN_LINK).await;
        // Read off the screen by a reader that knows nothing of ours.
        assert_eq!(scanned(&page).await, link);
        page.tap(Role::Button, words::ASIDE_SAVE).await;
        let file = journey.next_download(&page).await;

        // On an empty phone the link waits until the questions are answered.
        delete_all(&page).await;
        page.client().goto(&link).await.expect("the link opens");
        page.reload().await;
        FirstOpening(&page).read_cautions().await;
        page.tap(Role::Button, words::SKIP).await;
        page.find(Role::Heading, words::PLAN_CAME).await;
        page.sees("Monday, Thursday").await;
        page.find(Role::Heading, words::CHECKED_FOR_YOU).await;
        assert_ne!(asked(&kept_plan(&page).await.plan), asked(&given.plan));
        page.tap(Role::Button, words::TAKE_IT).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        let taken = kept_plan(&page).await;
        assert_eq!(asked(&taken.plan), asked(&given.plan));
        assert_eq!(taken.weekdays, given.weekdays);

        // It was a step like any other.
        page.tap(Role::Button, &words::of(words::UNDO, words::NEW_PLAN))
            .await;
        page.until("the plan of before", async || {
            let before = kept_plan(&page).await;
            (asked(&before.plan) != asked(&given.plan)).then_some(())
        })
        .await;

        // A link that lost its end says so, and the file brings the whole.
        open_hand(&page).await;
        page.type_into(words::PASTE_LINK, &format!("{}\n", &link[..link.len() - 3]))
            .await;
        page.sees("ask for the link once more").await;
        page.give_file(words::PLAN_FROM_FILE, &file).await;
        page.find(Role::Heading, words::PLAN_CAME).await;
        page.tap(Role::Button, words::LEAVE_IT).await;
        page.find(Role::Heading, words::YOUR_WEEK).await;
        assert_ne!(asked(&kept_plan(&page).await.plan), asked(&given.plan));

        // Nothing takes a running session's plan away.
        Places(&page).go(words::TODAY).await;
        Today(&page).start().await;
        page.client().goto(&link).await.expect("the link opens");
        page.find(Role::Heading, words::PLAN_CAME).await;
        page.tap(Role::Button, words::TAKE_IT).await;
        page.sees(words::FINISH_FIRST_TAKE).await;
    });
}

async fn open_hand(page: &Page) {
    Places(page).go(words::PLAN).await;
    page.tap(Role::Link, words::HAND_ON).await;
    page.find(Role::Heading, words::HAND_ON).await;
}

async fn delete_all(page: &Page) {
    let data = YourData(page);
    data.open().await;
    data.delete_all().await;
    page.sees(words::CAUTIONS).await;
}

async fn kept_plan(page: &Page) -> AcceptedPlan {
    let mut shelf = MemoryShelf::new();
    for (key, value) in page.kept(Space::Own.prefix()).await {
        shelf.set(&key, &value).expect("memory takes everything");
    }
    let (store, _) = Store::open(shelf, Space::Own, Vec::new());
    let plan = store.load_plan().expect("the plan can be read");
    plan.expect("there is a plan")
}

/// What is asked of each day, in order.
fn asked(plan: &Plan) -> Vec<String> {
    let days = plan.days.iter().flat_map(|day| &day.items);
    days.map(|item| format!("{:?}", item.prescription))
        .collect()
}

/// What the code on the screen says.
async fn scanned(page: &Page) -> String {
    let script = "document.querySelector('svg.code').scrollIntoView({ block: 'center' })";
    page.script(script, Vec::new()).await;
    let png = page.client().screenshot().await.expect("a picture");
    let mut reader = png::Decoder::new(std::io::Cursor::new(png))
        .read_info()
        .expect("a PNG");
    let mut bytes = vec![0; reader.output_buffer_size().expect("a size")];
    let info = reader.next_frame(&mut bytes).expect("a frame");
    let samples = info.color_type.samples();
    let (width, height) = (info.width as usize, info.height as usize);
    let light = |x: usize, y: usize| bytes[(y * width + x) * samples];
    let mut seen = rqrr::PreparedImage::prepare_from_greyscale(width, height, light);
    let codes = seen.detect_grids();
    assert_eq!(codes.len(), 1, "codes on the screen");
    codes[0].decode().expect("it can be read").1
}
