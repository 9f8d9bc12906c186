//! Getting about: the bar of places, the pages below them, today's plan, and sheets.

use crate::browser::{Page, Role};
use crate::words;

/// The bar of places.
pub struct Places<'a>(pub &'a Page);

impl Places<'_> {
    /// Goes to a place by its name. A running session has no bar: it is left by its link
    /// to the week.
    pub async fn go(&self, place: &str) {
        self.0
            .until("the bar of places or a way to it", async || {
                let has_bar = self.0.has(Role::Link, words::PLAN).await;
                (has_bar || self.0.has(Role::Link, words::WEEK).await).then_some(())
            })
            .await;
        if !self.0.has(Role::Link, words::PLAN).await {
            self.0.tap(Role::Link, words::WEEK).await;
        }
        self.0.tap(Role::Link, place).await;
    }

    /// Goes to a page under "Kit & data".
    pub async fn go_to_kit(&self, page: &str) {
        self.go(words::KIT).await;
        self.0.find(Role::Heading, words::KIT).await;
        self.0.tap(Role::Link, page).await;
    }
}

/// Today, while no session runs.
pub struct Today<'a>(pub &'a Page);

/// One exercise of the day as today's plan shows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Planned {
    /// Its name.
    pub name: String,
    /// Sets asked for.
    pub sets: u16,
    /// Least and most reps (or seconds).
    pub goal: (u16, u16),
}

impl Today<'_> {
    /// The exercises due or next.
    pub async fn planned(&self) -> Vec<Planned> {
        let script =
            "return [...document.querySelectorAll('main ol li')].map((line) => line.innerText)";
        let lines = self.0.script(script, vec![]).await;
        let lines = lines.as_array().cloned().unwrap_or_default();
        lines
            .iter()
            .filter_map(|line| read_planned(line.as_str()?))
            .collect()
    }

    /// Begins the session that is due or, on another day, the next one.
    pub async fn start(&self) {
        let name = self.0.until("a session to begin", async || {
            for name in [words::START, words::TRAIN_ANYWAY] {
                if self.0.has(Role::Button, name).await {
                    return Some(name);
                }
            }
            None
        });
        let name = name.await;
        self.0.tap(Role::Button, name).await;
        self.0.find(Role::Button, words::MORE).await;
    }
}

/// Reads "Bench press / 3 × 6–8", as [`words::sets_by_reps`] writes it.
fn read_planned(line: &str) -> Option<Planned> {
    let (before, after) = line.split_once('\u{d7}')?;
    let (name, sets) = before.trim().rsplit_once(char::is_whitespace)?;
    let goal: String = after
        .trim()
        .chars()
        .take_while(|c| c.is_ascii_digit() || *c == '\u{2013}')
        .collect();
    let (least, most) = goal.split_once('\u{2013}').unwrap_or((&goal, &goal));
    Some(Planned {
        name: name.trim().to_owned(),
        sets: sets.parse().ok()?,
        goal: (least.parse().ok()?, most.parse().ok()?),
    })
}

/// A sheet drawn up over the session.
pub struct Sheet<'a>(pub &'a Page);

impl Sheet<'_> {
    /// Waits until the sheet of this title is up.
    pub async fn is_up(&self, title: &str) {
        self.0.find(Role::Dialog, title).await;
    }

    /// Closes it by its button.
    pub async fn close(&self) {
        self.0.tap(Role::Button, words::CLOSE).await;
        self.is_gone().await;
    }

    /// Waits until no sheet is up.
    pub async fn is_gone(&self) {
        let is_gone = async || (!self.0.has(Role::Dialog, "").await).then_some(());
        self.0.until("the sheet to go", is_gone).await;
    }

    /// Unfolds what has this name.
    pub async fn unfold(&self, name: &str) {
        self.0.tap(Role::Disclosure, name).await;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_the_plans_own_words() {
        let written = format!("Bench press\n{}", words::sets_by_reps(3, 6, 8, false));
        let planned = read_planned(&written).unwrap();
        assert_eq!((planned.name.as_str(), planned.sets), ("Bench press", 3));
        assert_eq!(planned.goal, (6, 8));
        let hold = format!("Plank {}", words::sets_by_reps(2, 30, 30, true));
        assert_eq!(read_planned(&hold).unwrap().goal, (30, 30));
        assert_eq!(read_planned("Bench press"), None);
    }
}
