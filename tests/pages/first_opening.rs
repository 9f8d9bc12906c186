//! The cautions, the questions, and the way past them.

use crate::browser::{Page, Role};
use crate::words;

/// The first opening.
pub struct FirstOpening<'a>(pub &'a Page);

impl FirstOpening<'_> {
    /// Says that the cautions are read.
    pub async fn read_cautions(&self) {
        self.0.sees(words::CAUTIONS).await;
        self.0.tap(Role::Button, words::CAUTIONS_READ).await;
        self.0.find(Role::Heading, words::WHEN).await;
    }

    /// From the cautions straight to a plan of three days, an hour, a full gym.
    pub async fn skip(&self) {
        self.read_cautions().await;
        self.0.tap(Role::Button, words::SKIP).await;
        self.is_over().await;
    }

    /// To the next question.
    pub async fn next(&self, question: &str) {
        self.0.tap(Role::Button, words::NEXT).await;
        self.0.find(Role::Heading, question).await;
    }

    /// Makes the plan.
    pub async fn weave(&self) {
        self.0.tap(Role::Button, words::WEAVE).await;
        self.is_over().await;
    }

    /// Answers with only these weekdays ("Mon"), this experience and these units; all
    /// else as offered.
    pub async fn answer(&self, days: &[&str], experience: &str, unit: &str) {
        self.read_cautions().await;
        self.train_on(days).await;
        self.next(words::WITH_WHAT).await;
        self.0.tap(Role::Radio, unit).await;
        self.next(words::ABOUT_YOU).await;
        self.0.tap(Role::Radio, experience).await;
        self.weave().await;
    }

    /// Ticks these weekdays and no others.
    pub async fn train_on(&self, days: &[&str]) {
        for day in ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"] {
            if self.0.is_chosen(Role::Checkbox, day).await != days.contains(&day) {
                self.0.tap(Role::Checkbox, day).await;
            }
        }
    }

    async fn is_over(&self) {
        self.0.find(Role::Link, words::PLAN).await;
        // The plan is shown before it is kept; a load right after would not find it.
        let is_kept = async || {
            let is_denied = self.0.shows(words::MEMORY_ONLY).await;
            (is_denied || self.0.kept("weekloom.plan").await.len() == 1).then_some(())
        };
        self.0.until("the plan to be kept", is_kept).await;
    }
}
