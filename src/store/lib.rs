//! What Weekloom keeps, and how: wire types, journal replay, backup.
//!
//! Start at [`Store`]. It reads and writes small sealed values on a [`Shelf`]
//! (local storage in the app, [`MemoryShelf`] in tests). Every change becomes
//! a [`JournalRecord`] first, which the app commits durably before the value
//! goes on the shelf; [`Store::open`] replays what the shelf lost. [`backup`]
//! writes and reads the one file a person can keep; [`demo`] fills a separate
//! corner with invented logs.
//!
//! What this crate never does: touch a browser, read a clock, overwrite a
//! value it cannot read before a copy of it is safe, or change a released
//! wire type.

pub mod backup;
mod chronicle;
pub mod demo;
pub mod diary;
mod envelope;
pub mod handover;
mod index;
mod journal;
mod json;
mod keys;
mod own;
mod settings;
pub mod sheet;
mod shelf;
mod stamp;
mod store;
pub mod wire;

pub use chronicle::{Amendment, Chronicle, Remark, SetNumbers, Weighing};
pub use index::{History, Index, Past, SessionLine};
pub use journal::{DamagedRecord, Intent, JournalRecord};
pub use keys::{CHOSEN_LANGUAGE, CHOSEN_SPACE, KEPT_FORMS, Space};
pub use own::{OwnExercise, OwnExercises};
pub use settings::{AcceptedPlan, Hand, Notice, Screen, Settings, Sound, Theme};
pub use shelf::{MemoryShelf, Shelf, ShelfError};
pub use store::{Aside, Changes, CommitReport, OpenReport, Store, StoreError, Unreadable, Why};
