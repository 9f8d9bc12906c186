//! From engine types to JSON text and back, with every value checked.
//!
//! Start at [`to_text`] and [`from_text`]. The shapes on the wire stand in
//! `v1`, frozen once released; a change of shape is a new version with a step
//! from the old one. Unknown fields within a version are refused: they would
//! be lost on the next write. Exercises that the catalogue does not hold are
//! kept by their id, so that a log stays readable whatever becomes of it.

mod index;
mod part;
mod person;
mod plan;
mod session;
mod settings;
pub(crate) mod v1;

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
    pub(crate) fn new(place: &str, what: impl fmt::Display) -> Box<Self> {
        Self::boxed(place, what.to_string())
    }

    #[cold]
    fn boxed(place: &str, what: String) -> Box<Self> {
        let place = place.to_owned();
        Box::new(Self { place, what })
    }

    /// The same error seen from the list it stands in.
    #[cold]
    pub(crate) fn at(self: Box<Self>, list: &str, entry: usize) -> Box<Self> {
        self.inside(&format!("{list}[{entry}]"))
    }

    /// The same error seen from one level further out.
    #[cold]
    pub(crate) fn inside(mut self: Box<Self>, outer: &str) -> Box<Self> {
        self.place = match self.place.as_str() {
            "" => outer.to_owned(),
            place if place.starts_with('[') => format!("{outer}{place}"),
            place => format!("{outer}.{place}"),
        };
        self
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

/// Boxed, because every step of reading may hand one on, and a pointer takes
/// less code.
pub(crate) type Read<T> = Result<T, Box<WireError>>;

mod sealed {
    pub trait Sealed {}
    impl Sealed for weekloom_engine::person::Person {}
    impl Sealed for weekloom_engine::session::Session {}
    impl Sealed for crate::AcceptedPlan {}
    impl Sealed for crate::Settings {}
    impl Sealed for crate::History {}
    impl Sealed for crate::Index {}
}

/// What can be kept.
pub trait Stored: Sized + sealed::Sealed {
    /// Its shape on the wire.
    #[doc(hidden)]
    type Wire: Json;

    /// Into its wire shape. Never fails; [`to_text`] checks the result.
    #[doc(hidden)]
    fn to_wire(&self) -> Self::Wire;

    /// Out of its wire shape.
    ///
    /// # Errors
    /// [`WireError`] names the first value that is out of bounds.
    #[doc(hidden)]
    fn from_wire(wire: Self::Wire) -> Read<Self>;
}

/// The value as ASCII JSON.
///
/// # Errors
/// [`WireError`] when the value could not be read back, for instance because
/// a load is out of bounds: better refused now than unreadable later.
pub fn to_text<T: Stored>(value: &T) -> Result<String, WireError> {
    let wire = value.to_wire();
    let text = json::write(&wire);
    T::from_wire(wire).map_err(|error| *error)?;
    Ok(text)
}

/// The value in a JSON text.
///
/// # Errors
/// [`WireError`] names the place and what is wrong there.
pub fn from_text<T: Stored>(text: &str) -> Result<T, WireError> {
    let wire = json::read(text).map_err(|misfit| json_error(misfit, text))?;
    T::from_wire(wire).map_err(|error| *error)
}

/// What does not fit a shape, as an error of the whole text.
pub(crate) fn json_error(misfit: Misfit, text: &str) -> WireError {
    let (place, what) = misfit.place_in(text);
    WireError { place, what }
}
