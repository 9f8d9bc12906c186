//! The plan engine of Weekloom: numbers in, numbers and reasons out.
//!
//! Start at [`plan::plan_week`] for the week, [`progress::suggest`] for what to
//! lift next, and [`session::Session`] for the session as it runs.
//!
//! What this crate never does: read a clock, draw a random number, touch
//! storage or the screen, or depend on the order of a hash map. "Today" and
//! "now" are always arguments, and the same input gives the same output on
//! every machine.

pub mod audit;
pub mod bounds;
pub mod calendar;
pub mod catalogue;
pub mod compare;
pub mod estimate;
pub mod freshness;
pub mod kit;
pub mod load;
pub mod log;
pub mod loom;
pub mod order;
pub mod person;
pub mod plan;
pub mod presets;
pub mod progress;
pub mod review;
pub mod schedule;
pub mod session;
mod slug;
pub mod units;
