//! What a review found, in sentences. Each says what it rests on.

use super::{dates, language::said, reasons, terms};
use crate::say;
use weekloom_engine::calendar::Day;
use weekloom_engine::estimate::Confidence;
use weekloom_engine::review::{Cause, Finding, Judgement};

/// A finding, and under it what it rests on and what may be behind it.
#[must_use]
pub fn finding(found: &Finding, name: &str, today: Day) -> (String, Vec<String>) {
    match found {
        Finding::Hurt {
            noted,
            painful,
            last,
            ..
        } => (
            say!("{name} hurt.", name),
            vec![say!(
                "Days noted: {noted}, painful ones among them: {painful}, the last on {last}. Where pain stays or is sharp, see a doctor or physiotherapist.",
                noted,
                painful,
                last = dates::date(*last, today)
            )],
        ),
        Finding::Rose { judgement, .. } => (say!("{name} rose.", name), vec![rests_on(judgement)]),
        Finding::Stalled {
            judgement,
            causes,
            confidence,
            ..
        } => {
            let mut lines = vec![rests_on(judgement)];
            lines.extend(causes.iter().map(cause));
            if causes.is_empty() {
                lines.push(said(
                    "Nothing in the logs says why. Sleep, food and strain are not in them.",
                ));
            }
            if *confidence == Confidence::Low {
                lines.push(said("To be taken with caution: the evidence is thin."));
            }
            (say!("{name} stands still.", name), lines)
        }
        Finding::Missed { done, planned } => (
            say!(
                "{done} of {planned} planned sessions were done.",
                done,
                planned
            ),
            vec![said(
                "Fewer days that are kept do more than many that are not.",
            )],
        ),
        Finding::Short {
            muscle,
            done,
            planned,
        } => (
            say!(
                "{muscle}: fewer sets than planned.",
                muscle = terms::muscle(*muscle)
            ),
            vec![say!(
                "{done} in an average week, {planned} planned.",
                done = reasons::half_sets(*done),
                planned = reasons::half_sets(*planned)
            )],
        ),
    }
}

fn rests_on(judgement: &Judgement) -> String {
    say!(
        "{change} over {weeks} weeks, on {days} days with a value; a change below {least} could be scatter.",
        change = change(judgement.permille),
        weeks = judgement.weeks,
        days = judgement.days,
        least = scatter(judgement.detectable)
    )
}

/// A change of so many tenths of a percent, with its sign.
#[must_use]
pub fn change(permille: i64) -> String {
    format!("{}\u{a0}%", tenths(permille))
}

/// The smallest change that is no scatter, of so many tenths of a percent.
#[must_use]
pub fn scatter(permille: i64) -> String {
    format!("{}\u{a0}%", (permille + 5) / 10)
}

/// Tenths as whole numbers, to the nearest.
fn tenths(permille: i64) -> String {
    let nearest = (permille.abs() + 5) / 10;
    match permille {
        ..-4 => format!("\u{2212}{nearest}"),
        5.. => format!("+{nearest}"),
        _ => "0".to_owned(),
    }
}

/// What may be behind a stall.
#[must_use]
pub fn cause(cause: &Cause) -> String {
    match cause {
        Cause::Adherence { done, planned } => say!(
            "Perhaps because sessions were missed: {done} of {planned} done.",
            done,
            planned
        ),
        Cause::FewSets { muscle, half_sets } => say!(
            "Perhaps too few sets: {muscle} had {sets} in an average week.",
            muscle = terms::muscle(*muscle),
            sets = reasons::half_sets(*half_sets)
        ),
        Cause::LittleRest { taken, asked } => say!(
            "Perhaps too little rest: {taken} s on average, {asked} s were asked for.",
            taken,
            asked
        ),
        Cause::TooEasy { tenths } => say!(
            "Perhaps too easy: about {reps} reps more were left than aimed at.",
            reps = (tenths + 5) / 10
        ),
        Cause::Late { before, of } => say!(
            "Perhaps too late in the session: after {before} of {of} sets.",
            before,
            of
        ),
    }
}

/// The effort said against the effort aimed at, tenths of a rep.
#[must_use]
pub fn effort(tenths: i32) -> String {
    let reps = (tenths.abs() + 5) / 10;
    match tenths {
        -14..-4 => said("Effort: about a rep harder than aimed at."),
        5..15 => said("Effort: about a rep easier than aimed at."),
        ..-14 => say!("Effort: about {reps} reps harder than aimed at.", reps),
        15.. => say!("Effort: about {reps} reps easier than aimed at.", reps),
        _ => said("Effort: as aimed at."),
    }
}
