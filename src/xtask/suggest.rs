//! `cargo xtask suggest FILE`: what to lift next, with its reason, from a history in a file.
//!
//! The file is JSON; [`EXAMPLE`] shows all of it but for what may be left out. Start at
//! [`answer`]. This is a window on the engine for whoever develops a rule: it reads one
//! file, writes nothing and knows nothing that the engine does not.
//!
//! | field | what | where left out |
//! |---|---|---|
//! | `exercise` | slug in the catalogue | |
//! | `prescription` | `sets`, `reps` (least and most; seconds where timed), `rir`, `rest_s` | |
//! | `status` | `novice`, `intermediate`, `advanced` | |
//! | `rule` | slug of a rule that is offered for the exercise | the usual one |
//! | `today` | `YYYY-MM-DD` | |
//! | `is_deload` | whether today is part of a deload | `false` |
//! | `unit` | `kg` or `lb`, of every load in the file and the answer | `kg` |
//! | `kit` | `preset`; over it `bar`, `plates`, `dumbbells`, `machine`, `cable` | `full-gym` |
//! | `history` | performances: `day`, `sets`, `discomfort` (`mild`, `painful`), `is_deload`, and `prescription` where it was another | |
//!
//! A set has `load` (left out where there is none), `count`, `rir` (left out where not
//! said) and `kind` (`work` or `warm-up`). Steps are `{"first": 5, "step": 5, "last": 90}`
//! or a list.

use std::fs;

use anyhow::{Context, Result, bail, ensure};
use serde::Deserialize;
use serde_json::{Value, json};
use weekloom_engine::bounds;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::{Catalogue, ExerciseId};
use weekloom_engine::estimate::{Confidence, best_estimate, trend};
use weekloom_engine::kit::{Kit, PlatePairs, Steps};
use weekloom_engine::load::{Ladder, Placement, warm_up};
use weekloom_engine::log::{Discomfort, Performance, SetEntry, SetKind};
use weekloom_engine::person::Status;
use weekloom_engine::plan::Prescription;
use weekloom_engine::presets::KitPreset;
use weekloom_engine::progress::{Reason, Rule, SuggestInput, next_climb_load, suggest};
use weekloom_engine::units::{Load, Unit};

/// A file this command takes.
pub const EXAMPLE: &str = include_str!("suggest_example.json");

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    exercise: String,
    prescription: Goal,
    status: String,
    rule: Option<String>,
    today: String,
    #[serde(default)]
    is_deload: bool,
    unit: Option<String>,
    kit: Option<OwnKit>,
    history: Vec<Done>,
}

#[derive(Deserialize, Clone)]
#[serde(deny_unknown_fields)]
struct Goal {
    sets: u8,
    reps: (u16, u16),
    rir: u8,
    rest_s: u16,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields)]
struct OwnKit {
    preset: Option<String>,
    bar: Option<f64>,
    plates: Option<Vec<OwnPlates>>,
    dumbbells: Option<OwnSteps>,
    machine: Option<OwnSteps>,
    cable: Option<OwnSteps>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OwnPlates {
    plate: f64,
    pairs: u8,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum OwnSteps {
    Even { first: f64, step: f64, last: f64 },
    Listed(Vec<f64>),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Done {
    day: String,
    sets: Vec<DoneSet>,
    discomfort: Option<String>,
    #[serde(default)]
    is_deload: bool,
    prescription: Option<Goal>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DoneSet {
    load: Option<f64>,
    count: u16,
    rir: Option<u8>,
    kind: Option<String>,
}

/// Reads the file and prints the suggestion.
///
/// Errors when the file cannot be read or says something that cannot be.
pub fn run(file: &str) -> Result<()> {
    let text = fs::read_to_string(file).with_context(|| format!("could not read {file}"))?;
    let found = answer(&text).with_context(|| format!("{file} is not a history to go by"))?;
    println!("{}", serde_json::to_string_pretty(&found)?);
    Ok(())
}

/// The suggestion for a history, as JSON.
///
/// Errors name the field, its value and what is allowed.
pub fn answer(text: &str) -> Result<Value> {
    let asked: Asked = serde_json::from_str(text)?;
    let unit = match asked.unit.as_deref() {
        None | Some("kg") => Unit::Kg,
        Some("lb") => Unit::Lb,
        Some(other) => bail!("unit '{other}' is neither 'kg' nor 'lb'"),
    };
    let catalogue = Catalogue::built_in();
    let Some(exercise) = catalogue.get(&ExerciseId::new(&asked.exercise)) else {
        bail!("the catalogue has no exercise '{}'", asked.exercise);
    };
    let status = slug("status", &asked.status, Status::from_slug, Status::ALL)?;
    let offered = Rule::offered_for(exercise);
    let rule = match &asked.rule {
        None => Rule::default_for(status, exercise),
        Some(text) => slug("rule", text, Rule::from_slug, offered)?,
    };
    ensure!(
        offered.contains(&rule),
        "rule '{rule}' is not offered for '{}'; one of: {}",
        exercise.id,
        list(offered)
    );
    let prescription = prescription(&asked.prescription, &exercise.id)?;
    let kit = kit(asked.kit.unwrap_or_default(), unit)?;
    let history = asked
        .history
        .iter()
        .enumerate()
        .map(|(at, done)| {
            performance(done, &prescription, unit)
                .with_context(|| format!("performance {} of the history", at + 1))
        })
        .collect::<Result<Vec<_>>>()?;
    let found = suggest(&SuggestInput {
        exercise,
        prescription: &prescription,
        history: &history,
        kit: &kit,
        rule,
        status,
        today: day("today", &asked.today)?,
        is_deload: asked.is_deload,
    });
    let ladder = Ladder::of(exercise, &kit);
    let shown = |load: Load| json!(load.show(unit));
    // A first session begins with the climb; its first load is no suggestion.
    let climb = match (&found.reason, &ladder) {
        (Reason::FirstClimb, Some(ladder)) => {
            Some(next_climb_load(None, ladder, &prescription).load())
        }
        _ => None,
    };
    let load = found.load.or(climb);
    let plates = load
        .zip(ladder.as_ref())
        .and_then(|(load, ladder)| Some((ladder.plates_for(load)?, ladder.placement())));
    let warm_ups = load
        .zip(ladder.as_ref())
        .map(|(load, ladder)| warm_up(load, ladder, exercise))
        .unwrap_or_default();
    Ok(json!({
        "load": found.load.map(shown),
        "climb_from": climb.map(shown),
        "unit": unit.symbol(),
        "count": found.count,
        "rir": found.rir,
        "rest_s": found.rest_s,
        "advise_swap": found.advise_swap,
        "rule": rule.slug(),
        "reason": reason(&found.reason, unit),
        "sources": found.sources().iter().map(|source| source.citation()).collect::<Vec<_>>(),
        "plates": plates.map(|(plates, placement)| json!({
            "where": match placement {
                Placement::EachSide => "each side",
                Placement::OneEnd => "one end",
                Placement::Hung => "hung",
                Placement::NoPlates => "none",
            },
            "plates": plates.iter().map(|&(plate, count)| {
                json!({ "plate": plate.show(unit), "count": count })
            }).collect::<Vec<_>>(),
        })),
        "warm_up": warm_ups.iter().map(|set| {
            json!({ "load": set.load.show(unit), "reps": set.reps })
        }).collect::<Vec<_>>(),
        "estimate": estimates(&history, unit),
    }))
}

fn reason(reason: &Reason, unit: Unit) -> Value {
    let mut told = json!({ "name": reason.slug() });
    if let Some(last) = reason.last() {
        told["last"] = json!({
            "day": last.day.to_string(),
            "load": last.load.show(unit),
            "counts": last.counts,
        });
    }
    if let Reason::Raised {
        evidence,
        step,
        permille,
        ..
    } = reason
    {
        told["evidence"] = json!(evidence.slug());
        told["step"] = json!(step.show(unit));
        told["permille"] = json!(permille);
    }
    told
}

/// The estimate of the last session and the level it belongs to, each with its band.
fn estimates(history: &[Performance], unit: Unit) -> Value {
    let mut sessions: Vec<&Performance> = history.iter().collect();
    sessions.sort_by_key(|session| session.day);
    let work = |session: &Performance| {
        let sets = session.sets.iter().filter(|set| set.kind == SetKind::Work);
        best_estimate(&sets.copied().collect::<Vec<_>>())
    };
    let found: Vec<_> = sessions
        .iter()
        .filter_map(|session| Some((session.day, work(session)?)))
        .collect();
    let Some((day, last)) = found.last() else {
        return Value::Null;
    };
    let series: Vec<(Day, Load)> = found.iter().map(|(day, one)| (*day, one.value)).collect();
    let level = trend(&series).pop();
    let shown = |load: Load| load.show(unit);
    json!({
        "day": day.to_string(),
        "value": shown(last.value),
        "low": shown(last.low),
        "high": shown(last.high),
        "reps_to_failure": last.reps,
        "confidence": match last.confidence {
            Confidence::Low => "low",
            Confidence::Normal => "normal",
        },
        "level": level.map(|point| json!({
            "value": shown(point.level),
            "low": shown(point.low),
            "high": shown(point.high),
        })),
    })
}

fn list<T: ToString>(values: &[T]) -> String {
    let words: Vec<String> = values.iter().map(T::to_string).collect();
    words.join(", ")
}

/// The value that a text names. Errors with all that are allowed.
pub(crate) fn slug<T: ToString>(
    field: &str,
    text: &str,
    read: fn(&str) -> Option<T>,
    allowed: &[T],
) -> Result<T> {
    read(text).with_context(|| format!("{field} '{text}' is not one of: {}", list(allowed)))
}

fn day(field: &str, text: &str) -> Result<Day> {
    Day::parse(text).with_context(|| format!("{field} '{text}' is not a day like 2026-11-25"))
}

fn load(field: &str, number: f64, unit: Unit) -> Result<Load> {
    Load::parse(&number.to_string(), unit).with_context(|| format!("{field} {number}"))
}

fn within(bound: bounds::Bound, value: impl Into<i64>) -> Result<()> {
    bound.check(value.into())?;
    Ok(())
}

fn prescription(goal: &Goal, exercise: &ExerciseId) -> Result<Prescription> {
    within(bounds::SETS, goal.sets)?;
    within(bounds::COUNT, goal.reps.0)?;
    within(bounds::COUNT, goal.reps.1)?;
    within(bounds::RIR, goal.rir)?;
    within(bounds::REST_S, goal.rest_s)?;
    ensure!(
        goal.reps.0 <= goal.reps.1,
        "reps {} to {} are upside down; put the least first",
        goal.reps.0,
        goal.reps.1
    );
    Ok(Prescription {
        exercise: exercise.clone(),
        sets: goal.sets,
        reps: goal.reps,
        rir: goal.rir,
        rest_s: goal.rest_s,
    })
}

fn kit(own: OwnKit, unit: Unit) -> Result<Kit> {
    let preset = match &own.preset {
        None => KitPreset::FullGym,
        Some(text) => slug("kit.preset", text, KitPreset::from_slug, KitPreset::ALL)?,
    };
    let mut kit = preset.kit(unit);
    if let Some(bar) = own.bar {
        kit.bar = load("kit.bar", bar, unit)?;
    }
    if let Some(plates) = own.plates {
        let pairs = |own: &OwnPlates| -> Result<PlatePairs> {
            Ok(PlatePairs {
                plate: load("kit.plates", own.plate, unit)?,
                pairs: own.pairs,
            })
        };
        kit.plates = plates.iter().map(pairs).collect::<Result<_>>()?;
    }
    for (name, steps, rack) in [
        ("kit.dumbbells", own.dumbbells, &mut kit.dumbbells),
        ("kit.machine", own.machine, &mut kit.machine),
        ("kit.cable", own.cable, &mut kit.cable),
    ] {
        match steps {
            None => {}
            Some(OwnSteps::Even { first, step, last }) => {
                *rack = Steps::Even {
                    first: load(name, first, unit)?,
                    step: load(name, step, unit)?,
                    last: load(name, last, unit)?,
                };
            }
            Some(OwnSteps::Listed(loads)) => {
                let loads = loads.iter().map(|&one| load(name, one, unit));
                *rack = Steps::Listed(loads.collect::<Result<_>>()?);
            }
        }
    }
    kit.check()
        .map_err(|error| anyhow::anyhow!("kit: {error}"))?;
    Ok(kit)
}

fn performance(done: &Done, today: &Prescription, unit: Unit) -> Result<Performance> {
    let entry = |set: &DoneSet| -> Result<SetEntry> {
        within(bounds::COUNT, set.count)?;
        if let Some(rir) = set.rir {
            within(bounds::RIR, rir)?;
        }
        Ok(SetEntry {
            kind: match &set.kind {
                None => SetKind::Work,
                Some(text) => slug("kind", text, SetKind::from_slug, SetKind::ALL)?,
            },
            load: load("load", set.load.unwrap_or(0.0), unit)?,
            count: set.count,
            rir: set.rir,
            at: Moment(0),
        })
    };
    Ok(Performance {
        day: day("day", &done.day)?,
        prescription: match &done.prescription {
            None => today.clone(),
            Some(goal) => prescription(goal, &today.exercise)?,
        },
        suggested: None,
        is_deload: done.is_deload,
        sets: done.sets.iter().map(entry).collect::<Result<_>>()?,
        discomfort: match &done.discomfort {
            None => None,
            Some(text) => Some(slug(
                "discomfort",
                text,
                Discomfort::from_slug,
                Discomfort::ALL,
            )?),
        },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_example_is_answered() {
        let found = answer(EXAMPLE).unwrap();
        // Twelve in all sets as aimed at; the pair of 1.25 kg is the only small one.
        assert_eq!(found["load"], "62.5");
        assert_eq!(found["count"], 8);
        assert_eq!(found["reason"]["name"], "raised");
        assert_eq!(found["reason"]["evidence"], "all-sets-at-top");
        assert_eq!(found["reason"]["permille"], 42);
        assert_eq!(
            found["plates"],
            json!({ "where": "each side", "plates": [
                { "plate": "20", "count": 1 }, { "plate": "1.25", "count": 1 },
            ] })
        );
        assert_eq!(found["estimate"]["confidence"], "low");
        assert!(found["sources"][0].as_str().unwrap().contains("2009"));
    }

    #[test]
    fn a_first_session_is_a_climb() {
        let mut asked: Value = serde_json::from_str(EXAMPLE).unwrap();
        asked["history"] = json!([]);
        let found = answer(&asked.to_string()).unwrap();
        assert_eq!(found["load"], Value::Null);
        assert_eq!(found["climb_from"], "20");
        assert_eq!(found["estimate"], Value::Null);
    }

    #[test]
    fn what_cannot_be_is_refused_in_words() {
        let refused = |field: &str, value: Value| {
            let mut asked: Value = serde_json::from_str(EXAMPLE).unwrap();
            asked[field] = value;
            format!("{:#}", answer(&asked.to_string()).unwrap_err())
        };
        let cases = [
            ("exercise", json!("x"), "the catalogue has no exercise 'x'"),
            (
                "rule",
                json!("less-help"),
                "rule 'less-help' is not offered for 'barbell-bench-press'; one of: \
                 double-progression, fixed-steps, effort-led, percent-of-max",
            ),
            (
                "status",
                json!("old"),
                "status 'old' is not one of: novice, intermediate, advanced",
            ),
            (
                "today",
                json!("25.11.2026"),
                "today '25.11.2026' is not a day like 2026-11-25",
            ),
            ("unit", json!("st"), "unit 'st' is neither 'kg' nor 'lb'"),
            (
                "kit",
                json!({ "bar": 100 }),
                "kit: straight bar of 100 kg is above 60 kg",
            ),
            (
                "history",
                json!([{ "day": "2026-11-20", "sets": [{ "load": -5, "count": 8 }] }]),
                "performance 1 of the history: load -5: '-5' is not a number",
            ),
            (
                "history",
                json!([{ "day": "2026-11-20", "sets": [{ "load": 5, "count": 0 }] }]),
                "performance 1 of the history: reps or seconds 0 is not between 1 and 900",
            ),
            (
                "prescription",
                json!({ "sets": 3, "reps": [12, 8], "rir": 2, "rest_s": 90 }),
                "reps 12 to 8 are upside down; put the least first",
            ),
        ];
        for (field, value, words) in cases {
            assert_eq!(refused(field, value), words);
        }
        assert!(refused("sed", json!(1)).contains("unknown field `sed`"));
    }
}
