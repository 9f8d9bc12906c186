//! What a person can do on each screen, in their words.
//!
//! Start at [`FirstOpening`], then [`Places`] to get about and [`Gym`] for the session.

mod data;
mod demo;
mod first_opening;
mod gym;
mod looks;
mod places;

pub use data::{Answer, YourData};
pub use demo::Demo;
pub use first_opening::FirstOpening;
pub use gym::{Gym, Rest, sets_of};
pub use looks::Looks;
pub use places::{Places, Planned, Sheet, Today};
