//! Sessions and their sets.
//!
//! Short names, because a session is kept for every day of training: ten years
//! of it, 50 000 sets, must fit in two million characters.

use super::part::{
    COUNT, bound, count, cycle_day, load, moment, narrow, note, prescription, session_id,
    write_prescription,
};
use crate::json::{Json, Misfit, Read, Reader, Unknown, comma, field, list, maybe, name, numbers};
use weekloom_engine::bounds;
use weekloom_engine::calendar::Moment;
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::log::{SetEntry, SetKind};
use weekloom_engine::plan::Prescription;
use weekloom_engine::session::{ItemState, Phase, Session, SessionItem, Target};
use weekloom_engine::units::Load;

/// Id, day, day of the plan, deload, start, seconds of pauses, index of the
/// current item, phase, items.
impl Json for Session {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let names = &["id", "d", "pd", "dl", "st", "ps", "cu", "ph", "x"];
        let mut fields = reader.fields(names, Unknown::Refused)?;
        let id = fields.needed(session_id)?;
        let day = fields.needed(Json::read)?;
        let plan_day = fields.maybe(cycle_day)?;
        let is_deload = fields.maybe(bool::read)?.unwrap_or_default();
        let started = fields.maybe(Moment::read)?;
        let base = base(started);
        let paused_s = fields.maybe(u32::read)?.unwrap_or_default();
        let current = fields.maybe(u32::read)?.map(|at| at as usize);
        let phase = fields.maybe(|r| phase(r, base))?.unwrap_or(Phase::Planned);
        let items = fields.needed(|r| {
            let items = r.each(|r| item(r, base))?;
            count(bound("exercises", 0, 60), items.len())?;
            Ok(items)
        })?;
        fields.done();
        if let Some(current) = current
            && current >= items.len()
        {
            let what = format_args!("there is no item {current}");
            return Err(Misfit::value(what).inside("cu"));
        }
        Ok(Self {
            id,
            day,
            plan_day,
            is_deload,
            started,
            items,
            current,
            phase,
            paused_s,
        })
    }

    fn write(&self, out: &mut String) {
        let base = base(self.started);
        out.push('{');
        field(out, "id", &self.id);
        field(out, "d", &self.day);
        maybe(out, "pd", self.plan_day.as_ref());
        maybe(out, "dl", Some(&true).filter(|_| self.is_deload));
        maybe(out, "st", self.started.as_ref());
        maybe(out, "ps", Some(&self.paused_s).filter(|&&s| s != 0));
        let current = self.current.map(|at| u32::try_from(at).unwrap_or(u32::MAX));
        maybe(out, "cu", current.as_ref());
        write_phase(self.phase, base, out);
        name(out, "x");
        list(out, &self.items, |item, out| write_item(item, base, out));
        out.push('}');
    }
}

/// What set times count from.
pub(super) fn base(started: Option<Moment>) -> Moment {
    started.unwrap_or_default()
}

/// A name, alone or with one or two moments in milliseconds since the start.
fn phase(reader: &mut Reader<'_>, base: Moment) -> Read<Phase> {
    let (form, holds_more) = reader.variant()?;
    let after = |reader: &mut Reader<'_>| moment(base.0.saturating_add(i64::read(reader)?));
    let phase = match (form.as_str(), holds_more) {
        ("planned", false) => Phase::Planned,
        ("active", false) => Phase::Active,
        ("resting", true) => {
            reader.first()?;
            let since = after(reader)?;
            reader.then()?;
            let until = after(reader)?;
            reader.last()?;
            Phase::Resting { since, until }
        }
        ("paused", true) => Phase::Paused {
            since: after(reader)?,
        },
        ("finished", true) => Phase::Finished { at: after(reader)? },
        _ => return reader.unknown_variant(&form),
    };
    reader.end_of_variant(holds_more)?;
    Ok(phase)
}

fn write_phase(phase: Phase, base: Moment, out: &mut String) {
    let (form, moment) = match phase {
        Phase::Planned => return,
        Phase::Active => {
            name(out, "ph");
            return crate::json::text(out, "active");
        }
        Phase::Resting { since, until } => {
            out.push_str(",\"ph\":{\"resting\":");
            numbers(out, &[Some(since.0 - base.0), Some(until.0 - base.0)]);
            return out.push('}');
        }
        Phase::Paused { since } => ("paused", since),
        Phase::Finished { at } => ("finished", at),
    };
    name(out, "ph");
    out.push('{');
    field(out, form, &(moment.0 - base.0));
    out.push('}');
}

/// A list: key, exercise, prescription, target or null, sets, and an object of
/// what is rare: superset, skipped, discomfort, note, what was swapped.
fn item(reader: &mut Reader<'_>, base: Moment) -> Read<SessionItem> {
    reader.first()?;
    let key = u16::read(reader)?;
    reader.then()?;
    let exercise = ExerciseId::read(reader).map_err(|misfit| misfit.inside("exercise"))?;
    reader.then()?;
    let prescription =
        prescription(reader, exercise).map_err(|misfit| misfit.inside("prescription"))?;
    reader.then()?;
    let target = target(reader, &prescription).map_err(|misfit| misfit.inside("target"))?;
    reader.then()?;
    let sets = sets(reader, base).map_err(|misfit| misfit.inside("sets"))?;
    reader.then()?;
    let mut extra = reader.fields(&["g", "x", "h", "n", "w"], Unknown::Refused)?;
    let superset = extra.maybe(u8::read)?;
    let is_skipped = extra.maybe(bool::read)?.unwrap_or_default();
    let discomfort = extra.maybe(Json::read)?;
    let note = extra.maybe(note)?;
    let swapped_from = extra.maybe(Json::read)?;
    extra.done();
    reader.last()?;
    Ok(SessionItem {
        key,
        prescription,
        superset,
        target,
        sets,
        state: if is_skipped {
            ItemState::Skipped
        } else {
            ItemState::Open
        },
        discomfort,
        note: note.unwrap_or_default(),
        swapped_from,
    })
}

fn write_item(item: &SessionItem, base: Moment, out: &mut String) {
    out.push('[');
    item.key.write(out);
    comma(out);
    item.prescription.exercise.write(out);
    comma(out);
    write_prescription(&item.prescription, out);
    comma(out);
    write_target(item.target, &item.prescription, out);
    comma(out);
    write_sets(&item.sets, base, out);
    comma(out);
    out.push('{');
    maybe(out, "g", item.superset.as_ref());
    let is_skipped = item.state == ItemState::Skipped;
    maybe(out, "x", Some(&true).filter(|_| is_skipped));
    maybe(out, "h", item.discomfort.as_ref());
    maybe(out, "n", Some(&item.note).filter(|note| !note.is_empty()));
    maybe(out, "w", item.swapped_from.as_ref());
    out.push_str("}]");
}

/// `[grams or null, reps or seconds]`, with the reps in reserve as a third
/// number where they differ from the prescription.
fn target(reader: &mut Reader<'_>, prescription: &Prescription) -> Read<Option<Target>> {
    let Some(list) = Option::<Vec<Option<i64>>>::read(reader)? else {
        return Ok(None);
    };
    let (grams, count, rir) = match list[..] {
        [grams, Some(count)] => (grams, count, prescription.rir.into()),
        [grams, Some(count), Some(rir)] => (grams, count, rir),
        _ => return Err(Misfit::value("it is not 2 or 3 numbers")),
    };
    Ok(Some(Target {
        load: grams.map(load).transpose()?,
        count: narrow(COUNT, count)?,
        rir: narrow(bounds::RIR, rir)?,
    }))
}

fn write_target(target: Option<Target>, prescription: &Prescription, out: &mut String) {
    let Some(target) = target else {
        return out.push_str("null");
    };
    let list = [
        target.load.map(Load::grams),
        Some(target.count.into()),
        Some(target.rir.into()),
    ];
    let is_as_prescribed = target.rir == prescription.rir;
    numbers(out, &list[..if is_as_prescribed { 2 } else { 3 }]);
}

/// One set: `[grams, count, rir or null, milliseconds]`, the time since the set
/// before it, for the first one since the start of the session. Without the
/// grams the load is that of the set before it; with a fifth number, 1, it was
/// a warm-up set.
pub(super) fn sets(reader: &mut Reader<'_>, base: Moment) -> Read<Vec<SetEntry>> {
    let mut before: Option<i64> = None;
    let mut clock = base.0;
    let sets = reader.each(|reader| {
        let set: Vec<Option<i64>> = Vec::read(reader)?;
        let (grams, reps, rir, passed, kind) = match (&set[..], before) {
            (&[Some(reps), rir, Some(passed)], Some(grams)) => {
                (grams, reps, rir, passed, SetKind::Work)
            }
            (&[Some(grams), Some(reps), rir, Some(passed)], _) => {
                (grams, reps, rir, passed, SetKind::Work)
            }
            (&[Some(grams), Some(reps), rir, Some(passed), Some(1)], _) => {
                (grams, reps, rir, passed, SetKind::WarmUp)
            }
            _ => return Err(Misfit::value("it is not a set of 3 to 5 numbers")),
        };
        before = Some(grams);
        clock = clock.saturating_add(passed);
        Ok(SetEntry {
            kind,
            load: load(grams)?,
            count: narrow(COUNT, reps)?,
            rir: rir.map(|rir| narrow(bounds::RIR, rir)).transpose()?,
            at: moment(clock)?,
        })
    })?;
    count(bound("sets", 0, 100), sets.len())?;
    Ok(sets)
}

pub(super) fn write_sets(sets: &[SetEntry], base: Moment, out: &mut String) {
    let mut before: Option<Load> = None;
    let mut clock = base.0;
    out.push('[');
    for set in sets {
        let is_warm_up = set.kind == SetKind::WarmUp;
        let list = [
            Some(set.load.grams()),
            Some(set.count.into()),
            set.rir.map(i64::from),
            Some(set.at.0 - clock),
            Some(1),
        ];
        let is_same_load = !is_warm_up && before == Some(set.load);
        clock = set.at.0;
        before = Some(set.load);
        comma(out);
        numbers(
            out,
            &list[usize::from(is_same_load)..4 + usize::from(is_warm_up)],
        );
    }
    out.push(']');
}
