//! The plan the person trains by.

use super::part::{
    CYCLE, bound, count, cycle_day, number, prescription, weekdays, write_prescription,
};
use crate::json::{Json, Misfit, Read, Reader, Unknown, comma, field, maybe, name, text};
use crate::settings::AcceptedPlan;
use weekloom_engine::bounds;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::plan::{PickReason, Plan, PlanDay, PlanItem, PlanNote};
use weekloom_engine::schedule::{Extra, How, Pause, Repairs, Settled, Travel};

impl Json for AcceptedPlan {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let names = &[
            "split", "accepted", "weekdays", "days", "notes", "settled", "pause", "travel",
        ];
        let mut fields = reader.fields(names, Unknown::Refused)?;
        let split = fields.needed(Json::read)?;
        let accepted = fields.needed(Json::read)?;
        let weekdays = fields.needed(weekdays)?;
        let days = fields.needed(days)?;
        let notes = fields.needed(Vec::read)?;
        let repairs = Repairs {
            settled: fields.maybe(Vec::read)?.unwrap_or_default(),
            pause: fields.maybe(Json::read)?,
            travel: fields.maybe(Json::read)?,
        };
        fields.done();
        Ok(Self {
            plan: Plan { split, days, notes },
            accepted,
            weekdays,
            repairs,
        })
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "split", &self.plan.split);
        field(out, "accepted", &self.accepted);
        field(out, "weekdays", &self.weekdays);
        field(out, "days", &self.plan.days);
        field(out, "notes", &self.plan.notes);
        let Repairs {
            settled,
            pause,
            travel,
        } = &self.repairs;
        maybe(out, "settled", Some(settled).filter(|all| !all.is_empty()));
        maybe(out, "pause", pause.as_ref());
        maybe(out, "travel", travel.as_ref());
        out.push('}');
    }
}

/// The days of a cycle.
fn days(reader: &mut Reader<'_>) -> Read<Vec<PlanDay>> {
    let days = Vec::read(reader)?;
    count(CYCLE, days.len())?;
    Ok(days)
}

/// Without `extra` it was shifted, with it let go.
impl Json for Settled {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut fields = reader.fields(&["day", "chosen", "extra"], Unknown::Refused)?;
        let settled = Self {
            day: fields.needed(Json::read)?,
            chosen: fields.needed(Json::read)?,
            how: fields.maybe(Vec::read)?.map_or(How::Shifted, How::LetGo),
        };
        fields.done();
        Ok(settled)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "day", &self.day);
        field(out, "chosen", &self.chosen);
        let extra = match &self.how {
            How::Shifted => None,
            How::LetGo(extra) => Some(extra),
        };
        maybe(out, "extra", extra);
        out.push('}');
    }
}

impl Json for Extra {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let names = &["plan_day", "exercise", "prescription"];
        let mut fields = reader.fields(names, Unknown::Refused)?;
        let plan_day = fields.needed(cycle_day)?;
        let exercise = fields.needed(ExerciseId::read)?;
        let prescription = fields.needed(|r| prescription(r, exercise))?;
        fields.done();
        Ok(Self {
            plan_day,
            prescription,
        })
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "plan_day", &self.plan_day);
        field(out, "exercise", &self.prescription.exercise);
        name(out, "prescription");
        write_prescription(&self.prescription, out);
        out.push('}');
    }
}

/// The first day, and the day on which training goes on.
impl Json for Pause {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let days: Vec<Day> = Vec::read(reader)?;
        let [from, resume] = days[..] else {
            return Err(Misfit::value("it is not 2 days"));
        };
        Ok(Self { from, resume })
    }

    fn write(&self, out: &mut String) {
        vec![self.from, self.resume].write(out);
    }
}

impl Json for Travel {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut fields = reader.fields(&["from", "back", "days", "kit"], Unknown::Refused)?;
        let travel = Self {
            from: fields.needed(Json::read)?,
            back: fields.needed(Json::read)?,
            days: fields.needed(days)?,
            kit: fields.maybe(Json::read)?,
        };
        fields.done();
        Ok(travel)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "from", &self.from);
        field(out, "back", &self.back);
        field(out, "days", &self.days);
        maybe(out, "kit", self.kit.as_ref());
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
