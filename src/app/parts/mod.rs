//! The pieces screens are made of. A part knows no screen and no store: values
//! come in, answers go out by the functions it is given.

mod chart;
mod field;
mod file_choice;
mod held_down;
mod icon;
mod line;
mod loom;
mod nav;
mod plates;
mod sheet;
mod stepper;

pub use chart::{Chart, bars};
pub use field::{
    Choice, ChoiceGroup, Choices, TickGroup, TypedField, labelled, languages, refusal, select_all,
    tick, typing_replaces,
};
pub use file_choice::file_choice;
pub use icon::{Shape, icon};
pub use line::{line, line_button, line_link, line_more};
pub use loom::loom_of;
pub use nav::nav;
pub use plates::plates_on_bar;
pub use sheet::sheet;
pub use stepper::{Stepper, Turn};
