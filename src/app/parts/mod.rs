//! The pieces screens are made of. A part knows no screen and no store: values
//! come in as signals, answers go out as callbacks.

mod field;
mod icon;
mod loom;
mod nav;
mod sheet;
mod stepper;

pub use field::{Choice, ChoiceGroup, TickGroup, TypedField};
pub use icon::{Icon, Shape};
pub use loom::Loom;
pub use nav::Nav;
pub use sheet::Sheet;
pub use stepper::Stepper;
