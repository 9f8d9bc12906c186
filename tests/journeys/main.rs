//! The journeys: what a person does with the app, start to end, in a real browser.
//!
//! Each is independent and has its own server, driver and profile, so they run side by
//! side. Run them with `cargo xtask test --only journeys`.

mod accessibility;
mod backup;
mod bare_browser;
mod body_weight;
mod broken_storage;
mod busy_rack;
mod clock_back;
mod compare;
mod demo;
mod editing;
mod first_opening;
mod german;
mod handing_on;
mod history;
mod injection;
mod installing;
mod killed;
mod looking_back;
mod mid_rest;
mod notices;
mod offline;
mod one_thumb;
mod own_cycle;
mod own_exercise;
mod paper;
mod progress;
mod progression;
mod reading_others;
mod reminder;
mod repair;
mod second_week;
mod sharing;
mod spreadsheet;
mod taking_along;
mod two_windows;
mod units;
mod whole_session;
mod wide_screen;
