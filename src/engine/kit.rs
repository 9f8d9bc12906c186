//! What a person has at hand: equipment, bars, plates and the steps of each.
//!
//! Start at [`Kit`]. Which loads can be made from it is the `load` module's
//! question.

use crate::catalogue::{Equipment, Exercise};
use crate::order::{Set, sort_by_key};
use crate::presets::KitPreset;
use crate::slug::slugged;
use crate::units::{Load, Unit};
use std::fmt;

/// Heaviest bar one may enter (the project's own judgement).
const MOST_BAR: Load = Load::kg(60);
/// Heaviest plate one may enter (the project's own judgement); the heaviest
/// of the federations' is 50 kg.
const MOST_PLATE: Load = Load::kg(100);
/// Most pairs of one plate (the project's own judgement).
const MOST_PAIRS: u8 = 20;
/// Most different plates (the project's own judgement).
const MOST_PLATE_KINDS: usize = 16;

/// A number of equal plates owned. Plates go on in pairs, one on each side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct PlatePairs {
    /// Mass of one plate.
    pub plate: Load,
    /// Pairs owned, 1 to 20.
    pub pairs: u8,
}

/// Loads of a rack, a set or a stack: evenly stepped or listed one by one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Steps {
    /// `first`, `first + step`, … up to `last`.
    Even {
        /// Least load.
        first: Load,
        /// Distance between two loads; never nought.
        step: Load,
        /// Greatest load.
        last: Load,
    },
    /// Exactly these, ascending.
    Listed(Vec<Load>),
}

impl Steps {
    /// These loads, in any order; with none, even steps over the span of
    /// `before`, as [`Self::spanned`] gives them. `None` where that changes nothing.
    #[must_use]
    pub fn of(loads: &[Load], before: &Self) -> Option<Self> {
        let mut loads = loads.to_vec();
        sort_by_key(&mut loads, |load| *load);
        loads.dedup();
        match (&loads[..], before) {
            ([], Self::Even { .. }) => None,
            ([], Self::Listed(listed)) => {
                let [first, step, last] = Self::spanned(listed);
                Some(Self::Even { first, step, last })
            }
            _ => Some(Self::Listed(loads)),
        }
    }

    /// First load, smallest distance and last load of a list, ascending; the distance of
    /// fewer than two loads is a kilogram, since a step is never nought.
    #[must_use]
    pub fn spanned(listed: &[Load]) -> [Load; 3] {
        let gaps = listed.windows(2).map(|two| two[1].grams() - two[0].grams());
        let step = gaps.filter(|gap| *gap > 0).min().unwrap_or(1_000);
        let end = |load: Option<&Load>| load.copied().unwrap_or_default();
        [end(listed.first()), Load::clamped(step), end(listed.last())]
    }
}

/// Everything at hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kit {
    /// Things owned or found in the gym.
    pub equipment: Set<Equipment>,
    /// Mass of the straight bar without plates.
    pub bar: Load,
    /// Mass of the curl bar without plates.
    pub curl_bar: Load,
    /// Mass of the trap bar without plates.
    pub trap_bar: Load,
    /// Plates owned, heaviest first.
    pub plates: Vec<PlatePairs>,
    /// Dumbbells, mass of one.
    pub dumbbells: Steps,
    /// Kettlebells.
    pub kettlebells: Steps,
    /// Weight stacks of machines.
    pub machine: Steps,
    /// Weight stack of the cable.
    pub cable: Steps,
}

impl Kit {
    /// Whether everything the exercise needs is at hand.
    #[must_use]
    pub fn allows(&self, exercise: &Exercise) -> bool {
        exercise
            .equipment
            .iter()
            .all(|thing| self.equipment.contains(thing))
    }

    /// A usual commercial gym in kilograms: see [`KitPreset::FullGym`].
    #[must_use]
    pub fn full_gym() -> Self {
        KitPreset::FullGym.kit(Unit::Kg)
    }

    /// Checks what a person or a file said of the kit.
    ///
    /// # Errors
    /// [`KitError`] names the first thing that cannot be, and what to do.
    pub fn check(&self) -> Result<(), KitError> {
        for (thing, bar) in [
            (BarKind::Straight, self.bar),
            (BarKind::Curl, self.curl_bar),
            (BarKind::Trap, self.trap_bar),
        ] {
            if bar > MOST_BAR {
                return Err(KitError::BarTooHeavy(thing, bar));
            }
        }
        if self.plates.len() > MOST_PLATE_KINDS {
            return Err(KitError::TooManyPlateKinds(self.plates.len()));
        }
        for own in &self.plates {
            if own.plate == Load::ZERO || own.plate > MOST_PLATE {
                return Err(KitError::PlateMass(own.plate));
            }
            if !(1..=MOST_PAIRS).contains(&own.pairs) {
                return Err(KitError::PlatePairs(own.plate, own.pairs));
            }
        }
        for (rack, steps) in [
            (Rack::Dumbbells, &self.dumbbells),
            (Rack::Kettlebells, &self.kettlebells),
            (Rack::Machine, &self.machine),
            (Rack::Cable, &self.cable),
        ] {
            match steps {
                Steps::Even { first, step, last } => {
                    if *step == Load::ZERO {
                        return Err(KitError::NoStep(rack));
                    }
                    if first > last {
                        return Err(KitError::FirstAboveLast(rack));
                    }
                }
                Steps::Listed(loads) => {
                    if !loads.is_sorted_by(|a, b| a < b) {
                        return Err(KitError::NotAscending(rack));
                    }
                }
            }
        }
        Ok(())
    }

    /// The same numbers with nothing but a floor.
    #[must_use]
    pub fn floor_only() -> Self {
        Self {
            equipment: Set::new(),
            ..Self::full_gym()
        }
    }
}

slugged! {
    /// The bars of a kit.
    BarKind {
        /// The straight bar.
        Straight = "straight bar",
        /// The curl bar.
        Curl = "curl bar",
        /// The trap bar.
        Trap = "trap bar",
    }
}

slugged! {
    /// The stepped loads of a kit.
    Rack {
        /// Dumbbells.
        Dumbbells = "dumbbells",
        /// Kettlebells.
        Kettlebells = "kettlebells",
        /// Machine stacks.
        Machine = "machine",
        /// Cable stack.
        Cable = "cable",
    }
}

/// A kit that cannot be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KitError {
    /// A bar above 60 kg.
    BarTooHeavy(BarKind, Load),
    /// A plate of no mass or above 100 kg.
    PlateMass(Load),
    /// No pair, or more than 20.
    PlatePairs(Load, u8),
    /// More than 16 different plates.
    TooManyPlateKinds(usize),
    /// Steps of nought.
    NoStep(Rack),
    /// The first load is above the last.
    FirstAboveLast(Rack),
    /// A list that does not ascend.
    NotAscending(Rack),
}

impl fmt::Display for KitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let kg = |load: &Load| load.show(Unit::Kg);
        match self {
            Self::BarTooHeavy(bar, load) => {
                write!(f, "{bar} of {} kg is above {} kg", kg(load), kg(&MOST_BAR))
            }
            Self::PlateMass(load) => write!(
                f,
                "plate of {} kg is not between 0.01 and {} kg",
                kg(load),
                kg(&MOST_PLATE)
            ),
            Self::PlatePairs(load, pairs) => write!(
                f,
                "{pairs} pairs of the {} kg plate is not between 1 and {MOST_PAIRS}",
                kg(load)
            ),
            Self::TooManyPlateKinds(kinds) => write!(
                f,
                "{kinds} different plates is more than {MOST_PLATE_KINDS}; leave some out"
            ),
            Self::NoStep(rack) => write!(f, "{rack}: the step is nought; give a step above it"),
            Self::FirstAboveLast(rack) => {
                write!(f, "{rack}: the first load is above the last; swap them")
            }
            Self::NotAscending(rack) => {
                write!(
                    f,
                    "{rack}: the loads do not ascend; list each once, lightest first"
                )
            }
        }
    }
}

impl std::error::Error for KitError {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn usual_kits_pass() {
        for kit in [Kit::full_gym(), Kit::floor_only()] {
            assert_eq!(kit.check(), Ok(()));
        }
    }

    #[test]
    fn a_list_of_loads_and_even_steps_give_way_to_each_other() {
        let loads = [5_000, 6_250, 7_500, 10_000].map(Load::clamped);
        let even = Steps::Even {
            first: loads[0],
            step: Load::clamped(2_500),
            last: loads[3],
        };
        let typed = [loads[2], loads[0], loads[1], loads[3], loads[0]];
        let listed = Steps::of(&typed, &even).expect("loads were listed");
        assert_eq!(listed, Steps::Listed(loads.to_vec()));
        assert_eq!(Steps::of(&[], &even), None);
        let [first, step, last] = Steps::spanned(&loads);
        assert_eq!((first, step.grams(), last), (loads[0], 1_250, loads[3]));
        let back = Steps::of(&[], &listed);
        assert_eq!(back, Some(Steps::Even { first, step, last }));
        // A kit that passes is all this ever makes.
        assert_eq!(Steps::spanned(&loads[..1])[1].grams(), 1_000);
    }

    #[test]
    fn impossible_kits_are_refused_in_words() {
        let plate = |grams, pairs| Kit {
            plates: vec![PlatePairs {
                plate: Load::clamped(grams),
                pairs,
            }],
            ..Kit::full_gym()
        };
        let dumbbells = |dumbbells| Kit {
            dumbbells,
            ..Kit::full_gym()
        };
        let kg = Load::kg;
        let even = |first, step, last| Steps::Even {
            first: kg(first),
            step: kg(step),
            last: kg(last),
        };
        let cases = [
            (
                Kit {
                    bar: kg(200),
                    ..Kit::full_gym()
                },
                "straight bar of 200 kg is above 60 kg",
            ),
            (plate(0, 1), "plate of 0 kg is not between 0.01 and 100 kg"),
            (
                plate(1_250, 21),
                "21 pairs of the 1.25 kg plate is not between 1 and 20",
            ),
            (
                dumbbells(even(2, 0, 50)),
                "dumbbells: the step is nought; give a step above it",
            ),
            (
                dumbbells(even(50, 2, 2)),
                "dumbbells: the first load is above the last; swap them",
            ),
            (
                dumbbells(Steps::Listed(vec![kg(4), kg(4)])),
                "dumbbells: the loads do not ascend; list each once, lightest first",
            ),
        ];
        for (kit, words) in cases {
            assert_eq!(kit.check().unwrap_err().to_string(), words);
        }
    }
}
