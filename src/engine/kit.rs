//! What a person has at hand: equipment, bars, plates and the steps of each.
//!
//! Start at [`Kit`]. Which loads can be made from it is the `load` module's
//! question.

use crate::catalogue::{Equipment, Exercise};
use crate::units::Load;
use std::collections::BTreeSet;

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

/// Everything at hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kit {
    /// Things owned or found in the gym.
    pub equipment: BTreeSet<Equipment>,
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

    /// A usual commercial gym in kilograms: a 20 kg bar, plates 25 to 1.25,
    /// dumbbells 2 to 50 by 2, stacks by 5, cable by 2.5 (common practice, no
    /// source).
    #[must_use]
    pub fn full_gym() -> Self {
        let kg = Load::kg;
        Self {
            equipment: Equipment::ALL.iter().copied().collect(),
            bar: kg(20),
            curl_bar: kg(10),
            trap_bar: kg(25),
            plates: [
                (25_000, 4),
                (20_000, 4),
                (15_000, 2),
                (10_000, 4),
                (5_000, 2),
                (2_500, 2),
                (1_250, 2),
            ]
            .map(|(grams, pairs)| PlatePairs {
                plate: Load::clamped(grams),
                pairs,
            })
            .to_vec(),
            dumbbells: Steps::Even {
                first: kg(2),
                step: kg(2),
                last: kg(50),
            },
            kettlebells: Steps::Even {
                first: kg(4),
                step: kg(4),
                last: kg(32),
            },
            machine: Steps::Even {
                first: kg(5),
                step: kg(5),
                last: kg(150),
            },
            cable: Steps::Even {
                first: Load::clamped(2_500),
                step: Load::clamped(2_500),
                last: kg(80),
            },
        }
    }

    /// The same numbers with nothing but a floor.
    #[must_use]
    pub fn floor_only() -> Self {
        Self {
            equipment: BTreeSet::new(),
            ..Self::full_gym()
        }
    }
}
