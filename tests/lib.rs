//! Journeys through the built app in a real browser, as page models.
//!
//! Start at [`journey::run`], which gives a test a server, a browser with a fresh profile
//! and a steady clock, and takes them all down again; then [`pages`] for what can be done
//! on each screen. The tests themselves are in `journeys/`; `cargo xtask test --only
//! journeys` builds nothing and runs them on `dist/`.
//!
//! Screens are met as a person meets them: by role and accessible name, which is what the
//! browser itself computes. The names come from the app's own list of words, so that
//! polishing a word never breaks a journey. No test counts on the machine's date or speed.

pub mod axe;
pub mod browser;
pub mod journey;
pub mod pages;
pub mod torture;
pub mod versions;

/// The app's words, from the one file that holds them.
#[path = "../src/app/text/words.rs"]
pub mod words;

/// Those for the logs of others.
#[path = "../src/app/text/others.rs"]
pub mod others;

/// What turns them into another language.
#[path = "../src/app/text/language.rs"]
pub mod language;

/// Where the words look for it.
pub mod text {
    pub use crate::language;
}
