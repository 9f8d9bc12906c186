//! The plan: its days, one exercise and why it is there, other exercises for
//! its place, and the shape of the week.

mod add;
mod checked;
mod item;
mod shape;
mod swap;
mod week;

pub use add::{add, exercise_picker};
pub use item::item;
pub use shape::shape;
pub use swap::swap;
pub use week::week;
