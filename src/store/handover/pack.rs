//! An offer in bits. The form of version 1, frozen once released; a golden
//! text in the tests holds it. Terms are their places in the engine's lists,
//! which only grow at their ends.
//!
//! ```text
//! offer     split:24 weekdays:7 own:5 days:5 {own exercise} {day}
//! day       focus:4 items:4 {item}
//! item      own? 1 place:5 : 0 sum:24, sets:4, goal, rir:4, rest, superset? 1 number:3 : 0
//! goal      small? 0 least:5 more:4 : 1 least:10 most:10
//! rest      quarters of a minute? 0 count:6 : 1 seconds:10
//! exercise  name pattern:5 role:2 prime:18 assist:18 equipment:40 loading:4
//!           measure:1 sides:1 kind:1 least:10 most:10 rir:4 rest:10 rep:8
//!           set-up:10 joints:6 strain:2 skill:2 cue caution
//! text      bytes:10 {byte:8}
//! ```

use super::bits::{Reader, Writer};
use super::{Offer, OfferError, OfferedDay, exercise_with, split_with, sum_of};
use weekloom_engine::bounds;
use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::own::{flaw, own_id};
use weekloom_engine::catalogue::{
    Catalogue, Equipment, Exercise, ExerciseId, JointDemand, Kind, Loading, Measure, Muscle,
    Pattern, Role, Sides,
};
use weekloom_engine::plan::Prescription;
use weekloom_engine::plan::split::Focus;

/// Most days of a cycle that can be kept.
const CYCLE: usize = 28;
/// Bits of a text's length.
const TEXT: u32 = 10;

pub(super) fn pack(offer: &Offer) -> Option<Vec<u8>> {
    let mut out = Writer::default();
    out.put(sum_of(offer.split.as_str()), 24)?;
    for day in Weekday::ALL {
        out.flag(offer.weekdays.contains(&day))?;
    }
    out.put(u32::try_from(offer.own.len()).ok()?, 5)?;
    out.put(u32::try_from(offer.days.len()).ok()?, 5)?;
    for exercise in &offer.own {
        pack_exercise(&mut out, exercise)?;
    }
    for day in &offer.days {
        out.put(place(Focus::ALL, &day.focus)?, 4)?;
        out.put(u32::try_from(day.items.len()).ok()?, 4)?;
        for (prescription, superset) in &day.items {
            let own = offer.own.iter().position(|e| e.id == prescription.exercise);
            pack_item(&mut out, prescription, *superset, own)?;
        }
    }
    Some(out.bytes())
}

fn pack_item(
    out: &mut Writer,
    prescription: &Prescription,
    superset: Option<u8>,
    own: Option<usize>,
) -> Option<()> {
    out.flag(own.is_some())?;
    match own {
        Some(at) => out.put(u32::try_from(at).ok()?, 5)?,
        None => out.put(sum_of(prescription.exercise.as_str()), 24)?,
    }
    out.put(prescription.sets, 4)?;
    let (least, most) = prescription.reps;
    let more = most.checked_sub(least)?;
    let is_small = least < 32 && more < 16;
    out.flag(!is_small)?;
    if is_small {
        out.put(least, 5)?;
        out.put(more, 4)?;
    } else {
        out.put(least, 10)?;
        out.put(most, 10)?;
    }
    out.put(prescription.rir, 4)?;
    let rest = prescription.rest_s;
    let is_plain = rest.is_multiple_of(15);
    out.flag(!is_plain)?;
    if is_plain {
        out.put(rest / 15, 6)?;
    } else {
        out.put(rest, 10)?;
    }
    out.flag(superset.is_some())?;
    if let Some(superset) = superset {
        out.put(superset, 3)?;
    }
    Some(())
}

fn pack_exercise(out: &mut Writer, e: &Exercise) -> Option<()> {
    out.text(&e.name, TEXT)?;
    out.put(place(Pattern::ALL, &e.pattern)?, 5)?;
    out.put(place(Role::ALL, &e.role)?, 2)?;
    for muscles in [&e.prime, &e.assist] {
        pack_set(out, Muscle::ALL, muscles, 18)?;
    }
    pack_set(out, Equipment::ALL, &e.equipment, 40)?;
    out.put(place(Loading::ALL, &e.loading)?, 4)?;
    out.put(place(Measure::ALL, &e.measure)?, 1)?;
    out.put(place(Sides::ALL, &e.sides)?, 1)?;
    out.put(place(Kind::ALL, &e.kind)?, 1)?;
    out.put(e.reps.0, 10)?;
    out.put(e.reps.1, 10)?;
    out.put(e.rir, 4)?;
    out.put(e.rest_s, 10)?;
    out.put(e.rep_ds, 8)?;
    out.put(e.setup_s, 10)?;
    pack_set(out, JointDemand::ALL, &e.joints, 6)?;
    out.put(e.strain, 2)?;
    out.put(e.skill, 2)?;
    out.text(&e.cue, TEXT)?;
    out.text(&e.caution, TEXT)
}

fn place<T: PartialEq>(all: &[T], one: &T) -> Option<u32> {
    u32::try_from(all.iter().position(|known| known == one)?).ok()
}

/// A bit for each term there may be.
fn pack_set<T: PartialEq>(out: &mut Writer, all: &[T], some: &[T], bits: usize) -> Option<()> {
    (0..bits).try_for_each(|at| out.flag(all.get(at).is_some_and(|term| some.contains(term))))
}

pub(super) fn unpack(packed: &[u8], catalogue: &Catalogue) -> Result<Offer, OfferError> {
    let mut reader = Reader::new(packed);
    let offer = offer(&mut reader, catalogue)?;
    if reader.ends() {
        Ok(offer)
    } else {
        Err(OfferError::OutOfBounds)
    }
}

/// What runs out of bits or bounds.
const WRONG: OfferError = OfferError::OutOfBounds;

fn offer(reader: &mut Reader<'_>, catalogue: &Catalogue) -> Result<Offer, OfferError> {
    let split = split_with(reader.take(24).ok_or(WRONG)?);
    let mut weekdays = Vec::new();
    for day in Weekday::ALL {
        if reader.flag().ok_or(WRONG)? {
            weekdays.push(day);
        }
    }
    let own_count = reader.take(5).ok_or(WRONG)?;
    let day_count = reader.take(5).ok_or(WRONG)?;
    let is_misshapen = weekdays.is_empty() || !(1..=CYCLE).contains(&(day_count as usize));
    if is_misshapen {
        return Err(WRONG);
    }
    let mut own: Vec<Exercise> = Vec::new();
    for _ in 0..own_count {
        let exercise = exercise(reader).ok_or(WRONG)?;
        if flaw(&exercise).is_some() || own.iter().any(|known| known.id == exercise.id) {
            return Err(WRONG);
        }
        own.push(exercise);
    }
    let mut days = Vec::new();
    for _ in 0..day_count {
        let focus = term(reader, Focus::ALL, 4).ok_or(WRONG)?;
        let count = i64::from(reader.take(4).ok_or(WRONG)?);
        if count > bounds::SLOTS.most {
            return Err(WRONG);
        }
        let mut items = Vec::new();
        for _ in 0..count {
            let id = exercise_id(reader, &own, catalogue)?;
            items.push(item(reader, id).ok_or(WRONG)?);
        }
        days.push(OfferedDay { focus, items });
    }
    Ok(Offer {
        split,
        weekdays,
        days,
        own,
    })
}

fn exercise_id(
    reader: &mut Reader<'_>,
    own: &[Exercise],
    catalogue: &Catalogue,
) -> Result<ExerciseId, OfferError> {
    if reader.flag().ok_or(WRONG)? {
        let at = reader.take(5).ok_or(WRONG)? as usize;
        own.get(at).map(|exercise| exercise.id.clone()).ok_or(WRONG)
    } else {
        let sum = reader.take(24).ok_or(WRONG)?;
        let id = exercise_with(sum, catalogue).cloned();
        id.ok_or(OfferError::UnknownExercise)
    }
}

fn item(reader: &mut Reader<'_>, exercise: ExerciseId) -> Option<(Prescription, Option<u8>)> {
    let sets = reader.narrow(4)?;
    let reps: (u16, u16) = if reader.flag()? {
        (reader.narrow(10)?, reader.narrow(10)?)
    } else {
        let least: u16 = reader.narrow(5)?;
        let more: u16 = reader.narrow(4)?;
        (least, least + more)
    };
    let rir = reader.narrow(4)?;
    let rest_s = if reader.flag()? {
        reader.narrow(10)?
    } else {
        reader.narrow::<u16>(6)? * 15
    };
    let superset = match reader.flag()? {
        true => Some(reader.narrow(3)?),
        false => None,
    };
    let prescription = Prescription {
        exercise,
        sets,
        reps,
        rir,
        rest_s,
    };
    let is_within = bounds::SETS.check(sets.into()).is_ok()
        && bounds::COUNT.check(reps.0.into()).is_ok()
        && bounds::COUNT.check(reps.1.into()).is_ok()
        && reps.0 <= reps.1
        && bounds::RIR.check(rir.into()).is_ok()
        && bounds::REST_S.check(rest_s.into()).is_ok();
    is_within.then_some((prescription, superset))
}

fn exercise(reader: &mut Reader<'_>) -> Option<Exercise> {
    let name = reader.text(TEXT)?;
    Some(Exercise {
        id: own_id(&name),
        name,
        pattern: term(reader, Pattern::ALL, 5)?,
        role: term(reader, Role::ALL, 2)?,
        prime: terms(reader, Muscle::ALL, 18)?,
        assist: terms(reader, Muscle::ALL, 18)?,
        equipment: terms(reader, Equipment::ALL, 40)?,
        loading: term(reader, Loading::ALL, 4)?,
        measure: term(reader, Measure::ALL, 1)?,
        sides: term(reader, Sides::ALL, 1)?,
        kind: term(reader, Kind::ALL, 1)?,
        reps: (reader.narrow(10)?, reader.narrow(10)?),
        rir: reader.narrow(4)?,
        rest_s: reader.narrow(10)?,
        rep_ds: reader.narrow(8)?,
        setup_s: reader.narrow(10)?,
        joints: terms(reader, JointDemand::ALL, 6)?,
        strain: reader.narrow(2)?,
        skill: reader.narrow(2)?,
        step_down: Vec::new(),
        step_up: Vec::new(),
        cue: reader.text(TEXT)?,
        caution: reader.text(TEXT)?,
    })
}

fn term<T: Copy>(reader: &mut Reader<'_>, all: &[T], bits: u32) -> Option<T> {
    all.get(reader.take(bits)? as usize).copied()
}

fn terms<T: Copy>(reader: &mut Reader<'_>, all: &[T], bits: usize) -> Option<Vec<T>> {
    let mut found = Vec::new();
    for at in 0..bits {
        if reader.flag()? {
            found.push(*all.get(at)?);
        }
    }
    Some(found)
}
