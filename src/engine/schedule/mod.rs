//! Placing the cycle on the calendar.
