//! What years of logs cost: the start without a net, a set logged, the exercises over time,
//! a backup file and memory, with nothing kept and with twelve weeks, one, ten and fifty
//! years of invented logs, in turn.
//!
//! Ten years are those of somebody who trains three times a week for an hour. Fifty of theirs
//! do not fit: browsers give local storage about five million characters, and they reach
//! that after some thirty (`characters`). Fifty are those of somebody with little time, twice
//! a week for three quarters of an hour, beside nothing of the same person's.

use std::time::Duration;

use serde_json::{Value, json};
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::Catalogue;
use weekloom_store::demo::{self, Crew};
use weekloom_store::{MemoryShelf, Shelf as _, Space, Store};
use weekloom_tests::browser::{Page, Role};
use weekloom_tests::journey::{self, Journey};
use weekloom_tests::pages::{Gym, Today};

use crate::start::{self, SLOWER};
use crate::{median, spread};

/// What to call the logs, whose they are, and how many weeks of them.
const SPANS: [(&str, Crew, i32); 6] = [
    ("nothing", Crew::Observer, 0),
    ("twelve_weeks", Crew::Observer, 12),
    ("one_year", Crew::Observer, 52),
    ("ten_years", Crew::Observer, 520),
    ("nothing_of_two_sessions", Crew::Cook, 0),
    ("fifty_years_of_two_sessions", Crew::Cook, 2_600),
];
/// The journeys' Monday.
const TODAY: &str = "2026-03-02";
/// Sets logged for each time.
const SETS: usize = 4;

/// Times the tap until the page says that the set is kept. Arguments: the word for it.
const LOG_A_SET: &str = "const [saved, done] = arguments;
    const button = [...document.querySelectorAll('main button')]
      .find((b) => b.innerText.startsWith('Log '));
    const before = performance.now();
    let painted = null;
    const isSaved = () => [...document.querySelectorAll('[role=status]')]
      .some((e) => e.innerText === saved);
    // The set before may still stand as saved.
    let isOpen = !isSaved();
    const look = () => {
      if (!isSaved()) isOpen = true;
      else if (isOpen) finish();
    };
    const finish = () => {
      observer.disconnect();
      const kept = performance.now() - before;
      const wait = () => painted === null ? requestAnimationFrame(wait) : done([kept, painted]);
      wait();
    };
    const observer = new MutationObserver(look);
    observer.observe(document.body, { childList: true, subtree: true, characterData: true });
    button.click();
    requestAnimationFrame(() => requestAnimationFrame(() => {
      painted = performance.now() - before;
    }));";

/// Times the way to all exercises over time, until their list is painted.
const OPEN_PROGRESS: &str = "const [done] = arguments;
    const before = performance.now();
    location.hash = '#/log/exercise';
    const look = () => document.querySelector('main ul.card a, main p')
      && location.hash === '#/log/exercise' && document.querySelector('main h1')?.innerText === 'By exercise'
      ? requestAnimationFrame(() => done(performance.now() - before))
      : requestAnimationFrame(look);
    requestAnimationFrame(look);";

/// Times the making of a backup file; the file itself goes nowhere.
const MAKE_BACKUP: &str = "const [name, done] = arguments;
    HTMLAnchorElement.prototype.click = () => {};
    const button = [...document.querySelectorAll('main button')].find((b) => b.innerText === name);
    const before = performance.now();
    button.click();
    done(performance.now() - before);";

/// Kept values by their keys, as they stand in local storage.
type Kept = Vec<(String, String)>;

/// All spans in turn, so many times.
pub fn measure(rounds: usize) -> Value {
    let logs: Vec<Kept> = SPANS
        .iter()
        .map(|(_, who, weeks)| invent(*who, *weeks))
        .collect();
    let mut starts = vec![vec![]; SPANS.len()];
    let mut sets = vec![vec![]; SPANS.len()];
    let mut paints = vec![vec![]; SPANS.len()];
    let mut progress = vec![vec![]; SPANS.len()];
    let mut backups = vec![vec![]; SPANS.len()];
    let mut memory = vec![vec![]; SPANS.len()];
    for round in 0..rounds {
        for (at, kept) in logs.iter().enumerate() {
            let found = one_round(kept);
            starts[at].push(found.start);
            sets[at].extend(found.sets.iter().map(|s| s.0));
            paints[at].extend(found.sets.iter().map(|s| s.1));
            progress[at].push(found.progress);
            backups[at].push(found.backup);
            memory[at].push(found.megabytes);
        }
        eprintln!("round {} of {rounds}", round + 1);
    }
    let spans = SPANS.iter().enumerate().map(|(at, (name, who, weeks))| {
        // The same person with nothing kept.
        let nothing = SPANS.iter().position(|span| span.1 == *who).unwrap_or(0);
        let sessions = logs[at].iter().filter(|(k, _)| k.contains(".session."));
        let size = |kept: &Kept| kept.iter().map(|(k, v)| k.len() + v.len()).sum::<usize>();
        let done = work_sets(&logs[at]);
        let figures = json!({
            "weeks": weeks,
            "sessions": sessions.count(),
            "work_sets": done,
            "characters": size(&logs[at]),
            "characters_a_set": size(&logs[at]).checked_div(done),
            "progress_ms": spread(progress[at].clone()),
            "backup_ms": spread(backups[at].clone()),
            "page_megabytes": spread(memory[at].clone()),
            "start_offline_ms": spread(starts[at].clone()),
            "set_kept_ms": spread(sets[at].clone()),
            "next_frame_ms": spread(paints[at].clone()),
            "start_to_nothing": median(&starts[at]) / median(&starts[nothing]),
            "set_to_nothing": median(&sets[at]) / median(&sets[nothing]),
        });
        ((*name).to_owned(), figures)
    });
    json!({ "cpu_slower": SLOWER, "spans": spans.collect::<serde_json::Map<_, _>>() })
}

/// Logs of so many weeks, as the app would keep them.
fn invent(who: Crew, weeks: i32) -> Kept {
    let today: Day = Day::parse(TODAY).expect("a day");
    let catalogue = Catalogue::built_in();
    let (mut store, _) = Store::open(MemoryShelf::new(), Space::Own, Vec::new());
    let changes = demo::changes_of(&store, &catalogue, who, today, weeks);
    let changes = changes.expect("a week for one of the crew");
    let record = store.prepare(changes, Moment(0)).expect("nothing newer");
    store.commit(&record);
    let shelf = store.into_shelf();
    let kept = shelf.keys().into_iter();
    kept.map(|key| (key.clone(), shelf.get(&key).unwrap_or_default()))
        .collect()
}

/// Work sets of these logs, as a start reads them.
fn work_sets(kept: &Kept) -> usize {
    let mut shelf = MemoryShelf::new();
    for (key, value) in kept {
        shelf.set(key, value).expect("memory has room");
    }
    let (store, _) = Store::open(shelf, Space::Own, Vec::new());
    store.index().work_sets as usize
}

struct Found {
    start: f64,
    /// Milliseconds until the exercises over time are painted, for the first time.
    progress: f64,
    /// Milliseconds in which a backup file is made.
    backup: f64,
    /// Megabytes of the page's process after all that.
    megabytes: f64,
    /// Milliseconds from the tap until it is kept, and until the next frame.
    sets: Vec<(f64, f64)>,
}

fn one_round(kept: &Kept) -> Found {
    let mut found = None;
    journey::run("years", async |journey| {
        journey.inject(start::WATCH);
        let page = journey.open().await;
        journey.wait_for_offline_copy(&page).await;
        fill(&page, kept).await;
        journey.close().await;
        found = Some(train(journey).await);
    });
    found.expect("the journey ran: a browser and its driver are needed")
}

/// Puts the logs where the app keeps them, in parts that the driver takes.
async fn fill(page: &Page, kept: &Kept) {
    let script = "for (const [key, value] of arguments[0]) localStorage.setItem(key, value);
        return localStorage.length";
    page.script("localStorage.clear()", vec![]).await;
    for part in kept.chunks(200) {
        page.script(script, vec![json!(part)]).await;
    }
    // Chromium puts off writing down so much at once, until the page is left.
    page.client().goto("about:blank").await.expect("a page");
    tokio::time::sleep(Duration::from_secs(3)).await;
}

async fn train(journey: &mut Journey) -> Found {
    let start = start::offline_start(journey).await.usable;
    let page = journey.page().expect("the browser is open");
    Today(&page).start().await;
    let gym = Gym(&page);
    let mut sets = Vec::new();
    for _ in 0..SETS {
        if page.has(Role::Button, "Log ").await {
            let (done, of) = gym.progress().await;
            let saved = json!(weekloom_tests::words::SAVED);
            let times = page.client().execute_async(LOG_A_SET, vec![saved]).await;
            let times = times.expect("a set is kept");
            gym.is_saved((done + 1, of)).await;
            sets.push((
                times[0].as_f64().expect("ms"),
                times[1].as_f64().expect("ms"),
            ));
        }
    }
    let ask = async |script: &str, arguments| {
        let found = page.client().execute_async(script, arguments).await;
        found.expect("it is done").as_f64().expect("ms")
    };
    let progress = ask(OPEN_PROGRESS, vec![]).await;
    page.script("location.hash = '#/kit/data'", vec![]).await;
    page.find(Role::Button, weekloom_tests::words::BACKUP_OUT)
        .await;
    let name = json!(weekloom_tests::words::BACKUP_OUT);
    let backup = ask(MAKE_BACKUP, vec![name]).await;
    #[expect(clippy::cast_precision_loss, reason = "some hundred thousand")]
    let megabytes = journey.page_kilobytes().expect("the page's process") as f64 / 1024.0;
    Found {
        start,
        sets,
        progress,
        backup,
        megabytes,
    }
}
