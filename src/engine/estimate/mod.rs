//! Estimated 1RM.
