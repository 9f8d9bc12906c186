//! Reading the catalogue's data file, strictly.
//!
//! Start at [`Catalogue::read`]. Every field is required, unknown fields are
//! refused, and every refusal names the exercise, the field, the value and
//! what is allowed. This module never mends data and never fills in a default.

use super::own::OWN;
use super::{
    Catalogue, Equipment, Exercise, ExerciseId, JointDemand, Kind, Loading, Measure, Muscle,
    Pattern, PatternBasis, Role, Sides,
};
use crate::bounds::{Bound, HOLD_S, REPS};
use serde::Deserialize;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

/// The catalogue's data file was refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CatalogueError(pub String);

impl fmt::Display for CatalogueError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for CatalogueError {}

/// What the data file may hold (common practice, no source). Narrower than
/// what a person may enter: these are starting values for everybody.
const RIR: Bound = range("rir", 0, 5);
const REST_S: Bound = range("rest_s", 15, 300);
const REP_DS: Bound = range("rep_ds", 10, 100);
const SETUP_S: Bound = range("setup_s", 0, 300);
const STRAIN: Bound = range("strain", 0, 3);
const SKILL: Bound = range("skill", 0, 3);
/// A cue must fit a phone's screen beside the set (the project's own judgement).
const CUE_CHARS: usize = 160;
/// So must a caution (the project's own judgement).
const CAUTION_CHARS: usize = 140;
/// A name must fit one line of it (the project's own judgement).
const NAME_CHARS: usize = 48;

const fn range(what: &'static str, least: i64, most: i64) -> Bound {
    Bound { what, least, most }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawCatalogue {
    patterns: Vec<RawBasis>,
    exercises: Vec<RawExercise>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawBasis {
    pattern: String,
    basis: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawExercise {
    id: String,
    name: String,
    pattern: String,
    role: String,
    prime: Vec<String>,
    assist: Vec<String>,
    equipment: Vec<String>,
    loading: String,
    measure: String,
    sides: String,
    kind: String,
    reps: (u16, u16),
    rir: u8,
    rest_s: u16,
    rep_ds: u16,
    setup_s: u16,
    joints: Vec<String>,
    strain: u8,
    skill: u8,
    step_down: Vec<String>,
    step_up: Vec<String>,
    cue: String,
    caution: String,
}

impl Catalogue {
    /// Reads a data file: `patterns` with one basis for every [`Pattern`], and
    /// `exercises` with every field of [`Exercise`].
    ///
    /// # Errors
    /// [`CatalogueError`] names the exercise, the field, the value and what is
    /// allowed.
    pub fn read(json: &str) -> Result<Self, CatalogueError> {
        let raw: RawCatalogue =
            serde_json::from_str(json).map_err(|error| name_the_misfit(json, &error))?;
        let bases = read_bases(raw.patterns)?;
        let mut exercises = BTreeMap::new();
        let mut names = BTreeSet::new();
        for raw in raw.exercises {
            let exercise = read_exercise(raw)?;
            if !names.insert(exercise.name.clone()) {
                return Err(refusal(
                    &exercise.id,
                    format_args!("name \"{}\" is taken; names are unique", exercise.name),
                ));
            }
            if let Some(first) = exercises.insert(exercise.id.clone(), exercise) {
                return Err(refusal(
                    &first.id,
                    format_args!("id stands twice; ids are unique"),
                ));
            }
        }
        check_steps(&exercises)?;
        Ok(Self {
            exercises: exercises.into_values().map(Into::into).collect(),
            bases,
        })
    }
}

fn refusal(id: impl fmt::Display, what: fmt::Arguments<'_>) -> CatalogueError {
    CatalogueError(format!("exercise \"{id}\": {what}"))
}

/// Serde knows line and column only. One exercise stands on one line in our
/// file, but need not in another: look again for the entry that does not fit,
/// so that the message can name it.
fn name_the_misfit(json: &str, error: &serde_json::Error) -> CatalogueError {
    let unnamed = || CatalogueError(format!("catalogue file: {error}"));
    let Ok(file) = serde_json::from_str::<Value>(json) else {
        return unnamed();
    };
    let Some(entries) = file.get("exercises").and_then(Value::as_array) else {
        return unnamed();
    };
    for (place, entry) in entries.iter().enumerate() {
        if let Err(misfit) = RawExercise::deserialize(entry) {
            return match entry.get("id").and_then(Value::as_str) {
                Some(id) => refusal(id, format_args!("{misfit}")),
                None => CatalogueError(format!("exercise number {}: {misfit}", place + 1)),
            };
        }
    }
    unnamed()
}

fn read_bases(raw: Vec<RawBasis>) -> Result<Vec<PatternBasis>, CatalogueError> {
    let mut bases: Vec<PatternBasis> = Vec::with_capacity(raw.len());
    for RawBasis { pattern, basis } in raw {
        let Some(known) = Pattern::from_slug(&pattern) else {
            return Err(CatalogueError(format!(
                "patterns: {}",
                not_one_of("pattern", &pattern, Pattern::ALL)
            )));
        };
        if bases.iter().any(|earlier| earlier.pattern == known) {
            return Err(CatalogueError(format!(
                "patterns: \"{pattern}\" stands twice; give each pattern one basis"
            )));
        }
        if basis.trim().is_empty() || !is_plain(&basis) {
            return Err(CatalogueError(format!(
                "patterns: basis of \"{pattern}\" must be plain ASCII text: a source, or \"common practice, no source\""
            )));
        }
        bases.push(PatternBasis {
            pattern: known,
            basis,
        });
    }
    for pattern in Pattern::ALL {
        if !bases.iter().any(|basis| basis.pattern == *pattern) {
            return Err(CatalogueError(format!(
                "patterns: \"{pattern}\" is missing; give each pattern one basis"
            )));
        }
    }
    Ok(bases)
}

fn read_exercise(raw: RawExercise) -> Result<Exercise, CatalogueError> {
    let id = raw.id.as_str();
    if !is_slug(id) {
        return Err(refusal(
            id,
            format_args!("id must be a slug of a-z, 0-9 and single hyphens"),
        ));
    }
    if id.starts_with(OWN) {
        return Err(refusal(
            id,
            format_args!("id begins with \"{OWN}\", which is kept for what people add"),
        ));
    }
    let pattern = one(
        id,
        "pattern",
        &raw.pattern,
        Pattern::from_slug,
        Pattern::ALL,
    )?;
    let role = one(id, "role", &raw.role, Role::from_slug, Role::ALL)?;
    let loading = one(
        id,
        "loading",
        &raw.loading,
        Loading::from_slug,
        Loading::ALL,
    )?;
    let measure = one(
        id,
        "measure",
        &raw.measure,
        Measure::from_slug,
        Measure::ALL,
    )?;
    let sides = one(id, "sides", &raw.sides, Sides::from_slug, Sides::ALL)?;
    let kind = one(id, "kind", &raw.kind, Kind::from_slug, Kind::ALL)?;
    let prime = several(id, "prime", &raw.prime, Muscle::from_slug, Muscle::ALL)?;
    let assist = several(id, "assist", &raw.assist, Muscle::from_slug, Muscle::ALL)?;
    let equipment = several(
        id,
        "equipment",
        &raw.equipment,
        Equipment::from_slug,
        Equipment::ALL,
    )?;
    let joints = several(
        id,
        "joints",
        &raw.joints,
        JointDemand::from_slug,
        JointDemand::ALL,
    )?;

    if !pattern.roles().contains(&role) {
        return Err(refusal(
            id,
            format_args!(
                "role \"{role}\" does not fit pattern \"{pattern}\"; allowed: {}",
                slugs(pattern.roles())
            ),
        ));
    }
    if prime.is_empty() {
        return Err(refusal(
            id,
            format_args!("prime is empty; name at least one muscle"),
        ));
    }
    if let Some(both) = assist.iter().find(|muscle| prime.contains(muscle)) {
        return Err(refusal(
            id,
            format_args!("\"{both}\" stands in prime and in assist; keep one"),
        ));
    }
    let needs = loading.needs();
    if !needs.is_empty() && !needs.iter().any(|thing| equipment.contains(thing)) {
        return Err(refusal(
            id,
            format_args!(
                "loading \"{loading}\" needs one of these in equipment: {}",
                slugs(needs)
            ),
        ));
    }

    let (least, most) = raw.reps;
    let bound = match measure {
        Measure::Reps => REPS,
        Measure::Seconds => HOLD_S,
    };
    for end in [least, most] {
        within(id, "reps", bound, end.into())?;
    }
    if least > most {
        return Err(refusal(
            id,
            format_args!("reps [{least},{most}] must run from least to most"),
        ));
    }
    match measure {
        Measure::Reps => within(id, "rep_ds", REP_DS, raw.rep_ds.into())?,
        Measure::Seconds if raw.rep_ds != 0 => {
            return Err(refusal(
                id,
                format_args!("rep_ds {} must be 0 when seconds are counted", raw.rep_ds),
            ));
        }
        Measure::Seconds => {}
    }
    within(id, "rir", RIR, raw.rir.into())?;
    within(id, "rest_s", REST_S, raw.rest_s.into())?;
    within(id, "setup_s", SETUP_S, raw.setup_s.into())?;
    within(id, "strain", STRAIN, raw.strain.into())?;
    within(id, "skill", SKILL, raw.skill.into())?;

    text(id, "name", &raw.name, NAME_CHARS)?;
    text(id, "caution", &raw.caution, CAUTION_CHARS)?;
    read_cue(id, &raw.cue)?;

    Ok(Exercise {
        id: ExerciseId::new(id),
        step_down: steps(id, "step_down", &raw.step_down)?,
        step_up: steps(id, "step_up", &raw.step_up)?,
        name: raw.name,
        pattern,
        role,
        prime,
        assist,
        equipment,
        loading,
        measure,
        sides,
        kind,
        reps: raw.reps,
        rir: raw.rir,
        rest_s: raw.rest_s,
        rep_ds: raw.rep_ds,
        setup_s: raw.setup_s,
        joints,
        strain: raw.strain,
        skill: raw.skill,
        cue: raw.cue,
        caution: raw.caution,
    })
}

fn is_slug(text: &str) -> bool {
    text.split('-').all(|word| {
        !word.is_empty()
            && word
                .bytes()
                .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
    })
}

/// Plain typed text: any font and any CSV reader shows it alike.
fn is_plain(text: &str) -> bool {
    text.bytes().all(|b| b == b' ' || b.is_ascii_graphic())
}

fn slugs<T: fmt::Display>(all: &[T]) -> String {
    let words: Vec<String> = all.iter().map(ToString::to_string).collect();
    words.join(", ")
}

fn not_one_of<T: fmt::Display>(field: &str, value: &str, all: &[T]) -> String {
    format!("{field} \"{value}\" is not one of: {}", slugs(all))
}

fn one<T: fmt::Display>(
    id: &str,
    field: &str,
    value: &str,
    from_slug: fn(&str) -> Option<T>,
    all: &[T],
) -> Result<T, CatalogueError> {
    from_slug(value).ok_or_else(|| refusal(id, format_args!("{}", not_one_of(field, value, all))))
}

fn several<T: fmt::Display + PartialEq>(
    id: &str,
    field: &str,
    values: &[String],
    from_slug: fn(&str) -> Option<T>,
    all: &[T],
) -> Result<Vec<T>, CatalogueError> {
    let mut read = Vec::with_capacity(values.len());
    for value in values {
        let known = one(id, field, value, from_slug, all)?;
        if read.contains(&known) {
            return Err(refusal(
                id,
                format_args!("{field} holds \"{value}\" twice; keep one"),
            ));
        }
        read.push(known);
    }
    Ok(read)
}

fn within(id: &str, field: &str, bound: Bound, value: i64) -> Result<(), CatalogueError> {
    bound.check(value).map(|_| ()).map_err(|_| {
        refusal(
            id,
            format_args!(
                "{field} {value} is not between {} and {}",
                bound.least, bound.most
            ),
        )
    })
}

fn text(id: &str, field: &str, value: &str, most: usize) -> Result<(), CatalogueError> {
    let chars = value.chars().count();
    if value.trim().is_empty() || value.trim() != value || !is_plain(value) || chars > most {
        return Err(refusal(
            id,
            format_args!(
                "{field} of {chars} characters must be plain ASCII text of 1 to {most}, no space at either end"
            ),
        ));
    }
    Ok(())
}

fn read_cue(id: &str, cue: &str) -> Result<(), CatalogueError> {
    if cue.chars().count() > CUE_CHARS || cue.split('\n').count() != 2 {
        return Err(refusal(
            id,
            format_args!(
                "cue of {} characters in {} lines must be two lines of together at most {CUE_CHARS}",
                cue.chars().count(),
                cue.split('\n').count()
            ),
        ));
    }
    cue.split('\n')
        .try_for_each(|line| text(id, "cue", line, CUE_CHARS))
}

fn steps(id: &str, field: &str, values: &[String]) -> Result<Vec<ExerciseId>, CatalogueError> {
    let mut read: Vec<ExerciseId> = Vec::with_capacity(values.len());
    for value in values {
        if value == id {
            return Err(refusal(
                id,
                format_args!("{field} names the exercise itself; name another"),
            ));
        }
        if read.iter().any(|earlier| earlier.as_str() == value) {
            return Err(refusal(
                id,
                format_args!("{field} holds \"{value}\" twice; keep one"),
            ));
        }
        read.push(ExerciseId::new(value));
    }
    Ok(read)
}

/// Steps must lead to known exercises, and "easier" must never lead back to
/// where it started: a person stepping down after pain must arrive somewhere.
/// `step_down` of one and `step_up` of the other say the same, so the check
/// runs over both together.
fn check_steps(exercises: &BTreeMap<ExerciseId, Exercise>) -> Result<(), CatalogueError> {
    let mut easier: BTreeMap<&ExerciseId, Vec<&ExerciseId>> = BTreeMap::new();
    for exercise in exercises.values() {
        for (field, others) in [
            ("step_down", &exercise.step_down),
            ("step_up", &exercise.step_up),
        ] {
            for other in others {
                if !exercises.contains_key(other) {
                    return Err(refusal(
                        &exercise.id,
                        format_args!("{field} names \"{other}\", which the file does not hold"),
                    ));
                }
                let (harder, lighter) = if field == "step_down" {
                    (&exercise.id, other)
                } else {
                    (other, &exercise.id)
                };
                easier.entry(harder).or_default().push(lighter);
            }
        }
    }

    // Peel off exercises with nothing easier left; what remains is a circle.
    let mut open: BTreeSet<&ExerciseId> = exercises.keys().collect();
    while !open.is_empty() {
        let settled: Vec<&ExerciseId> = open
            .iter()
            .copied()
            .filter(|id| {
                easier
                    .get(id)
                    .is_none_or(|lighter| lighter.iter().all(|other| !open.contains(other)))
            })
            .collect();
        if settled.is_empty() {
            let circle = circle(&easier, &open);
            return Err(refusal(
                circle[0],
                format_args!(
                    "step_down leads round in a circle: {}",
                    circle
                        .iter()
                        .map(|id| id.as_str())
                        .collect::<Vec<_>>()
                        .join(" -> ")
                ),
            ));
        }
        for id in settled {
            open.remove(id);
        }
    }
    Ok(())
}

/// A circle among exercises that each have something easier still open.
fn circle<'a>(
    easier: &BTreeMap<&'a ExerciseId, Vec<&'a ExerciseId>>,
    open: &BTreeSet<&'a ExerciseId>,
) -> Vec<&'a ExerciseId> {
    let mut walked: Vec<&ExerciseId> = open.first().copied().into_iter().collect();
    loop {
        let here = walked[walked.len() - 1];
        let next = easier[here]
            .iter()
            .copied()
            .find(|other| open.contains(other))
            .expect("every open exercise has an open easier one");
        if let Some(start) = walked.iter().position(|id| *id == next) {
            let mut round = walked.split_off(start);
            round.push(next);
            return round;
        }
        walked.push(next);
    }
}

#[cfg(test)]
#[path = "tests.rs"]
mod tests;
