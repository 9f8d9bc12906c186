//! The plan the person trains by.

use super::part::{
    CYCLE, bound, count, cycle_day, number, prescription, weekdays, write_prescription,
};
use crate::json::{Json, Misfit, Read, Reader, Unknown, comma, field, maybe, name, text};
use crate::settings::AcceptedPlan;
use weekloom_engine::bounds;
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::plan::{PickReason, Plan, PlanDay, PlanItem, PlanNote};

impl Json for AcceptedPlan {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let names = &["split", "accepted", "weekdays", "days", "notes"];
        let mut fields = reader.fields(names, Unknown::Refused)?;
        let split = fields.needed(Json::read)?;
        let accepted = fields.needed(Json::read)?;
        let weekdays = fields.needed(weekdays)?;
        let days = fields.needed(|r| {
            let days = Vec::read(r)?;
            count(CYCLE, days.len())?;
            Ok(days)
        })?;
        let notes = fields.needed(Vec::read)?;
        fields.done();
        Ok(Self {
            plan: Plan { split, days, notes },
            accepted,
            weekdays,
        })
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "split", &self.plan.split);
        field(out, "accepted", &self.accepted);
        field(out, "weekdays", &self.weekdays);
        field(out, "days", &self.plan.days);
        field(out, "notes", &self.plan.notes);
        out.push('}');
    }
}

impl Json for PlanDay {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut fields = reader.fields(&["focus", "seconds", "items"], Unknown::Refused)?;
        let day = Self {
            focus: fields.needed(Json::read)?,
            seconds: fields.needed(|r| number(r, bound("seconds", 0, 86_400)))?,
            items: fields.needed(items)?,
        };
        fields.done();
        Ok(day)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "focus", &self.focus);
        field(out, "seconds", &self.seconds);
        field(out, "items", &self.items);
        out.push('}');
    }
}

fn items(reader: &mut Reader<'_>) -> Read<Vec<PlanItem>> {
    let items: Vec<PlanItem> = Vec::read(reader)?;
    count(bound("exercises a day", 0, bounds::SLOTS.most), items.len())?;
    for (i, item) in items.iter().enumerate() {
        if items[..i].iter().any(|earlier| earlier.key == item.key) {
            return Err(Misfit::value("two items have the same key"));
        }
    }
    Ok(items)
}

impl Json for PlanItem {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let names = &["key", "exercise", "prescription", "superset", "why"];
        let mut fields = reader.fields(names, Unknown::Refused)?;
        let key = fields.needed(u16::read)?;
        let exercise = fields.needed(ExerciseId::read)?;
        let item = Self {
            key,
            prescription: fields.needed(|r| prescription(r, exercise))?,
            superset: fields.maybe(u8::read)?,
            reasons: fields.maybe(Vec::read)?.unwrap_or_default(),
        };
        fields.done();
        Ok(item)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "key", &self.key);
        field(out, "exercise", &self.prescription.exercise);
        name(out, "prescription");
        write_prescription(&self.prescription, out);
        maybe(out, "superset", self.superset.as_ref());
        let reasons = Some(&self.reasons).filter(|reasons| !reasons.is_empty());
        maybe(out, "why", reasons);
        out.push('}');
    }
}

/// A name alone, or with what it holds.
impl Json for PickReason {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let (form, holds_more) = reader.variant()?;
        let reason = match (form.as_str(), holds_more) {
            ("covers-pattern", true) => Self::CoversPattern(Json::read(reader)?),
            ("feeds", true) => {
                reader.first()?;
                let muscle = Json::read(reader)?;
                reader.then()?;
                let half_sets = u32::read(reader)?;
                reader.last()?;
                Self::Feeds { muscle, half_sets }
            }
            ("priority", true) => Self::Priority(Json::read(reader)?),
            ("leads-day", false) => Self::LeadsDay,
            ("easy-to-learn", false) => Self::EasyToLearn,
            ("best-with-kit", false) => Self::BestWithKit,
            ("saves-time", false) => Self::SavesTime,
            _ => return reader.unknown_variant(&form),
        };
        reader.end_of_variant(holds_more)?;
        Ok(reason)
    }

    fn write(&self, out: &mut String) {
        let bare = match self {
            Self::CoversPattern(pattern) => return tagged(out, "covers-pattern", pattern),
            Self::Feeds { muscle, half_sets } => {
                out.push_str("{\"feeds\":[");
                muscle.write(out);
                return rest(out, &[*half_sets]);
            }
            Self::Priority(muscle) => return tagged(out, "priority", muscle),
            Self::LeadsDay => "leads-day",
            Self::EasyToLearn => "easy-to-learn",
            Self::BestWithKit => "best-with-kit",
            Self::SavesTime => "saves-time",
        };
        text(out, bare);
    }
}

fn tagged<T: Json>(out: &mut String, tag: &str, value: &T) {
    out.push('{');
    field(out, tag, value);
    out.push('}');
}

/// More numbers of a variant's list, and its end.
fn rest(out: &mut String, numbers: &[u32]) {
    for number in numbers {
        comma(out);
        number.write(out);
    }
    out.push_str("]}");
}

/// A name with what it holds: the day first, half sets or seconds last.
impl Json for PlanNote {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let (form, holds_more) = reader.variant()?;
        if form == "pattern-not-covered" && holds_more {
            let pattern = Json::read(reader)?;
            reader.end_of_variant(true)?;
            return Ok(Self::PatternNotCovered(pattern));
        }
        if !holds_more {
            return reader.unknown_variant(&form);
        }
        reader.first()?;
        let note = match form.as_str() {
            "below-floor" => {
                let muscle = Json::read(reader)?;
                reader.then()?;
                let half_sets = u32::read(reader)?;
                reader.then()?;
                let floor = u32::read(reader)?;
                Self::BelowFloor {
                    muscle,
                    half_sets,
                    floor,
                }
            }
            "slot-dropped" | "over-time" | "short-recovery" => {
                let day = cycle_day(reader)?;
                reader.then()?;
                match form.as_str() {
                    "slot-dropped" => Self::SlotDropped {
                        day,
                        patterns: Json::read(reader)?,
                    },
                    "over-time" => Self::OverTime {
                        day,
                        seconds: u32::read(reader)?,
                    },
                    _ => Self::ShortRecovery {
                        day,
                        muscle: Json::read(reader)?,
                    },
                }
            }
            _ => return reader.unknown_variant(&form),
        };
        reader.last()?;
        reader.end_of_variant(true)?;
        Ok(note)
    }

    fn write(&self, out: &mut String) {
        let on_day = |out: &mut String, tag: &str, day: u8| {
            out.push('{');
            name(out, tag);
            out.push('[');
            day.write(out);
        };
        match self {
            Self::PatternNotCovered(pattern) => tagged(out, "pattern-not-covered", pattern),
            Self::SlotDropped { day, patterns } => {
                on_day(out, "slot-dropped", *day);
                comma(out);
                patterns.write(out);
                rest(out, &[]);
            }
            Self::BelowFloor {
                muscle,
                half_sets,
                floor,
            } => {
                out.push_str("{\"below-floor\":[");
                muscle.write(out);
                rest(out, &[*half_sets, *floor]);
            }
            Self::OverTime { day, seconds } => {
                on_day(out, "over-time", *day);
                rest(out, &[*seconds]);
            }
            Self::ShortRecovery { day, muscle } => {
                on_day(out, "short-recovery", *day);
                comma(out);
                muscle.write(out);
                rest(out, &[]);
            }
        }
    }
}
