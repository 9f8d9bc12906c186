//! The plan: its days, one exercise and why it is there, other exercises for
//! its place, the shape of the week, and cycles of one's own.

mod add;
mod cards;
mod checked;
mod cycle;
mod hand;
mod item;
mod shape;
mod swap;
mod week;

pub use add::{add, exercise_picker};
pub use cards::cards;
pub use cycle::{cycle, cycle_day, cycles};
pub use hand::{hand, looked_at, taken};
pub use item::item;
pub use shape::shape;
pub use swap::swap;
pub use week::week;
