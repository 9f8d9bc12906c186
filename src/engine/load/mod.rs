//! Loads the kit can make.
