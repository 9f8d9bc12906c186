//! Sets as comma-separated values (RFC 4180): out of the log, and in from a
//! spreadsheet somebody kept.
//!
//! Start at [`all_sets`] for the way out. The way in goes by steps that a
//! person sees: [`Table::read`] finds rows and cells, [`Mapping::guess`] what
//! stands in which column, [`Names`] the exercise a name means,
//! [`Gatherer::gather`] what all that comes to, with a remark on every row that
//! gave no set; [`bring_in`] alone changes anything. What spreadsheets do with
//! a cell is part of the form: a text that would be taken for a formula is
//! guarded.

mod cells;
mod columns;
mod gather;
mod likeness;
mod table;
mod write;

pub use cells::DayOrder;
pub use columns::{Column, Mapping};
pub use gather::{Gatherer, Harvest, Meaning, Remark, Why, bring_in, names};
pub use likeness::{Names, PROPOSED};
pub use table::{MOST_BYTES, MOST_COLUMNS, MOST_ROWS, Row, Table, TableError, Torn, WhyTorn};
pub use write::{COLUMNS, Sheet, all_sets};

/// Signs a spreadsheet takes for the start of a formula, or that hide one.
const FORMULA: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];
