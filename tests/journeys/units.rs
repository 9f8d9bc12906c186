//! Kilograms and pounds: two ways to read the same grams.

use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey;
use weekloom_tests::pages::{FirstOpening, Gym, Looks, Places, Today};
use weekloom_tests::words;

#[test]
fn pounds_and_kilograms_show_the_same_grams() {
    journey::run("units", async |journey| {
        let page = journey.open().await;
        // Three days leave the time to do one exercise after the other.
        FirstOpening(&page).skip().await;
        Today(&page).start().await;
        let gym = Gym(&page);
        let load = gym
            .load_field()
            .await
            .expect("a first exercise with a load");
        gym.type_load("40").await;
        gym.log().await;
        page.sees("40 kg").await;
        assert_eq!(page.value(load).await, "40");
        assert_eq!(grams(&page).await, [40_000]);

        Looks(&page).choose_unit("lb").await;
        Places(&page).go(words::TODAY).await;
        // 40 kg are 88.18 lb by the pound of 0.45359237 kg.
        page.sees("88.18 lb").await;
        assert_eq!(page.value(load).await, "88.18");
        gym.type_load("135").await;
        assert_eq!(page.value(load).await, "135");
        gym.log().await;
        page.sees("135 lb").await;
        // 135 lb are 61,234.97 g; loads are whole grams.
        assert_eq!(grams(&page).await, [40_000, 61_235]);

        Looks(&page).choose_unit("kg").await;
        Places(&page).go(words::TODAY).await;
        page.sees("61.24 kg").await;
        Looks(&page).choose_unit("lb").await;
        Places(&page).go(words::TODAY).await;
        page.sees("135 lb").await;
        assert_eq!(grams(&page).await, [40_000, 61_235]);

        // A comma is as good as a point.
        Looks(&page).choose_unit("kg").await;
        Places(&page).go(words::TODAY).await;
        gym.type_load("22,5").await;
        assert_eq!(page.value(load).await, "22.5");
        gym.log().await;
        assert_eq!(grams(&page).await, [40_000, 61_235, 22_500]);
    });
}

/// The loads kept in grams.
async fn grams(page: &Page) -> Vec<i64> {
    let sets = Gym(page).kept_sets().await;
    sets.iter().map(|set| set.load.grams()).collect()
}

#[test]
fn a_stack_with_add_on_plates_is_listed_load_by_load() {
    journey::run("listed", async |journey| {
        let page = journey.open().await;
        FirstOpening(&page).skip().await;
        Places(&page).go_to_kit(words::EQUIPMENT).await;
        // One to each rack; the last is the cable's stack.
        let script = "const all = [...document.querySelectorAll('details')];
            all.at(-1).open = true; return all.length";
        assert_eq!(page.script(script, vec![]).await, 4);
        page.type_into(words::EACH_LOAD, "7,5 5 6.25 7.5; ten\n")
            .await;
        page.find(Role::Alert, "").await;
        page.type_over(words::EACH_LOAD, "7,5 5 6.25 7.5\n").await;
        page.until("the list, ascending, each load once", async || {
            (page.value(words::EACH_LOAD).await == "5; 6.25; 7.5").then_some(())
        })
        .await;
        journey.reload(&page).await;
        let script = "return document.getElementById('cable-each').value";
        assert_eq!(page.script(script, vec![]).await, "5; 6.25; 7.5");
    });
}
