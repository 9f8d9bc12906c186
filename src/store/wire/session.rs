//! Sessions and their sets.

use super::part::{
    COUNT, CYCLE_DAY, Read, bound, count, day, each, exercise, load, moment, number, prescription,
    prescription_wire, session_id, word,
};
use super::{Stored, WireError, v1};
use weekloom_engine::bounds::{self, Bound};
use weekloom_engine::calendar::Moment;
use weekloom_engine::log::{Discomfort, SetEntry, SetKind};
use weekloom_engine::plan::Prescription;
use weekloom_engine::session::{ItemState, NOTE_CHARS, Phase, Session, SessionItem, Target};
use weekloom_engine::units::Load;

#[expect(clippy::cast_possible_wrap, reason = "a few hundred")]
const NOTE: Bound = bound("characters of a note", 0, NOTE_CHARS as i64);

impl Stored for Session {
    type Wire = v1::Session;

    fn to_wire(&self) -> v1::Session {
        let base = base(self.started);
        v1::Session {
            id: self.id.clone(),
            day: self.day.epoch_days(),
            plan_day: self.plan_day,
            is_deload: self.is_deload,
            started: self.started.map(|m| m.0),
            paused_s: self.paused_s,
            current: self.current,
            phase: match self.phase {
                Phase::Planned => v1::Phase::Planned,
                Phase::Active => v1::Phase::Active,
                Phase::Resting { since, until } => {
                    v1::Phase::Resting(since.0 - base.0, until.0 - base.0)
                }
                Phase::Paused { since } => v1::Phase::Paused(since.0 - base.0),
                Phase::Finished { at } => v1::Phase::Finished(at.0 - base.0),
            },
            items: self.items.iter().map(|i| item_wire(i, base)).collect(),
        }
    }

    fn from_wire(wire: v1::Session) -> Read<Self> {
        let started = wire.started.map(|ms| moment("st", ms)).transpose()?;
        let base = base(started);
        let after = |ms: i64| moment("ph", base.0.saturating_add(ms));
        count("x", bound("exercises", 0, 60), wire.items.len())?;
        if let Some(current) = wire.current
            && current >= wire.items.len()
        {
            let what = format!("there is no item {current}");
            return Err(WireError::new("cu", what));
        }
        Ok(Self {
            id: session_id("id", &wire.id)?,
            day: day("d", wire.day)?,
            plan_day: wire
                .plan_day
                .map(|d| number("pd", CYCLE_DAY, d))
                .transpose()?,
            is_deload: wire.is_deload,
            started,
            paused_s: wire.paused_s,
            items: each("x", wire.items, |item| item_from(item, base))?,
            current: wire.current,
            phase: match wire.phase {
                v1::Phase::Planned => Phase::Planned,
                v1::Phase::Active => Phase::Active,
                v1::Phase::Resting(since, until) => Phase::Resting {
                    since: after(since)?,
                    until: after(until)?,
                },
                v1::Phase::Paused(since) => Phase::Paused {
                    since: after(since)?,
                },
                v1::Phase::Finished(at) => Phase::Finished { at: after(at)? },
            },
        })
    }
}

/// What set times count from.
pub(super) fn base(started: Option<Moment>) -> Moment {
    started.unwrap_or_default()
}

fn item_wire(item: &SessionItem, base: Moment) -> v1::Item {
    v1::Item(
        item.key,
        item.prescription.exercise.as_str().to_owned(),
        prescription_wire(&item.prescription),
        item.target.map(|t| target_wire(t, &item.prescription)),
        sets_wire(&item.sets, base),
        v1::Extra {
            superset: item.superset,
            is_skipped: item.state == ItemState::Skipped,
            discomfort: item.discomfort.map(|d| d.slug().to_owned()),
            note: item.note.clone(),
            swapped_from: item.swapped_from.as_ref().map(|id| id.as_str().to_owned()),
        },
    )
}

fn item_from(wire: v1::Item, base: Moment) -> Read<SessionItem> {
    let v1::Item(key, id, prescribed, target, sets, extra) = wire;
    let prescription = prescription(exercise("exercise", &id)?, prescribed)?;
    count("note", NOTE, extra.note.chars().count())?;
    Ok(SessionItem {
        key,
        superset: extra.superset,
        target: target.map(|t| target_from(&t, &prescription)).transpose()?,
        sets: sets_from("sets", sets, base)?,
        state: if extra.is_skipped {
            ItemState::Skipped
        } else {
            ItemState::Open
        },
        discomfort: discomfort(extra.discomfort.as_deref())?,
        note: extra.note,
        swapped_from: extra
            .swapped_from
            .map(|id| exercise("swapped from", &id))
            .transpose()?,
        prescription,
    })
}

pub(super) fn discomfort(text: Option<&str>) -> Read<Option<Discomfort>> {
    text.map(|t| word("discomfort", t, Discomfort::from_slug))
        .transpose()
}

fn target_wire(target: Target, prescription: &Prescription) -> Vec<Option<i64>> {
    let mut wire = vec![target.load.map(Load::grams), Some(target.count.into())];
    if target.rir != prescription.rir {
        wire.push(Some(target.rir.into()));
    }
    wire
}

fn target_from(wire: &[Option<i64>], prescription: &Prescription) -> Read<Target> {
    let (grams, count, rir) = match *wire {
        [grams, Some(count)] => (grams, count, prescription.rir.into()),
        [grams, Some(count), Some(rir)] => (grams, count, rir),
        _ => return Err(WireError::new("target", "it is not 2 or 3 numbers")),
    };
    Ok(Target {
        load: grams.map(|g| load("target", g)).transpose()?,
        count: number("target", COUNT, count)?,
        rir: number("target", bounds::RIR, rir)?,
    })
}

pub(super) fn sets_wire(sets: &[SetEntry], base: Moment) -> Vec<v1::Set> {
    let mut before: Option<Load> = None;
    let mut clock = base.0;
    sets.iter()
        .map(|set| {
            let passed = set.at.0 - clock;
            clock = set.at.0;
            let is_warm_up = set.kind == SetKind::WarmUp;
            let mut wire = Vec::with_capacity(5);
            if is_warm_up || before != Some(set.load) {
                wire.push(Some(set.load.grams()));
            }
            before = Some(set.load);
            wire.extend([Some(set.count.into()), set.rir.map(i64::from), Some(passed)]);
            if is_warm_up {
                wire.push(Some(1));
            }
            wire
        })
        .collect()
}

pub(super) fn sets_from(place: &str, wire: Vec<v1::Set>, base: Moment) -> Read<Vec<SetEntry>> {
    count(place, bound("sets", 0, 100), wire.len())?;
    let mut before: Option<i64> = None;
    let mut clock = base.0;
    each(place, wire, |set| {
        let (grams, reps, rir, passed, kind) = match (set.as_slice(), before) {
            (&[Some(reps), rir, Some(passed)], Some(grams)) => {
                (grams, reps, rir, passed, SetKind::Work)
            }
            (&[Some(grams), Some(reps), rir, Some(passed)], _) => {
                (grams, reps, rir, passed, SetKind::Work)
            }
            (&[Some(grams), Some(reps), rir, Some(passed), Some(1)], _) => {
                (grams, reps, rir, passed, SetKind::WarmUp)
            }
            _ => return Err(WireError::new("", "it is not a set of 3 to 5 numbers")),
        };
        before = Some(grams);
        clock = clock.saturating_add(passed);
        Ok(SetEntry {
            kind,
            load: load("", grams)?,
            count: number("", COUNT, reps)?,
            rir: rir.map(|r| number("", bounds::RIR, r)).transpose()?,
            at: moment("", clock)?,
        })
    })
}
