//! Who is at the station, and what stands in their container.

use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::{Equipment, JointDemand, Muscle};
use weekloom_engine::kit::{Kit, PlatePairs, Steps};
use weekloom_engine::order::{Map, Set};
use weekloom_engine::person::{Person, Priority, Status};
use weekloom_engine::units::{Load, Unit};

/// A member of the crew. All of them are invented.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Crew {
    /// Reads the instruments, trains three days a week.
    Observer,
    /// Keeps the generators running, trains four days a week.
    Mechanic,
    /// Cooks, is new to it, trains twice a week.
    Cook,
}

impl Crew {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Observer, Self::Mechanic, Self::Cook];

    /// Name and job.
    #[must_use]
    pub const fn title(self) -> &'static str {
        match self {
            Self::Observer => "Ylva, observer",
            Self::Mechanic => "Bastian, mechanic",
            Self::Cook => "Odile, cook",
        }
    }

    /// How they train, in one line.
    #[must_use]
    pub const fn about(self) -> &'static str {
        match self {
            Self::Observer => "Three days a week for an hour; some experience.",
            Self::Mechanic => "Four days a week; years of training, wants more back and arms.",
            Self::Cook => "Twice a week for three quarters of an hour; new to lifting.",
        }
    }

    /// What they told Weekloom.
    #[must_use]
    pub fn person(self) -> Person {
        use Weekday::{Friday, Monday, Saturday, Thursday, Tuesday, Wednesday};
        let (days, minutes, status) = match self {
            Self::Observer => (vec![Monday, Wednesday, Friday], 60, Status::Intermediate),
            Self::Mechanic => (
                vec![Monday, Tuesday, Thursday, Friday],
                75,
                Status::Advanced,
            ),
            Self::Cook => (vec![Wednesday, Saturday], 45, Status::Novice),
        };
        let more: &[Muscle] = match self {
            Self::Mechanic => &[Muscle::Lats, Muscle::Biceps],
            Self::Observer | Self::Cook => &[],
        };
        Person {
            days,
            minutes,
            kit: container(),
            status,
            is_older: false,
            priorities: more.iter().map(|&m| (m, Priority::More)).collect(),
            excluded: Set::new(),
            disliked: Set::new(),
            joint_limits: match self {
                Self::Cook => [JointDemand::DeepKnee].into(),
                Self::Observer | Self::Mechanic => Set::new(),
            },
            split: None,
            own_splits: Vec::new(),
            unit: Unit::Kg,
            rules: Map::new(),
        }
    }

    /// How strong they are to begin with, percent of the table in `lifter`.
    pub(super) const fn strength_percent(self) -> i64 {
        match self {
            Self::Observer => 80,
            Self::Mechanic => 140,
            Self::Cook => 36,
        }
    }

    /// How much strength a week adds, in thousandths. Beginners gain fastest
    /// (common practice, no source; the numbers are invented).
    pub(super) const fn weekly_gain(self) -> i64 {
        match self {
            Self::Observer => 14,
            Self::Mechanic => 10,
            Self::Cook => 20,
        }
    }

    /// What they weigh, about.
    pub(super) fn weighs(self) -> Load {
        Load::clamped(match self {
            Self::Observer => 64_000,
            Self::Mechanic => 86_500,
            Self::Cook => 71_000,
        })
    }

    /// Hour of the day at which they train.
    pub(super) const fn hour(self) -> i64 {
        match self {
            Self::Observer => 17,
            Self::Mechanic => 6,
            Self::Cook => 14,
        }
    }
}

/// The station's gym: what fits into a shipping container.
fn container() -> Kit {
    use Equipment as E;
    let even = |first, step, last| Steps::Even {
        first: Load::clamped(first),
        step: Load::clamped(step),
        last: Load::clamped(last),
    };
    let plates = [(20_000, 3), (10_000, 2), (5_000, 1), (2_500, 1), (1_250, 1)];
    Kit {
        equipment: [
            E::Barbell,
            E::Rack,
            E::Bench,
            E::InclineBench,
            E::Dumbbells,
            E::PullUpBar,
            E::Cable,
            E::Bands,
            E::Box,
        ]
        .into(),
        plates: plates
            .map(|(grams, pairs)| PlatePairs {
                plate: Load::clamped(grams),
                pairs,
            })
            .to_vec(),
        dumbbells: even(2_000, 2_000, 32_000),
        cable: even(2_500, 2_500, 60_000),
        ..Kit::floor_only()
    }
}
