//! The engine's codes turned into sentences: why this load, why this
//! exercise, what a swap changes, what a set was.

use super::dates::{ago, clock, weekday};
use super::edits::sets_moved;
use super::language::{number, said, tr};
use super::terms;
use super::words;
use crate::markup::Text;
use crate::say;
use weekloom_engine::audit::Finding;
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::{Exercise, ExerciseId, HalfSets, Loading, Measure, Muscle};
use weekloom_engine::log::{Discomfort, SetEntry, SetKind};
use weekloom_engine::plan::objective::BASICS;
use weekloom_engine::plan::{Difference, Limit, PickReason, PlanNote, Relief, Shortfall};
use weekloom_engine::progress::{DeloadReason, Evidence, Reason, Rise, Shown, Suggestion};
use weekloom_engine::units::{Load, Unit};
use weekloom_store::backup::{Part, Preview};

/// "62.5 kg".
#[must_use]
pub fn load(load: Load, unit: Unit) -> String {
    format!("{}\u{a0}{}", number(&load.show(unit)), unit.symbol())
}

/// A load in the terms of its exercise: "12 kg each", "+5 kg", "20 kg help".
#[must_use]
pub fn load_of(value: Load, exercise: &Exercise, unit: Unit) -> String {
    match exercise.loading {
        Loading::DumbbellPair => say!("{load}\u{a0}each", load = load(value, unit)),
        Loading::BodyweightPlus if value == Load::ZERO => said(words::OWN_WEIGHT),
        Loading::BodyweightPlus => format!("+{}", load(value, unit)),
        Loading::Assisted => say!("{load} help", load = load(value, unit)),
        Loading::Bodyweight => said(words::OWN_WEIGHT),
        Loading::Band => said(words::BAND),
        Loading::Barbell | Loading::Single | Loading::Machine | Loading::Cable => load(value, unit),
    }
}

fn count_of(count: u16, is_timed: bool) -> String {
    if is_timed {
        say!("{count}\u{a0}s", count)
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
        Some(_) | None => {
            if is_timed(exercise) {
                count
            } else {
                say!("{count} reps", count)
            }
        }
    };
    if entry.kind == SetKind::WarmUp {
        return say!("Warm-up {set}", set = what);
    }
    match entry.rir {
        Some(rir) => say!("{what}, {rir} left", what, rir = words::effort_short(rir)),
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
        None => say!("{count} reps", count),
    };
    if timed {
        what
    } else {
        say!("{what}, leaving {rir}", what, rir = suggestion.rir)
    }
}

/// What went beyond the last time: "80 kg → 82.5 kg".
#[must_use]
pub fn rise(rise: &Rise, exercise: &Exercise, unit: Unit) -> String {
    let is_timed = exercise.measure == Measure::Seconds;
    let has_load = exercise.is_loaded();
    match *rise {
        Rise::Load { from, to } => {
            let (from, to) = (load_of(from, exercise, unit), load_of(to, exercise, unit));
            say!("{from}, now {to}", from, to)
        }
        Rise::Count { load, from, to } => {
            let (from, to) = (count_of(from, is_timed), count_of(to, is_timed));
            if has_load {
                let load = load_of(load, exercise, unit);
                say!("{load} \u{d7} {from}, now {to}", load, from, to)
            } else {
                say!("{from}, now {to}", from, to)
            }
        }
    }
}

/// The words on the log button.
#[must_use]
pub fn log_button(value: Option<Load>, count: u16, exercise: &Exercise, unit: Unit) -> String {
    let count = count_of(count, exercise.measure == Measure::Seconds);
    match value {
        Some(value) => say!(
            "Log {load} \u{d7} {count}",
            load = load_of(value, exercise, unit),
            count
        ),
        None if exercise.measure == Measure::Seconds => say!("Log {count}", count),
        None => say!("Log {count} reps", count),
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
        number(&format!("{}.{}\u{a0}%", permille / 10, permille % 10))
    }
}

/// Why this load and these reps, and what that rests on.
#[must_use]
pub fn why(suggestion: &Suggestion, unit: Unit, today: Day) -> Vec<String> {
    let mut why = reason(&suggestion.reason, unit);
    if suggestion.goes_by_reps() {
        why.insert_str(0, tr("No effort said, so it goes by reps. "));
    }
    let mut lines = vec![why];
    if let Some(last) = suggestion.reason.last() {
        lines.push(say!("It goes by: {last}.", last = shown(last, unit, today)));
    }
    let (name, how) = terms::rule(suggestion.rule);
    lines.push(format!("{}: {name}. {how}", tr(words::RULE)));
    if suggestion.advise_swap {
        lines.push(said(
            "Better still: swap it for an exercise that does not hurt.",
        ));
    }
    let sources = suggestion
        .sources()
        .iter()
        .map(|s| s.citation())
        .collect::<Vec<_>>()
        .join("; ");
    lines.push(say!("Rests on: {sources}.", sources));
    lines
}

fn reason(reason: &Reason, unit: Unit) -> String {
    match reason {
        Reason::FirstClimb => said(
            "Never done here before, so nothing is guessed. Start with the lightest load, say how many reps were left in you, and the next set climbs from there.",
        ),
        Reason::BelowKit { .. } => said(
            "The kit makes no load this light. Do an easier variant, or add lighter plates under Kit & data.",
        ),
        Reason::Raised {
            evidence,
            step,
            permille,
            ..
        } => {
            let evidence = match evidence {
                Evidence::AllSetsAtTop => {
                    said("all sets reached the top of the range, no harder than aimed at")
                }
                Evidence::AllSetsAtTopTwice => {
                    said("all sets reached the top of the range in two sessions running")
                }
                Evidence::TwoForTwo => {
                    said("the last set went two reps over the goal in two sessions running")
                }
                Evidence::AllSetsDone => {
                    said("all sets were done as asked, no harder than aimed at")
                }
                Evidence::TwoOverInAllSets => said("all sets went two reps over the goal"),
                Evidence::RepsToSpare { rir } => say!(
                    "every set left {rir} reps or more, which is room for it",
                    rir
                ),
                Evidence::LiftedBefore { load: before, .. } => say!(
                    "{before} was lifted before the time off, and last time went as asked",
                    before = load(*before, unit)
                ),
                Evidence::EstimatedMax { value, percent } => say!(
                    "{percent}\u{a0}% of an estimated 1RM of {value} allows it",
                    percent,
                    value = load(*value, unit)
                ),
            };
            let by = match permille {
                Some(permille) => format!("{} ({})", load(*step, unit), percent(*permille)),
                None => load(*step, unit),
            };
            say!("Up by {by}: {evidence}.", by, evidence)
        }
        Reason::StepTooBig {
            next,
            permille,
            stretch_to,
            ..
        } => {
            let by = permille
                .map(|p| say!(", {percent} more", percent = percent(p)))
                .unwrap_or_default();
            say!(
                "The reps are there, but the next load is {next}{by}: a big step. First {stretch_to} reps in every set.",
                next = load(*next, unit),
                by,
                stretch_to
            )
        }
        Reason::ConfirmTop { .. } => said(
            "Top of the range reached. Show it once more, or say the reps left, and the load goes up.",
        ),
        Reason::AddReps { top, .. } => say!(
            "Same load, one more rep than last time, until every set reaches {top}.",
            top
        ),
        Reason::HeldAfterMiss { bottom, .. } => say!(
            "A set fell short of {bottom} last time. Same load once more.",
            bottom
        ),
        Reason::SteppedDown {
            bottom, percent, ..
        } => say!(
            "Sets fell short of {bottom} in two sessions running: down to about {percent}\u{a0}% to build up again.",
            bottom,
            percent
        ),
        Reason::HeldTooHard { rir, aim, .. } => say!(
            "Last time an early set left {rir} reps in reserve where {aim} were aimed at. Same load until it is easier.",
            rir,
            aim
        ),
        Reason::HeldSetsMissing { asked, .. } => say!(
            "Fewer than the {asked} sets asked for were done last time. Same load until all are.",
            asked
        ),
        Reason::OnAim { rir, .. } => say!(
            "It left {rir} reps in reserve, as aimed at. Same load; it goes up when more are left.",
            rir
        ),
        Reason::EffortUnsaid { .. } => said(
            "It was harder than aimed at before, and last time the reps left were not said. Same load; say them after each set.",
        ),
        Reason::EasedToAim { rir, aim, .. } => say!(
            "Only {rir} reps were left where {aim} were aimed at: down to a load that leaves them.",
            rir,
            aim
        ),
        Reason::KitChanged { .. } => {
            said("The kit does not make last time's load. Take the next easier one it makes.")
        }
        Reason::GoalChanged { was, .. } => say!(
            "The goal was {least}\u{2013}{most} reps before and is higher now, so the load is lighter.",
            least = was.0,
            most = was.1
        ),
        Reason::ReadyForHarder { step_up, .. } => {
            if step_up.is_empty() {
                said("The top is reached and there is no harder load. Add reps, or a set.")
            } else {
                said("The top is reached: a harder variant is due. Find it under Swap.")
            }
        }
        Reason::ReadyForEasier { .. } => said(
            "Sets fell short twice and there is no easier load. Find an easier variant under Swap.",
        ),
        Reason::Layoff { days, percent, .. } => {
            let days = i32::try_from(*days).unwrap_or(i32::MAX);
            say!(
                "Last done {when}: back in at about {percent}\u{a0}%.",
                when = ago(days),
                percent
            )
        }
        Reason::Deload { percent, .. } => say!(
            "A deload: about {percent}\u{a0}% and well short of hard.",
            percent
        ),
        Reason::HeldForDiscomfort { .. } => {
            said("It hurt a little last time, so the load does not rise.")
        }
        Reason::SteppedDownForPain { percent, .. } => say!(
            "It was painful last time: at most {percent}\u{a0}%. If pain stays, see a doctor or physiotherapist.",
            percent
        ),
        Reason::Doubtful {
            load: doubted,
            before,
            ..
        } => say!(
            "An entry of {load} after {before} looks like a slip and is left out. Amend it in the log if it is one.",
            load = load(*doubted, unit),
            before = load(*before, unit)
        ),
    }
}

/// Why a lighter week is proposed.
#[must_use]
pub fn deload(reason: &DeloadReason, name_of: impl Fn(&ExerciseId) -> Text) -> String {
    let (sign, exercises) = match reason {
        DeloadReason::Block => return tr(words::LIGHTER_IN_BLOCK).to_owned(),
        DeloadReason::Planned { weeks } => {
            return say!("You have trained for {weeks} weeks without one.", weeks);
        }
        DeloadReason::Stalled { exercises } => ("Nothing new in three weeks", exercises),
        DeloadReason::Harder { exercises } => ("Harder than aimed at, twice running", exercises),
        DeloadReason::Sore { exercises } => ("Noted as hurting in the last two weeks", exercises),
    };
    let names: Vec<_> = exercises.iter().map(name_of).collect();
    format!("{}: {}.", tr(sign), names.join(", "))
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
        say!("Trains {prime}", prime)
    } else {
        say!(
            "Trains {prime}; helps {assist}",
            prime,
            assist = muscles(&exercise.assist)
        )
    }
}

/// Why an exercise stands in the plan.
#[must_use]
pub fn pick(reason: &PickReason) -> String {
    match reason {
        PickReason::CoversPattern(pattern) => {
            say!(
                "Covers the {pattern}, which every week should hold.",
                pattern = terms::pattern(*pattern)
            )
        }
        PickReason::Feeds {
            muscle,
            half_sets: h,
        } => say!(
            "Gives the {muscle} {sets} sets a week that it would lack.",
            muscle = terms::muscle(*muscle),
            sets = half_sets(*h)
        ),
        PickReason::Priority(muscle) => {
            say!(
                "You asked to bring up the {muscle}.",
                muscle = terms::muscle(*muscle)
            )
        }
        PickReason::LeadsDay => {
            said("The day is about it, so it comes first, while you are fresh.")
        }
        PickReason::EasyToLearn => said("Little skill needed: safe to learn alone."),
        PickReason::BestWithKit => said("The best for this place that your kit allows."),
        PickReason::SavesTime => said("Quick to set up for what it gives."),
    }
}

/// What one limit costs.
#[must_use]
pub fn relief(relief: &Relief, name_of: impl Fn(&ExerciseId) -> Text) -> String {
    let mut text = gain(relief, name_of);
    if let Some(note) = relief.mends.first() {
        text += &say!(" It mends this: {note}", note = plan_note(note));
    }
    text
}

/// What the week would gain without a limit.
fn gain(relief: &Relief, name_of: impl Fn(&ExerciseId) -> Text) -> String {
    let mut text = match &relief.limit {
        Limit::Minutes(more) => say!("{minutes} more minutes a session", minutes = more),
        Limit::Day(day) => say!("With a session on {weekday}", weekday = weekday(*day)),
        Limit::Kit(thing) => say!("With {thing}", thing = terms::equipment(*thing)),
        Limit::Excluded(these) => match these.as_slice() {
            [one] => say!("With {exercise} allowed again", exercise = name_of(one)),
            _ => said("With nothing ruled out"),
        },
        Limit::Disliked => said("With what you dislike"),
    };
    text += ": ";
    text += &match usize::try_from(relief.sets) {
        Ok(more) if more > 0 => say!("{sets} more a week", sets = words::sets(more)),
        _ => said("the sets better placed"),
    };
    if let Some(muscle) = relief.most {
        text += &say!(", most for {muscle}", muscle = terms::muscle(muscle));
    }
    text += ".";
    text
}

/// Something the week lacks, and each limit that mends it, or why none does.
#[must_use]
pub fn shortfall(
    shortfall: &Shortfall,
    name_of: impl Fn(&ExerciseId) -> Text,
) -> (String, Vec<String>) {
    let lack = finding(&shortfall.lack, |_| String::new());
    let mut ways: Vec<String> = shortfall
        .mended_by
        .iter()
        .map(|found| gain(found, &name_of))
        .collect();
    if shortfall.is_for_doctor {
        ways.push(said(
            "Your joint limits rule out what would serve. Whether they can give way is for a doctor to say.",
        ));
    } else if ways.is_empty() {
        ways.push(said("No single limit that was tried mends it."));
    }
    (lack, ways)
}

/// What the plan could not do.
#[must_use]
pub fn plan_note(note: &PlanNote) -> String {
    match note {
        PlanNote::PatternNotCovered(pattern) => say!(
            "No {pattern} fits your kit and limits. More equipment or fewer limits would bring one.",
            pattern = terms::pattern(*pattern)
        ),
        PlanNote::SlotDropped { day, patterns } => say!(
            "Day {day}: no time for {pattern}. More minutes would bring it back.",
            day = day + 1,
            pattern = patterns
                .first()
                .map_or_else(|| tr("a further exercise"), |&p| terms::pattern(p))
        ),
        PlanNote::BelowFloor {
            muscle,
            half_sets: h,
            floor,
        } => say!(
            "{muscle}: {sets} sets a week; at least {floor} are advised. More minutes or a priority would help.",
            muscle = capital(terms::muscle(*muscle)),
            sets = half_sets(*h),
            floor = half_sets(*floor)
        ),
        PlanNote::OverTime { day, seconds } => {
            say!(
                "Day {day} runs about {time} over your minutes.",
                day = day + 1,
                time = clock(*seconds)
            )
        }
        PlanNote::ShortRecovery { day, muscle } => say!(
            "Day {day} and the next both train the {muscle} hard, with little rest between.",
            day = day + 1,
            muscle = terms::muscle(*muscle)
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
        } => say!(
            "{muscle}: {sets} sets a week; at least {floor} are advised.",
            muscle = capital(terms::muscle(*muscle)),
            sets = half_sets(*h),
            floor = half_sets(*floor)
        ),
        Finding::AboveCeiling {
            muscle,
            half_sets: h,
            ceiling,
        } => say!(
            "{muscle}: {sets} sets a week; more than {ceiling} rarely pays.",
            muscle = capital(terms::muscle(*muscle)),
            sets = half_sets(*h),
            ceiling = half_sets(*ceiling)
        ),
        Finding::LargeDose {
            day: d,
            muscle,
            half_sets: h,
            cap,
        } => say!(
            "Day {day} gives the {muscle} {sets} sets at once; past about {cap} more brings little. Another day could take some.",
            day = day(*d),
            muscle = terms::muscle(*muscle),
            sets = half_sets(*h),
            cap = half_sets(*cap)
        ),
        Finding::OverTime { day: d, seconds } => {
            say!(
                "Day {day} runs about {time} over your minutes.",
                day = day(*d),
                time = clock(*seconds)
            )
        }
        Finding::EmptyDay { day: d } => {
            say!("Day {day} holds no exercise. Add one.", day = day(*d))
        }
        Finding::PushPull(balance) => say!(
            "Pushing has {first} sets a week, pulling {second}: far apart.",
            first = half_sets(balance.first),
            second = half_sets(balance.second)
        ),
        Finding::FrontBackThigh(balance) => say!(
            "The front of the thigh has {first} sets a week, the back {second}: far apart.",
            first = half_sets(balance.first),
            second = half_sets(balance.second)
        ),
        Finding::ShortRecovery { day: d, muscle } => say!(
            "Day {day} and the next both train the {muscle} hard, with little rest between.",
            day = day(*d),
            muscle = terms::muscle(*muscle)
        ),
        Finding::MissingPattern { basic } => {
            let patterns = BASICS.get(usize::from(*basic)).copied().unwrap_or_default();
            let names = patterns
                .iter()
                .map(|&p| terms::pattern(p))
                .collect::<Vec<_>>()
                .join(tr(" or "));
            say!("The week holds no {names}.", names)
        }
        Finding::NotAllowed { day: d, key } => say!(
            "Day {day}: {name} does not fit your kit, exclusions or sore joints. Swap it.",
            day = day(*d),
            name = name_of(*key)
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
        said("Keeps the week's sets as they are")
    } else {
        say!("Week: {changes} sets", changes = parts.join(", "))
    }
}

/// How much it hurt.
#[must_use]
pub fn discomfort(discomfort: Discomfort) -> &'static str {
    tr(match discomfort {
        Discomfort::Mild => "hurt a little",
        Discomfort::Painful => "painful",
    })
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
        return said(words::BARE_BAR);
    }
    let plates = list
        .iter()
        .flat_map(|&(plate, count)| {
            std::iter::repeat_n(number(&plate.show(unit)), usize::from(count))
        })
        .collect::<Vec<_>>()
        .join(" + ");
    if is_each_side {
        say!(
            "{plates} on each side",
            plates = format!("{plates} {}", unit.symbol())
        )
    } else {
        format!("{plates} {}", unit.symbol())
    }
}
