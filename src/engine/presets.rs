//! Usual kits to start from: what stands in a gym, a garage, a corner.
//!
//! Start at [`KitPreset`]. The numbers are the usual ones (common practice, no
//! source); a person corrects them to what they own. Bars and discs in
//! kilograms follow the federations' sets (IWF and IPF technical rules: 20 kg
//! bar, discs 25, 20, 15, 10, 5, 2.5, 1.25); pound plates are from memory.

use crate::catalogue::Equipment;
use crate::kit::{Kit, PlatePairs, Steps};
use crate::order::Set;
use crate::slug::slugged;
use crate::units::Unit;

slugged! {
    /// A usual kit.
    KitPreset {
        /// Everything a commercial gym has.
        FullGym = "full-gym",
        /// A bar, a rack, a bench, a pull-up bar, and light dumbbells.
        BarbellAtHome = "barbell-at-home",
        /// Dumbbells and a bench.
        Dumbbells = "dumbbells",
        /// A floor and a bar to hang from.
        FloorAndBar = "floor-and-bar",
    }
}

/// Steps given in hundredths of the unit.
fn even(unit: Unit, first: i64, step: i64, last: i64) -> Steps {
    let load = |hundredths| unit.load_from_hundredths(hundredths);
    Steps::Even {
        first: load(first),
        step: load(step),
        last: load(last),
    }
}

impl KitPreset {
    /// The kit, with numbers round in the unit.
    #[must_use]
    pub fn kit(self, unit: Unit) -> Kit {
        Kit {
            equipment: self.equipment(),
            ..self.numbers(unit)
        }
    }

    fn equipment(self) -> Set<Equipment> {
        use Equipment as E;
        match self {
            Self::FullGym => E::ALL.iter().copied().collect(),
            Self::BarbellAtHome => [
                E::Barbell,
                E::Rack,
                E::Bench,
                E::PullUpBar,
                E::Dumbbells,
                E::Box,
            ]
            .into(),
            Self::Dumbbells => [E::Dumbbells, E::Bench, E::InclineBench, E::Box].into(),
            Self::FloorAndBar => [E::PullUpBar, E::Box].into(),
        }
    }

    fn numbers(self, unit: Unit) -> Kit {
        let load = |hundredths| unit.load_from_hundredths(hundredths);
        let is_gym = self == Self::FullGym;
        let owned: &[(i64, u8)] = match (unit, is_gym) {
            (Unit::Kg, true) => &[
                (2500, 4),
                (2000, 4),
                (1500, 2),
                (1000, 4),
                (500, 2),
                (250, 2),
                (125, 2),
            ],
            (Unit::Kg, false) => &[(2000, 2), (1000, 1), (500, 2), (250, 1), (125, 1)],
            (Unit::Lb, true) => &[
                (4500, 5),
                (3500, 2),
                (2500, 2),
                (1000, 4),
                (500, 2),
                (250, 2),
            ],
            (Unit::Lb, false) => &[(4500, 2), (2500, 1), (1000, 2), (500, 1), (250, 1)],
        };
        let plates = owned
            .iter()
            .map(|&(plate, pairs)| PlatePairs {
                plate: load(plate),
                pairs,
            })
            .collect();
        match unit {
            Unit::Kg => Kit {
                equipment: Set::new(),
                bar: load(2000),
                curl_bar: load(1000),
                trap_bar: load(2500),
                plates,
                dumbbells: if is_gym {
                    even(unit, 200, 200, 5000)
                } else {
                    even(unit, 200, 200, 3000)
                },
                kettlebells: even(unit, 400, 400, 3200),
                machine: even(unit, 500, 500, 15_000),
                cable: even(unit, 250, 250, 8000),
            },
            Unit::Lb => Kit {
                equipment: Set::new(),
                bar: load(4500),
                curl_bar: load(2500),
                trap_bar: load(5500),
                plates,
                dumbbells: if is_gym {
                    even(unit, 500, 500, 10_000)
                } else {
                    even(unit, 500, 500, 6000)
                },
                kettlebells: even(unit, 1000, 500, 7000),
                machine: even(unit, 1000, 1000, 30_000),
                cable: even(unit, 500, 500, 17_500),
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_preset_is_round_in_its_unit() {
        for &preset in KitPreset::ALL {
            for unit in [Unit::Kg, Unit::Lb] {
                let kit = preset.kit(unit);
                assert_eq!(kit.bar.hundredths(unit) % 500, 0);
                for owned in &kit.plates {
                    assert_eq!(owned.plate.hundredths(unit) % 25, 0);
                }
                let heaviest_first = kit.plates.windows(2).all(|w| w[0].plate > w[1].plate);
                assert!(heaviest_first, "{preset} {unit:?}");
            }
        }
    }
}
