//! What would mend a finding: for each the one edit that helps most.
//!
//! Start at [`mends`]. Every edit a coach might try is made on a copy of the
//! plan, and the copy audited afresh: a mend is offered only if its finding is
//! gone or smaller and the week as a whole is better for it. This module never
//! changes a plan.

use super::{Audit, Finding, Severity, audit};
use crate::catalogue::{Catalogue, Exercise, ExerciseId, HalfSets, Muscle};
use crate::order;
use crate::person::{Person, Status};
use crate::plan::objective::{BASICS, SETS};
use crate::plan::staples::standing;
use crate::plan::{Edit, Plan, alternatives, is_allowed};

/// An edit that mends a finding, and what else it does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mend {
    /// The edit.
    pub edit: Edit,
    /// Weekly half sets gained, by muscle.
    pub gained: Vec<(Muscle, HalfSets)>,
    /// Weekly half sets lost, by muscle.
    pub lost: Vec<(Muscle, HalfSets)>,
    /// Seconds each day that changes gets longer; negative when shorter. Empty
    /// when the edit takes a day out.
    pub seconds: Vec<(u8, i64)>,
    /// Whether the finding is gone with it, or only smaller.
    pub is_whole: bool,
}

/// Exercises tried for what a week lacks (the project's own judgement).
const TRIED: usize = 3;

/// For each finding of the audit, in its order, the edit that mends it best;
/// `None` where no single edit makes it smaller without making the week worse.
#[must_use]
pub fn mends(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    before: &Audit,
) -> Vec<Option<Mend>> {
    let findings = &before.findings;
    let mut best: Vec<Option<(u32, Edit, Audit)>> = findings.iter().map(|_| None).collect();
    if findings.is_empty() {
        return Vec::new();
    }
    let burden_before = burden(before);
    for edit in attempts(catalogue, person, plan, findings) {
        let Ok(edited) = plan.edit(catalogue, person, &edit) else {
            continue;
        };
        let after = audit(catalogue, person, &edited);
        let burden = burden(&after);
        if burden >= burden_before {
            continue;
        }
        let change = moved(before, &after) + price(&edit);
        for (finding, best) in findings.iter().zip(&mut best) {
            let (was, left) = (left_of(finding, before), left_of(finding, &after));
            let helps =
                left < was && (!is_of_days(&edit) || matches!(finding, Finding::EmptyDay { .. }));
            if !helps {
                continue;
            }
            // The smallest change that mends it wholly and harms nothing else.
            let (was, left) = (weight(finding, was), weight(finding, left));
            let harm = (burden + was).saturating_sub(burden_before + left);
            let price = 2 * (left + harm) + change;
            if best.as_ref().is_none_or(|(least, ..)| price < *least) {
                *best = Some((price, edit.clone(), after.clone()));
            }
        }
    }
    findings
        .iter()
        .zip(best)
        .map(|(finding, best)| {
            let (_, edit, after) = best?;
            Some(compare(finding, edit, before, &after))
        })
        .collect()
}

fn compare(finding: &Finding, edit: Edit, before: &Audit, after: &Audit) -> Mend {
    let (mut gained, mut lost) = (Vec::new(), Vec::new());
    for (was, now) in before.muscles.iter().zip(&after.muscles) {
        if now.half_sets > was.half_sets {
            gained.push((now.muscle, now.half_sets - was.half_sets));
        } else if now.half_sets < was.half_sets {
            lost.push((now.muscle, was.half_sets - now.half_sets));
        }
    }
    let mut seconds = Vec::new();
    if !is_of_days(&edit) {
        for (day, (was, now)) in (0..).zip(before.days.iter().zip(&after.days)) {
            if was.seconds != now.seconds {
                seconds.push((day, i64::from(now.seconds) - i64::from(was.seconds)));
            }
        }
    }
    Mend {
        edit,
        gained,
        lost,
        seconds,
        is_whole: left_of(finding, after) == 0,
    }
}

/// Half sets by which the muscles' weekly sets differ.
fn moved(before: &Audit, after: &Audit) -> u32 {
    let pairs = before.muscles.iter().zip(&after.muscles);
    pairs.map(|(a, b)| a.half_sets.abs_diff(b.half_sets)).sum()
}

/// Whether indices of days mean other days after the edit.
const fn is_of_days(edit: &Edit) -> bool {
    matches!(
        edit,
        Edit::AddDay | Edit::RemoveDay { .. } | Edit::MoveDay { .. }
    )
}

/// How much of a finding an audit still holds: half sets or seconds too many
/// or too few, or how often it is there.
#[must_use]
pub fn left_of(finding: &Finding, audit: &Audit) -> u32 {
    let same = |other: &&Finding| match (finding, *other) {
        (Finding::BelowFloor { muscle: a, .. }, Finding::BelowFloor { muscle: b, .. })
        | (Finding::AboveCeiling { muscle: a, .. }, Finding::AboveCeiling { muscle: b, .. }) => {
            a == b
        }
        (
            Finding::LargeDose { day, muscle, .. },
            Finding::LargeDose {
                day: other,
                muscle: b,
                ..
            },
        ) => (day, muscle) == (other, b),
        (Finding::OverTime { day: a, .. }, Finding::OverTime { day: b, .. }) => a == b,
        (Finding::PushPull(_), Finding::PushPull(_))
        | (Finding::FrontBackThigh(_), Finding::FrontBackThigh(_))
        // Fewer empty days are better, whichever they are.
        | (Finding::EmptyDay { .. }, Finding::EmptyDay { .. }) => true,
        // An exercise that is not allowed is no better on another day.
        (Finding::NotAllowed { key: a, .. }, Finding::NotAllowed { key: b, .. }) => a == b,
        (one, other) => one == other,
    };
    audit.findings.iter().filter(same).map(size).sum()
}

/// How large a finding is, in its own unit.
fn size(finding: &Finding) -> u32 {
    match finding {
        Finding::BelowFloor {
            half_sets, floor, ..
        } => floor - half_sets,
        Finding::AboveCeiling {
            half_sets, ceiling, ..
        } => half_sets - ceiling,
        Finding::LargeDose { half_sets, cap, .. } => half_sets - cap,
        Finding::OverTime { seconds, .. } => *seconds,
        Finding::PushPull(balance) | Finding::FrontBackThigh(balance) => {
            let (less, more) = if balance.first < balance.second {
                (balance.first, balance.second)
            } else {
                (balance.second, balance.first)
            };
            (2 * more).saturating_sub(3 * less)
        }
        Finding::EmptyDay { .. }
        | Finding::ShortRecovery { .. }
        | Finding::MissingPattern { .. }
        | Finding::NotAllowed { .. } => 1,
    }
}

/// How much is off in a week, all findings together.
fn burden(audit: &Audit) -> u32 {
    let of = |finding: &Finding| weight(finding, size(finding));
    audit.findings.iter().map(of).sum()
}

/// How much so much of a finding matters (the project's own judgement: a half
/// set weighs as much as a minute, a breach as much as two warnings or six
/// things worth knowing).
fn weight(finding: &Finding, size: u32) -> u32 {
    if size == 0 {
        return 0;
    }
    let share = match finding.severity() {
        Severity::Notice => 1,
        Severity::Warning => 3,
        Severity::Breach => 6,
    };
    let size = match finding {
        Finding::OverTime { .. } => size.div_ceil(60),
        // Each half set shifts the two sides by two or three.
        Finding::PushPull(_) | Finding::FrontBackThigh(_) => size.div_ceil(2),
        Finding::EmptyDay { .. } | Finding::MissingPattern { .. } => 4 * size,
        _ => size,
    };
    share * (4 + size)
}

/// What an edit costs beside its effect: the smaller change is the better one
/// (the project's own judgement).
const fn price(edit: &Edit) -> u32 {
    match edit {
        Edit::Sets { .. } => 0,
        Edit::Superset { .. } => 2,
        Edit::Move { .. } => 3,
        Edit::Swap { .. } | Edit::RemoveDay { .. } => 5,
        // Somebody wanted it there.
        Edit::Remove { .. } => 24,
        _ => 6,
    }
}

/// Every edit worth trying against the findings.
fn attempts(
    catalogue: &Catalogue,
    person: &Person,
    plan: &Plan,
    findings: &[Finding],
) -> Vec<Edit> {
    let mut edits = Vec::new();
    let is_late = |day: usize| {
        let over =
            |f: &Finding| matches!(*f, Finding::OverTime { day: d, .. } if usize::from(d) == day);
        findings.iter().any(over)
    };
    for (day, planned) in plan.days.iter().enumerate() {
        if planned.items.is_empty() {
            edits.push(Edit::RemoveDay { day });
        }
        for item in &planned.items {
            let key = item.key;
            let sets = item.prescription.sets;
            for fitting in SETS.0..=SETS.1 {
                if fitting != sets {
                    edits.push(Edit::Sets {
                        day,
                        key,
                        sets: fitting,
                    });
                }
            }
            edits.push(Edit::Remove { day, key });
            for (to_day, other) in plan.days.iter().enumerate() {
                if to_day != day {
                    edits.push(Edit::Move {
                        day,
                        key,
                        to_day,
                        place: other.items.len(),
                    });
                }
            }
            if is_late(day) && item.superset.is_none() && can_share_rest(catalogue, plan, day, key)
            {
                edits.push(Edit::Superset { day, key });
            }
            let is_ruled_out =
                |f: &Finding| matches!(f, Finding::NotAllowed { key: k, .. } if *k == key);
            if findings.iter().any(is_ruled_out) {
                for other in alternatives(catalogue, person, plan, day, key)
                    .into_iter()
                    .take(TRIED)
                {
                    edits.push(Edit::Swap {
                        day,
                        key,
                        exercise: other.exercise,
                    });
                }
            }
        }
    }
    for exercise in wanted(catalogue, person, findings) {
        for day in 0..plan.days.len() {
            for sets in [SETS.0, SETS.0 + 1] {
                edits.push(Edit::Add {
                    day,
                    exercise: exercise.clone(),
                    sets,
                });
            }
        }
    }
    edits
}

/// Whether the item and the next may be done in turn: light, quick to set up,
/// and for other muscles (common practice, no source).
fn can_share_rest(catalogue: &Catalogue, plan: &Plan, day: usize, key: u16) -> bool {
    let items = &plan.days[day].items;
    let at = items.iter().position(|item| item.key == key);
    let pair = at.and_then(|at| {
        let next = items.get(at + 1).filter(|next| next.superset.is_none())?;
        let of = |id: &ExerciseId| catalogue.get(id);
        Some((
            of(&items[at].prescription.exercise)?,
            of(&next.prescription.exercise)?,
        ))
    });
    pair.is_some_and(|(a, b)| {
        let is_light = |e: &Exercise| e.strain <= 1 && e.setup_s <= 45;
        let shares = |&m: &Muscle| a.half_sets_for(m) > 0 && b.half_sets_for(m) > 0;
        is_light(a) && is_light(b) && !Muscle::ALL.iter().any(shares)
    })
}

/// Exercises that would bring what the week lacks, the most usual first.
fn wanted(catalogue: &Catalogue, person: &Person, findings: &[Finding]) -> Vec<ExerciseId> {
    let mut found: Vec<ExerciseId> = Vec::new();
    for finding in findings {
        let brings = |e: &Exercise| match finding {
            Finding::BelowFloor { muscle, .. } => e.prime.first() == Some(muscle),
            Finding::MissingPattern { basic } => BASICS[usize::from(*basic)].contains(&e.pattern),
            Finding::PushPull(balance) => {
                let lacking = if balance.first < balance.second {
                    Muscle::Chest
                } else {
                    Muscle::UpperBack
                };
                e.prime.first() == Some(&lacking)
            }
            Finding::FrontBackThigh(balance) => {
                let lacking = if balance.first < balance.second {
                    Muscle::Quadriceps
                } else {
                    Muscle::Hamstrings
                };
                e.prime.first() == Some(&lacking)
            }
            Finding::EmptyDay { .. } => e.strain <= 1,
            _ => false,
        };
        let mut fitting: Vec<&Exercise> = catalogue
            .iter()
            .filter(|e| brings(e) && is_allowed(e, person))
            .collect();
        order::sort_by_key(&mut fitting, |e| (reluctance(e, person), &e.id));
        for exercise in fitting.into_iter().take(TRIED) {
            if !found.contains(&exercise.id) {
                found.push(exercise.id.clone());
            }
        }
    }
    found
}

/// How little a coach would reach for the exercise: unusual, disliked, or
/// above the person's skill.
fn reluctance(exercise: &Exercise, person: &Person) -> u32 {
    let is_learner = person.status == Status::Novice || person.is_older;
    let over_skill = is_learner && exercise.skill > 1;
    standing(&exercise.id, is_learner) as u32
        + 4 * u32::from(over_skill)
        + 8 * u32::from(person.disliked.contains(&exercise.id))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::plan_week;
    use crate::plan::tests::{Draw, person, random_edit};

    /// However a plan was edited: each mend offered can be made, makes its
    /// finding vanish or lessen, and leaves the week with less that is off.
    #[test]
    fn a_mend_mends_whatever_was_edited() {
        let catalogue = Catalogue::built_in();
        let mut draw = Draw(11);
        let (mut found, mut mended, mut whole) = (0, 0, 0);
        for _ in 0..12 {
            let person = draw.person(&catalogue);
            let mut plan = plan_week(&catalogue, &person).expect("plannable");
            for _ in 0..10 {
                let Some(edit) = random_edit(&mut draw, &catalogue, &plan) else {
                    continue;
                };
                let Ok(edited) = plan.edit(&catalogue, &person, &edit) else {
                    continue;
                };
                plan = edited;
                let before = audit(&catalogue, &person, &plan);
                let mends = mends(&catalogue, &person, &plan, &before);
                assert_eq!(mends.len(), before.findings.len());
                for (finding, mend) in before.findings.iter().zip(mends) {
                    found += 1;
                    let Some(mend) = mend else { continue };
                    mended += 1;
                    let better = plan
                        .edit(&catalogue, &person, &mend.edit)
                        .expect("a mend can be made");
                    let after = audit(&catalogue, &person, &better);
                    let left = left_of(finding, &after);
                    assert!(
                        left < left_of(finding, &before),
                        "{finding:?} by {:?}",
                        mend.edit
                    );
                    assert_eq!(mend.is_whole, left == 0);
                    whole += u32::from(mend.is_whole);
                    assert!(burden(&after) < burden(&before));
                    for (day, seconds) in mend.seconds {
                        let day = usize::from(day);
                        assert_eq!(
                            i64::from(before.days[day].seconds) + seconds,
                            i64::from(after.days[day].seconds)
                        );
                    }
                }
            }
        }
        assert!(found > 300, "{found}");
        // Some need more than one edit, some kits hold nothing that helps.
        assert!(mended * 10 > found * 7, "{mended} of {found}");
        assert!(whole * 2 > mended, "{whole} of {mended}");
    }

    /// Mending again and again comes to an end, at a week with less wrong.
    #[test]
    fn tapping_every_mend_mends_the_week() {
        let catalogue = Catalogue::built_in();
        let person = person();
        let mut plan = plan_week(&catalogue, &person).expect("plannable");
        for day in 0..plan.days.len() {
            for _ in 0..3 {
                let key = plan.days[day].items[0].key;
                let edit = Edit::Remove { day, key };
                plan = plan.edit(&catalogue, &person, &edit).expect("taken out");
            }
        }
        let mut taps = 0;
        loop {
            let audit = audit(&catalogue, &person, &plan);
            let mends = mends(&catalogue, &person, &plan, &audit);
            let Some(mend) = mends.into_iter().flatten().next() else {
                assert_eq!(audit.findings, [], "{:?}", audit.findings);
                break;
            };
            plan = plan
                .edit(&catalogue, &person, &mend.edit)
                .expect("a mend can be made");
            taps += 1;
            assert!(taps < 60, "it ends");
        }
        assert!(taps > 0);
    }

    /// Where sets were added too many, sets are what is taken off again.
    #[test]
    fn the_smallest_change_is_offered() {
        let catalogue = Catalogue::built_in();
        let person = person();
        let plan = plan_week(&catalogue, &person).expect("plannable");
        let mut tried = 0;
        for (day, planned) in plan.days.iter().enumerate() {
            for item in &planned.items {
                let edit = Edit::Sets {
                    day,
                    key: item.key,
                    sets: 10,
                };
                let edited = plan.edit(&catalogue, &person, &edit).expect("ten sets");
                let before = audit(&catalogue, &person, &edited);
                let mends = mends(&catalogue, &person, &edited, &before);
                let gravest = mends.into_iter().next().flatten();
                let edit = gravest.expect("fewer sets help").edit;
                tried += 1;
                assert!(
                    matches!(edit, Edit::Sets { key, .. } if key == item.key),
                    "{edit:?} of {:?}",
                    before.findings
                );
            }
        }
        assert!(tried > 15, "{tried}");
    }

    #[test]
    fn nothing_off_needs_no_mend() {
        let catalogue = Catalogue::built_in();
        let person = person();
        let plan = plan_week(&catalogue, &person).expect("plannable");
        let audit = audit(&catalogue, &person, &plan);
        assert_eq!(mends(&catalogue, &person, &plan, &audit), []);
    }
}
