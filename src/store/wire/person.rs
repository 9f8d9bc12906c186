//! Person and kit.

use super::part::{CYCLE, bound, count, exercise_id, known, load, number, weekdays, within, word};
use crate::json::{Json, Misfit, Read, Reader, Unknown, field, maybe, name, text};
use weekloom_engine::bounds::{self, Bound};
use weekloom_engine::catalogue::{ExerciseId, Muscle, Pattern};
use weekloom_engine::kit::{Kit, PlatePairs, Steps};
use weekloom_engine::order::{self, Map, Set};
use weekloom_engine::person::{Person, Priority};
use weekloom_engine::plan::{OwnSplit, Slot, Split, SplitDay, SplitId};
use weekloom_engine::progress::Rule;
use weekloom_engine::units::{Load, Unit};

impl Json for Person {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let names = &[
            "days",
            "minutes",
            "kit",
            "status",
            "older",
            "priorities",
            "excluded",
            "disliked",
            "joint_limits",
            "split",
            "own_splits",
            "unit",
            "rules",
        ];
        let mut fields = reader.fields(names, Unknown::Refused)?;
        let person = Self {
            days: fields.needed(weekdays)?,
            minutes: fields.needed(|r| number(r, bounds::SESSION_MIN))?,
            kit: fields.needed(Kit::read)?,
            status: fields.needed(Json::read)?,
            is_older: fields.needed(bool::read)?,
            priorities: fields.needed(priorities)?,
            excluded: fields.needed(set)?,
            disliked: fields.needed(set)?,
            joint_limits: fields.needed(set)?,
            split: fields.maybe(Json::read)?,
            own_splits: fields.maybe(own_splits)?.unwrap_or_default(),
            unit: fields.needed(|r| {
                word(r, |text| match text {
                    "kg" => Some(Unit::Kg),
                    "lb" => Some(Unit::Lb),
                    _ => None,
                })
            })?,
            rules: fields.maybe(rules)?.unwrap_or_default(),
        };
        fields.done();
        Ok(person)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "days", &self.days);
        field(out, "minutes", &self.minutes);
        field(out, "kit", &self.kit);
        field(out, "status", &self.status);
        field(out, "older", &self.is_older);
        name(out, "priorities");
        write_priorities(&self.priorities, out);
        for (list, ids) in [("excluded", &self.excluded), ("disliked", &self.disliked)] {
            name(out, list);
            write_set(ids, out);
        }
        name(out, "joint_limits");
        write_set(&self.joint_limits, out);
        field(out, "split", &self.split);
        let own = Some(&self.own_splits).filter(|own| !own.is_empty());
        maybe(out, "own_splits", own);
        name(out, "unit");
        text(out, self.unit.symbol());
        if !self.rules.is_empty() {
            name(out, "rules");
            out.push('{');
            for (exercise, rule) in self.rules.iter() {
                field(out, exercise.as_str(), rule);
            }
            out.push('}');
        }
        out.push('}');
    }
}

/// Own splits a person may keep. Far above any real number.
const OWN_SPLITS: Bound = bound("own splits", 0, 100);

fn own_splits(reader: &mut Reader<'_>) -> Read<Vec<OwnSplit>> {
    let splits: Vec<OwnSplit> = Vec::read(reader)?;
    count(OWN_SPLITS, splits.len())?;
    for (i, own) in splits.iter().enumerate() {
        if splits[..i]
            .iter()
            .any(|earlier| earlier.split.id == own.split.id)
        {
            return Err(Misfit::value("two own splits have the same id"));
        }
    }
    Ok(splits)
}

impl Json for OwnSplit {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut fields = reader.fields(&["id", "name", "days"], Unknown::Refused)?;
        let id: SplitId = fields.needed(Json::read)?;
        let name = fields.needed(String::read)?;
        let days: Vec<SplitDay> = fields.needed(Vec::read)?;
        fields.done();
        if !id.as_str().starts_with(Self::SLUG) {
            return Err(Misfit::value("the id of an own split begins with 'own-'"));
        }
        count(bound("characters of a name", 1, 40), name.chars().count())?;
        count(bound("days of the cycle", 0, CYCLE.most), days.len())?;
        let mut own = Self {
            name,
            split: Split { id, days },
        };
        own.settle();
        Ok(own)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "id", &self.split.id);
        field(out, "name", &self.name);
        field(out, "days", &self.split.days);
        out.push('}');
    }
}

impl Json for SplitDay {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut fields = reader.fields(&["focus", "slots"], Unknown::Refused)?;
        let day = Self {
            focus: fields.needed(Json::read)?,
            slots: fields.needed(Vec::read)?,
        };
        fields.done();
        count(bound("slots a day", 0, bounds::SLOTS.most), day.slots.len())?;
        Ok(day)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "focus", &self.focus);
        field(out, "slots", &self.slots);
        out.push('}');
    }
}

/// Patterns and muscle; role and rank follow from pattern and place.
impl Json for Slot {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let mut fields = reader.fields(&["patterns", "muscle"], Unknown::Refused)?;
        let patterns: Vec<Pattern> = fields.needed(Vec::read)?;
        let muscle = fields.maybe(Json::read)?;
        fields.done();
        count(bound("patterns of a slot", 1, 25), patterns.len())?;
        let first = Self::of(patterns[0]);
        Ok(Self {
            patterns,
            muscle,
            ..first
        })
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        field(out, "patterns", &self.patterns);
        maybe(out, "muscle", self.muscle.as_ref());
        out.push('}');
    }
}

/// An object of exercises and the rules chosen for them.
fn rules(reader: &mut Reader<'_>) -> Read<Map<ExerciseId, Rule>> {
    let mut rules = Map::new();
    reader.entries(|reader, exercise| {
        rules.insert(exercise_id(exercise)?, Rule::read(reader)?);
        Ok(())
    })?;
    Ok(rules)
}

fn set<T: Json + Ord>(reader: &mut Reader<'_>) -> Read<Set<T>> {
    Vec::read(reader).map(Set::from_iter)
}

fn write_set<T: Json>(set: &Set<T>, out: &mut String) {
    crate::json::list(out, set.as_slice(), T::write);
}

/// An object of muscles and priorities.
fn priorities(reader: &mut Reader<'_>) -> Read<Map<Muscle, Priority>> {
    let mut priorities = Map::new();
    reader.entries(|reader, muscle| {
        let muscle = known(muscle, Muscle::from_slug)?;
        priorities.insert(muscle, Priority::read(reader)?);
        Ok(())
    })?;
    Ok(priorities)
}

/// By the muscles' slugs.
fn write_priorities(priorities: &Map<Muscle, Priority>, out: &mut String) {
    let mut sorted: Vec<_> = priorities.iter().collect();
    order::sort_by_key(&mut sorted, |(muscle, _)| muscle.slug());
    out.push('{');
    for (muscle, priority) in sorted {
        field(out, muscle.slug(), priority);
    }
    out.push('}');
}

impl Json for Kit {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let names = &[
            "equipment",
            "bar",
            "curl_bar",
            "trap_bar",
            "plates",
            "dumbbells",
            "kettlebells",
            "machine",
            "cable",
        ];
        let mut fields = reader.fields(names, Unknown::Refused)?;
        let kit = Self {
            equipment: fields.needed(set)?,
            bar: fields.needed(Load::read)?,
            curl_bar: fields.needed(Load::read)?,
            trap_bar: fields.needed(Load::read)?,
            plates: fields.needed(Vec::read)?,
            dumbbells: fields.needed(Steps::read)?,
            kettlebells: fields.needed(Steps::read)?,
            machine: fields.needed(Steps::read)?,
            cable: fields.needed(Steps::read)?,
        };
        fields.done();
        kit.check().map_err(Misfit::value)?;
        Ok(kit)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        name(out, "equipment");
        write_set(&self.equipment, out);
        field(out, "bar", &self.bar);
        field(out, "curl_bar", &self.curl_bar);
        field(out, "trap_bar", &self.trap_bar);
        field(out, "plates", &self.plates);
        field(out, "dumbbells", &self.dumbbells);
        field(out, "kettlebells", &self.kettlebells);
        field(out, "machine", &self.machine);
        field(out, "cable", &self.cable);
        out.push('}');
    }
}

/// `[grams of one plate, pairs]`.
impl Json for PlatePairs {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        reader.first()?;
        let plate = Load::read(reader)?;
        reader.then()?;
        let pairs = u8::read(reader)?;
        reader.last()?;
        Ok(Self { plate, pairs })
    }

    fn write(&self, out: &mut String) {
        let pairs = i64::from(self.pairs);
        crate::json::numbers(out, &[Some(self.plate.grams()), Some(pairs)]);
    }
}

/// Loads of one rack. Far above any real one; it keeps a file from asking for
/// a million of them.
const RACK: Bound = bound("loads of a rack", 0, 2_000);

/// `{"even":[first, step, last]}` or `{"listed":[…]}`, grams, ascending.
impl Json for Steps {
    fn read(reader: &mut Reader<'_>) -> Read<Self> {
        let (form, holds_more) = reader.variant()?;
        if !holds_more {
            return reader.unknown_variant(&form);
        }
        let grams: Vec<i64> = Vec::read(reader)?;
        let steps = match (form.as_str(), &grams[..]) {
            ("even", &[first, step, last]) => {
                let steps = Self::Even {
                    first: load(first)?,
                    step: load(step)?,
                    last: load(last)?,
                };
                // A step of nought is for the kit's own check to refuse.
                let loads = (last - first).checked_div(step).unwrap_or(0);
                within(RACK, loads.max(0))?;
                steps
            }
            ("listed", _) => {
                count(RACK, grams.len())?;
                let mut loads = Vec::with_capacity(grams.len());
                for grams in grams {
                    loads.push(load(grams)?);
                }
                Self::Listed(loads)
            }
            _ => return reader.unknown_variant(&form),
        };
        reader.end_of_variant(true)?;
        Ok(steps)
    }

    fn write(&self, out: &mut String) {
        out.push('{');
        match self {
            Self::Even { first, step, last } => {
                let loads = [first, step, last];
                name(out, "even");
                crate::json::numbers(out, &loads.map(|load| Some(load.grams())));
            }
            Self::Listed(loads) => field(out, "listed", loads),
        }
        out.push('}');
    }
}
