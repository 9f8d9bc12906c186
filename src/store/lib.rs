//! What is kept and how.
