//! How many sets do a muscle good: the one table of weekly doses.
//!
//! Start at [`target`]. Everything is counted in half sets (direct 2, indirect
//! 1; Pelland et al. 2024, SportRxiv preprint). What a muscle is worth beside
//! another is the project's own judgement and says so. This module never looks
//! at an exercise.

use crate::catalogue::{HalfSets, Muscle};
use crate::person::{Person, Priority, Status};

/// Half sets of one muscle in one session after which more brings no growth
/// that could be told apart: about 11 fractional sets (Remmert et al. 2025,
/// SportRxiv preprint, read in a summary).
pub const SESSION_CAP: HalfSets = 22;

/// What a half set beyond [`SESSION_CAP`] still counts, in quarters. The
/// plateau is an estimate from one preprint, not a wall, so a little credit is
/// left (the project's own judgement).
pub const CREDIT_OVER_CAP_QUARTERS: i64 = 1;

/// Dose and response for muscle size: slope per eighth of a set, in
/// thousandths of the square root of a set, up to so many half sets a week.
///
/// The square-root shape is Pelland et al. 2024 (SportRxiv preprint; from
/// memory, verify). It rises all the way with falling steps, as Schoenfeld et
/// al. 2017, J Sports Sci 35(11):1073-1082, and Pelland et al. 2024 found.
/// Knots at 4, 6, 8, 10, 12, 16, 20 and 26 sets; the curve stays within 1.5 %
/// of the root from four sets on.
pub const RESPONSE: [(HalfSets, i64); 8] = [
    (8, 62),
    (12, 28),
    (16, 24),
    (20, 21),
    (24, 19),
    (32, 17),
    (40, 15),
    (52, 13),
];

/// Size of a muscle, for weights and ceilings (the project's own judgement).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Size {
    /// Chest, back, thighs, hips.
    Large,
    /// Arms, side and rear shoulder, calves, trunk.
    Small,
    /// Muscles that whatever else is trained already works: they get no floor.
    Minor,
}

/// What the week should hold of one muscle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Target {
    /// Weight beside other muscles, 0 to 175; a large muscle has about 100.
    pub weight: i64,
    /// Half sets a week that should not be undercut.
    pub floor: HalfSets,
    /// Half sets a week beyond which a further set is worth little.
    pub enough: HalfSets,
    /// Half sets a week that should not be passed.
    pub ceiling: HalfSets,
}

/// The size class of a muscle.
#[must_use]
pub const fn size(muscle: Muscle) -> Size {
    match muscle {
        Muscle::Chest
        | Muscle::Lats
        | Muscle::UpperBack
        | Muscle::Quadriceps
        | Muscle::Hamstrings
        | Muscle::Glutes => Size::Large,
        Muscle::SideDelts
        | Muscle::RearDelts
        | Muscle::Biceps
        | Muscle::Triceps
        | Muscle::Calves
        | Muscle::Abdominals => Size::Small,
        Muscle::FrontDelts
        | Muscle::UpperTraps
        | Muscle::Forearms
        | Muscle::SpinalErectors
        | Muscle::Abductors
        | Muscle::Adductors => Size::Minor,
    }
}

/// The weight of a muscle at usual priority (the project's own judgement).
const fn weight(muscle: Muscle) -> i64 {
    match muscle {
        Muscle::Chest | Muscle::Quadriceps => 100,
        Muscle::Lats | Muscle::UpperBack | Muscle::Hamstrings => 90,
        Muscle::Glutes => 70,
        Muscle::SideDelts | Muscle::Biceps | Muscle::Triceps => 60,
        Muscle::Abdominals | Muscle::Calves => 50,
        Muscle::RearDelts => 45,
        Muscle::FrontDelts => 15,
        Muscle::UpperTraps | Muscle::Abductors | Muscle::Adductors => 5,
        Muscle::Forearms | Muscle::SpinalErectors => 3,
    }
}

/// Weekly floor for muscles that count: four sets (Iversen et al. 2021, Sports
/// Med 51:2079-2095).
pub const FLOOR: HalfSets = 8;

/// What the week should hold of a muscle for this person.
///
/// Twelve to twenty sets are proposed for the trained (Baz-Valle et al. 2022,
/// J Hum Kinet 81:199-210), at least ten for most (Bernárdez-Vázquez et al.
/// 2022, Front Sports Act Living); six to ten for novices, and lower ceilings
/// for small muscles, are common practice, no source.
#[must_use]
pub fn target(muscle: Muscle, person: &Person) -> Target {
    let size = size(muscle);
    let (enough, ceiling) = match (person.status, size) {
        (Status::Novice, Size::Large) => (20, 22),
        (Status::Novice, _) => (16, 24),
        (Status::Intermediate, Size::Large) => (28, 36),
        (Status::Intermediate, _) => (24, 36),
        (Status::Advanced, Size::Large) => (36, 52),
        (Status::Advanced, _) => (28, 40),
    };
    let usual = Target {
        weight: weight(muscle),
        floor: if size == Size::Minor { 0 } else { FLOOR },
        enough,
        ceiling,
    };
    match person.priorities.get(&muscle) {
        None | Some(Priority::Usual) => usual,
        Some(Priority::More) => Target {
            weight: (usual.weight * 7 / 4).max(40),
            floor: if size == Size::Minor {
                FLOOR / 2
            } else {
                FLOOR
            },
            enough: usual.enough + 8,
            ceiling: usual.ceiling + 8,
        },
        // Size is kept on a third of the usual sets in the young, less surely
        // in the old (Bickel et al. 2011, MSSE 43(7):1177-1187).
        Some(Priority::Less) => Target {
            weight: usual.weight * 2 / 5,
            floor: if person.is_older {
                usual.floor
            } else {
                usual.floor / 2
            },
            enough: usual.enough / 2,
            ceiling: usual.ceiling,
        },
    }
}

/// The value of so many eighths of a weekly set, in thousandths of the square
/// root of a set, without weight, floor or ceiling.
#[must_use]
pub fn response(eighths: i64) -> i64 {
    let mut from = 0;
    let mut value = 0;
    for (to, slope) in RESPONSE {
        let to = i64::from(to) * 4;
        value += (eighths.min(to) - from).max(0) * slope;
        from = to;
    }
    value
}

#[cfg(test)]
mod tests {
    use super::*;

    /// More sets grow more, each adding less (Schoenfeld et al. 2017, J Sports
    /// Sci 35(11):1073-1082; Pelland et al. 2024, SportRxiv preprint).
    #[test]
    fn response_rises_with_falling_steps() {
        let mut last_step = i64::MAX;
        for eighths in 1..=26 * 8 {
            let step = response(eighths) - response(eighths - 1);
            assert!(step > 0 && step <= last_step, "at {eighths}");
            last_step = step;
        }
    }

    /// The curve is the square root (Pelland et al. 2024; from memory, verify)
    /// within 1.5 % at every whole set from four on.
    #[test]
    fn response_is_the_square_root() {
        for sets in 4..=26_i64 {
            // 1.5 % off the root is 3 % off the square.
            let squared = response(sets * 8).pow(2);
            let exact = sets * 1_000_000;
            assert!(
                (squared - exact).abs() * 100 <= exact * 3,
                "{sets} sets: {squared} against {exact}"
            );
        }
    }

    #[test]
    fn every_target_is_in_order() {
        for &status in Status::ALL {
            let mut person = crate::plan::tests::person();
            person.status = status;
            for &muscle in Muscle::ALL {
                for &priority in Priority::ALL {
                    person.priorities.insert(muscle, priority);
                    let target = target(muscle, &person);
                    assert!(target.floor < target.enough || target.floor == 0);
                    assert!(target.enough < target.ceiling);
                    assert!(target.weight > 0 || priority == Priority::Less);
                }
            }
        }
    }
}
