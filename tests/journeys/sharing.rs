//! The platform's own sheet for handing things on.

use weekloom_tests::browser::Role;
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Places, Today, YourData};
use weekloom_tests::words;

/// A sheet as phones have it: it takes links and files, once as told in `ends`.
const SHEET: &str = "window.taken = [];
    Navigator.prototype.canShare = (data) => Boolean(data.url ?? data.files);
    Navigator.prototype.share = async (data) => {
        if (window.ends) throw new DOMException('', window.ends);
        const files = await Promise.all((data.files ?? []).map((file) => file.text()));
        window.taken.push({ url: data.url, names: (data.files ?? []).map((f) => f.name), files });
    };";

#[test]
fn a_backup_and_a_plan_go_to_another_program_where_the_platform_has_a_sheet() {
    journey::run("sharing", async |journey| {
        journey.inject(SHEET);
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        gym.log().await;
        gym.finish_early().await;
        gym.leave().await;
        YourData(&page).open().await;

        // Closed again: nothing was taken, and no backup is noted.
        page.script("window.ends = 'AbortError'", vec![]).await;
        page.tap(Role::Button, words::BACKUP_SHARE).await;
        page.misses(words::NOT_SHARED).await;
        page.script("window.ends = 'NotAllowedError'", vec![]).await;
        page.tap(Role::Button, words::BACKUP_SHARE).await;
        page.sees(words::NOT_SHARED).await;
        let noted = "Last file saved";
        page.misses(noted).await;

        page.script("window.ends = null", vec![]).await;
        page.tap(Role::Button, words::BACKUP_SHARE).await;
        page.sees(noted).await;
        let taken = page.script("return window.taken[0]", vec![]).await;
        assert_eq!(taken["names"][0], "weekloom-2026-03-02.json");
        let text = taken["files"][0].as_str().expect("a text");
        let backup = weekloom_store::backup::read_backup(text).expect("the backup is whole");
        assert_eq!(backup.sessions.len(), 1);

        Places(&page).go(words::PLAN).await;
        page.tap(Role::Link, words::HAND_ON).await;
        let link = page.value(words::PLAN_LINK).await;
        page.tap(Role::Button, words::LINK_SHARE).await;
        page.until("the link", async || {
            let taken = page.script("return window.taken[1]?.url", vec![]).await;
            (taken == link).then_some(())
        })
        .await;
    });
}
