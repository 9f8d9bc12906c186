//! The engine's codes turned into sentences: why this load, why this
//! exercise, what a swap changes, what a set was.

use super::dates::{ago, clock};
use super::edits::sets_moved;
use super::terms;
use super::words;
use crate::markup::Text;
use weekloom_engine::audit::Finding;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::{Exercise, ExerciseId, HalfSets, Loading, Measure, Muscle};
use weekloom_engine::log::{Discomfort, SetEntry, SetKind};
use weekloom_engine::plan::objective::BASICS;
use weekloom_engine::plan::{Difference, Limit, PickReason, PlanNote, Relief};
use weekloom_engine::progress::{DeloadReason, Evidence, Reason, Shown, Suggestion};
use weekloom_engine::units::{Load, Unit};
use weekloom_store::backup::{Part, Preview};

/// "62.5 kg".
#[must_use]
pub fn load(load: Load, unit: Unit) -> String {
    format!("{}\u{a0}{}", load.show(unit), unit.symbol())
}

/// A load in the terms of its exercise: "12 kg each", "+5 kg", "20 kg help".
#[must_use]
pub fn load_of(value: Load, exercise: &Exercise, unit: Unit) -> String {
    match exercise.loading {
        Loading::DumbbellPair => format!("{}\u{a0}each", load(value, unit)),
        Loading::BodyweightPlus if value == Load::ZERO => words::OWN_WEIGHT.to_owned(),
        Loading::BodyweightPlus => format!("+{}", load(value, unit)),
        Loading::Assisted => format!("{} help", load(value, unit)),
        Loading::Bodyweight => words::OWN_WEIGHT.to_owned(),
        Loading::Band => words::BAND.to_owned(),
        Loading::Barbell | Loading::Single | Loading::Machine | Loading::Cable => load(value, unit),
    }
}

fn count_of(count: u16, is_timed: bool) -> String {
    if is_timed {
        format!("{count}\u{a0}s")
    } else {
        count.to_string()
    }
}

fn is_timed(exercise: Option<&Exercise>) -> bool {
    exercise.is_some_and(|e| e.measure == Measure::Seconds)
}

/// One set: "62.5 kg × 8, 2 left".
#[must_use]
pub fn set_in_words(entry: &SetEntry, exercise: Option<&Exercise>, unit: Unit) -> String {
    let count = count_of(entry.count, is_timed(exercise));
    let has_load = exercise.is_none_or(Exercise::is_loaded);
    let what = match exercise {
        Some(exercise) if has_load => {
            format!("{} \u{d7} {count}", load_of(entry.load, exercise, unit))
        }
        None if entry.load > Load::ZERO => format!("{} \u{d7} {count}", load(entry.load, unit)),
        Some(_) | None => format!("{count}{}", if is_timed(exercise) { "" } else { " reps" }),
    };
    match entry.rir {
        Some(rir) => format!("{what}, {} left", words::effort_short(rir)),
        None => what,
    }
}

/// Work sets of one exercise in one line; a run at one load names it once:
/// "60 kg × 8, 8, 7".
#[must_use]
pub fn sets_in_words(sets: &[SetEntry], exercise: Option<&Exercise>, unit: Unit) -> String {
    let work: Vec<&SetEntry> = sets.iter().filter(|s| s.kind == SetKind::Work).collect();
    let timed = is_timed(exercise);
    let has_load = exercise.is_none_or(Exercise::is_loaded);
    let mut runs: Vec<(Load, Vec<String>)> = Vec::new();
    for set in work {
        let count = count_of(set.count, timed);
        match runs.last_mut() {
            Some((load, counts)) if *load == set.load => counts.push(count),
            _ => runs.push((set.load, vec![count])),
        }
    }
    runs.iter()
        .map(|(value, counts)| {
            let counts = counts.join(", ");
            match exercise {
                Some(exercise) if has_load => {
                    format!("{} \u{d7} {counts}", load_of(*value, exercise, unit))
                }
                None if *value > Load::ZERO => format!("{} \u{d7} {counts}", load(*value, unit)),
                Some(_) | None => counts,
            }
        })
        .collect::<Vec<_>>()
        .join("; ")
}

/// What is aimed at: "62.5 kg × 8, leaving 2".
#[must_use]
pub fn aim(suggestion: &Suggestion, exercise: &Exercise, unit: Unit) -> String {
    let timed = exercise.measure == Measure::Seconds;
    let count = count_of(suggestion.count, timed);
    let what = match suggestion.load {
        Some(value) => format!("{} \u{d7} {count}", load_of(value, exercise, unit)),
        None if timed => count,
        None => format!("{count} reps"),
    };
    if timed {
        what
    } else {
        format!("{what}, leaving {}", suggestion.rir)
    }
}

/// The words on the log button.
#[must_use]
pub fn log_button(value: Option<Load>, count: u16, exercise: &Exercise, unit: Unit) -> String {
    let count = count_of(count, exercise.measure == Measure::Seconds);
    match value {
        Some(value) => format!("Log {} \u{d7} {count}", load_of(value, exercise, unit)),
        None if exercise.measure == Measure::Seconds => format!("Log {count}"),
        None => format!("Log {count} reps"),
    }
}

fn shown(last: &Shown, unit: Unit, today: Day) -> String {
    let counts = last
        .counts
        .iter()
        .map(u16::to_string)
        .collect::<Vec<_>>()
        .join(", ");
    let when = ago(today.days_since(last.day));
    if last.load == Load::ZERO {
        format!("{counts} ({when})")
    } else {
        format!("{} \u{d7} {counts} ({when})", load(last.load, unit))
    }
}

fn percent(permille: u32) -> String {
    if permille.is_multiple_of(10) {
        format!("{}\u{a0}%", permille / 10)
    } else {
        format!("{}.{}\u{a0}%", permille / 10, permille % 10)
    }
}

/// Why this load and these reps, and what that rests on.
#[must_use]
pub fn why(suggestion: &Suggestion, unit: Unit, today: Day) -> Vec<String> {
    let mut why = reason(&suggestion.reason, unit);
    if suggestion.goes_by_reps() {
        why.insert_str(0, "No effort said, so it goes by reps. ");
    }
    let mut lines = vec![why];
    if let Some(last) = suggestion.reason.last() {
        lines.push(format!("It goes by: {}.", shown(last, unit, today)));
    }
    let (name, how) = terms::rule(suggestion.rule);
    lines.push(format!("{}: {name}. {how}", words::RULE));
    if suggestion.advise_swap {
        lines.push("Better still: swap it for an exercise that does not hurt.".to_owned());
    }
    let sources = suggestion
        .sources()
        .iter()
        .map(|s| s.citation())
        .collect::<Vec<_>>()
        .join("; ");
    lines.push(format!("Rests on: {sources}."));
    lines
}

fn reason(reason: &Reason, unit: Unit) -> String {
    match reason {
        Reason::FirstClimb => "Never done here before, so nothing is guessed. Start with the lightest load, say how many reps were left in you, and the next set climbs from there.".to_owned(),
        Reason::BelowKit { .. } => "The kit makes no load this light. Do an easier variant, or add lighter plates under Kit & data.".to_owned(),
        Reason::Raised { evidence, step, permille, .. } => {
            let evidence = match evidence {
                Evidence::AllSetsAtTop => "all sets reached the top of the range, no harder than aimed at".to_owned(),
                Evidence::AllSetsAtTopTwice => "all sets reached the top of the range in two sessions running".to_owned(),
                Evidence::TwoForTwo => "the last set went two reps over the goal in two sessions running".to_owned(),
                Evidence::AllSetsDone => "all sets were done as asked, no harder than aimed at".to_owned(),
                Evidence::TwoOverInAllSets => "all sets went two reps over the goal".to_owned(),
                Evidence::RepsToSpare { rir } => format!("every set left {rir} reps or more, which is room for it"),
                Evidence::LiftedBefore { load: before, .. } => format!("{} was lifted before the time off, and last time went as asked", load(*before, unit)),
                Evidence::EstimatedMax { value, percent } => format!("{percent}\u{a0}% of an estimated 1RM of {} allows it", load(*value, unit)),
            };
            let by = match permille {
                Some(permille) => format!("{} ({})", load(*step, unit), percent(*permille)),
                None => load(*step, unit),
            };
            format!("Up by {by}: {evidence}.")
        }
        Reason::StepTooBig { next, permille, stretch_to, .. } => {
            let by = permille.map(|p| format!(", {} more", percent(p))).unwrap_or_default();
            format!(
                "The reps are there, but the next load is {}{by}: a big step. First {stretch_to} reps in every set.",
                load(*next, unit)
            )
        }
        Reason::ConfirmTop { .. } => "Top of the range reached. Show it once more, or say the reps left, and the load goes up.".to_owned(),
        Reason::AddReps { top, .. } => format!("Same load, one more rep than last time, until every set reaches {top}."),
        Reason::HeldAfterMiss { bottom, .. } => format!("A set fell short of {bottom} last time. Same load once more."),
        Reason::SteppedDown { bottom, percent, .. } => format!("Sets fell short of {bottom} in two sessions running: down to about {percent}\u{a0}% to build up again."),
        Reason::HeldTooHard { rir, aim, .. } => format!("Last time an early set left {rir} reps in reserve where {aim} were aimed at. Same load until it is easier."),
        Reason::HeldSetsMissing { asked, .. } => format!("Fewer than the {asked} sets asked for were done last time. Same load until all are."),
        Reason::OnAim { rir, .. } => format!("It left {rir} reps in reserve, as aimed at. Same load; it goes up when more are left."),
        Reason::EffortUnsaid { .. } => "It was harder than aimed at before, and last time the reps left were not said. Same load; say them after each set.".to_owned(),
        Reason::EasedToAim { rir, aim, .. } => format!("Only {rir} reps were left where {aim} were aimed at: down to a load that leaves them."),
        Reason::KitChanged { .. } => "The kit does not make last time's load. Take the next easier one it makes.".to_owned(),
        Reason::GoalChanged { was, .. } => format!("The goal was {}\u{2013}{} reps before and is higher now, so the load is lighter.", was.0, was.1),
        Reason::ReadyForHarder { step_up, .. } => {
            if step_up.is_empty() {
                "The top is reached and there is no harder load. Add reps, or a set.".to_owned()
            } else {
                "The top is reached: a harder variant is due. Find it under Swap.".to_owned()
            }
        }
        Reason::ReadyForEasier { .. } => "Sets fell short twice and there is no easier load. Find an easier variant under Swap.".to_owned(),
        Reason::Layoff { days, percent, .. } => {
            let days = i32::try_from(*days).unwrap_or(i32::MAX);
            format!("Last done {}: back in at about {percent}\u{a0}%.", ago(days))
        }
        Reason::Deload { percent, .. } => format!("A deload: about {percent}\u{a0}% and well short of hard."),
        Reason::HeldForDiscomfort { .. } => "It hurt a little last time, so the load does not rise.".to_owned(),
        Reason::SteppedDownForPain { percent, .. } => format!("It was painful last time: at most {percent}\u{a0}%. If pain stays, see a doctor or physiotherapist."),
        Reason::Doubtful { load: doubted, before, .. } => format!(
            "An entry of {} after {} looks like a slip and is left out. Amend it in the log if it is one.",
            load(*doubted, unit),
            load(*before, unit)
        ),
    }
}

/// Why a lighter week is proposed.
#[must_use]
pub fn deload(reason: &DeloadReason, name_of: impl Fn(&ExerciseId) -> Text) -> String {
    let (sign, exercises) = match reason {
        DeloadReason::Planned { weeks } => {
            return format!("You have trained for {weeks} weeks without one.");
        }
        DeloadReason::Stalled { exercises } => ("Nothing new in three weeks", exercises),
        DeloadReason::Harder { exercises } => ("Harder than aimed at, twice running", exercises),
        DeloadReason::Sore { exercises } => ("Noted as hurting in the last two weeks", exercises),
    };
    let names: Vec<_> = exercises.iter().map(name_of).collect();
    format!("{sign}: {}.", names.join(", "))
}

/// Half sets as sets: "6½".
#[must_use]
pub fn half_sets(half_sets: HalfSets) -> String {
    match (half_sets / 2, half_sets % 2) {
        (0, 1) => "\u{bd}".to_owned(),
        (whole, 0) => whole.to_string(),
        (whole, _) => format!("{whole}\u{bd}"),
    }
}

fn muscles(list: &[Muscle]) -> String {
    list.iter()
        .map(|&m| terms::muscle(m))
        .collect::<Vec<_>>()
        .join(", ")
}

/// "Trains chest; helps triceps, front shoulder".
#[must_use]
pub fn trains(exercise: &Exercise) -> String {
    let prime = muscles(&exercise.prime);
    if exercise.assist.is_empty() {
        format!("Trains {prime}")
    } else {
        format!("Trains {prime}; helps {}", muscles(&exercise.assist))
    }
}

/// Why an exercise stands in the plan.
#[must_use]
pub fn pick(reason: &PickReason) -> String {
    match reason {
        PickReason::CoversPattern(pattern) => {
            format!(
                "Covers the {}, which every week should hold.",
                terms::pattern(*pattern)
            )
        }
        PickReason::Feeds {
            muscle,
            half_sets: h,
        } => format!(
            "Gives the {} {} sets a week that it would lack.",
            terms::muscle(*muscle),
            half_sets(*h)
        ),
        PickReason::Priority(muscle) => {
            format!("You asked to bring up the {}.", terms::muscle(*muscle))
        }
        PickReason::LeadsDay => {
            "The day is about it, so it comes first, while you are fresh.".to_owned()
        }
        PickReason::EasyToLearn => "Little skill needed: safe to learn alone.".to_owned(),
        PickReason::BestWithKit => "The best for this place that your kit allows.".to_owned(),
        PickReason::SavesTime => "Quick to set up for what it gives.".to_owned(),
    }
}

/// What one limit costs.
#[must_use]
pub fn relief(relief: &Relief) -> String {
    let mut text = match relief.limit {
        Limit::Minutes(more) => format!("{more} more minutes a session"),
        Limit::Kit(thing) => format!("With {}", terms::equipment(thing)),
        Limit::Excluded => "With nothing ruled out".to_owned(),
        Limit::Disliked => "With what you dislike".to_owned(),
    };
    text += ": ";
    text += &match usize::try_from(relief.sets) {
        Ok(more) if more > 0 => format!("{} more a week", words::sets(more)),
        _ => "the sets better placed".to_owned(),
    };
    if let Some(muscle) = relief.most {
        text += &format!(", most for {}", terms::muscle(muscle));
    }
    text += ".";
    if let Some(note) = relief.mends.first() {
        text += &format!(" It mends this: {}", plan_note(note));
    }
    text
}

/// What the plan could not do.
#[must_use]
pub fn plan_note(note: &PlanNote) -> String {
    match note {
        PlanNote::PatternNotCovered(pattern) => format!(
            "No {} fits your kit and limits. More equipment or fewer limits would bring one.",
            terms::pattern(*pattern)
        ),
        PlanNote::SlotDropped { day, patterns } => format!(
            "Day {}: no time for a {}. More minutes would bring it back.",
            day + 1,
            patterns
                .first()
                .map_or("further exercise", |&p| terms::pattern(p))
        ),
        PlanNote::BelowFloor {
            muscle,
            half_sets: h,
            floor,
        } => format!(
            "{}: {} sets a week; at least {} are advised. More minutes or a priority would help.",
            capital(terms::muscle(*muscle)),
            half_sets(*h),
            half_sets(*floor)
        ),
        PlanNote::OverTime { day, seconds } => {
            format!(
                "Day {} runs about {} over your minutes.",
                day + 1,
                clock(*seconds)
            )
        }
        PlanNote::ShortRecovery { day, muscle } => format!(
            "Day {} and the next both train the {} hard, with little rest between.",
            day + 1,
            terms::muscle(*muscle)
        ),
    }
}

/// Whether the audit does not say it too.
#[must_use]
pub const fn is_only_noted(note: &PlanNote) -> bool {
    matches!(
        note,
        PlanNote::PatternNotCovered(_) | PlanNote::SlotDropped { .. }
    )
}

/// Something about the week that is off.
#[must_use]
pub fn finding(finding: &Finding, name_of: impl Fn(u16) -> String) -> String {
    let day = |index: u8| u32::from(index) + 1;
    match finding {
        Finding::BelowFloor {
            muscle,
            half_sets: h,
            floor,
        } => format!(
            "{}: {} sets a week; at least {} are advised.",
            capital(terms::muscle(*muscle)),
            half_sets(*h),
            half_sets(*floor)
        ),
        Finding::AboveCeiling {
            muscle,
            half_sets: h,
            ceiling,
        } => format!(
            "{}: {} sets a week; more than {} rarely pays.",
            capital(terms::muscle(*muscle)),
            half_sets(*h),
            half_sets(*ceiling)
        ),
        Finding::LargeDose {
            day: d,
            muscle,
            half_sets: h,
            cap,
        } => format!(
            "Day {} gives the {} {} sets at once; past about {} more brings little. Another day could take some.",
            day(*d),
            terms::muscle(*muscle),
            half_sets(*h),
            half_sets(*cap)
        ),
        Finding::OverTime { day: d, seconds } => {
            format!(
                "Day {} runs about {} over your minutes.",
                day(*d),
                clock(*seconds)
            )
        }
        Finding::EmptyDay { day: d } => format!("Day {} holds no exercise. Add one.", day(*d)),
        Finding::PushPull(balance) => format!(
            "Pushing has {} sets a week, pulling {}: far apart.",
            half_sets(balance.first),
            half_sets(balance.second)
        ),
        Finding::FrontBackThigh(balance) => format!(
            "The front of the thigh has {} sets a week, the back {}: far apart.",
            half_sets(balance.first),
            half_sets(balance.second)
        ),
        Finding::ShortRecovery { day: d, muscle } => format!(
            "Day {} and the next both train the {} hard, with little rest between.",
            day(*d),
            terms::muscle(*muscle)
        ),
        Finding::MissingPattern { basic } => {
            let patterns = BASICS.get(usize::from(*basic)).copied().unwrap_or_default();
            let names = patterns
                .iter()
                .map(|&p| terms::pattern(p))
                .collect::<Vec<_>>()
                .join(" or ");
            format!("The week holds no {names}.")
        }
        Finding::NotAllowed { day: d, key } => format!(
            "Day {}: {} does not fit your kit, exclusions or sore joints. Swap it.",
            day(*d),
            name_of(*key)
        ),
    }
}

/// With a capital to begin with.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map(|first| format!("{}{}", first.to_uppercase(), letters.as_str()))
        .unwrap_or_default()
}

/// What a swap changes in the week.
#[must_use]
pub fn difference(difference: &Difference) -> String {
    let mut parts = sets_moved(&difference.gained, "+");
    parts.extend(sets_moved(&difference.lost, "\u{2212}"));
    if parts.is_empty() {
        "Keeps the week's sets as they are".to_owned()
    } else {
        format!("Week: {} sets", parts.join(", "))
    }
}

/// How much it hurt.
#[must_use]
pub const fn discomfort(discomfort: Discomfort) -> &'static str {
    match discomfort {
        Discomfort::Mild => "hurt a little",
        Discomfort::Painful => "painful",
    }
}

/// Whether the person, plan or settings of a backup differ from one's own.
#[must_use]
pub fn differs(preview: &Preview) -> bool {
    [&preview.person, &preview.plan, &preview.settings]
        .into_iter()
        .any(|part| *part == Part::Differs)
}

/// Plates in words: "20 + 1.25 on each side".
#[must_use]
pub fn plates(list: &[(Load, u8)], is_each_side: bool, unit: Unit) -> String {
    if list.is_empty() {
        return words::BARE_BAR.to_owned();
    }
    let plates = list
        .iter()
        .flat_map(|&(plate, count)| std::iter::repeat_n(plate.show(unit), usize::from(count)))
        .collect::<Vec<_>>()
        .join(" + ");
    if is_each_side {
        format!("{plates} {} on each side", unit.symbol())
    } else {
        format!("{plates} {}", unit.symbol())
    }
}
