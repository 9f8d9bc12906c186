//! The audit of a week: sets, frequency, gaps, minutes, balance.
