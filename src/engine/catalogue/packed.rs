//! Reading the built-in exercises as the build has packed them.
//!
//! Start at [`read`]. The strict reader of the data file is a tenth of what a
//! phone would have to download; it runs in a test instead, which also holds
//! this reader to it. This module reads nothing that the build did not write.

use super::{Catalogue, Equipment, Exercise, ExerciseId, JointDemand, Kind, Loading, Measure};
use super::{Muscle, Pattern, PatternBasis, Role, Sides};

/// One basis a line, a form feed, one exercise a line by id; fields between
/// tabs.
const PACKED: &str = include_str!(concat!(env!("OUT_DIR"), "/catalogue.txt"));

/// The built-in catalogue; `None` when the build has packed it otherwise.
pub(super) fn read() -> Option<Catalogue> {
    let (bases, exercises) = PACKED.split_once('\u{c}')?;
    let mut catalogue = Catalogue {
        exercises: Vec::new(),
        bases: Vec::new(),
    };
    for line in bases.trim_end().split('\n') {
        catalogue.bases.push(PatternBasis {
            pattern: *term(*line.as_bytes().first()?, Pattern::ALL)?,
            basis: line[1..].to_owned(),
        });
    }
    let lines = || exercises.trim_end().split('\n');
    let ids: Vec<ExerciseId> = lines()
        .map(|line| ExerciseId::new(line.split('\t').next().unwrap_or_default()))
        .collect();
    for (line, id) in lines().zip(&ids) {
        let exercise = exercise(line, id, &ids)?;
        catalogue.exercises.push(exercise.into());
    }
    Some(catalogue)
}

fn exercise(line: &str, id: &ExerciseId, ids: &[ExerciseId]) -> Option<Exercise> {
    let mut fields = line.split('\t').skip(1);
    let mut field = || fields.next();
    let name = field()?.to_owned();
    let cue = field()?.replace('|', "\n");
    let caution = field()?.to_owned();
    let &[pattern, role, loading, measure, sides, kind] = field()?.as_bytes() else {
        return None;
    };
    let prime = terms(field()?, Muscle::ALL)?;
    let assist = terms(field()?, Muscle::ALL)?;
    let equipment = terms(field()?, Equipment::ALL)?;
    let joints = terms(field()?, JointDemand::ALL)?;
    let mut numbers = field()?.split(',');
    let mut wide = || number(numbers.next()?);
    Some(Exercise {
        id: id.clone(),
        name,
        pattern: *term(pattern, Pattern::ALL)?,
        role: *term(role, Role::ALL)?,
        prime,
        assist,
        equipment,
        loading: *term(loading, Loading::ALL)?,
        measure: *term(measure, Measure::ALL)?,
        sides: *term(sides, Sides::ALL)?,
        kind: *term(kind, Kind::ALL)?,
        joints,
        rir: narrow(wide()?)?,
        rest_s: wide()?,
        rep_ds: wide()?,
        setup_s: wide()?,
        strain: narrow(wide()?)?,
        skill: narrow(wide()?)?,
        reps: (wide()?, wide()?),
        step_down: steps(field()?, ids)?,
        step_up: steps(field()?, ids)?,
        cue,
        caution,
    })
}

/// The term with this letter: its place among all, from '0' on.
fn term<T>(letter: u8, all: &[T]) -> Option<&T> {
    all.get(usize::from(letter.checked_sub(b'0')?))
}

fn terms<T: Copy>(letters: &str, all: &[T]) -> Option<Vec<T>> {
    letters.bytes().map(|b| term(b, all).copied()).collect()
}

fn narrow(number: u16) -> Option<u8> {
    number.try_into().ok()
}

fn number(digits: &str) -> Option<u16> {
    let mut number: u16 = 0;
    for digit in digits.bytes() {
        let digit = u16::from(digit.checked_sub(b'0')?);
        number = number.checked_mul(10)?.checked_add(digit)?;
    }
    Some(number)
}

fn steps(places: &str, ids: &[ExerciseId]) -> Option<Vec<ExerciseId>> {
    let mut steps = Vec::new();
    for place in places.split(',').filter(|place| !place.is_empty()) {
        steps.push(ids.get(usize::from(number(place)?))?.clone());
    }
    Some(steps)
}
