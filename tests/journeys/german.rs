//! A person who reads German: chosen at the first opening, there up to the first set, and
//! without a network after a restart.

use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;

/// Language and direction of the document.
async fn language(page: &Page) -> String {
    let root = "return document.documentElement.lang + ' ' + document.documentElement.dir";
    let said = page.script(root, Vec::new()).await;
    said.as_str().unwrap_or_default().to_owned()
}

#[test]
fn in_german_from_the_first_opening_to_the_first_set_and_without_a_network() {
    journey::run("german", async |journey| {
        let page = journey.open().await;
        assert!(!language(&page).await.starts_with("de"));
        // WebKit forgets a worker that a reload overtakes while it is being registered.
        journey.wait_for_offline_copy(&page).await;
        page.tap(Role::Radio, "Deutsch").await;
        page.find(Role::Heading, "Vor dem ersten Heben").await;
        assert_eq!(language(&page).await, "de ltr");
        page.tap(Role::Button, "Das habe ich gelesen").await;
        page.find(Role::Heading, "Wann kannst du trainieren?").await;
        // The browser's first language is British English: weeks begin on Monday there.
        let first = "return document.querySelector('.chips--week').innerText.split('\\n')[0]";
        assert_eq!(page.script(first, Vec::new()).await, "Mo");
        page.tap(Role::Button, "Fragen überspringen").await;
        page.find(Role::Link, "Plan").await;
        page.sees("Montag 2. März").await;
        journey.wait_for_offline_copy(&page).await;
        page.script("location.hash = '#/kit/equipment'", Vec::new())
            .await;
        page.sees("1,25").await;
        page.script("location.hash = '#/today'", Vec::new()).await;
        page.tap(Role::Button, "Einheit beginnen").await;
        page.sees("Satz 1 von").await;

        journey.go_offline(None).await;
        journey.close().await;
        let page = journey.open_empty().await;
        journey.go_offline(Some(&page)).await;
        journey.forgive("sw.js");
        journey.enter(&page).await;
        page.sees("Satz 1 von").await;
        assert_eq!(language(&page).await, "de ltr");
    });
}
