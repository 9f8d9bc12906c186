//! Personal bests: claimed only when they are some.
//!
//! Start at [`bests`]. An estimate is never a best: only what was lifted is.

use super::record::leaps;
use crate::load::Direction;
use crate::log::{Performance, SetEntry, SetKind};
use crate::units::Load;

/// Something never done before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Best {
    /// A load harder than any before.
    Load {
        /// The load.
        load: Load,
        /// Its reps or seconds.
        count: u16,
        /// The hardest load before.
        before: Load,
    },
    /// More reps or seconds than ever at this load or a harder one.
    Count {
        /// The load; [`Load::ZERO`] where there is no number.
        load: Load,
        /// Reps or seconds.
        count: u16,
        /// The most before at this load or a harder one.
        before: u16,
    },
}

/// The bests of a performance against everything earlier of the same exercise.
/// `direction` says which loads are harder; `None` where the exercise has no
/// number. The first session has none, for there is nothing to beat; nor has a
/// single set so far above the rest that it looks like a slip of the pen.
#[must_use]
pub fn bests(
    earlier: &[Performance],
    performance: &Performance,
    direction: Option<Direction>,
) -> Vec<Best> {
    let number = |set: &SetEntry| direction.map_or(Load::ZERO, |_| set.load);
    let harder = |a: Load, b: Load| match direction {
        Some(Direction::LessIsHarder) => a < b,
        _ => a > b,
    };
    let work = |performance: &Performance| {
        performance
            .sets
            .iter()
            .filter(|set| set.kind == SetKind::Work)
            .copied()
            .collect::<Vec<_>>()
    };
    let known: Vec<SetEntry> = earlier
        .iter()
        .filter(|other| other.exercise() == performance.exercise())
        .filter(|other| other.day < performance.day)
        .flat_map(work)
        .collect();
    let Some(hardest) = known
        .iter()
        .map(number)
        .reduce(|a, b| if harder(b, a) { b } else { a })
    else {
        return Vec::new();
    };
    let now = work(performance);
    let is_slip = |set: &SetEntry| {
        leaps(direction, number(set), hardest)
            && now.iter().filter(|other| other.load == set.load).count() == 1
    };
    let sound: Vec<&SetEntry> = now.iter().filter(|set| !is_slip(set)).collect();
    let mut found = Vec::new();
    let top = sound
        .iter()
        .filter(|set| harder(number(set), hardest))
        .copied()
        .reduce(|a, b| {
            let is_better = harder(b.load, a.load) || (b.load == a.load && b.count > a.count);
            if is_better { b } else { a }
        });
    if let Some(top) = top {
        found.push(Best::Load {
            load: top.load,
            count: top.count,
            before: hardest,
        });
    }
    // The set that beats what was known by most; ties go to the harder load.
    let most = sound
        .iter()
        .filter_map(|set| {
            let before = known
                .iter()
                .filter(|other| !harder(number(set), number(other)))
                .map(|other| other.count)
                .max()?;
            (set.count > before).then_some((number(set), set.count, before))
        })
        .reduce(|a, b| {
            let (gain_a, gain_b) = (a.1 - a.2, b.1 - b.2);
            let is_better = gain_b > gain_a || (gain_b == gain_a && harder(b.0, a.0));
            if is_better { b } else { a }
        });
    if let Some((load, count, before)) = most {
        found.push(Best::Count {
            load,
            count,
            before,
        });
    }
    found
}
