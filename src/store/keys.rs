//! Every key Weekloom uses, in one place.
//!
//! Start at [`Key`]. A site may share its storage with other programs: nothing
//! outside the prefix is ever read, written or removed. No other file spells a
//! key.

use std::fmt;

/// Key of the chosen space in a window's own session storage, which no other
/// window sees.
pub const CHOSEN_SPACE: &str = "weekloom.space";

/// Key of the language chosen on this device, in no space: own data and the
/// demonstration speak the same. The boot script reads it before the app is
/// there; the build writes it into that.
pub const CHOSEN_LANGUAGE: &str = "weekloom-language";

/// Key of how this browser writes numbers and days in that language, kept by the
/// boot script because asking takes long. Nothing of the person; in no space.
pub const KEPT_FORMS: &str = "weekloom-forms";

/// Which corner of the storage: the person's own data or the invented logs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Space {
    /// The person's own.
    Own,
    /// The demonstration.
    Demo,
}

impl Space {
    /// What every key of the space starts with. Neither prefix starts with
    /// the other.
    #[must_use]
    pub const fn prefix(self) -> &'static str {
        match self {
            Self::Own => "weekloom.",
            Self::Demo => "weekloom-demo.",
        }
    }

    /// Key of the steps back from edits of the plan, in a window's own session
    /// storage, which is no shelf.
    #[must_use]
    pub fn steps_key(self) -> String {
        format!("{}steps", self.prefix())
    }

    pub(crate) fn owns(self, name: &str) -> bool {
        name.starts_with(self.prefix())
    }

    /// The full name of a key.
    pub(crate) fn name(self, key: &Key) -> String {
        format!("{}{key}", self.prefix())
    }

    /// The key with this full name; `None` when it is not one of ours, or one
    /// that only a newer version knows.
    pub(crate) fn key(self, name: &str) -> Option<Key> {
        let rest = name.strip_prefix(self.prefix())?;
        let whole = match rest {
            "meta" => Key::Meta,
            "person" => Key::Person,
            "plan" => Key::Plan,
            "settings" => Key::Settings,
            "now" => Key::Now,
            "index" => Key::Index,
            "exercises" => Key::Exercises,
            "chronicle" => Key::Chronicle,
            _ => {
                let (kind, id) = rest.split_once('.')?;
                match kind {
                    "session" => Key::Session(id.to_owned()),
                    "history" => Key::History(id.to_owned()),
                    "aside" => Key::Aside(id.parse().ok()?),
                    _ => return None,
                }
            }
        };
        Some(whole)
    }
}

/// What stands under a key.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Key {
    /// Nothing but the highest sequence number used.
    Meta,
    /// The person.
    Person,
    /// The plan they train by.
    Plan,
    /// How the app looks and behaves.
    Settings,
    /// The session under way.
    Now,
    /// Totals and the latest sessions; derived from the sessions.
    Index,
    /// Exercises of the person's own making.
    Exercises,
    /// Blocks, and changes of past sessions.
    Chronicle,
    /// A finished session, by id.
    Session(String),
    /// The latest performances of an exercise; derived from the sessions.
    History(String),
    /// A copy of a value that could not be read.
    Aside(u64),
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Meta => f.write_str("meta"),
            Self::Person => f.write_str("person"),
            Self::Plan => f.write_str("plan"),
            Self::Settings => f.write_str("settings"),
            Self::Now => f.write_str("now"),
            Self::Index => f.write_str("index"),
            Self::Exercises => f.write_str("exercises"),
            Self::Chronicle => f.write_str("chronicle"),
            Self::Session(id) => write!(f, "session.{id}"),
            Self::History(exercise) => write!(f, "history.{exercise}"),
            Self::Aside(number) => write!(f, "aside.{number}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_reads_back_and_stays_in_its_space() {
        let keys = [
            Key::Meta,
            Key::Person,
            Key::Plan,
            Key::Settings,
            Key::Now,
            Key::Index,
            Key::Exercises,
            Key::Chronicle,
            Key::Session("2026-11-25.a".to_owned()),
            Key::History("goblet-squat".to_owned()),
            Key::Aside(7),
        ];
        for key in keys {
            for (space, other) in [(Space::Own, Space::Demo), (Space::Demo, Space::Own)] {
                let name = space.name(&key);
                assert_eq!(space.key(&name), Some(key.clone()));
                assert!(space.owns(&name));
                assert!(!other.owns(&name));
                assert_eq!(other.key(&name), None);
            }
        }
        for name in [CHOSEN_LANGUAGE, KEPT_FORMS] {
            assert!(!Space::Own.owns(name) && !Space::Demo.owns(name));
        }
        assert_eq!(Space::Own.key("weekloom.garden"), None);
        assert_eq!(Space::Own.key("theirs.person"), None);
    }
}
