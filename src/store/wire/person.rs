//! Person and kit.

use super::part::{
    Read, bound, count, each, exercise, load, number, slug, weekday_number, weekdays, word,
};
use super::{Stored, WireError, v1};
use crate::json::Words;
use weekloom_engine::bounds::{self, Bound};
use weekloom_engine::catalogue::{Equipment, ExerciseId, JointDemand, Muscle};
use weekloom_engine::kit::{Kit, PlatePairs, Steps};
use weekloom_engine::order::{Map, Set};
use weekloom_engine::person::{Person, Priority, Status};
use weekloom_engine::plan::SplitId;
use weekloom_engine::units::Unit;

impl Stored for Person {
    type Wire = v1::Person;

    fn to_wire(&self) -> v1::Person {
        let ids = |set: &Set<ExerciseId>| set.iter().map(|id| id.as_str().to_owned()).collect();
        v1::Person {
            days: self.days.iter().copied().map(weekday_number).collect(),
            minutes: self.minutes,
            kit: kit_wire(&self.kit),
            status: self.status.slug().to_owned(),
            older: self.is_older,
            priorities: Words::sorted(
                self.priorities
                    .iter()
                    .map(|(muscle, priority)| {
                        (muscle.slug().to_owned(), priority.slug().to_owned())
                    })
                    .collect(),
            ),
            excluded: ids(&self.excluded),
            disliked: ids(&self.disliked),
            joint_limits: self
                .joint_limits
                .iter()
                .map(|j| j.slug().to_owned())
                .collect(),
            split: self.split.as_ref().map(|id| id.as_str().to_owned()),
            unit: self.unit.symbol().to_owned(),
        }
    }

    fn from_wire(wire: v1::Person) -> Read<Self> {
        Ok(Self {
            days: weekdays("days", &wire.days)?,
            minutes: number("minutes", bounds::SESSION_MIN, wire.minutes)?,
            kit: kit(wire.kit).map_err(|e| e.inside("kit"))?,
            status: word("status", &wire.status, Status::from_slug)?,
            is_older: wire.older,
            priorities: priorities(&wire.priorities)?,
            excluded: ids("excluded", &wire.excluded)?,
            disliked: ids("disliked", &wire.disliked)?,
            joint_limits: each("joint_limits", &wire.joint_limits, |text| {
                word("", text, JointDemand::from_slug)
            })?
            .into_iter()
            .collect(),
            split: wire
                .split
                .map(|text| slug("split", &text).map(SplitId::new))
                .transpose()?,
            unit: word("unit", &wire.unit, |text| match text {
                "kg" => Some(Unit::Kg),
                "lb" => Some(Unit::Lb),
                _ => None,
            })?,
        })
    }
}

fn ids(place: &str, wire: &[String]) -> Read<Set<ExerciseId>> {
    each(place, wire, |text| exercise("", text)).map(Set::from_iter)
}

fn priorities(wire: &Words) -> Read<Map<Muscle, Priority>> {
    let mut priorities = Map::new();
    for (muscle, priority) in &wire.0 {
        priorities.insert(
            word("priorities", muscle, Muscle::from_slug)?,
            word("priorities", priority, Priority::from_slug)?,
        );
    }
    Ok(priorities)
}

fn kit_wire(kit: &Kit) -> v1::Kit {
    v1::Kit {
        equipment: kit.equipment.iter().map(|e| e.slug().to_owned()).collect(),
        bar: kit.bar.grams(),
        curl_bar: kit.curl_bar.grams(),
        trap_bar: kit.trap_bar.grams(),
        plates: kit
            .plates
            .iter()
            .map(|p| v1::Plates(p.plate.grams(), p.pairs))
            .collect(),
        dumbbells: steps_wire(&kit.dumbbells),
        kettlebells: steps_wire(&kit.kettlebells),
        machine: steps_wire(&kit.machine),
        cable: steps_wire(&kit.cable),
    }
}

fn kit(wire: v1::Kit) -> Read<Kit> {
    let kit = Kit {
        equipment: each("equipment", &wire.equipment, |text| {
            word("", text, Equipment::from_slug)
        })?
        .into_iter()
        .collect(),
        bar: load("bar", wire.bar)?,
        curl_bar: load("curl_bar", wire.curl_bar)?,
        trap_bar: load("trap_bar", wire.trap_bar)?,
        plates: each("plates", wire.plates, |v1::Plates(grams, pairs)| {
            let plate = load("", grams)?;
            Ok(PlatePairs { plate, pairs })
        })?,
        dumbbells: steps("dumbbells", wire.dumbbells)?,
        kettlebells: steps("kettlebells", wire.kettlebells)?,
        machine: steps("machine", wire.machine)?,
        cable: steps("cable", wire.cable)?,
    };
    kit.check().map_err(|error| WireError::new("", error))?;
    Ok(kit)
}

fn steps_wire(steps: &Steps) -> v1::Steps {
    match steps {
        Steps::Even { first, step, last } => {
            v1::Steps::Even(first.grams(), step.grams(), last.grams())
        }
        Steps::Listed(loads) => v1::Steps::Listed(loads.iter().map(|l| l.grams()).collect()),
    }
}

/// Loads of one rack. Far above any real one; it keeps a file from asking for
/// a million of them.
const RACK: Bound = bound("loads of a rack", 0, 2_000);

fn steps(place: &str, wire: v1::Steps) -> Read<Steps> {
    match wire {
        v1::Steps::Even(first, step, last) => {
            let steps = Steps::Even {
                first: load(place, first)?,
                step: load(place, step)?,
                last: load(place, last)?,
            };
            // A step of nought is for the kit's own check to refuse.
            let loads = (last - first).checked_div(step).unwrap_or(0);
            number::<i64>(place, RACK, loads.max(0))?;
            Ok(steps)
        }
        v1::Steps::Listed(grams) => {
            count(place, RACK, grams.len())?;
            each(place, grams, |g| load("", g)).map(Steps::Listed)
        }
    }
}
