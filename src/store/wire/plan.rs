//! The plan the person trains by.

use super::part::{
    CYCLE, CYCLE_DAY, Read, bound, count, day, each, exercise, number, prescription,
    prescription_wire, slug, weekday_number, weekdays, word,
};
use super::{Stored, WireError, v1};
use crate::settings::AcceptedPlan;
use weekloom_engine::bounds;
use weekloom_engine::catalogue::{Muscle, Pattern};
use weekloom_engine::plan::split::Focus;
use weekloom_engine::plan::{PickReason, Plan, PlanDay, PlanItem, PlanNote, SplitId};

impl Stored for AcceptedPlan {
    type Wire = v1::Plan;

    fn to_wire(&self) -> v1::Plan {
        v1::Plan {
            split: self.plan.split.as_str().to_owned(),
            accepted: self.accepted.epoch_days(),
            weekdays: self.weekdays.iter().copied().map(weekday_number).collect(),
            days: self.plan.days.iter().map(day_wire).collect(),
            notes: self.plan.notes.iter().map(note_wire).collect(),
        }
    }

    fn from_wire(wire: v1::Plan) -> Read<Self> {
        count("days", CYCLE, wire.days.len())?;
        Ok(Self {
            plan: Plan {
                split: SplitId::new(slug("split", &wire.split)?),
                days: each("days", wire.days, plan_day)?,
                notes: each("notes", wire.notes, note)?,
            },
            accepted: day("accepted", wire.accepted)?,
            weekdays: weekdays("weekdays", &wire.weekdays)?,
        })
    }
}

fn day_wire(day: &PlanDay) -> v1::PlanDay {
    v1::PlanDay {
        focus: day.focus.slug().to_owned(),
        seconds: day.seconds,
        items: day
            .items
            .iter()
            .map(|item| v1::PlanItem {
                key: item.key,
                exercise: item.prescription.exercise.as_str().to_owned(),
                prescription: prescription_wire(&item.prescription),
                superset: item.superset,
                why: item.reasons.iter().map(reason_wire).collect(),
            })
            .collect(),
    }
}

fn plan_day(wire: v1::PlanDay) -> Read<PlanDay> {
    let most = bound("exercises a day", 0, bounds::SLOTS.most);
    count("items", most, wire.items.len())?;
    let is_double = |(i, item): (usize, &v1::PlanItem)| {
        wire.items[..i]
            .iter()
            .any(|earlier| earlier.key == item.key)
    };
    if wire.items.iter().enumerate().any(is_double) {
        return Err(WireError::new("items", "two items have the same key"));
    }
    Ok(PlanDay {
        focus: word("focus", &wire.focus, Focus::from_slug)?,
        seconds: number("seconds", bound("seconds", 0, 86_400), wire.seconds)?,
        items: each("items", wire.items, |item| {
            Ok(PlanItem {
                key: item.key,
                prescription: prescription(
                    exercise("exercise", &item.exercise)?,
                    item.prescription,
                )?,
                superset: item.superset,
                reasons: each("why", item.why, reason)?,
            })
        })?,
    })
}

fn reason_wire(reason: &PickReason) -> v1::Reason {
    match reason {
        PickReason::CoversPattern(pattern) => v1::Reason::CoversPattern(pattern.slug().to_owned()),
        PickReason::Feeds { muscle, half_sets } => {
            v1::Reason::Feeds(muscle.slug().to_owned(), *half_sets)
        }
        PickReason::Priority(muscle) => v1::Reason::Priority(muscle.slug().to_owned()),
        PickReason::LeadsDay => v1::Reason::LeadsDay,
        PickReason::EasyToLearn => v1::Reason::EasyToLearn,
        PickReason::BestWithKit => v1::Reason::BestWithKit,
        PickReason::SavesTime => v1::Reason::SavesTime,
    }
}

fn reason(wire: v1::Reason) -> Read<PickReason> {
    Ok(match wire {
        v1::Reason::CoversPattern(text) => PickReason::CoversPattern(pattern(&text)?),
        v1::Reason::Feeds(text, half_sets) => PickReason::Feeds {
            muscle: muscle(&text)?,
            half_sets,
        },
        v1::Reason::Priority(text) => PickReason::Priority(muscle(&text)?),
        v1::Reason::LeadsDay => PickReason::LeadsDay,
        v1::Reason::EasyToLearn => PickReason::EasyToLearn,
        v1::Reason::BestWithKit => PickReason::BestWithKit,
        v1::Reason::SavesTime => PickReason::SavesTime,
    })
}

fn note_wire(note: &PlanNote) -> v1::Note {
    match note {
        PlanNote::PatternNotCovered(pattern) => {
            v1::Note::PatternNotCovered(pattern.slug().to_owned())
        }
        PlanNote::SlotDropped { day, patterns } => {
            v1::Note::SlotDropped(*day, patterns.iter().map(|p| p.slug().to_owned()).collect())
        }
        PlanNote::BelowFloor {
            muscle,
            half_sets,
            floor,
        } => v1::Note::BelowFloor(muscle.slug().to_owned(), *half_sets, *floor),
        PlanNote::OverTime { day, seconds } => v1::Note::OverTime(*day, *seconds),
        PlanNote::ShortRecovery { day, muscle } => {
            v1::Note::ShortRecovery(*day, muscle.slug().to_owned())
        }
    }
}

fn note(wire: v1::Note) -> Read<PlanNote> {
    Ok(match wire {
        v1::Note::PatternNotCovered(text) => PlanNote::PatternNotCovered(pattern(&text)?),
        v1::Note::SlotDropped(day, texts) => PlanNote::SlotDropped {
            day: number("", CYCLE_DAY, day)?,
            patterns: each("", &texts, |text| pattern(text))?,
        },
        v1::Note::BelowFloor(text, half_sets, floor) => PlanNote::BelowFloor {
            muscle: muscle(&text)?,
            half_sets,
            floor,
        },
        v1::Note::OverTime(day, seconds) => PlanNote::OverTime {
            day: number("", CYCLE_DAY, day)?,
            seconds,
        },
        v1::Note::ShortRecovery(day, text) => PlanNote::ShortRecovery {
            day: number("", CYCLE_DAY, day)?,
            muscle: muscle(&text)?,
        },
    })
}

fn pattern(text: &str) -> Read<Pattern> {
    word("", text, Pattern::from_slug)
}

fn muscle(text: &str) -> Read<Muscle> {
    word("", text, Muscle::from_slug)
}
