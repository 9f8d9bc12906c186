//! The demonstration: entering it, and what its log holds.

use super::YourData;
use crate::browser::{Page, Role};
use crate::words;
use weekloom_engine::calendar::Day;
use weekloom_engine::session::Session;
use weekloom_store::demo::Crew;
use weekloom_store::{MemoryShelf, Shelf, Space, Store};

/// The invented crew's logs.
pub struct Demo<'a>(pub &'a Page);

impl Demo<'_> {
    /// Goes there from one's own data, into the logs of the first of the crew.
    pub async fn enter(&self) {
        YourData(self.0).open().await;
        self.0.tap(Role::Button, words::DEMO_ENTER).await;
        self.0.tap(Role::Button, Crew::ALL[0].title()).await;
    }

    /// All kept sessions, earlier first, read from the shelf by themselves.
    pub async fn log(&self) -> Vec<Session> {
        let mut shelf = MemoryShelf::new();
        for (key, value) in self.0.kept(Space::Demo.prefix()).await {
            shelf.set(&key, &value).expect("memory takes everything");
        }
        let (store, _) = Store::open(shelf, Space::Demo, Vec::new());
        store.sessions_since(Day::from_epoch_days(0)).0
    }
}
