//! People of every sort, drawn from a seed: what the planner is proved on.
//!
//! Start at [`Draw::person`]. The same seed gives the same people on every
//! machine. Included by path where it is needed; nothing here is shipped.

use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::{Catalogue, ExerciseId, JointDemand, Muscle};
use weekloom_engine::kit::Kit;
use weekloom_engine::order::{Map, Set};
use weekloom_engine::person::{Person, Priority, Status};
use weekloom_engine::plan::Split;
use weekloom_engine::units::Unit;

/// A small linear congruential generator (the constants of Knuth's MMIX, from
/// memory).
pub struct Draw(u64);

impl Draw {
    /// The draw of this number of a series: each has its own, so that the
    /// hundredth person is the same however many are drawn.
    #[must_use]
    pub fn numbered(number: u32) -> Self {
        let mut draw = Self(u64::from(number) ^ 0x9e37_79b9_7f4a_7c15);
        for _ in 0..4 {
            draw.below(2);
        }
        draw
    }

    fn below(&mut self, n: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % n
    }

    fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }

    /// Some of the exercises, none to nineteen.
    fn some(&mut self, ids: &[&ExerciseId]) -> Set<ExerciseId> {
        (0..self.below(20)).map(|_| self.of(ids).clone()).collect()
    }

    /// Somebody: any status, one to seven days, 20 to 180 minutes, any kit,
    /// exclusions, dislikes, joint limits, priorities and offered split.
    pub fn person(&mut self, catalogue: &Catalogue) -> Person {
        const WEEKS: [&[usize]; 7] = [
            &[5],
            &[0, 3],
            &[0, 2, 4],
            &[0, 1, 3, 4],
            &[0, 1, 2, 4, 5],
            &[0, 1, 2, 3, 4, 5],
            &[0, 1, 2, 3, 4, 5, 6],
        ];
        let days = 1 + self.below(7);
        let mut kit = Kit::full_gym();
        match self.below(3) {
            0 => {}
            1 => kit.equipment.retain(|_| self.below(2) == 0),
            _ => kit.equipment.retain(|_| self.below(6) == 0),
        }
        let offered = Split::offered_for(days as u8);
        let ids: Vec<&ExerciseId> = catalogue.iter().map(|exercise| &exercise.id).collect();
        Person {
            days: WEEKS[days - 1]
                .iter()
                .map(|&day| Weekday::from_index(day))
                .collect(),
            // Most sessions are 20 to 90 minutes; one in four is any length.
            minutes: if self.below(4) == 0 {
                20 + 5 * self.below(33) as u16
            } else {
                20 + 5 * self.below(15) as u16
            },
            kit,
            status: self.of(Status::ALL),
            is_older: self.below(4) == 0,
            priorities: (0..self.below(4))
                .map(|_| (self.of(Muscle::ALL), self.of(Priority::ALL)))
                .collect(),
            excluded: self.some(&ids),
            disliked: self.some(&ids),
            joint_limits: (0..self.below(3))
                .map(|_| self.of(JointDemand::ALL))
                .collect(),
            split: (self.below(2) == 0).then(|| offered[self.below(offered.len())].clone()),
            own_splits: Vec::new(),
            unit: Unit::Kg,
            rules: Map::new(),
        }
    }
}
