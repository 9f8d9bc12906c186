//! From engine types to JSON text and back, with every value checked.
//!
//! Start at [`to_text`] and [`from_text`]. The files beside this one read and
//! write the shapes of schema version 1, which are frozen once released and set
//! down in `backup.schema.json`; a change of shape is a new version with a
//! reader of its own. Unknown fields within a version are refused: they would
//! be lost on the next write. Exercises that the catalogue does not hold are
//! kept by their id, so that a log stays readable whatever becomes of it.

mod chronicle;
mod exercise;
mod index;
mod part;
mod person;
mod plan;
mod session;
mod settings;

use crate::json::{self, Json, Misfit};
use std::fmt;

/// A stored value was refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WireError {
    /// Where in the value, as a path such as `items[2].sets[0]`, or as line
    /// and column; empty for the whole.
    pub place: String,
    /// What is wrong there.
    pub what: String,
}

impl WireError {
    pub(crate) fn new(place: &str, what: impl fmt::Display) -> Self {
        Self {
            place: place.to_owned(),
            what: what.to_string(),
        }
    }
}

impl fmt::Display for WireError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.place.is_empty() {
            f.write_str(&self.what)
        } else {
            write!(f, "{}: {}", self.place, self.what)
        }
    }
}

impl std::error::Error for WireError {}

mod sealed {
    pub trait Sealed {}
    impl Sealed for weekloom_engine::person::Person {}
    impl Sealed for weekloom_engine::session::Session {}
    impl Sealed for crate::AcceptedPlan {}
    impl Sealed for crate::Settings {}
    impl Sealed for crate::History {}
    impl Sealed for crate::Index {}
    impl Sealed for crate::OwnExercises {}
    impl Sealed for crate::Chronicle {}
}

/// What can be kept.
pub trait Stored: Json + sealed::Sealed {}

impl<T: Json + sealed::Sealed> Stored for T {}

/// The value as ASCII JSON.
///
/// # Errors
/// [`WireError`] when the value could not be read back, for instance because
/// a load is out of bounds: better refused now than unreadable later.
pub fn to_text<T: Stored>(value: &T) -> Result<String, WireError> {
    let text = json::write(value);
    from_text::<T>(&text)?;
    Ok(text)
}

/// The value in a JSON text.
///
/// # Errors
/// [`WireError`] names the place and what is wrong there.
pub fn from_text<T: Stored>(text: &str) -> Result<T, WireError> {
    json::read(text).map_err(|misfit| json_error(misfit, text))
}

/// What does not fit a shape, as an error of the whole text.
pub(crate) fn json_error(misfit: Misfit, text: &str) -> WireError {
    let (place, what) = misfit.place_in(text);
    WireError { place, what }
}
