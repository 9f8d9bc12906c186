//! The plan: its days, one exercise and why it is there, other exercises for
//! its place, and the shape of the week.

mod add;
mod item;
mod shape;
mod swap;
mod week;

pub use add::{Add, ExercisePicker};
pub use item::Item;
pub use shape::Shape;
pub use swap::Swap;
pub use week::Week;
