//! Exercises of a person's own making, beside the built-in ones.
//!
//! Start at [`flaw`] for what keeps one from being used, and
//! [`Catalogue::with_own`]. Their ids begin with [`OWN`], which no built-in id
//! does, so the two never meet. What a person says of their own exercise is
//! believed: only what the engine cannot work with is refused.

use super::{Catalogue, Exercise, ExerciseId, Loading, Measure, Muscle};
use crate::bounds::{self, Bound, OutOfBounds};
use std::fmt;
use std::sync::Arc;

/// What the ids of own exercises begin with (definition: no built-in id begins
/// so).
pub const OWN: &str = "own-";
/// Most own exercises a person may have (the project's own judgement).
pub const MOST_OWN: usize = 300;
/// Most characters of a name: one line of a phone's screen (the project's own
/// judgement).
pub const NAME_CHARS: usize = 48;
/// Most characters of a cue: what fits beside a set (the project's own
/// judgement).
pub const CUE_CHARS: usize = 160;
/// Most characters of a caution (the project's own judgement).
pub const CAUTION_CHARS: usize = 140;
/// Seconds a rep takes, in tenths.
pub const REP_DS: Bound = bound("tenths of a second for a rep", 10, 150);
/// Seconds to set up.
pub const SETUP_S: Bound = bound("seconds to set up", 0, 600);
/// Rest after a set, seconds: what a plan may hold, less what it adds for some.
pub const REST_S: Bound = bound("rest in seconds", 0, 600);
/// Whole-body cost.
pub const STRAIN: Bound = bound("strain", 0, 3);
/// Skill.
pub const SKILL: Bound = bound("skill", 0, 3);
/// Longest id (definition: what a stored value may hold).
const ID_BYTES: usize = 64;

const fn bound(what: &'static str, least: i64, most: i64) -> Bound {
    Bound { what, least, most }
}

/// Why the engine cannot work with an exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flaw {
    /// Its id is not that of an own exercise.
    Id,
    /// The name is empty, too long, or has blanks at its ends or characters
    /// that cannot be shown.
    Name,
    /// The cue is too long, or holds characters that cannot be shown.
    Cue,
    /// The caution is too long, or holds characters that cannot be shown.
    Caution,
    /// The role does not fit the pattern.
    Role,
    /// No muscle is a prime mover.
    NoPrime,
    /// A muscle stands twice among prime movers and assisting muscles.
    Muscle(Muscle),
    /// Something stands twice among equipment, joint demands or variants.
    Repeated,
    /// What carries the load is not among the equipment.
    Loading(Loading),
    /// The goal range runs backwards.
    Backwards,
    /// A rep of a timed exercise takes no time of its own.
    TimedRep,
    /// A number is out of bounds.
    Number(OutOfBounds),
}

impl fmt::Display for Flaw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Id => write!(f, "the id does not begin with '{OWN}' and go on as a slug"),
            Self::Name => write!(
                f,
                "the name is not 1 to {NAME_CHARS} characters in one line"
            ),
            Self::Cue => write!(
                f,
                "the cue is not at most {CUE_CHARS} characters in at most two lines"
            ),
            Self::Caution => write!(
                f,
                "the caution is not at most {CAUTION_CHARS} characters in one line"
            ),
            Self::Role => f.write_str("the role does not fit the pattern; choose another"),
            Self::NoPrime => f.write_str("no prime mover is named; name at least one"),
            Self::Muscle(muscle) => write!(f, "'{muscle}' is named twice; keep one"),
            Self::Repeated => f.write_str("something is named twice; keep one"),
            Self::Loading(loading) => {
                let needs: Vec<&str> = loading.needs().iter().map(|thing| thing.slug()).collect();
                let needs = needs.join(", ");
                write!(f, "loading '{loading}' needs one of these: {needs}")
            }
            Self::Backwards => f.write_str("the goal range runs backwards; exchange its ends"),
            Self::TimedRep => f.write_str("a rep cannot take time where seconds are counted"),
            Self::Number(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for Flaw {}

/// What keeps an exercise from being used as an own one; the first thing
/// found.
#[must_use]
pub fn flaw(exercise: &Exercise) -> Option<Flaw> {
    flaw_in_words(exercise)
        .or_else(|| flaw_in_terms(exercise))
        .or_else(|| flaw_in_numbers(exercise))
}

fn flaw_in_words(exercise: &Exercise) -> Option<Flaw> {
    let fits = |text: &str, lines: usize, most: usize| {
        text.trim() == text
            && text.chars().count() <= most
            && text.split('\n').count() <= lines
            && !text.chars().any(|c| c.is_control() && c != '\n')
    };
    if !is_own(&exercise.id) {
        return Some(Flaw::Id);
    }
    if exercise.name.is_empty() || !fits(&exercise.name, 1, NAME_CHARS) {
        return Some(Flaw::Name);
    }
    if !fits(&exercise.cue, 2, CUE_CHARS) {
        return Some(Flaw::Cue);
    }
    (!fits(&exercise.caution, 1, CAUTION_CHARS)).then_some(Flaw::Caution)
}

fn flaw_in_terms(exercise: &Exercise) -> Option<Flaw> {
    if !exercise.pattern.roles().contains(&exercise.role) {
        return Some(Flaw::Role);
    }
    if exercise.prime.is_empty() {
        return Some(Flaw::NoPrime);
    }
    let muscles: Vec<Muscle> = exercise
        .prime
        .iter()
        .chain(&exercise.assist)
        .copied()
        .collect();
    if let Some(twice) = repeated(&muscles) {
        return Some(Flaw::Muscle(*twice));
    }
    let steps: Vec<&ExerciseId> = exercise.step_down.iter().chain(&exercise.step_up).collect();
    let is_repeated = repeated(&exercise.equipment).is_some()
        || repeated(&exercise.joints).is_some()
        || repeated(&steps).is_some()
        || steps.contains(&&exercise.id);
    if is_repeated {
        return Some(Flaw::Repeated);
    }
    let needs = exercise.loading.needs();
    let has_any = needs.iter().any(|thing| exercise.equipment.contains(thing));
    (!needs.is_empty() && !has_any).then_some(Flaw::Loading(exercise.loading))
}

fn repeated<T: PartialEq>(all: &[T]) -> Option<&T> {
    let mut places = all.iter().enumerate();
    places.find_map(|(at, one)| all[..at].contains(one).then_some(one))
}

fn flaw_in_numbers(exercise: &Exercise) -> Option<Flaw> {
    let goal = match exercise.measure {
        Measure::Reps => bounds::REPS,
        Measure::Seconds => bounds::HOLD_S,
    };
    let (least, most) = exercise.reps;
    let mut numbers = vec![
        (goal, least),
        (goal, most),
        (bounds::RIR, exercise.rir.into()),
        (REST_S, exercise.rest_s),
        (SETUP_S, exercise.setup_s),
        (STRAIN, exercise.strain.into()),
        (SKILL, exercise.skill.into()),
    ];
    match exercise.measure {
        Measure::Reps => numbers.push((REP_DS, exercise.rep_ds)),
        Measure::Seconds if exercise.rep_ds != 0 => return Some(Flaw::TimedRep),
        Measure::Seconds => {}
    }
    for (bound, number) in numbers {
        if let Err(error) = bound.check(number.into()) {
            return Some(Flaw::Number(error));
        }
    }
    (least > most).then_some(Flaw::Backwards)
}

/// Whether an id is that of an own exercise.
#[must_use]
pub fn is_own(id: &ExerciseId) -> bool {
    let fits = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
    let id = id.as_str();
    id.len() <= ID_BYTES && id.len() > OWN.len() && id.starts_with(OWN) && id.bytes().all(fits)
}

/// The id an own exercise of this name gets: the same on every phone, so that
/// two phones that name the same exercise mean the same.
#[must_use]
pub fn own_id(name: &str) -> ExerciseId {
    let name = name.trim().to_lowercase();
    let mut slug = OWN.to_owned();
    // Letters outside ASCII are lost to a slug: a sum of the whole name keeps
    // names apart that would be alike without them, or too long.
    let mut sum: u32 = 0x811c_9dc5;
    for byte in name.bytes() {
        sum = (sum ^ u32::from(byte)).wrapping_mul(0x0100_0193);
    }
    let mut is_lossy = false;
    for c in name.chars() {
        if c.is_ascii_alphanumeric() {
            slug.push(c);
        } else {
            is_lossy |= !c.is_ascii();
            if !slug.ends_with('-') {
                slug.push('-');
            }
        }
    }
    let mut slug = slug.trim_end_matches('-').to_owned();
    if is_lossy || slug.len() <= OWN.len() || slug.len() > ID_BYTES {
        slug.truncate(ID_BYTES - 9);
        slug = format!("{}-{sum:08x}", slug.trim_end_matches('-'));
    }
    ExerciseId::new(&slug)
}

impl Catalogue {
    /// This catalogue with own exercises beside the others. One whose id is
    /// there already, or that has a [`flaw`], is left out.
    #[must_use]
    pub fn with_own(&self, own: impl IntoIterator<Item = Exercise>) -> Self {
        let mut joined = self.clone();
        for exercise in own {
            if flaw(&exercise).is_some() {
                continue;
            }
            let place = joined
                .exercises
                .binary_search_by(|e| e.id.cmp(&exercise.id));
            if let Err(at) = place {
                joined.exercises.insert(at, Arc::new(exercise));
            }
        }
        joined
    }

    /// The built-in exercises alone.
    #[must_use]
    pub fn without_own(&self) -> Self {
        let mut built_in = self.clone();
        built_in.exercises.retain(|exercise| !is_own(&exercise.id));
        built_in
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Equipment, Role};
    use crate::plan::tests::person;
    use crate::plan::{is_allowed, plan_week};

    fn own() -> Exercise {
        let row = ExerciseId::new("barbell-row");
        let built_in = Catalogue::built_in();
        let like = built_in.iter().find(|e| e.id == row);
        let like = like.or_else(|| built_in.iter().find(|e| e.loading == Loading::Barbell));
        Exercise {
            id: own_id("Station row"),
            name: "Station row".to_owned(),
            ..like.expect("a lift with a bar").clone()
        }
    }

    #[test]
    fn no_built_in_exercise_has_the_id_of_an_own_one() {
        assert!(
            Catalogue::built_in()
                .iter()
                .all(|e| !e.id.as_str().starts_with(OWN))
        );
    }

    #[test]
    fn an_own_exercise_is_found_beside_the_others_and_planned() {
        let built_in = Catalogue::built_in();
        let mut curl = built_in
            .iter()
            .find(|e| e.id.as_str() == "barbell-curl")
            .expect("known")
            .clone();
        curl.id = own_id("Container curl");
        curl.name = "Container curl".to_owned();
        let all = built_in.with_own([own(), curl.clone()]);
        assert_eq!(all.len(), built_in.len() + 2);
        assert_eq!(all.get(&curl.id), Some(&curl));
        assert!(all.iter().is_sorted_by(|a, b| a.id < b.id));
        // Twice is once, and the built-in ones stay as they are.
        assert_eq!(all.with_own([own()]), all);
        assert_eq!(all.without_own(), built_in);
        for exercise in built_in.iter() {
            assert_eq!(all.get(&exercise.id), Some(exercise));
        }
        // Where nothing else bends the elbow, the planner takes it.
        let mut person = person();
        for exercise in built_in.iter().filter(|e| e.pattern == curl.pattern) {
            person.excluded.insert(exercise.id.clone());
        }
        assert!(is_allowed(&curl, &person));
        let plan = plan_week(&all, &person).expect("a plan");
        let mut items = plan.days.iter().flat_map(|day| &day.items);
        assert!(items.any(|item| item.prescription.exercise == curl.id));
    }

    #[test]
    fn each_flaw_is_found() {
        assert_eq!(flaw(&own()), None);
        type Spoil = fn(&mut Exercise);
        let cases: [(Flaw, Spoil); 14] = [
            (Flaw::Id, |e| e.id = ExerciseId::new("goblet-squat")),
            (Flaw::Name, |e| e.name = String::new()),
            (Flaw::Name, |e| e.name = "x".repeat(49)),
            (Flaw::Name, |e| e.name = "two\nlines".to_owned()),
            (Flaw::Cue, |e| e.cue = "a\nb\nc".to_owned()),
            (Flaw::Caution, |e| e.caution = "\u{7}".to_owned()),
            (Flaw::Role, |e| e.role = Role::Legs),
            (Flaw::NoPrime, |e| e.prime.clear()),
            (Flaw::Muscle(Muscle::Lats), |e| {
                e.prime = vec![Muscle::Lats];
                e.assist = vec![Muscle::Lats];
            }),
            (Flaw::Repeated, |e| {
                e.equipment = vec![Equipment::Barbell; 2]
            }),
            (Flaw::Repeated, |e| e.step_up = vec![e.id.clone()]),
            (Flaw::Loading(Loading::Barbell), |e| e.equipment.clear()),
            (Flaw::Backwards, |e| e.reps = (9, 8)),
            (Flaw::TimedRep, |e| e.measure = Measure::Seconds),
        ];
        for (expected, spoil) in cases {
            let mut exercise = own();
            spoil(&mut exercise);
            assert_eq!(flaw(&exercise), Some(expected));
            assert_eq!(
                Catalogue::built_in().with_own([exercise]),
                Catalogue::built_in()
            );
        }
        let mut exercise = own();
        exercise.rep_ds = 9;
        assert!(matches!(flaw(&exercise), Some(Flaw::Number(_))));
    }

    #[test]
    fn ids_follow_from_names_and_are_slugs() {
        let id = |name: &str| own_id(name).as_str().to_owned();
        assert_eq!(id("Station row"), "own-station-row");
        assert_eq!(id("  station   ROW "), "own-station-row");
        assert_ne!(id("Rück"), id("Röck"));
        assert_ne!(id("划船"), id("深蹲"));
        let long = "very long name of a lift ".repeat(9);
        for name in ["", "-", "Rück", "🧵", long.as_str(), "own-"] {
            assert!(is_own(&own_id(name)), "{name}: {}", id(name));
        }
    }
}
