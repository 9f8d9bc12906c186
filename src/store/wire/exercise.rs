//! Exercises of the person's own making.

use super::part::{bound, count, known, moment};
use crate::json::{Json, Misfit, Read, Reader, Unknown, field, list, maybe, name};
use crate::own::{OwnExercise, OwnExercises};
use weekloom_engine::catalogue::own::{MOST_OWN, flaw};
use weekloom_engine::catalogue::{Exercise, Kind, Loading, Measure, Role, Sides};

#[expect(clippy::cast_possible_wrap, reason = "a few hundred")]
const ALL: weekloom_engine::bounds::Bound = bound("own exercises", 0, MOST_OWN as i64);

impl Json for OwnExercises {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut all = Self::default();
        reader.each(|reader| {
            let own = OwnExercise::read(reader)?;
            match all.0.insert(own.exercise.id.clone(), own) {
                Some(twin) => Err(Misfit::value(format_args!(
                    "there are two exercises '{}'",
                    twin.exercise.id
                ))),
                None => Ok(()),
            }
        })?;
        count(ALL, all.0.len())?;
        Ok(all)
    }

    fn write(&self, out: &mut String) {
        let all: Vec<&OwnExercise> = self.0.values().collect();
        list(out, &all, |own, out| own.write(out));
    }
}

macro_rules! slugs {
    ($($type:ident)+) => { $(
        impl Json for $type {
            fn read(reader: &mut Reader<'_>) -> Read<Self> {
                known(&String::read(reader)?, Self::from_slug)
            }

            fn write(&self, out: &mut String) {
                crate::json::text(out, self.slug());
            }
        }
    )+ };
}
slugs!(Kind Loading Measure Role Sides);

const NAMES: &[&str] = &[
    "id",
    "changed",
    "name",
    "pattern",
    "role",
    "prime",
    "assist",
    "equipment",
    "loading",
    "measure",
    "sides",
    "kind",
    "reps",
    "rir",
    "rest_s",
    "rep_ds",
    "setup_s",
    "joints",
    "strain",
    "skill",
    "step_down",
    "step_up",
    "cue",
    "caution",
];

impl Json for OwnExercise {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut fields = reader.fields(NAMES, Unknown::Refused)?;
        let id = fields.needed(Json::read)?;
        let changed = fields.needed(|r| moment(i64::read(r)?))?;
        let exercise = Exercise {
            id,
            name: fields.needed(Json::read)?,
            pattern: fields.needed(Json::read)?,
            role: fields.needed(Json::read)?,
            prime: fields.needed(Json::read)?,
            assist: fields.needed(Json::read)?,
            equipment: fields.needed(Json::read)?,
            loading: fields.needed(Json::read)?,
            measure: fields.needed(Json::read)?,
            sides: fields.needed(Json::read)?,
            kind: fields.needed(Json::read)?,
            reps: fields.needed(|r| {
                let ends: Vec<u16> = Vec::read(r)?;
                match ends[..] {
                    [least, most] => Ok((least, most)),
                    _ => Err(Misfit::value("it is not 2 numbers")),
                }
            })?,
            rir: fields.needed(Json::read)?,
            rest_s: fields.needed(Json::read)?,
            rep_ds: fields.needed(Json::read)?,
            setup_s: fields.needed(Json::read)?,
            joints: fields.needed(Json::read)?,
            strain: fields.needed(Json::read)?,
            skill: fields.needed(Json::read)?,
            step_down: fields.maybe(Json::read)?.unwrap_or_default(),
            step_up: fields.maybe(Json::read)?.unwrap_or_default(),
            cue: fields.needed(Json::read)?,
            caution: fields.needed(Json::read)?,
        };
        fields.done();
        match flaw(&exercise) {
            Some(flaw) => Err(Misfit::value(flaw)),
            None => Ok(Self { exercise, changed }),
        }
    }

    fn write(&self, out: &mut String) {
        let e = &self.exercise;
        out.push('{');
        field(out, "id", &e.id);
        field(out, "changed", &self.changed);
        field(out, "name", &e.name);
        field(out, "pattern", &e.pattern);
        field(out, "role", &e.role);
        field(out, "prime", &e.prime);
        field(out, "assist", &e.assist);
        field(out, "equipment", &e.equipment);
        field(out, "loading", &e.loading);
        field(out, "measure", &e.measure);
        field(out, "sides", &e.sides);
        field(out, "kind", &e.kind);
        name(out, "reps");
        vec![e.reps.0, e.reps.1].write(out);
        field(out, "rir", &e.rir);
        field(out, "rest_s", &e.rest_s);
        field(out, "rep_ds", &e.rep_ds);
        field(out, "setup_s", &e.setup_s);
        field(out, "joints", &e.joints);
        field(out, "strain", &e.strain);
        field(out, "skill", &e.skill);
        maybe(
            out,
            "step_down",
            Some(&e.step_down).filter(|all| !all.is_empty()),
        );
        maybe(
            out,
            "step_up",
            Some(&e.step_up).filter(|all| !all.is_empty()),
        );
        field(out, "cue", &e.cue);
        field(out, "caution", &e.caution);
        out.push('}');
    }
}
