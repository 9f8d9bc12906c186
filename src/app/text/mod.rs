//! Every word the app shows, in one place.
//!
//! Start at [`words`] for sentences and labels, [`terms`] for the names of
//! muscles, patterns and things, [`reasons`] and [`course`] for the codes of the
//! engine turned into sentences, [`edits`] for changes of the plan. [`language`] puts
//! them into the language spoken. No screen holds a sentence of its own.

pub mod block;
pub mod course;
pub mod dates;
pub mod edits;
pub mod errors;
pub mod language;
pub mod others;
pub mod progress;
pub mod reasons;
pub mod review;
pub mod sheet;
pub mod terms;
pub mod words;
