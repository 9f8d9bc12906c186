//! Sets as comma-separated values (RFC 4180): out of the log, and in from a
//! spreadsheet somebody kept.
//!
//! Start at [`all_sets`] for the way out. What spreadsheets do with a cell is
//! part of the form: a text that would be taken for a formula is guarded.

mod write;

pub use write::{COLUMNS, Sheet, all_sets};

/// Signs a spreadsheet takes for the start of a formula, or that hide one.
const FORMULA: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];
