//! Which sums a set of plates can make, each with the fewest plates.
//!
//! Start at [`sums`]: an exact bounded knapsack over the plates owned, the
//! heaviest first. Ties go to the heavier plates, so the answer is the same on
//! every machine. This module never knows about bars.

use super::exact::Mass;
use crate::units::Load;

/// Plates of one mass and how many of them may be used.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stock {
    pub(super) plate: Load,
    pub(super) count: u8,
}

/// One sum and the plates that make it: counts in the order of the stock.
#[derive(Debug, Clone)]
pub(super) struct Sum {
    pub(super) mass: Mass,
    pub(super) counts: Vec<u8>,
}

impl Sum {
    fn plates(&self) -> u32 {
        self.counts.iter().map(|&n| u32::from(n)).sum()
    }

    /// Fewer plates; then more of the heavier ones.
    fn is_better_than(&self, other: &Self) -> bool {
        let (mine, theirs) = (self.plates(), other.plates());
        mine < theirs || (mine == theirs && self.counts > other.counts)
    }
}

/// Two sums closer than this count as one; it bounds the work whatever the
/// plates are. Twice 25 g is far below what any rule here decides on (the
/// project's own judgement).
const BUCKET_G: i64 = 25;

/// Every sum from nought up to `most_g`, ascending, each with its fewest
/// plates. `stock` must stand heaviest first.
pub(super) fn sums(stock: &[Stock], most_g: i64) -> Vec<Sum> {
    let nothing = Sum {
        mass: Mass::ZERO,
        counts: vec![0; stock.len()],
    };
    let all = stock.iter().fold(Mass::ZERO, |all, own| {
        all.plus(Mass::of(own.plate).times(i64::from(own.count)))
    });
    let buckets = usize::try_from(all.grams().min(most_g) / BUCKET_G).unwrap_or(0);
    // Nought, and one more for rounding up.
    let mut best: Vec<Option<Sum>> = vec![None; buckets + 2];
    best[0] = Some(nothing);
    for (kind, Stock { plate, count }) in stock.iter().enumerate() {
        let plate = Mass::of(*plate);
        if plate.grams() <= 0 {
            continue;
        }
        let before: Vec<Sum> = best.iter().flatten().cloned().collect();
        for sum in before {
            for n in 1..=*count {
                let mass = sum.mass.plus(plate.times(i64::from(n)));
                if mass.grams() > most_g {
                    break;
                }
                let mut counts = sum.counts.clone();
                counts[kind] = n;
                let found = Sum { mass, counts };
                // Nearest, so that a gram of rounding cannot split one sum.
                let bucket = (mass.grams() + BUCKET_G / 2) / BUCKET_G;
                let known = &mut best[usize::try_from(bucket).unwrap_or(0)];
                if known
                    .as_ref()
                    .is_none_or(|known| found.is_better_than(known))
                {
                    *known = Some(found);
                }
            }
        }
    }
    best.into_iter().flatten().collect()
}
