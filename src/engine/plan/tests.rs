//! The planner against the structures and values it promises.

use crate::calendar::Weekday;
use crate::kit::Kit;
use crate::person::{Person, Status};
use crate::units::Unit;
use std::collections::{BTreeMap, BTreeSet};

/// Three days, an hour, a full gym, some months of training.
pub(crate) fn person() -> Person {
    Person {
        days: vec![Weekday::Monday, Weekday::Wednesday, Weekday::Friday],
        minutes: 65,
        kit: Kit::full_gym(),
        status: Status::Intermediate,
        is_older: false,
        priorities: BTreeMap::new(),
        excluded: BTreeSet::new(),
        disliked: BTreeSet::new(),
        joint_limits: BTreeSet::new(),
        split: None,
        unit: Unit::Kg,
    }
}
