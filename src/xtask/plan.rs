//! `cargo xtask plan FILE`: the week for a person in a file, with its worth, a bound on the
//! worth of any week, the audit and every reason.
//!
//! The file is JSON; [`EXAMPLE`] shows all of it. Start at [`person`] for what it says and
//! [`answer`] for what is made of it. This is a window on the engine for whoever develops
//! the planner: it reads one file, writes nothing and knows nothing that the engine does not.
//!
//! | field | what | where left out |
//! |---|---|---|
//! | `days` | weekdays, `monday` to `sunday`, each once | |
//! | `minutes` | of one session | |
//! | `status` | `novice`, `intermediate`, `advanced` | |
//! | `is_older` | whether 65 or older | `false` |
//! | `kit` | slug of a usual kit, or a list of equipment | `full-gym` |
//! | `priorities` | muscle to `less`, `usual` or `more` | none |
//! | `excluded` | exercises never to be planned | none |
//! | `disliked` | exercises to plan only when little else serves | none |
//! | `joint_limits` | joint demands to avoid | none |
//! | `split` | slug of a split | the usual one for the days |
//!
//! Worth is in thousandths of the square root of a weekly set of a muscle of weight 100:
//! what the objective calls a milli.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;

use anyhow::{Context, Result, bail};
use serde::Deserialize;
use serde_json::{Value, json};
use weekloom_engine::audit::{Audit, Finding, audit};
use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::{Catalogue, Equipment, ExerciseId, JointDemand, Muscle};
use weekloom_engine::compare::{Figures, Verdict, compare, equal_week};
use weekloom_engine::kit::Kit;
use weekloom_engine::order;
use weekloom_engine::person::{Person, Priority, Status};
use weekloom_engine::plan::objective::{BASICS, MILLI};
use weekloom_engine::plan::{
    Freer, Limit, PickReason, Plan, PlanDay, PlanItem, PlanNote, Relief, Shortfall, Solved, Split,
    SplitId, plan_week, solve_week, split, weekly_sets,
};
use weekloom_engine::presets::KitPreset;
use weekloom_engine::units::Unit;

use crate::suggest::slug;

/// A file this command takes.
pub const EXAMPLE: &str = include_str!("plan_example.json");

const WEEKDAYS: [&str; 7] = [
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    days: Vec<String>,
    minutes: u16,
    status: String,
    #[serde(default)]
    is_older: bool,
    kit: Option<AskedKit>,
    #[serde(default)]
    priorities: BTreeMap<String, String>,
    #[serde(default)]
    excluded: Vec<String>,
    #[serde(default)]
    disliked: Vec<String>,
    #[serde(default)]
    joint_limits: Vec<String>,
    split: Option<String>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum AskedKit {
    Preset(String),
    Equipment(Vec<String>),
}

/// Reads the file and prints the week as JSON, or as a text to read.
///
/// Errors when the file cannot be read, says something that cannot be, or allows no plan.
pub fn run(file: &str, as_text: bool, other: Option<&str>) -> Result<()> {
    let text = fs::read_to_string(file).with_context(|| format!("could not read {file}"))?;
    let catalogue = Catalogue::built_in();
    let person = person(&catalogue, &text).with_context(|| format!("{file} tells of nobody"))?;
    let told = match (other, as_text) {
        (Some(slug), _) => {
            let found = compared(&catalogue, &person, &known_split(slug)?)?;
            serde_json::to_string_pretty(&found)?
        }
        (None, true) => {
            let week = told(&catalogue, &person)?;
            let mut freer = Freer::new(&catalogue, &person)?;
            week + &prices(&mut freer)? + &lacking(&mut freer)?
        }
        (None, false) => {
            let mut week = answer(&catalogue, &person)?;
            let mut freer = Freer::new(&catalogue, &person)?;
            week["prices"] = freer.reliefs()?.iter().map(price).collect();
            week["shortfalls"] = freer.shortfalls()?.iter().map(shortfall).collect();
            serde_json::to_string_pretty(&week)?
        }
    };
    println!("{told}");
    Ok(())
}

/// The person's week beside one on another split with its weekly sets as near as may be:
/// both weeks, their figures, where their sets differ and what can be said.
///
/// Errors when the person's answers allow no plan.
pub fn compared(catalogue: &Catalogue, person: &Person, other: &SplitId) -> Result<Value> {
    let first = plan_week(catalogue, person)?;
    let second = equal_week(catalogue, person, &first, other)?;
    let found = compare(catalogue, person, &first, &second);
    let unequal = found.unequal.iter();
    Ok(json!({
        "weeks": [week(&first, &found.first), week(&second, &found.second)],
        "unequal": unequal.map(|(muscle, first, second)| json!({
            "muscle": muscle.slug(),
            "half_sets": [first, second],
        })).collect::<Vec<_>>(),
        "verdict": found.verdict.iter().map(|said| {
            let (name, side) = match said {
                Verdict::GrowAlike => ("grow-alike", None),
                Verdict::SetsDiffer => ("sets-differ", None),
                Verdict::Fresher(side) => ("fresher", Some(side)),
                Verdict::SmallerDoses(side) => ("smaller-doses", Some(side)),
                Verdict::ShorterGaps(side) => ("shorter-gaps", Some(side)),
                Verdict::MoreOften(side) => ("more-often", Some(side)),
                Verdict::Quicker(side) => ("quicker", Some(side)),
            };
            json!({ "name": name, "week": side.map(|side| *side as u8) })
        }).collect::<Vec<_>>(),
    }))
}

/// A week and its figures.
fn week(plan: &Plan, figures: &Figures) -> Value {
    json!({
        "split": plan.split.to_string(),
        "days": plan.days.iter().map(day).collect::<Vec<_>>(),
        "frequency": f64::from(figures.frequency_tenths) / 10.0,
        "largest_dose": {
            "muscle": figures.largest_dose.0.slug(),
            "half_sets": figures.largest_dose.1,
        },
        "longest_gap": {
            "muscle": figures.longest_gap.0.slug(),
            "days": figures.longest_gap.1,
        },
        "window_h": figures.window_h,
        "reps_planned": f64::from(figures.reps.planned) / 10.0,
        "reps_lost": f64::from(figures.reps.lost) / 10.0,
        "seconds": figures.seconds,
        "longest_session_s": figures.longest_session,
        "muscles": figures.muscles.iter().map(|muscle| json!({
            "muscle": muscle.muscle.slug(),
            "half_sets": muscle.half_sets,
            "frequency": muscle.frequency,
            "largest_dose": muscle.largest_dose,
            "longest_gap": muscle.longest_gap,
            "window_h": muscle.window_h,
        })).collect::<Vec<_>>(),
    })
}

/// A day and its exercises.
fn day(day: &PlanDay) -> Value {
    let item = |item: &PlanItem| {
        let p = &item.prescription;
        json!({
            "key": item.key,
            "exercise": p.exercise.as_str(),
            "sets": p.sets,
            "reps": [p.reps.0, p.reps.1],
            "rir": p.rir,
            "rest_s": p.rest_s,
            "superset": item.superset,
            "reasons": item.reasons.iter().map(reason).collect::<Vec<_>>(),
        })
    };
    json!({
        "focus": day.focus.slug(),
        "seconds": day.seconds,
        "items": day.items.iter().map(item).collect::<Vec<_>>(),
    })
}

/// The person a file tells of.
///
/// Errors name the field, its value and what is allowed.
pub fn person(catalogue: &Catalogue, text: &str) -> Result<Person> {
    let asked: Asked = serde_json::from_str(text)?;
    let exercises = |field: &str, slugs: &[String]| {
        let known = slugs.iter().map(|slug| {
            let id = ExerciseId::new(slug);
            match catalogue.get(&id) {
                Some(_) => Ok(id),
                None => bail!("{field}: the catalogue has no exercise '{slug}'"),
            }
        });
        known.collect::<Result<Vec<_>>>()
    };
    let mut days = Vec::new();
    for day in &asked.days {
        match WEEKDAYS.iter().position(|name| name == day) {
            Some(at) => days.push(Weekday::from_index(at)),
            None => bail!("day '{day}' is not one of: {}", WEEKDAYS.join(", ")),
        }
    }
    days.sort_unstable();
    let mut priorities = Vec::new();
    for (muscle, priority) in &asked.priorities {
        priorities.push((
            slug("priorities", muscle, Muscle::from_slug, Muscle::ALL)?,
            slug("priority", priority, Priority::from_slug, Priority::ALL)?,
        ));
    }
    let joint_limits = asked.joint_limits.iter().map(|text| {
        slug(
            "joint_limits",
            text,
            JointDemand::from_slug,
            JointDemand::ALL,
        )
    });
    Ok(Person {
        days,
        minutes: asked.minutes,
        kit: kit(asked.kit)?,
        status: slug("status", &asked.status, Status::from_slug, Status::ALL)?,
        is_older: asked.is_older,
        priorities: priorities.into_iter().collect(),
        excluded: exercises("excluded", &asked.excluded)?
            .into_iter()
            .collect(),
        disliked: exercises("disliked", &asked.disliked)?
            .into_iter()
            .collect(),
        joint_limits: joint_limits
            .collect::<Result<Vec<_>>>()?
            .into_iter()
            .collect(),
        split: asked.split.as_deref().map(known_split).transpose()?,
        own_splits: Vec::new(),
        unit: Unit::Kg,
        rules: order::Map::new(),
    })
}

fn kit(asked: Option<AskedKit>) -> Result<Kit> {
    Ok(match asked {
        None => KitPreset::FullGym.kit(Unit::Kg),
        Some(AskedKit::Preset(text)) => {
            slug("kit", &text, KitPreset::from_slug, KitPreset::ALL)?.kit(Unit::Kg)
        }
        Some(AskedKit::Equipment(things)) => {
            let things = things
                .iter()
                .map(|text| slug("kit", text, Equipment::from_slug, Equipment::ALL));
            Kit {
                equipment: things.collect::<Result<Vec<_>>>()?.into_iter().collect(),
                ..KitPreset::FullGym.kit(Unit::Kg)
            }
        }
    })
}

fn known_split(text: &str) -> Result<SplitId> {
    let id = SplitId::new(text);
    if Split::get(&id).is_some() {
        return Ok(id);
    }
    let known: Vec<String> = split::built_in().iter().map(|s| s.id.to_string()).collect();
    bail!("split '{text}' is not one of: {}", known.join(", "))
}

/// The week for a person, with its worth, bound, reasons, notes and audit, as JSON.
///
/// Errors when the person's answers allow no plan.
pub fn answer(catalogue: &Catalogue, person: &Person) -> Result<Value> {
    let solved = solve_week(catalogue, person)?;
    let found = audit(catalogue, person, &solved.plan);
    Ok(json!({
        "split": solved.plan.split.to_string(),
        "objective_milli": solved.objective / MILLI,
        "bound_milli": solved.bound / MILLI,
        "gap_milli": (solved.bound - solved.objective) / MILLI,
        "days": solved.plan.days.iter().map(day).collect::<Vec<_>>(),
        "notes": solved.plan.notes.iter().map(note).collect::<Vec<_>>(),
        "audit": {
            "muscles": found.muscles.iter().map(|week| json!({
                "muscle": week.muscle.slug(),
                "half_sets": week.half_sets,
                "direct": week.direct,
                "per_day": week.per_day,
                "frequency": week.frequency,
                "floor": week.floor,
                "ceiling": week.ceiling,
            })).collect::<Vec<_>>(),
            "findings": found.findings.iter().map(finding).collect::<Vec<_>>(),
        },
    }))
}

/// The week for a person as a text to read.
///
/// Errors when the person's answers allow no plan.
pub fn told(catalogue: &Catalogue, person: &Person) -> Result<String> {
    let solved = solve_week(catalogue, person)?;
    let found = audit(catalogue, person, &solved.plan);
    Ok(text_of(catalogue, &solved, &found))
}

/// What each limit costs, a line each.
fn prices(freer: &mut Freer<'_>) -> Result<String> {
    let mut text = String::new();
    for relief in freer.reliefs()? {
        let _ = write!(text, "price: {}", relief_words(&relief));
        if let Some(muscle) = relief.most {
            let _ = write!(text, ", most for {muscle}");
        }
        let _ = match relief.mends.len() {
            0 => writeln!(text),
            mends => writeln!(text, ", mends {mends} of the notes"),
        };
    }
    Ok(text)
}

/// What the week cannot meet and what mends it, a line each.
fn lacking(freer: &mut Freer<'_>) -> Result<String> {
    let mut text = String::new();
    for shortfall in freer.shortfalls()? {
        let lack = match &shortfall.lack {
            Finding::MissingPattern { basic } => {
                let patterns = BASICS[usize::from(*basic)].iter().map(|p| p.slug());
                format!("no {}", patterns.collect::<Vec<_>>().join(" or "))
            }
            Finding::BelowFloor {
                muscle,
                half_sets,
                floor,
            } => format!("{muscle} has {} of {} sets", sets(*half_sets), sets(*floor)),
            other => format!("{other:?}"),
        };
        let mut ways: Vec<String> = shortfall.mended_by.iter().map(relief_words).collect();
        if shortfall.is_for_doctor {
            ways.push("a joint limit stands before it, which is for a doctor".into());
        } else if ways.is_empty() {
            ways.push("no single limit that was tried mends it".into());
        }
        let _ = writeln!(text, "shortfall: {lack}; {}", ways.join("; "));
    }
    Ok(text)
}

/// A limit and what its giving way buys.
fn relief_words(relief: &Relief) -> String {
    let limit = match &relief.limit {
        Limit::Minutes(minutes) => format!("{minutes} more minutes a session"),
        Limit::Day(weekday) => format!("{} as well", WEEKDAYS[weekday.index()]),
        Limit::Kit(thing) => format!("a {thing}"),
        Limit::Excluded(these) => match these.as_slice() {
            [one] => format!("{one}, which is ruled out"),
            _ => "the exercises ruled out".into(),
        },
        Limit::Disliked => "the exercises disliked".into(),
    };
    format!(
        "{limit}: {:+} sets, worth {:+}",
        relief.sets,
        relief.points / MILLI
    )
}

fn price(relief: &Relief) -> Value {
    let limit = match &relief.limit {
        Limit::Minutes(minutes) => json!({ "name": "minutes", "minutes": minutes }),
        Limit::Day(weekday) => json!({ "name": "day", "weekday": WEEKDAYS[weekday.index()] }),
        Limit::Kit(thing) => json!({ "name": "kit", "thing": thing.slug() }),
        Limit::Excluded(these) => json!({
            "name": "excluded",
            "exercises": these.iter().map(ExerciseId::as_str).collect::<Vec<_>>(),
        }),
        Limit::Disliked => json!({ "name": "disliked" }),
    };
    json!({
        "limit": limit,
        "worth_milli": relief.points / MILLI,
        "sets": relief.sets,
        "most": relief.most.map(|muscle| muscle.slug()),
        "mends": relief.mends.iter().map(note).collect::<Vec<_>>(),
    })
}

/// What the week cannot meet, with the limits that mend it, each alone.
fn shortfall(shortfall: &Shortfall) -> Value {
    json!({
        "lack": finding(&shortfall.lack),
        "mended_by": shortfall.mended_by.iter().map(price).collect::<Vec<_>>(),
        "is_for_doctor": shortfall.is_for_doctor,
    })
}

fn text_of(catalogue: &Catalogue, solved: &Solved, found: &Audit) -> String {
    let Solved { plan, .. } = solved;
    let mut text = format!(
        "{}: worth {}, no week above {}\n",
        plan.split,
        solved.objective / MILLI,
        solved.bound / MILLI
    );
    for day in &plan.days {
        let _ = writeln!(text, "\n{}, {} min", day.focus, day.seconds.div_ceil(60));
        for item in &day.items {
            let p = &item.prescription;
            let letter = item.superset.map_or(' ', |n| char::from(b'a' + n - 1));
            let reasons: Vec<String> = item.reasons.iter().map(reason_words).collect();
            let _ = writeln!(
                text,
                "{letter} {:<38} {} x {}-{}, {} in reserve, rest {} s: {}",
                p.exercise.as_str(),
                p.sets,
                p.reps.0,
                p.reps.1,
                p.rir,
                p.rest_s,
                reasons.join("; ")
            );
        }
    }
    text.push_str("\nweekly sets:");
    for (muscle, half_sets) in weekly_sets(catalogue, &plan.days).iter() {
        let _ = write!(text, " {muscle} {}", sets(*half_sets));
    }
    text.push('\n');
    for note in &plan.notes {
        let _ = writeln!(text, "note: {}", note_words(plan, note));
    }
    for finding in &found.findings {
        let _ = writeln!(text, "finding: {finding:?}");
    }
    text
}

fn sets(half_sets: u32) -> String {
    format!("{}.{}", half_sets / 2, half_sets % 2 * 5)
}

fn reason_words(reason: &PickReason) -> String {
    match reason {
        PickReason::CoversPattern(pattern) => format!("the week's only {pattern}"),
        PickReason::Feeds { muscle, half_sets } => format!("{muscle} {}", sets(*half_sets)),
        PickReason::Priority(muscle) => format!("{muscle} is to be brought up"),
        PickReason::LeadsDay => "leads the day".into(),
        PickReason::EasyToLearn => "easy to learn".into(),
        PickReason::BestWithKit => "best with the kit".into(),
        PickReason::SavesTime => "saves time".into(),
    }
}

fn note_words(plan: &Plan, note: &PlanNote) -> String {
    let focus = |day: u8| plan.days[usize::from(day)].focus;
    match note {
        PlanNote::PatternNotCovered(pattern) => format!("no {pattern} is possible"),
        PlanNote::SlotDropped { day, patterns } => {
            let patterns: Vec<&str> = patterns.iter().map(|p| p.slug()).collect();
            format!(
                "day {} ({}) has no time for {}",
                day + 1,
                focus(*day),
                patterns.join(" or ")
            )
        }
        PlanNote::BelowFloor {
            muscle,
            half_sets,
            floor,
        } => format!("{muscle} has {} of {} sets", sets(*half_sets), sets(*floor)),
        PlanNote::OverTime { day, seconds } => format!("day {} runs {seconds} s over", day + 1),
        PlanNote::ShortRecovery { day, muscle } => {
            format!("{muscle} is trained hard on day {} and the next", day + 1)
        }
    }
}

fn reason(reason: &PickReason) -> Value {
    match reason {
        PickReason::CoversPattern(pattern) => {
            json!({ "name": "covers-pattern", "pattern": pattern.slug() })
        }
        PickReason::Feeds { muscle, half_sets } => {
            json!({ "name": "feeds", "muscle": muscle.slug(), "half_sets": half_sets })
        }
        PickReason::Priority(muscle) => json!({ "name": "priority", "muscle": muscle.slug() }),
        PickReason::LeadsDay => json!({ "name": "leads-day" }),
        PickReason::EasyToLearn => json!({ "name": "easy-to-learn" }),
        PickReason::BestWithKit => json!({ "name": "best-with-kit" }),
        PickReason::SavesTime => json!({ "name": "saves-time" }),
    }
}

fn note(note: &PlanNote) -> Value {
    match note {
        PlanNote::PatternNotCovered(pattern) => {
            json!({ "name": "pattern-not-covered", "pattern": pattern.slug() })
        }
        PlanNote::SlotDropped { day, patterns } => json!({
            "name": "slot-dropped",
            "day": day,
            "patterns": patterns.iter().map(|p| p.slug()).collect::<Vec<_>>(),
        }),
        PlanNote::BelowFloor {
            muscle,
            half_sets,
            floor,
        } => json!({
            "name": "below-floor",
            "muscle": muscle.slug(),
            "half_sets": half_sets,
            "floor": floor,
        }),
        PlanNote::OverTime { day, seconds } => {
            json!({ "name": "over-time", "day": day, "seconds": seconds })
        }
        PlanNote::ShortRecovery { day, muscle } => {
            json!({ "name": "short-recovery", "day": day, "muscle": muscle.slug() })
        }
    }
}

fn finding(finding: &Finding) -> Value {
    let severity = format!("{:?}", finding.severity()).to_lowercase();
    let mut told = match finding {
        Finding::BelowFloor {
            muscle,
            half_sets,
            floor,
        } => json!({
            "name": "below-floor",
            "muscle": muscle.slug(),
            "half_sets": half_sets,
            "floor": floor,
        }),
        Finding::AboveCeiling {
            muscle,
            half_sets,
            ceiling,
        } => json!({
            "name": "above-ceiling",
            "muscle": muscle.slug(),
            "half_sets": half_sets,
            "ceiling": ceiling,
        }),
        Finding::LargeDose {
            day,
            muscle,
            half_sets,
            cap,
        } => json!({
            "name": "large-dose",
            "day": day,
            "muscle": muscle.slug(),
            "half_sets": half_sets,
            "cap": cap,
        }),
        Finding::OverTime { day, seconds } => {
            json!({ "name": "over-time", "day": day, "seconds": seconds })
        }
        Finding::EmptyDay { day } => json!({ "name": "empty-day", "day": day }),
        Finding::PushPull(balance) => {
            json!({ "name": "push-pull", "push": balance.first, "pull": balance.second })
        }
        Finding::FrontBackThigh(balance) => {
            json!({ "name": "thigh", "front": balance.first, "back": balance.second })
        }
        Finding::ShortRecovery { day, muscle } => {
            json!({ "name": "short-recovery", "day": day, "muscle": muscle.slug() })
        }
        Finding::MissingPattern { basic } => json!({
            "name": "missing-pattern",
            "patterns": BASICS[usize::from(*basic)].iter().map(|p| p.slug()).collect::<Vec<_>>(),
        }),
        Finding::NotAllowed { day, key } => {
            json!({ "name": "not-allowed", "day": day, "key": key })
        }
    };
    told["severity"] = json!(severity);
    told
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_example_is_planned() {
        let catalogue = Catalogue::built_in();
        let person = person(&catalogue, EXAMPLE).unwrap();
        let found = answer(&catalogue, &person).unwrap();
        assert_eq!(found["split"], "rotating-emphasis");
        assert_eq!(found["days"].as_array().map(Vec::len), Some(3));
        let (objective, bound) = (&found["objective_milli"], &found["bound_milli"]);
        assert!(objective.as_i64() > Some(0) && bound.as_i64() >= objective.as_i64());
        let first = &found["days"][0]["items"][0];
        assert_eq!(first["reasons"][0]["name"], "leads-day");
        let text = told(&catalogue, &person).unwrap();
        assert!(text.contains(first["exercise"].as_str().unwrap()));
        assert!(!text.contains(" deadlift "), "it is excluded");
    }

    /// Twenty minutes once a week give no muscle its floor: each is told with what
    /// would, in both forms.
    #[test]
    fn what_cannot_be_met_is_told_with_what_mends_it() {
        let catalogue = Catalogue::built_in();
        let asked = json!({ "days": ["monday"], "minutes": 20, "status": "novice" });
        let person = person(&catalogue, &asked.to_string()).unwrap();
        let mut freer = Freer::new(&catalogue, &person).unwrap();
        let found = freer.shortfalls().unwrap();
        let told: Vec<Value> = found.iter().map(shortfall).collect();
        let chest = told.iter().find(|told| told["lack"]["muscle"] == "chest");
        let chest = chest.expect("four sets need more than this");
        assert_eq!(chest["lack"]["name"], "below-floor");
        let by = chest["mended_by"].as_array().unwrap();
        for name in ["minutes", "day"] {
            assert!(by.iter().any(|by| by["limit"]["name"] == name), "{name}");
        }
        assert!(by.iter().all(|by| by["sets"].as_i64() > Some(0)));
        let text = lacking(&mut freer).unwrap();
        assert_eq!(text.lines().count(), told.len());
        assert!(text.contains("more minutes a session"), "{text}");
    }

    #[test]
    fn the_example_is_compared() {
        let catalogue = Catalogue::built_in();
        let person = person(&catalogue, EXAMPLE).unwrap();
        let other = known_split("push-pull-legs").unwrap();
        let found = compared(&catalogue, &person, &other).unwrap();
        assert_eq!(found["weeks"][1]["split"], "push-pull-legs");
        assert_eq!(found["weeks"][0]["days"][0]["focus"], "push-led");
        let lost = |week: usize| found["weeks"][week]["reps_lost"].as_f64();
        assert!(lost(0) > Some(0.0) && lost(0) < lost(1));
        let verdict = found["verdict"].to_string();
        assert!(verdict.contains("fresher"), "{verdict}");
    }

    #[test]
    fn what_cannot_be_is_refused_in_words() {
        let catalogue = Catalogue::built_in();
        let refused = |field: &str, value: Value| {
            let mut asked: Value = serde_json::from_str(EXAMPLE).unwrap();
            asked[field] = value;
            let found = person(&catalogue, &asked.to_string())
                .and_then(|person| answer(&catalogue, &person));
            format!("{:#}", found.unwrap_err())
        };
        let cases = [
            (
                "days",
                json!(["Mon"]),
                "day 'Mon' is not one of: monday, tuesday, wednesday, thursday, friday, \
                 saturday, sunday",
            ),
            (
                "days",
                json!([]),
                "no training day was chosen; choose at least one",
            ),
            (
                "minutes",
                json!(10),
                "minutes 10 is not between 20 and 180; choose a length within that range",
            ),
            (
                "excluded",
                json!(["x"]),
                "excluded: the catalogue has no exercise 'x'",
            ),
            (
                "priorities",
                json!({ "chest": "most" }),
                "priority 'most' is not one of: less, usual, more",
            ),
        ];
        for (field, value, words) in cases {
            assert_eq!(refused(field, value), words);
        }
        assert!(refused("kit", json!(["anvil"])).starts_with("kit 'anvil' is not one of: "));
        assert!(refused("split", json!("none")).starts_with("split 'none' is not one of: "));
        assert!(refused("extra", json!(1)).contains("unknown field `extra`"));
    }
}
