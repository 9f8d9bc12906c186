//! What the app asks of the browser: storage, clock, sound, files, screen.
//!
//! Each effect is small and says what it does where the browser refuses.
//! Nothing here decides anything.

pub mod clipboard;
pub mod clock;
pub mod file;
pub mod language;
pub mod notice;
pub mod picture;
pub mod room;
pub mod screen_lock;
pub mod share;
pub mod sound;
pub mod storage;
pub mod update;
