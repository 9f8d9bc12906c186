//! The running session: the set that is up, the rest, and the sheets over it.

use serde_json::json;
use weekloom_engine::log::SetEntry;
use weekloom_engine::session::Session;
use weekloom_store::{MemoryShelf, Shelf as _, Space, Store};

use super::places::Sheet;
use crate::browser::{Page, Role};
use crate::words;

/// Waits for the next change of the timer; none within three seconds is no answer.
const WATCH_TIMER: &str = "const done = arguments[arguments.length - 1];
    const timer = document.querySelector('[role=timer]');
    if (!timer) return done(null);
    const late = setTimeout(() => done(null), 3000);
    new MutationObserver((_, observer) => {
      observer.disconnect();
      clearTimeout(late);
      done([timer.textContent, Date.now()]);
    }).observe(timer, { subtree: true, childList: true, characterData: true });";

/// A rest as it stood at a moment of the page's clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rest {
    /// Seconds left.
    pub left_s: i64,
    /// When, in milliseconds.
    pub at_ms: i64,
}

impl Rest {
    /// When the rest ends, in milliseconds of the page's clock.
    pub const fn end_ms(self) -> i64 {
        self.at_ms + self.left_s * 1000
    }
}

/// The session as it runs.
pub struct Gym<'a>(pub &'a Page);

impl Gym<'_> {
    /// Sets done and planned.
    pub async fn progress(&self) -> (usize, usize) {
        self.0
            .until("a count of sets", async || {
                read_progress(&self.0.text().await)
            })
            .await
    }

    /// Logs the set as it stands and waits until it is acknowledged as saved.
    pub async fn log(&self) {
        let before = self.progress().await;
        self.tap_log().await;
        self.is_saved((before.0 + 1, before.1)).await;
    }

    /// Taps the wide button alone.
    pub async fn tap_log(&self) {
        self.0.tap(Role::Button, "Log ").await;
    }

    /// Waits until so many sets stand as done and the last change is kept.
    pub async fn is_saved(&self, progress: (usize, usize)) {
        let script = "return [document.body.innerText,
            ...[...document.querySelectorAll('[role=status]')].map((e) => e.innerText)]";
        self.0
            .until(
                &format!("{progress:?} sets and the word that they are saved"),
                async || {
                    let found = self.0.script(script, vec![]).await;
                    let found = found.as_array()?;
                    let done = read_progress(found.first()?.as_str()?)?;
                    let is_saved = found.iter().skip(1).any(|text| text == words::SAVED);
                    (done == progress && is_saved).then_some(())
                },
            )
            .await;
    }

    /// Says how many reps were left.
    pub async fn left_in_me(&self, reps: u8) {
        self.0.tap(Role::Button, &words::effort(reps)).await;
    }

    /// The exercise that is up.
    pub async fn exercise(&self) -> String {
        let script = "return document.querySelector('main h2')?.innerText ?? null";
        self.0
            .until("an exercise", async || {
                Some(self.0.script(script, vec![]).await.as_str()?.to_owned())
            })
            .await
    }

    /// What stands beside a term such as "Last time".
    pub async fn fact(&self, term: &str) -> String {
        self.0
            .until(&format!("what stands beside '{term}'"), async || {
                let text = self.0.text().await.replace('\u{a0}', " ");
                let mut lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
                lines.find(|line| line.eq_ignore_ascii_case(term))?;
                lines.next().map(str::to_owned)
            })
            .await
    }

    /// Unfolds the reason of the suggestion, if it is not unfolded already.
    pub async fn why(&self) {
        if !self.is_why_open().await {
            self.0.tap(Role::Disclosure, words::WHY).await;
        }
    }

    /// Is the reason of the suggestion unfolded?
    pub async fn is_why_open(&self) -> bool {
        let found = self.0.find(Role::Disclosure, words::WHY).await;
        let script = "return arguments[0].closest('details').open";
        self.0.script(script, vec![json!(found.element)]).await == true
    }

    /// The field of the load; "help" where the machine helps.
    pub async fn load_field(&self) -> Option<&'static str> {
        for name in [words::LOAD, words::HELP] {
            if self.0.has(Role::Textbox, name).await {
                return Some(name);
            }
        }
        None
    }

    /// The field of the reps or seconds.
    pub async fn count_field(&self) -> &'static str {
        self.0
            .until("a field for reps or seconds", async || {
                for name in [words::REPS, words::SECONDS] {
                    if self.0.has(Role::Textbox, name).await {
                        return Some(name);
                    }
                }
                None
            })
            .await
    }

    /// Types a load and confirms it.
    pub async fn type_load(&self, text: &str) {
        let field = self
            .0
            .until("an exercise with a load", async || self.load_field().await);
        let field = field.await;
        self.0.type_into(field, &format!("{text}\n")).await;
    }

    /// Types reps or seconds and confirms them.
    pub async fn type_count(&self, text: &str) {
        let field = self.count_field().await;
        self.0.type_into(field, &format!("{text}\n")).await;
    }

    /// Does a rest run?
    pub async fn is_resting(&self) -> bool {
        self.0.has(Role::Timer, "").await
    }

    /// The rest that runs, read as its seconds change: so it is exact however slow the
    /// machine is.
    pub async fn resting(&self) -> Rest {
        self.0
            .until("a rest that counts down", async || {
                let found = self.0.client().execute_async(WATCH_TIMER, vec![]).await;
                let found = found.ok()?;
                let (minutes, seconds) = found[0].as_str()?.trim().split_once(':')?;
                Some(Rest {
                    left_s: minutes.parse::<i64>().ok()? * 60 + seconds.parse::<i64>().ok()?,
                    at_ms: found[1].as_i64()?,
                })
            })
            .await
    }

    /// Shortens the rest until its end is a matter of seconds.
    pub async fn rest_little(&self) {
        while self.resting().await.left_s > 15 {
            self.0.tap(Role::Button, words::LESS_REST).await;
        }
    }

    /// Opens the whole session.
    pub async fn whole(&self) -> Sheet<'_> {
        let (done, of) = self.progress().await;
        self.0.tap(Role::Button, &words::sets_done(done, of)).await;
        let sheet = Sheet(self.0);
        sheet.is_up(words::WHOLE_SESSION).await;
        sheet
    }

    /// Opens what else can be done.
    pub async fn more(&self) -> Sheet<'_> {
        self.0.tap(Role::Button, words::MORE).await;
        let sheet = Sheet(self.0);
        sheet.is_up(words::MORE).await;
        sheet
    }

    /// Opens plates and warm-up.
    pub async fn load_up(&self) -> Sheet<'_> {
        for name in [words::LOAD_UP, words::WARM_UP] {
            if self.0.has(Role::Button, name).await {
                self.0.tap(Role::Button, name).await;
                break;
            }
        }
        let sheet = Sheet(self.0);
        sheet.is_up(words::LOAD_UP).await;
        sheet
    }

    /// Puts an exercise of the session up.
    pub async fn do_now(&self, name: &str) {
        let sheet = self.whole().await;
        sheet.unfold(name).await;
        self.0.tap(Role::Button, words::DO_NOW).await;
        sheet.is_gone().await;
    }

    /// Swaps the exercise that is up for the first one offered; its new name.
    pub async fn swap(&self) -> String {
        let before = self.exercise().await;
        self.0.tap(Role::Button, words::SWAP).await;
        Sheet(self.0).is_up(words::SWAP_FOR).await;
        let offered = self
            .0
            .until("exercises to swap for", async || {
                let all = self.0.all(Role::Button, "").await;
                // The first closes the sheet.
                all.into_iter().nth(1)
            })
            .await;
        self.0.tap_control(&offered).await;
        Sheet(self.0).is_gone().await;
        self.0
            .until("another exercise", async || {
                let now = self.exercise().await;
                (now != before).then_some(now)
            })
            .await
    }

    /// Finishes before all sets are done.
    pub async fn finish_early(&self) {
        self.more().await;
        self.0.tap(Role::Button, words::FINISH_EARLY).await;
        self.is_finished().await;
    }

    /// Finishes when all sets are done.
    pub async fn finish(&self) {
        self.0.tap(Role::Button, words::FINISH).await;
        self.is_finished().await;
    }

    /// Leaves the account of the finished session.
    pub async fn leave(&self) {
        self.0.tap(Role::Button, words::CLOSE).await;
        self.0.find(Role::Link, words::LOG).await;
    }

    async fn is_finished(&self) {
        self.0.find(Role::Heading, words::SESSION_DONE).await;
    }

    /// The session under way as it stands in local storage, read by the store itself.
    pub async fn kept(&self) -> Session {
        // One just begun is kept a moment later.
        let read = async || {
            let mut shelf = MemoryShelf::new();
            for (key, value) in self.0.kept(Space::Own.prefix()).await {
                shelf.set(&key, &value).expect("memory takes everything");
            }
            let (store, _) = Store::open(shelf, Space::Own, Vec::new());
            store.load_now().expect("the session can be read")
        };
        self.0.until("a session under way to be kept", read).await
    }

    /// Its sets, in order of exercise and set.
    pub async fn kept_sets(&self) -> Vec<SetEntry> {
        sets_of(&self.kept().await)
    }
}

/// All sets of a session, in order of exercise and set.
pub fn sets_of(session: &Session) -> Vec<SetEntry> {
    session
        .items
        .iter()
        .flat_map(|item| item.sets.iter().copied())
        .collect()
}

/// Finds "3 of 21 sets", as [`words::sets_done`] writes it.
fn read_progress(text: &str) -> Option<(usize, usize)> {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.windows(4).find_map(|four| {
        let [done, "of", of, sets] = four else {
            return None;
        };
        let is_count = sets.to_lowercase().starts_with("set");
        is_count.then(|| Some((done.parse().ok()?, of.parse().ok()?)))?
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_the_sessions_own_count() {
        let text = format!("Push\n{} \u{b7} 3 min\nSet 2 of 4", words::sets_done(5, 21));
        assert_eq!(read_progress(&text), Some((5, 21)));
        assert_eq!(read_progress("Set 2 of 4"), None);
    }

    #[test]
    fn a_rest_ends_at_one_moment() {
        let rest = |left_s, at_ms| Rest { left_s, at_ms };
        assert_eq!(rest(90, 5_000).end_ms(), rest(60, 35_000).end_ms());
    }
}
