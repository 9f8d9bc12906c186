//! What to lift next, and why.
