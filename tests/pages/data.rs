//! "Your data": backup out and in, deleting everything.

use std::fs;
use std::path::{Path, PathBuf};

use weekloom_store::Space;

use super::places::Places;
use crate::browser::{Page, Role};
use crate::journey::Journey;
use crate::words;

/// The page "Your data".
pub struct YourData<'a>(pub &'a Page);

impl YourData<'_> {
    /// Goes there.
    pub async fn open(&self) {
        Places(self.0).go_to_kit(words::DATA).await;
        self.0.find(Role::Heading, words::DATA).await;
    }

    /// Saves a backup file; where it went, and its text.
    pub async fn save(&self, journey: &Journey) -> (PathBuf, String) {
        let settings = format!("{}settings", Space::Own.prefix());
        let before = self.0.kept(&settings).await;
        self.0.tap(Role::Button, words::BACKUP_OUT).await;
        let path = journey.next_download(self.0).await;
        // The day is noted in the settings, which are kept a moment later.
        let is_noted = async || (self.0.kept(&settings).await != before).then_some(());
        self.0.until("the day to be noted", is_noted).await;
        let text = fs::read_to_string(&path).expect("the backup is text");
        (path, text)
    }

    /// Chooses a file, and waits for what the app says to it: an offer or a refusal.
    pub async fn read(&self, file: &Path) -> Answer {
        self.0.give_file(words::BACKUP_IN, file).await;
        // The field is empty again once the file has been read; until then the answer to
        // the one before may still be shown.
        self.0
            .until("the file read", async || {
                let field = self.0.all(Role::File, words::BACKUP_IN).await;
                let named = field.first()?.element.prop("value").await.ok()?;
                named.unwrap_or_default().is_empty().then_some(())
            })
            .await;
        self.0
            .until("an answer to the file", async || {
                if self.0.has(Role::Button, words::BACKUP_ACCEPT).await {
                    return Some(Answer::Offered);
                }
                let refused = self.0.all(Role::Alert, "").await;
                let text = refused.first()?.element.text().await.ok()?;
                text.contains(words::NOTHING_CHANGED)
                    .then_some(Answer::Refused(text))
            })
            .await
    }

    /// Takes in what was offered.
    pub async fn accept(&self) {
        self.0.tap(Role::Button, words::BACKUP_ACCEPT).await;
    }

    /// Deletes everything, saying so twice.
    pub async fn delete_all(&self) {
        self.0.tap(Role::Button, words::DELETE_ALL).await;
        self.0.tap(Role::Button, words::DELETE_SURE).await;
    }
}

/// What the app says to a chosen file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// It can be taken in.
    Offered,
    /// It cannot, and why.
    Refused(String),
}
