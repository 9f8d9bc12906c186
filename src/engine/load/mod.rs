//! Loads the kit can make.
//!
//! Start at [`Ladder::of`]: every load one exercise can be given with one kit,
//! in order, with rounding that always says its direction. [`warm_up`] is the
//! climb to the working load.
//!
//! This module never says what anybody should lift.

mod exact;
mod plates;
mod warm_up;

pub use warm_up::{FIRST_PERCENT, SECOND_PERCENT, WARM_UP_REPS, WarmUpSet, warm_up};

use crate::bounds::LOAD_G;
use crate::catalogue::{Equipment, Exercise, Loading};
use crate::kit::{Kit, Steps};
use crate::order;
use crate::units::Load;
use exact::Mass;
use plates::Stock;

/// Most rungs a stepped ladder may have: a dumbbell rack or a stack with more
/// does not exist, and a slip of the pen must not fill the memory (the project's
/// own judgement).
const MOST_STEPS: usize = 2_000;

/// Where the plates of a load go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Placement {
    /// The same on each side of the bar.
    EachSide,
    /// All on the free end of the bar.
    OneEnd,
    /// Hung from the belt or held.
    Hung,
    /// No plates: a dumbbell, a kettlebell or a pin.
    NoPlates,
}

/// Which way the number must go for the exercise to get harder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// More load is harder.
    MoreIsHarder,
    /// The number is help: less is harder.
    LessIsHarder,
}

#[derive(Debug, Clone, PartialEq, Eq)]
struct Rung {
    load: Load,
    counts: Vec<u8>,
}

/// Every load one exercise can be given with one kit. Never empty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ladder {
    /// Ascending by load, no two alike.
    rungs: Vec<Rung>,
    /// Masses the counts of a rung speak of, heaviest first.
    plates: Vec<Load>,
    placement: Placement,
    direction: Direction,
}

impl Ladder {
    /// The loads of an exercise with a kit. `None` when the exercise has no
    /// number (bodyweight, band) or the kit holds nothing to make one.
    ///
    /// The bar is chosen by the exercise's equipment: trap bar, curl bar, else
    /// the straight bar. A guided bar is taken to weigh what the straight bar
    /// does; many are counterweighted, so its number compares only with
    /// itself. Load added to the body hangs as plates from a belt, else is a
    /// dumbbell or kettlebell held.
    #[must_use]
    pub fn of(exercise: &Exercise, kit: &Kit) -> Option<Self> {
        let needs = |thing| exercise.equipment.contains(&thing);
        let has = |thing| kit.equipment.contains(&thing);
        match exercise.loading {
            Loading::Bodyweight | Loading::Band => None,
            Loading::Barbell => {
                let bar = if needs(Equipment::TrapBar) {
                    kit.trap_bar
                } else if needs(Equipment::CurlBar) {
                    kit.curl_bar
                } else {
                    kit.bar
                };
                let placement = if needs(Equipment::Landmine) {
                    Placement::OneEnd
                } else {
                    Placement::EachSide
                };
                Some(Self::of_plates(bar, kit, placement))
            }
            Loading::DumbbellPair | Loading::Single => {
                let steps = if needs(Equipment::Kettlebell) && !needs(Equipment::Dumbbells) {
                    &kit.kettlebells
                } else {
                    &kit.dumbbells
                };
                Self::of_steps(steps, Direction::MoreIsHarder, false)
            }
            Loading::Machine => Self::of_steps(&kit.machine, Direction::MoreIsHarder, false),
            Loading::Cable => Self::of_steps(&kit.cable, Direction::MoreIsHarder, false),
            Loading::Assisted => Self::of_steps(&kit.machine, Direction::LessIsHarder, false),
            Loading::BodyweightPlus => {
                // What the exercise names comes before what lies about.
                let uses = |thing| {
                    let means = [
                        Equipment::LoadBelt,
                        Equipment::Dumbbells,
                        Equipment::Kettlebell,
                    ];
                    if means.into_iter().any(needs) {
                        needs(thing)
                    } else {
                        has(thing)
                    }
                };
                if uses(Equipment::LoadBelt) {
                    Some(Self::of_plates(Load::ZERO, kit, Placement::Hung))
                } else if uses(Equipment::Dumbbells) {
                    Self::of_steps(&kit.dumbbells, Direction::MoreIsHarder, true)
                } else if uses(Equipment::Kettlebell) {
                    Self::of_steps(&kit.kettlebells, Direction::MoreIsHarder, true)
                } else {
                    Self::of_steps(&Steps::Listed(Vec::new()), Direction::MoreIsHarder, true)
                }
            }
        }
    }

    fn of_plates(bar: Load, kit: &Kit, placement: Placement) -> Self {
        let (per_rung, singles) = match placement {
            Placement::EachSide => (2, 1),
            Placement::OneEnd | Placement::Hung | Placement::NoPlates => (1, 2),
        };
        let mut owned = kit.plates.clone();
        order::sort_by(&mut owned, |a, b| a > b);
        let stock: Vec<Stock> = owned
            .iter()
            .map(|own| Stock {
                plate: own.plate,
                count: own.pairs.min(20) * singles,
            })
            .collect();
        let bar = Mass::of(bar);
        let most_g = (LOAD_G.most - bar.grams()) / per_rung;
        let mut rungs: Vec<Rung> = plates::sums(&stock, most_g)
            .into_iter()
            .map(|sum| Rung {
                load: bar.plus(sum.mass.times(per_rung)).load(),
                counts: sum.counts,
            })
            .collect();
        rungs.dedup_by_key(|rung| rung.load);
        Self {
            rungs,
            plates: stock.iter().map(|own| own.plate).collect(),
            placement,
            direction: Direction::MoreIsHarder,
        }
    }

    fn of_steps(steps: &Steps, direction: Direction, from_nought: bool) -> Option<Self> {
        let mut loads = steps.loads();
        if from_nought {
            loads.push(Load::ZERO);
        }
        order::sort(&mut loads);
        loads.dedup();
        (!loads.is_empty()).then(|| Self {
            rungs: loads
                .into_iter()
                .map(|load| Rung {
                    load,
                    counts: Vec::new(),
                })
                .collect(),
            plates: Vec::new(),
            placement: Placement::NoPlates,
            direction,
        })
    }

    /// All loads, ascending.
    pub fn loads(&self) -> impl DoubleEndedIterator<Item = Load> {
        self.rungs.iter().map(|rung| rung.load)
    }

    /// Which way the number must go to get harder.
    #[must_use]
    pub const fn direction(&self) -> Direction {
        self.direction
    }

    /// Where the plates go.
    #[must_use]
    pub const fn placement(&self) -> Placement {
        self.placement
    }

    /// Whether exactly this load can be made.
    #[must_use]
    pub fn makes(&self, load: Load) -> bool {
        self.find(load).is_ok()
    }

    /// The least number on the ladder.
    #[must_use]
    pub fn least(&self) -> Load {
        self.rungs[0].load
    }

    /// The greatest number on the ladder.
    #[must_use]
    pub fn greatest(&self) -> Load {
        self.rungs[self.rungs.len() - 1].load
    }

    /// The greatest load not above this one; `None` below the least.
    #[must_use]
    pub fn round_down(&self, load: Load) -> Option<Load> {
        match self.find(load) {
            Ok(at) => Some(self.rungs[at].load),
            Err(0) => None,
            Err(at) => Some(self.rungs[at - 1].load),
        }
    }

    /// The least load not below this one; `None` above the greatest.
    #[must_use]
    pub fn round_up(&self, load: Load) -> Option<Load> {
        let (Ok(at) | Err(at)) = self.find(load);
        self.rungs.get(at).map(|rung| rung.load)
    }

    /// The load next to this one; halfway, the easier of the two.
    #[must_use]
    pub fn nearest(&self, load: Load) -> Load {
        match (self.round_down(load), self.round_up(load)) {
            (Some(below), Some(above)) => {
                let (down, up) = (load.grams() - below.grams(), above.grams() - load.grams());
                match down.cmp(&up) {
                    std::cmp::Ordering::Less => below,
                    std::cmp::Ordering::Greater => above,
                    std::cmp::Ordering::Equal => self.easier_of(below, above),
                }
            }
            (Some(only), None) | (None, Some(only)) => only,
            (None, None) => self.least(),
        }
    }

    /// The next greater number; `None` at the greatest.
    #[must_use]
    pub fn next_above(&self, load: Load) -> Option<Load> {
        let at = self.rungs.partition_point(|rung| rung.load <= load);
        self.rungs.get(at).map(|rung| rung.load)
    }

    /// The next smaller number; `None` at the least.
    #[must_use]
    pub fn next_below(&self, load: Load) -> Option<Load> {
        let at = self.rungs.partition_point(|rung| rung.load < load);
        at.checked_sub(1).map(|at| self.rungs[at].load)
    }

    /// The next harder load; `None` at the hardest.
    #[must_use]
    pub fn harder(&self, load: Load) -> Option<Load> {
        match self.direction {
            Direction::MoreIsHarder => self.next_above(load),
            Direction::LessIsHarder => self.next_below(load),
        }
    }

    /// The next easier load; `None` at the easiest.
    #[must_use]
    pub fn easier(&self, load: Load) -> Option<Load> {
        match self.direction {
            Direction::MoreIsHarder => self.next_below(load),
            Direction::LessIsHarder => self.next_above(load),
        }
    }

    /// This load if it can be made, else the next easier one; `None` where
    /// nothing that easy can be made.
    #[must_use]
    pub fn round_easier(&self, load: Load) -> Option<Load> {
        match self.direction {
            Direction::MoreIsHarder => self.round_down(load),
            Direction::LessIsHarder => self.round_up(load),
        }
    }

    /// The easiest load there is.
    #[must_use]
    pub fn easiest(&self) -> Load {
        match self.direction {
            Direction::MoreIsHarder => self.least(),
            Direction::LessIsHarder => self.greatest(),
        }
    }

    /// The hardest load there is.
    #[must_use]
    pub fn hardest(&self) -> Load {
        match self.direction {
            Direction::MoreIsHarder => self.greatest(),
            Direction::LessIsHarder => self.least(),
        }
    }

    /// Whether the first load is strictly harder than the second.
    #[must_use]
    pub fn is_harder(&self, load: Load, than: Load) -> bool {
        match self.direction {
            Direction::MoreIsHarder => load > than,
            Direction::LessIsHarder => load < than,
        }
    }

    /// The easier of two loads.
    #[must_use]
    pub fn easier_of(&self, a: Load, b: Load) -> Load {
        if self.is_harder(a, b) { b } else { a }
    }

    /// The harder of two loads.
    #[must_use]
    pub fn harder_of(&self, a: Load, b: Load) -> Load {
        if self.is_harder(a, b) { a } else { b }
    }

    /// The fewest plates that make exactly this load, heaviest first: mass of
    /// one and how many, for one side of the bar, for the free end, or hung
    /// (see [`Ladder::placement`]). Empty for the bare bar; `None` when the
    /// load cannot be made or takes no plates.
    #[must_use]
    pub fn plates_for(&self, load: Load) -> Option<Vec<(Load, u8)>> {
        if self.placement == Placement::NoPlates {
            return None;
        }
        let rung = &self.rungs[self.find(load).ok()?];
        let mut wanted: Vec<(Load, u8)> = Vec::new();
        for (&plate, &count) in self.plates.iter().zip(&rung.counts) {
            match wanted.last_mut() {
                // The same mass owned under two entries is one heap.
                Some(last) if last.0 == plate => last.1 += count,
                _ => wanted.push((plate, count)),
            }
        }
        wanted.retain(|&(_, count)| count > 0);
        Some(wanted)
    }

    fn find(&self, load: Load) -> Result<usize, usize> {
        self.rungs.binary_search_by_key(&load, |rung| rung.load)
    }
}

impl Steps {
    /// Every load of the steps, ascending, at most two thousand.
    #[must_use]
    pub fn loads(&self) -> Vec<Load> {
        match self {
            Self::Listed(loads) => {
                let mut loads = loads.clone();
                order::sort(&mut loads);
                loads.dedup();
                loads.truncate(MOST_STEPS);
                loads
            }
            Self::Even { first, step, last } => {
                let (start, step) = (Mass::of(*first), Mass::of(*step));
                if step.grams() <= 0 {
                    return vec![*first];
                }
                // Half a gram of slack: the last step in pounds is rounded too.
                (0..)
                    .map(|n| start.plus(step.times(n)))
                    .map(Mass::load)
                    .take_while(|load| load.grams() <= last.grams() + 1)
                    .take(MOST_STEPS)
                    .collect()
            }
        }
    }
}

#[cfg(test)]
mod tests;
