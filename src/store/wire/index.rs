//! What is derived from the sessions: histories and the index.

use super::part::{bound, count, cycle_day, prescription, session_id, write_prescription};
use super::session::{base, sets, write_sets};
use crate::index::{History, Index, Past, SessionLine};
use crate::json::{Json, Read, Reader, Unknown, comma, field, list, maybe, name};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::log::Performance;

/// Exercise, performances.
impl Json for History {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut fields = reader.fields(&["e", "p"], Unknown::Refused)?;
        let exercise = fields.needed(ExerciseId::read)?;
        let past = fields.needed(|r| {
            let past = r.each(|r| past(r, &exercise))?;
            count(bound("performances", 0, 100), past.len())?;
            Ok(past)
        })?;
        fields.done();
        Ok(Self { exercise, past })
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "e", &self.exercise);
        name(out, "p");
        list(out, &self.past, write_past);
        out.push('}');
    }
}

/// Session, day, its start, prescription, load suggested, deload, sets,
/// discomfort.
fn past(reader: &mut Reader<'_>, exercise: &ExerciseId) -> Read<Past> {
    let names = &["id", "d", "st", "p", "sl", "dl", "s", "h"];
    let mut fields = reader.fields(names, Unknown::Refused)?;
    let session = fields.needed(session_id)?;
    let day = fields.needed(Json::read)?;
    let started = fields.maybe(Json::read)?;
    let performance = Performance {
        day,
        prescription: fields.needed(|r| prescription(r, exercise.clone()))?,
        suggested: fields.maybe(Json::read)?,
        is_deload: fields.maybe(bool::read)?.unwrap_or_default(),
        sets: fields.needed(|r| sets(r, base(started)))?,
        discomfort: fields.maybe(Json::read)?,
    };
    fields.done();
    Ok(Past {
        session,
        started,
        performance,
    })
}

fn write_past(past: &Past, out: &mut String) {
    let Past {
        session,
        started,
        performance,
    } = past;
    out.push('{');
    field(out, "id", session);
    field(out, "d", &performance.day);
    maybe(out, "st", started.as_ref());
    name(out, "p");
    write_prescription(&performance.prescription, out);
    maybe(out, "sl", performance.suggested.as_ref());
    maybe(out, "dl", Some(&true).filter(|_| performance.is_deload));
    name(out, "s");
    write_sets(&performance.sets, base(*started), out);
    maybe(out, "h", performance.discomfort.as_ref());
    out.push('}');
}

impl Json for Index {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut fields = reader.fields(&["sessions", "work_sets", "recent"], Unknown::Refused)?;
        let index = Self {
            sessions: fields.needed(u32::read)?,
            work_sets: fields.needed(u32::read)?,
            recent: fields.needed(|r| {
                let recent = Vec::read(r)?;
                count(bound("sessions", 0, 1000), recent.len())?;
                Ok(recent)
            })?,
        };
        fields.done();
        Ok(index)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "sessions", &self.sessions);
        field(out, "work_sets", &self.work_sets);
        field(out, "recent", &self.recent);
        out.push('}');
    }
}

/// A list: id, day, day of the plan or null, deload, work sets, seconds.
impl Json for SessionLine {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        reader.first()?;
        let id = session_id(reader)?;
        reader.then()?;
        let day = Json::read(reader)?;
        reader.then()?;
        let plan_day = reader.or_null(cycle_day)?;
        reader.then()?;
        let is_deload = bool::read(reader)?;
        reader.then()?;
        let work_sets = u32::read(reader)?;
        reader.then()?;
        let seconds = u32::read(reader)?;
        reader.last()?;
        Ok(Self {
            id,
            day,
            plan_day,
            is_deload,
            work_sets,
            seconds,
        })
    }

    fn write(&self, out: &mut String) {
        out.push('[');
        self.id.write(out);
        comma(out);
        self.day.write(out);
        comma(out);
        self.plan_day.write(out);
        comma(out);
        self.is_deload.write(out);
        for number in [self.work_sets, self.seconds] {
            comma(out);
            number.write(out);
        }
        out.push(']');
    }
}
