//! Words for the logs of others.

use crate::say;

/// The page.
pub const OTHERS: &str = "Logs of others";
/// What it is for, in a line.
pub const OTHERS_LINK: &str = "Read somebody's log beside your own";
/// How it works.
pub const OTHERS_MORE: &str = "With the backup file somebody gives you, you can look at their log, review and plan as they see them. It stays apart from yours, nothing in it can be changed, and it is kept on this device only.";
/// None yet.
pub const NOBODY: &str = "Nobody's file is here yet.";
/// Of a file that another version kept.
pub const ABOUT_UNKNOWN: &str = "Kept by another version of Weekloom";
/// Opens a log.
pub const READ: &str = "Read";
/// Takes a file out.
pub const FORGET: &str = "Remove";
/// Sure?
pub const FORGET_SURE: &str = "Yes, remove this file";
/// Chooses a file.
pub const READ_THEIRS: &str = "Read somebody's backup file";
/// Over the name.
pub const WHOSE_LOG: &str = "Whose log is this?";
/// The name.
pub const WHOSE: &str = "Name";
/// Without one.
pub const NAME_FIRST: &str = "Write a name first, so that you find this log again.";
/// Not beside a session of one's own.
pub const FINISH_FIRST_READ: &str = "A session is running. Finish it first, then read this log.";
/// Keeps and opens.
pub const KEEP_AND_READ: &str = "Keep and read";
/// Ends reading.
pub const BACK_TO_MINE: &str = "Back to mine";
/// No plan in the file.
pub const NO_PLAN: &str = "There is no plan in this file.";

/// When a file was made and what it holds.
#[must_use]
pub fn about(made: &str, sessions: usize) -> String {
    if sessions == 1 {
        say!("As of {made}: 1 session", made)
    } else {
        say!("As of {made}: {sessions} sessions", made, sessions)
    }
}

/// Somebody's file of the same name gives way.
#[must_use]
pub fn gives_way(name: &str) -> String {
    say!("Takes the place of the file of {name} that is here.", name)
}

/// Whose log is read.
#[must_use]
pub fn reading(name: &str, made: &str) -> String {
    say!("You are reading {name}'s log, as of {made}.", name, made)
}

/// The files of others are still there.
#[must_use]
pub fn not_forgotten(why: &str) -> String {
    say!(
        "The logs of others were not deleted ({why}). Try again.",
        why
    )
}

/// The browser keeps no files of others.
#[must_use]
pub fn not_kept(why: &str) -> String {
    say!(
        "This browser did not keep or find the file ({why}). You can read it again from where it lies.",
        why
    )
}
