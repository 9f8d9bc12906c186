//! The exercises, as data: what each trains, needs and asks of the joints.
//!
//! Start at [`Catalogue::built_in`]. Exercises stand in `exercises.json` beside
//! this file, which the build packs for the app; ids are slugs that never change. No published
//! exercise-by-muscle table with a free licence was found, so the assignment
//! of muscles is the project's own judgement; `patterns` in the data file says
//! per pattern what it rests on.
//!
//! This module never decides what anybody should do.

pub mod own;
mod packed;
mod read;
mod terms;

pub use read::CatalogueError;
pub use terms::{Equipment, JointDemand, Kind, Loading, Measure, Muscle, Pattern, Role, Sides};

use std::fmt;
use std::sync::Arc;

/// The slug of an exercise. Cheap to clone.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ExerciseId(Arc<str>);

impl ExerciseId {
    /// An id of this spelling. Whether the catalogue holds it is another
    /// question: see [`Catalogue::get`].
    #[must_use]
    pub fn new(slug: &str) -> Self {
        Self(Arc::from(slug))
    }

    /// The spelling.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for ExerciseId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// One exercise and everything the engine knows of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Exercise {
    /// Slug that never changes.
    pub id: ExerciseId,
    /// Plain descriptive name.
    pub name: String,
    /// Movement pattern.
    pub pattern: Pattern,
    /// Job in a split.
    pub role: Role,
    /// Muscles for which a set counts 1 (direct).
    pub prime: Vec<Muscle>,
    /// Muscles for which a set counts one half (indirect).
    pub assist: Vec<Muscle>,
    /// Everything that must be at hand.
    pub equipment: Vec<Equipment>,
    /// What the load number means.
    pub loading: Loading,
    /// Reps or seconds.
    pub measure: Measure,
    /// Both sides at once or one after the other.
    pub sides: Sides,
    /// Compound or isolation.
    pub kind: Kind,
    /// Default goal range of reps (or seconds), least and most.
    pub reps: (u16, u16),
    /// Default reps in reserve at the end of a set.
    pub rir: u8,
    /// Default rest after a set, seconds.
    pub rest_s: u16,
    /// Seconds one rep takes, in tenths (30 = 3.0 s). Nought when timed.
    pub rep_ds: u16,
    /// Seconds to set up and load before the first set.
    pub setup_s: u16,
    /// What it asks of the joints.
    pub joints: Vec<JointDemand>,
    /// Whole-body cost of a hard set: 0 light, 1 middling, 2 heavy, 3 heaviest.
    pub strain: u8,
    /// Skill needed to do it safely: 0 none, 1 some, 2 practice, 3 coaching.
    pub skill: u8,
    /// Easier variants, nearest first.
    pub step_down: Vec<ExerciseId>,
    /// Harder variants, nearest first.
    pub step_up: Vec<ExerciseId>,
    /// How to do it, in two short lines.
    pub cue: String,
    /// What to watch for.
    pub caution: String,
}

/// Half sets: the engine counts sets per muscle in halves so that an indirect
/// set (one half) stays a whole number. Twelve direct sets are 24.
pub type HalfSets = u32;

impl Exercise {
    /// What one set counts for a muscle, in half sets: 2 direct, 1 indirect,
    /// 0 not at all. Counting direct as 1 and indirect as one half fits the
    /// published data best (Pelland et al. 2024, SportRxiv preprint).
    #[must_use]
    pub fn half_sets_for(&self, muscle: Muscle) -> HalfSets {
        if self.prime.contains(&muscle) {
            2
        } else if self.assist.contains(&muscle) {
            1
        } else {
            0
        }
    }

    /// Whether a load in grams is recorded with a set.
    #[must_use]
    pub const fn is_loaded(&self) -> bool {
        !matches!(self.loading, Loading::Bodyweight | Loading::Band)
    }
}

/// What the muscle assignment of one pattern rests on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PatternBasis {
    /// The pattern.
    pub pattern: Pattern,
    /// Author, year and journal, or "common practice, no source".
    pub basis: String,
}

/// All exercises known, by id.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Catalogue {
    /// By id. Shared, so that a catalogue with one more exercise costs little.
    exercises: Vec<Arc<Exercise>>,
    bases: Vec<PatternBasis>,
}

impl Catalogue {
    /// The exercises that come with Weekloom.
    ///
    /// # Panics
    /// Never in a released build: a test reads the same bytes.
    #[must_use]
    pub fn built_in() -> Self {
        packed::read().expect("the built-in catalogue is tested")
    }

    /// The exercise with this id.
    #[must_use]
    pub fn get(&self, id: &ExerciseId) -> Option<&Exercise> {
        let place = self.exercises.binary_search_by(|e| e.id.cmp(id));
        place.ok().map(|at| &*self.exercises[at])
    }

    /// All exercises, by id.
    pub fn iter(&self) -> impl Iterator<Item = &Exercise> {
        self.exercises.iter().map(|exercise| &**exercise)
    }

    /// How many exercises there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.exercises.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.exercises.is_empty()
    }

    /// What the muscle assignment rests on, per pattern.
    #[must_use]
    pub fn bases(&self) -> &[PatternBasis] {
        &self.bases
    }
}
