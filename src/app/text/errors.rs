//! Refusals and failures in words that say what to do.

use super::language::{made, said};
use crate::effects::storage::SaveError;
use crate::say;
use weekloom_engine::plan::PlanError;
use weekloom_engine::session::Refusal;
use weekloom_engine::units::NumberError;
use weekloom_store::StoreError;

fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let Some(first) = letters.next() else {
        return String::new();
    };
    let stop = if text.ends_with(['.', '?', '!']) {
        ""
    } else {
        "."
    };
    format!("{}{}{stop}", first.to_uppercase(), letters.as_str())
}

/// A typed number was refused.
#[must_use]
pub fn number(error: &NumberError) -> String {
    match error {
        NumberError::Empty => said("Type a number."),
        NumberError::NotANumber(text) => {
            say!(
                "\u{201c}{text}\u{201d} is not a number. Type digits only.",
                text
            )
        }
        NumberError::TooFine => said("At most two digits after the point."),
        NumberError::OutOfBounds(out) => {
            let (least, most) = (out.bound.least, out.bound.most);
            if out.bound == weekloom_engine::bounds::LOAD_G {
                say!(
                    "Between {least} and {most} kg.",
                    least = least / 1000,
                    most = most / 1000
                )
            } else {
                say!("Between {least} and {most}.", least, most)
            }
        }
    }
}

/// The store refused a value.
#[must_use]
pub fn store(error: &StoreError) -> String {
    sentence(&made(&error.to_string()))
}

/// A change could not be kept.
#[must_use]
pub fn save(error: &SaveError) -> String {
    match error {
        SaveError::Refused(error) => store(error),
        SaveError::OtherWindow => {
            said("Another window of the app is open. Close it, then change this one.")
        }
        SaveError::OnlyReading => {
            said("The log of another is being read. Go back to your own to change something.")
        }
        SaveError::NotKept { journal, shelf } => say!(
            "The browser said of the journal: {journal}, of local storage: {shelf}.",
            journal,
            shelf
        ),
    }
}

/// No plan could be made.
#[must_use]
pub fn plan(error: &PlanError) -> String {
    sentence(&made(&error.to_string()))
}

/// The session refused something.
#[must_use]
pub fn refusal(refusal: &Refusal) -> String {
    sentence(&made(&refusal.to_string()))
}

/// Any other refusal that already says what to do.
#[must_use]
pub fn other(error: &impl std::fmt::Display) -> String {
    sentence(&made(&error.to_string()))
}

/// There is no running session.
#[must_use]
pub fn no_session() -> String {
    said("No session is running. Start one first.")
}
