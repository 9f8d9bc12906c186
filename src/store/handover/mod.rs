//! Handing a plan to another person or phone, as a link, a code to scan or a
//! file; all three hold the same text.
//!
//! Start at [`Offer`]. An offer is packed into as few bits as it needs
//! ([`pack`](self)), with a version before and a checksum behind, and written
//! in base32 (RFC 4648, without padding): letters and digits that a link, a QR
//! code's dense alphanumeric mode and a person's eye all take. Reading checks
//! every field, makes nothing larger than a plan may be, and changes nothing:
//! what becomes of an offer is the person's choice.

mod base32;
mod bits;
mod code;
mod pack;

pub use code::{BARE, Code, code};

use crate::envelope::Crc;
use std::fmt;
use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::{Catalogue, Exercise, ExerciseId};
use weekloom_engine::plan::split::{self, Focus};
use weekloom_engine::plan::{Plan, PlanDay, PlanItem, Prescription, SplitId, time};

/// What a link has before the text, after its address.
pub const LINK: &str = "#/take/";
/// Longest text read: more than the largest plan that can be packed.
pub const MOST_CHARS: usize = 20_000;
/// The version written.
const VERSION: u8 = 1;
/// The split of a plan whose split is nobody's here: an own one of somebody
/// else, of which only the days came along.
const OTHERS_SPLIT: &str = "own-handed-over";

/// A plan on its way from one person to another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// The split it follows.
    pub split: SplitId,
    /// The weekdays it was laid on.
    pub weekdays: Vec<Weekday>,
    /// Its days.
    pub days: Vec<OfferedDay>,
    /// Own exercises of the giver that the days hold.
    pub own: Vec<Exercise>,
}

/// A day of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OfferedDay {
    /// What it is about.
    pub focus: Focus,
    /// What is done, with the number of the superset it belongs to.
    pub items: Vec<(Prescription, Option<u8>)>,
}

/// A text is no offer that can be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OfferError {
    /// It holds none.
    NotAnOffer,
    /// It was cut short or changed on the way.
    Damaged,
    /// A newer version wrote it.
    Newer(u8),
    /// It holds an exercise this version does not know.
    UnknownExercise,
    /// A value in it is out of bounds.
    OutOfBounds,
}

impl fmt::Display for OfferError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotAnOffer => f.write_str("this holds no plan; ask for the link once more"),
            Self::Damaged => f.write_str(
                "the plan was cut short or changed on its way; ask for the link once more, whole",
            ),
            Self::Newer(version) => write!(
                f,
                "the plan has version {version}, this app reads up to {VERSION}; load the newest app first"
            ),
            Self::UnknownExercise => f.write_str(
                "the plan holds an exercise this app does not know; load the newest app first",
            ),
            Self::OutOfBounds => {
                f.write_str("the plan holds a value no plan may have; ask for it once more")
            }
        }
    }
}

impl std::error::Error for OfferError {}

impl Offer {
    /// A plan as it is handed on: days, sets and rests, and the own exercises
    /// in them; no reasons, no log, nothing of the person.
    #[must_use]
    pub fn of(plan: &Plan, weekdays: &[Weekday], catalogue: &Catalogue) -> Self {
        let mut own: Vec<Exercise> = Vec::new();
        let mut day = |day: &PlanDay| {
            let mut items = Vec::new();
            for item in &day.items {
                let id = &item.prescription.exercise;
                // One that is no longer known cannot be handed on.
                let Some(exercise) = catalogue.get(id) else {
                    continue;
                };
                let is_own = weekloom_engine::catalogue::own::is_own(id);
                if is_own && own.iter().all(|known| known.id != *id) {
                    own.push(Exercise {
                        step_down: Vec::new(),
                        step_up: Vec::new(),
                        ..exercise.clone()
                    });
                }
                items.push((item.prescription.clone(), item.superset));
            }
            OfferedDay {
                focus: day.focus,
                items,
            }
        };
        Self {
            split: plan.split.clone(),
            weekdays: weekdays.to_vec(),
            days: plan.days.iter().map(&mut day).collect(),
            own,
        }
    }

    /// The text, letters and digits only; `None` when the plan holds more than
    /// can be handed on.
    #[must_use]
    pub fn write(&self) -> Option<String> {
        let mut bytes = vec![VERSION];
        bytes.extend(pack::pack(self)?);
        bytes.extend(checksum(&bytes));
        let text = base32::write(&bytes);
        (text.len() <= MOST_CHARS).then_some(text)
    }

    /// Reads a text: an offer alone, a link, or a file with a link in it.
    ///
    /// # Errors
    /// [`OfferError`] says why nothing can be taken.
    pub fn read(text: &str, catalogue: &Catalogue) -> Result<Self, OfferError> {
        let text = match text.rfind(LINK) {
            Some(at) => &text[at + LINK.len()..],
            None => text,
        };
        let text = text.split_whitespace().next().unwrap_or_default();
        if text.is_empty() || text.len() > MOST_CHARS {
            return Err(OfferError::NotAnOffer);
        }
        let bytes = base32::read(text).ok_or(OfferError::NotAnOffer)?;
        let Some((whole, sum)) = bytes.split_last_chunk::<4>().map(|(w, s)| (w, *s)) else {
            return Err(OfferError::Damaged);
        };
        if checksum(whole) != sum {
            return Err(OfferError::Damaged);
        }
        match whole {
            [VERSION, packed @ ..] => pack::unpack(packed, catalogue),
            [version, ..] if *version > VERSION => Err(OfferError::Newer(*version)),
            _ => Err(OfferError::NotAnOffer),
        }
    }

    /// The plan it makes. `catalogue` has the offer's own exercises beside the
    /// others.
    #[must_use]
    pub fn plan(&self, catalogue: &Catalogue) -> Plan {
        let mut key = 0;
        let mut day = |day: &OfferedDay| {
            let items: Vec<PlanItem> = day
                .items
                .iter()
                .map(|(prescription, superset)| {
                    key += 1;
                    PlanItem {
                        key,
                        prescription: prescription.clone(),
                        superset: *superset,
                        reasons: Vec::new(),
                    }
                })
                .collect();
            PlanDay {
                focus: day.focus,
                seconds: time::session_seconds(catalogue, &items),
                items,
            }
        };
        Plan {
            split: self.split.clone(),
            days: self.days.iter().map(&mut day).collect(),
            notes: Vec::new(),
        }
    }
}

fn checksum(bytes: &[u8]) -> [u8; 4] {
    let mut crc = Crc::new();
    crc.feed(bytes);
    crc.sum().to_be_bytes()
}

/// Twenty-four bits that stand for a slug. Places in a list would shift when
/// the list grows; these do not. A test holds them apart for all that is built
/// in.
fn sum_of(slug: &str) -> u32 {
    let mut crc = Crc::new();
    crc.feed(slug.as_bytes());
    crc.sum() >> 8
}

fn exercise_with(sum: u32, catalogue: &Catalogue) -> Option<&ExerciseId> {
    let mut built_in = catalogue.iter().map(|exercise| &exercise.id);
    built_in.find(|id| !weekloom_engine::catalogue::own::is_own(id) && sum_of(id.as_str()) == sum)
}

fn split_with(sum: u32) -> SplitId {
    let found = split::built_in()
        .into_iter()
        .find(|s| sum_of(s.id.as_str()) == sum);
    found.map_or_else(|| SplitId::new(OTHERS_SPLIT), |split| split.id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn sums_tell_all_that_is_built_in_apart() {
        let catalogue = Catalogue::built_in();
        let sums: BTreeSet<u32> = catalogue.iter().map(|e| sum_of(e.id.as_str())).collect();
        assert_eq!(sums.len(), catalogue.len());
        let splits = split::built_in();
        let sums: BTreeSet<u32> = splits.iter().map(|s| sum_of(s.id.as_str())).collect();
        assert_eq!(sums.len(), splits.len());
    }
}
