//! The browser killed at moments drawn by lot, again and again, while sets are logged
//! through the real screen; and what of it the next start finds.
//!
//! Start at [`torture`]. A set counts as acknowledged when the page has said that it is
//! saved. One that was tapped and not yet acknowledged may be kept or not, but never
//! twice. `cargo xtask torture` runs two hundred; the journeys run a few.

use std::collections::BTreeMap;
use std::time::Duration;

use serde_json::{Value, json};
use weekloom_store::{MemoryShelf, Shelf as _, Space, Store};

use crate::browser::{Page, Role};
use crate::journey::Journey;
use crate::pages::{FirstOpening, Gym, Places, Today, YourData, sets_of};
use crate::{versions, words};

/// After so many sets a session is finished.
const SETS_A_SESSION: usize = 8;

/// When the browser is killed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Moment {
    /// Up to five seconds after a set was acknowledged, mostly at once.
    Saved,
    /// Right after the tap, before anything is acknowledged.
    Tapped,
    /// While the app starts, and reads again what the kill before has cost.
    Starting,
    /// Right after a session was finished.
    Finished,
    /// Right after a backup file was taken in.
    Import,
    /// While a next block of training is begun.
    Block,
    /// While a newer version of the app is fetched in the middle of a session.
    Updating,
}

/// What came of it.
#[derive(Debug, Default)]
pub struct Tally {
    /// Kills by moment.
    pub kills: BTreeMap<Moment, usize>,
    /// Sets acknowledged.
    pub acknowledged: usize,
    /// Of those, how many a later start did not find.
    pub lost: usize,
    /// Sets found that were never logged, or once too often.
    pub doubled: usize,
    /// Sets that were kept before they were acknowledged.
    pub kept_early: usize,
}

impl Tally {
    /// As figures.
    pub fn figures(&self) -> Value {
        let kills = self.kills.iter();
        let kills: BTreeMap<String, usize> = kills.map(|(m, n)| (format!("{m:?}"), *n)).collect();
        json!({
            "kills": self.kills.values().sum::<usize>(),
            "kills_by_moment": kills,
            "acknowledged": self.acknowledged,
            "lost": self.lost,
            "doubled": self.doubled,
            "kept_before_acknowledged": self.kept_early,
        })
    }
}

/// The counts (reps or seconds) of all sets, the oldest first.
type Counts = Vec<u16>;

/// Kills the browser so often, from a seed; a start that fails ends it with a panic.
pub async fn torture(journey: &mut Journey, kills: usize, seed: u64) -> Tally {
    let mut dice = Dice(seed);
    let mut tally = Tally::default();
    let mut known = Counts::new();
    let page = journey.open().await;
    FirstOpening(&page).skip().await;
    let mut page = page;
    let mut in_session = 0;
    let mut version = 0;
    for _ in 0..kills {
        let mut pending = None;
        let moment;
        if in_session >= SETS_A_SESSION {
            Gym(&page).finish_early().await;
            in_session = 0;
            moment = match dice.below(3) {
                0 => Moment::Finished,
                1 => {
                    Gym(&page).leave().await;
                    take_in_own_backup(journey, &page).await;
                    Moment::Import
                }
                _ => {
                    Gym(&page).leave().await;
                    begin_block(&page).await;
                    Moment::Block
                }
            };
            wait(dice.below(400)).await;
        } else {
            begin(&page).await;
            for _ in 0..=dice.below(2) {
                let count = next_count(known.len());
                log(&page, count).await;
                known.push(count);
                tally.acknowledged += 1;
                in_session += 1;
            }
            match dice.below(10) {
                0 | 1 => {
                    moment = Moment::Tapped;
                    let count = next_count(known.len());
                    Gym(&page).type_count(&count.to_string()).await;
                    Gym(&page).tap_log().await;
                    pending = Some(count);
                    wait(dice.below(40)).await;
                }
                2 | 3 => {
                    journey.kill().await;
                    moment = Moment::Starting;
                    let next = journey.open_empty().await;
                    let patience = Duration::from_millis(dice.below(900));
                    // However far the start has come by then.
                    let _ = tokio::time::timeout(patience, journey.enter(&next)).await;
                }
                4 | 5 => {
                    moment = Moment::Updating;
                    version += 1;
                    fetch_version(journey, &page, version).await;
                    wait(dice.below(600)).await;
                }
                6 => {
                    moment = Moment::Saved;
                    wait(dice.below(5000)).await;
                }
                _ => {
                    moment = Moment::Saved;
                    wait(dice.below(120)).await;
                }
            }
        }
        journey.kill().await;
        *tally.kills.entry(moment).or_default() += 1;
        if in_session == 0 {
            journey.wait_days(1);
        }
        page = journey.open().await;
        let found = kept(&page).await;
        if pending.is_some() && found.len() == known.len() + 1 && found.last() == pending.as_ref() {
            known.push(pending.unwrap_or_default());
            tally.kept_early += 1;
            in_session += 1;
        }
        judge(&known, &found, &mut tally);
        // What was lost once is not lost again at each start.
        known = found;
        eprintln!("{}", tally.figures());
    }
    tally
}

/// Counts what is missing and what is there too often.
fn judge(known: &[u16], found: &[u16], tally: &mut Tally) {
    let mut left = found.to_vec();
    for count in known {
        match left.iter().position(|other| other == count) {
            Some(at) => {
                left.remove(at);
            }
            None => tally.lost += 1,
        }
    }
    tally.doubled += left.len();
}

/// Neighbours differ, and all are counts that a set may have.
fn next_count(number: usize) -> u16 {
    5 + u16::try_from(number % 53).expect("a small number")
}

/// Starts a session unless one is under way.
async fn begin(page: &Page) {
    let is_running = page
        .until("a session or the way to one", async || {
            if page.has(Role::Button, words::MORE).await {
                return Some(true);
            }
            let can_start = page.has(Role::Button, words::START).await
                || page.has(Role::Button, words::TRAIN_ANYWAY).await;
            can_start.then_some(false)
        })
        .await;
    if !is_running {
        Today(page).start().await;
    }
}

/// Logs a set and waits until the page says that it is saved.
async fn log(page: &Page, count: u16) {
    let gym = Gym(page);
    let (done, _) = gym.progress().await;
    gym.type_count(&count.to_string()).await;
    gym.tap_log().await;
    let script = "return [...document.querySelectorAll('[role=status]')].map((e) => e.innerText)";
    page.until("the word that the set is saved", async || {
        if gym.progress().await.0 != done + 1 {
            return None;
        }
        let found = page.script(script, vec![]).await;
        let says = found.as_array()?;
        says.iter().any(|text| text == words::SAVED).then_some(())
    })
    .await;
}

async fn begin_block(page: &Page) {
    Places(page).go(words::LOG).await;
    page.tap(Role::Link, words::REVIEW).await;
    page.tap(Role::Link, words::NEXT_BLOCK).await;
    page.tap(Role::Button, words::BEGIN_BLOCK).await;
}

/// Serves a newer version and has the browser fetch it, without waiting for that.
async fn fetch_version(journey: &mut Journey, page: &Page, number: u32) {
    let folder = journey.folder().join(format!("version-{number}"));
    journey.serve_instead(versions::make(&journey.dist, folder, number));
    let begin = "navigator.serviceWorker.getRegistration().then((found) => found?.update())
        .catch(() => {})";
    page.script(begin, vec![]).await;
}

async fn take_in_own_backup(journey: &Journey, page: &Page) {
    let data = YourData(page);
    data.open().await;
    let (file, _) = data.save(journey).await;
    data.read(&file).await;
    data.accept().await;
}

/// All sets that a start finds, those of finished sessions first.
async fn kept(page: &Page) -> Counts {
    let mut shelf = MemoryShelf::new();
    for (key, value) in page.kept(Space::Own.prefix()).await {
        shelf.set(&key, &value).expect("memory takes everything");
    }
    let (store, report) = Store::open(shelf, Space::Own, Vec::new());
    assert!(report.unreadable.is_empty(), "{:?}", report.unreadable);
    let mut sessions: Vec<_> = store
        .sessions()
        .iter()
        .filter_map(|id| store.read_session(id).expect("a session can be read"))
        .collect();
    // One just finished may still be under the key of the one under way: it counts once.
    let now = store.load_now().expect("the session can be read");
    sessions.extend(now.filter(|now| sessions.iter().all(|s| s.id != now.id)));
    sessions.sort_by(|a, b| a.id.cmp(&b.id));
    sessions
        .iter()
        .flat_map(sets_of)
        .map(|set| set.count)
        .collect()
}

async fn wait(milliseconds: u64) {
    tokio::time::sleep(Duration::from_millis(milliseconds)).await;
}

/// A linear congruential generator (the constants of Knuth's MMIX): the same kills for
/// the same seed, as far as the machine's own speed allows.
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % limit
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_missing_set_is_lost_and_one_too_many_doubled() {
        let mut tally = Tally::default();
        judge(&[5, 6, 7], &[5, 6, 7], &mut tally);
        assert_eq!((tally.lost, tally.doubled), (0, 0));
        judge(&[5, 6, 7], &[5, 7, 7], &mut tally);
        assert_eq!((tally.lost, tally.doubled), (1, 1));
    }
}
