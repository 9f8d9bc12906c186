//! What is derived from the sessions: histories and the index.

use super::part::{
    CYCLE_DAY, Read, bound, count, day, each, exercise, load, moment, number, prescription,
    prescription_wire, session_id,
};
use super::session::{base, discomfort, sets_from, sets_wire};
use super::{Stored, v1};
use crate::index::{History, Index, Past, SessionLine};
use weekloom_engine::calendar::Moment;
use weekloom_engine::log::Performance;
use weekloom_engine::units::Load;

impl Stored for History {
    type Wire = v1::History;

    fn to_wire(&self) -> v1::History {
        let past = |past: &Past| v1::Performance {
            id: past.session.clone(),
            day: past.performance.day.epoch_days(),
            started: past.started.map(|m: Moment| m.0),
            prescription: prescription_wire(&past.performance.prescription),
            suggested: past.performance.suggested.map(Load::grams),
            is_deload: past.performance.is_deload,
            sets: sets_wire(&past.performance.sets, base(past.started)),
            discomfort: past.performance.discomfort.map(|d| d.slug().to_owned()),
        };
        v1::History {
            exercise: self.exercise.as_str().to_owned(),
            performances: self.past.iter().map(past).collect(),
        }
    }

    fn from_wire(wire: v1::History) -> Read<Self> {
        let id = exercise("e", &wire.exercise)?;
        count("p", bound("performances", 0, 100), wire.performances.len())?;
        let past = each("p", wire.performances, |p| {
            let started = p.started.map(|ms| moment("st", ms)).transpose()?;
            Ok(Past {
                session: session_id("id", &p.id)?,
                started,
                performance: Performance {
                    day: day("d", p.day)?,
                    prescription: prescription(id.clone(), p.prescription)?,
                    suggested: p.suggested.map(|g| load("sl", g)).transpose()?,
                    is_deload: p.is_deload,
                    sets: sets_from("s", p.sets, base(started))?,
                    discomfort: discomfort(p.discomfort.as_deref())?,
                },
            })
        })?;
        Ok(Self { exercise: id, past })
    }
}

impl Stored for Index {
    type Wire = v1::Index;

    fn to_wire(&self) -> v1::Index {
        let line = |l: &SessionLine| {
            v1::Line(
                l.id.clone(),
                l.day.epoch_days(),
                l.plan_day,
                l.is_deload,
                l.work_sets,
                l.seconds,
            )
        };
        v1::Index {
            sessions: self.sessions,
            work_sets: self.work_sets,
            recent: self.recent.iter().map(line).collect(),
        }
    }

    fn from_wire(wire: v1::Index) -> Read<Self> {
        count("recent", bound("sessions", 0, 1000), wire.recent.len())?;
        Ok(Self {
            sessions: wire.sessions,
            work_sets: wire.work_sets,
            recent: each("recent", wire.recent, |line| {
                let v1::Line(id, epoch_days, plan_day, is_deload, work_sets, seconds) = line;
                Ok(SessionLine {
                    id: session_id("", &id)?,
                    day: day("", epoch_days)?,
                    plan_day: plan_day.map(|d| number("", CYCLE_DAY, d)).transpose()?,
                    is_deload,
                    work_sets,
                    seconds,
                })
            })?,
        })
    }
}
