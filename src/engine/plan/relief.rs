//! What each limit costs: what the week would gain if one of them gave way.
//!
//! Start at [`Freer::reliefs`], and at [`Freer::shortfalls`] for what the week cannot meet and which
//! limit would have to give way for it. Each limit that may bind is relaxed and the week
//! planned anew, so that what is promised is what the person would get. That takes
//! a plan for every limit: ask for it when somebody wants to know. Joint limits
//! are never among them: what a joint allows is for a doctor to say.

use super::objective::BASICS;
use super::{Plan, PlanError, PlanNote, Solved, is_allowed, solve_week, weekly_sets};
use crate::audit::{Finding, audit};
use crate::bounds;
use crate::calendar::Weekday;
use crate::catalogue::{Catalogue, Equipment, Exercise, ExerciseId, Muscle};
use crate::order::{Set, sort_by_key};
use crate::person::Person;

/// Minutes a session that are tried (definition).
pub const MINUTES_MORE: u16 = 10;
/// Most steps of [`MINUTES_MORE`] that are tried to mend a shortfall (the project's
/// own judgement: who trains half an hour will not stay for two).
const STEPS: u16 = 6;
/// Things to train with, and exercises ruled out, that are tried at most (the
/// project's own judgement).
const THINGS: usize = 3;
/// Share of a week's worth, in thousandths, under which a gain is not told (the
/// project's own judgement: less than the search itself may miss).
const TELLING: i64 = 10;

/// A limit that might give way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Limit {
    /// So many more minutes a session.
    Minutes(u16),
    /// One more training day a week, this one, on the usual split for so many days.
    Day(Weekday),
    /// One more thing to train with.
    Kit(Equipment),
    /// Exercises that were ruled out: these of them. [`Freer::reliefs`] lifts all of them at
    /// once, [`Freer::shortfalls`] one at a time too.
    Excluded(Set<ExerciseId>),
    /// Exercises that are disliked, all of them.
    Disliked,
}

impl Limit {
    /// The person with this limit relaxed, all else the same.
    #[must_use]
    pub fn relax(&self, person: &Person) -> Person {
        let mut freer = person.clone();
        match self {
            Self::Minutes(more) => freer.minutes = freer.minutes.saturating_add(*more),
            Self::Day(weekday) => {
                freer.days.push(*weekday);
                crate::order::sort(&mut freer.days);
                freer.split = None;
            }
            Self::Kit(thing) => {
                freer.kit.equipment.insert(*thing);
            }
            Self::Excluded(lifted) => freer.excluded.retain(|id| !lifted.contains(id)),
            Self::Disliked => freer.disliked = Set::new(),
        }
        freer
    }
}

/// What a limit costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Relief {
    /// The limit.
    pub limit: Limit,
    /// Points the week would be worth more ([`super::objective::MILLI`]).
    pub points: i64,
    /// Working sets a week that it would add; below nought where fewer do more.
    pub sets: i32,
    /// The muscle that would gain most half sets, if any would gain.
    pub most: Option<Muscle>,
    /// What the week could not meet and then would.
    pub mends: Vec<PlanNote>,
}

/// Something that every week should hold and this one does not, and what mends it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shortfall {
    /// A basic pattern left out, a muscle below its floor or a day without exercises.
    pub lack: Finding,
    /// Limits that mend it, each alone, with what each buys: of the minutes the
    /// fewest that do. Empty where no single limit that was tried mends it.
    pub mended_by: Vec<Relief>,
    /// Whether joint limits rule out every exercise that would serve. None is ever
    /// offered: what a joint allows is for a doctor to say.
    pub is_for_doctor: bool,
}

/// A person's week and what it would be if a limit gave way, each planned once.
pub struct Freer<'a> {
    catalogue: &'a Catalogue,
    person: &'a Person,
    now: Solved,
    relaxed: Vec<(Limit, Solved)>,
}

impl<'a> Freer<'a> {
    /// Plans the week as it is.
    ///
    /// # Errors
    /// As [`super::plan_week`].
    pub fn new(catalogue: &'a Catalogue, person: &'a Person) -> Result<Self, PlanError> {
        Ok(Self {
            catalogue,
            person,
            now: solve_week(catalogue, person)?,
            relaxed: Vec::new(),
        })
    }

    /// What a limit would buy, and the week it would buy.
    fn bought(&mut self, limit: &Limit) -> Result<(Relief, &Plan), PlanError> {
        let known = self.relaxed.iter().position(|(other, _)| other == limit);
        let at = match known {
            Some(at) => at,
            None => {
                let then = solve_week(self.catalogue, &limit.relax(self.person))?;
                self.relaxed.push((limit.clone(), then));
                self.relaxed.len() - 1
            }
        };
        let then = &self.relaxed[at].1;
        let relief = bought(self.catalogue, limit.clone(), &self.now, then);
        Ok((relief, &then.plan))
    }

    /// What each limit of this person costs, the dearest first; those that bind alone.
    ///
    /// # Errors
    /// As [`super::plan_week`].
    pub fn reliefs(&mut self) -> Result<Vec<Relief>, PlanError> {
        let lacks = lacks(self.catalogue, self.person, &self.now.plan);
        let telling = self.now.objective.abs() * TELLING / 1000;
        let mut found = Vec::new();
        for limit in limits(self.catalogue, self.person, &lacks) {
            let (relief, _) = self.bought(&limit)?;
            if relief.points > 0 && (relief.points >= telling || !relief.mends.is_empty()) {
                found.push(relief);
            }
        }
        sort_by_key(&mut found, |relief| -relief.points);
        Ok(found)
    }

    /// What the person's week lacks, each with the limits that mend it: every such
    /// claim is a week planned anew with that limit relaxed.
    ///
    /// # Errors
    /// As [`super::plan_week`].
    pub fn shortfalls(&mut self) -> Result<Vec<Shortfall>, PlanError> {
        let (catalogue, person) = (self.catalogue, self.person);
        let lacks = lacks(catalogue, person, &self.now.plan);
        if lacks.is_empty() {
            return Ok(Vec::new());
        }
        let mut tried = limits(catalogue, person, &lacks);
        for lack in &lacks {
            let things = wanted(catalogue, person, std::slice::from_ref(lack));
            let things = things.into_iter().map(Limit::Kit);
            for limit in things.chain(ruled_out(catalogue, person, lack)) {
                if !tried.contains(&limit) {
                    tried.push(limit);
                }
            }
        }
        let more = (2..=STEPS).map(|steps| Limit::Minutes(steps * MINUTES_MORE));
        tried.extend(more.filter(|limit| can_last(limit.relax(person).minutes)));
        let mut found: Vec<Shortfall> = lacks
            .into_iter()
            .map(|lack| Shortfall {
                mended_by: Vec::new(),
                is_for_doctor: is_for_doctor(catalogue, person, &lack),
                lack,
            })
            .collect();
        let is_minutes = |relief: &Relief| matches!(relief.limit, Limit::Minutes(_));
        for limit in tried {
            let has_all = found.iter().all(|s| s.mended_by.iter().any(is_minutes));
            if has_all && matches!(limit, Limit::Minutes(_)) {
                continue;
            }
            let (relief, then) = self.bought(&limit)?;
            let left = self::lacks(catalogue, &limit.relax(person), then);
            for shortfall in &mut found {
                let has_fewer = is_minutes(&relief) && shortfall.mended_by.iter().any(is_minutes);
                if !has_fewer && !left.iter().any(|other| is_same(&shortfall.lack, other)) {
                    shortfall.mended_by.push(relief.clone());
                }
            }
        }
        Ok(found)
    }
}

/// What every week should hold and this one does not.
fn lacks(catalogue: &Catalogue, person: &Person, plan: &Plan) -> Vec<Finding> {
    let mut found = audit(catalogue, person, plan).findings;
    found.retain(|finding| {
        matches!(
            finding,
            Finding::MissingPattern { .. } | Finding::BelowFloor { .. } | Finding::EmptyDay { .. }
        )
    });
    found
}

/// Whether two weeks lack the same thing, be it more or less of it.
fn is_same(one: &Finding, other: &Finding) -> bool {
    match (one, other) {
        (Finding::BelowFloor { muscle: a, .. }, Finding::BelowFloor { muscle: b, .. }) => a == b,
        // Another day empty is no better.
        (Finding::EmptyDay { .. }, Finding::EmptyDay { .. }) => true,
        _ => one == other,
    }
}

/// Whether an exercise would go towards what is lacking.
fn serves(exercise: &Exercise, lack: &Finding) -> bool {
    match lack {
        Finding::MissingPattern { basic } => {
            BASICS[usize::from(*basic)].contains(&exercise.pattern)
        }
        Finding::BelowFloor { muscle, .. } => exercise.prime.contains(muscle),
        _ => false,
    }
}

fn is_for_doctor(catalogue: &Catalogue, person: &Person, lack: &Finding) -> bool {
    let mut freer = person.clone();
    freer.joint_limits = Set::new();
    let serving = || catalogue.iter().filter(|exercise| serves(exercise, lack));
    !serving().any(|exercise| is_allowed(exercise, person))
        && serving().any(|exercise| is_allowed(exercise, &freer))
}

fn can_last(minutes: u16) -> bool {
    bounds::SESSION_MIN.check(i64::from(minutes)).is_ok()
}

/// The limits that may bind, each by one step.
fn limits(catalogue: &Catalogue, person: &Person, lacks: &[Finding]) -> Vec<Limit> {
    let mut found = Vec::new();
    if can_last(person.minutes + MINUTES_MORE) {
        found.push(Limit::Minutes(MINUTES_MORE));
    }
    found.extend(free_day(person).map(Limit::Day));
    found.extend(wanted(catalogue, person, lacks).into_iter().map(Limit::Kit));
    if !person.excluded.is_empty() {
        found.push(Limit::Excluded(person.excluded.clone()));
    }
    if !person.disliked.is_empty() {
        found.push(Limit::Disliked);
    }
    found
}

/// The free weekday that lies farthest from the training days, the earliest of those
/// alike (common practice, no source). None for a cycle of the person's own: a day
/// more turns it faster and changes none of its days.
fn free_day(person: &Person) -> Option<Weekday> {
    let is_own = |id: &super::SplitId| person.own_splits.iter().any(|own| own.split.id == *id);
    if person.split.as_ref().is_some_and(is_own) {
        return None;
    }
    // Days to the nearest training day, after and before.
    let gaps = |weekday: Weekday| {
        let to = |week: [Weekday; 7]| {
            let is_training = |day: &Weekday| person.days.contains(day);
            week.iter().position(is_training).unwrap_or(week.len())
        };
        let mut before = weekday.then_all();
        before[1..].reverse();
        (to(weekday.then_all()), to(before))
    };
    let mut best = None;
    for weekday in Weekday::ALL {
        let (after, before) = gaps(weekday);
        let gap = (after.min(before), after + before);
        if gap.0 > 0 && best.is_none_or(|(most, _)| gap > most) {
            best = Some((gap, weekday));
        }
    }
    best.map(|(_, weekday)| weekday)
}

/// The things that alone would open most exercises for what the week lacks: its
/// missing patterns and the muscles under their floors.
fn wanted(catalogue: &Catalogue, person: &Person, lacks: &[Finding]) -> Vec<Equipment> {
    let mut opened: Vec<(usize, Equipment)> = Vec::new();
    for &thing in Equipment::ALL {
        if person.kit.equipment.contains(&thing) {
            continue;
        }
        let freer = Limit::Kit(thing).relax(person);
        let opens = catalogue.iter().filter(|exercise| {
            lacks.iter().any(|lack| serves(exercise, lack))
                && is_allowed(exercise, &freer)
                && !is_allowed(exercise, person)
        });
        let count = opens.count();
        if count > 0 {
            opened.push((count, thing));
        }
    }
    sort_by_key(&mut opened, |&(count, _)| core::cmp::Reverse(count));
    opened.truncate(THINGS);
    opened.into_iter().map(|(_, thing)| thing).collect()
}

/// The first exercises ruled out that nothing else forbids and that would go towards
/// what is lacking, one at a time.
fn ruled_out(catalogue: &Catalogue, person: &Person, lack: &Finding) -> Vec<Limit> {
    let mut freer = person.clone();
    freer.excluded = Set::new();
    let found = catalogue.iter().filter(|exercise| {
        person.excluded.contains(&exercise.id)
            && serves(exercise, lack)
            && is_allowed(exercise, &freer)
    });
    let one = |exercise: &Exercise| Limit::Excluded([exercise.id.clone()].into_iter().collect());
    found.take(THINGS).map(one).collect()
}

/// What a relaxed limit changes about the week.
fn bought(catalogue: &Catalogue, limit: Limit, now: &Solved, then: &Solved) -> Relief {
    Relief {
        limit,
        points: then.objective - now.objective,
        sets: sets(&then.plan) - sets(&now.plan),
        most: most_gained(catalogue, &now.plan, &then.plan),
        mends: mended(&now.plan, &then.plan),
    }
}

fn sets(plan: &Plan) -> i32 {
    let items = plan.days.iter().flat_map(|day| &day.items);
    items.map(|item| i32::from(item.prescription.sets)).sum()
}

fn most_gained(catalogue: &Catalogue, now: &Plan, then: &Plan) -> Option<Muscle> {
    let (before, after) = (
        weekly_sets(catalogue, &now.days),
        weekly_sets(catalogue, &then.days),
    );
    let mut most = None;
    let mut gained = 0;
    for (&muscle, &half_sets) in after.iter() {
        let gain = half_sets.saturating_sub(before.get(&muscle).copied().unwrap_or(0));
        if gain > gained {
            (most, gained) = (Some(muscle), gain);
        }
    }
    most
}

/// Notes of a plan that another does not have in any form.
fn mended(now: &Plan, then: &Plan) -> Vec<PlanNote> {
    let is_left = |note: &PlanNote| {
        then.notes.iter().any(|other| match (note, other) {
            (PlanNote::BelowFloor { muscle: a, .. }, PlanNote::BelowFloor { muscle: b, .. }) => {
                a == b
            }
            (PlanNote::OverTime { day: a, .. }, PlanNote::OverTime { day: b, .. }) => a == b,
            _ => note == other,
        })
    };
    let notes = now.notes.iter().filter(|note| !is_left(note));
    notes.cloned().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Pattern;
    use crate::kit::Kit;

    /// Everything told is what planning anew with that limit relaxed gives.
    #[test]
    fn minutes_are_worth_what_the_longer_week_is() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        person.minutes = 30;
        let found = Freer::new(&catalogue, &person)
            .and_then(|mut freer| freer.reliefs())
            .expect("plannable");
        let minutes = Limit::Minutes(MINUTES_MORE);
        let relief = found.iter().find(|relief| relief.limit == minutes);
        let relief = relief.expect("half an hour binds");
        let now = solve_week(&catalogue, &person).expect("plannable");
        person.minutes += MINUTES_MORE;
        let then = solve_week(&catalogue, &person).expect("plannable");
        assert_eq!(relief.points, then.objective - now.objective);
        assert_eq!(relief.sets, sets(&then.plan) - sets(&now.plan));
        assert!(relief.sets > 0 && relief.most.is_some());
        assert!(found.is_sorted_by_key(|relief| -relief.points));
    }

    #[test]
    fn what_cannot_be_met_is_named_with_what_mends_it() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        person.kit = Kit::floor_only();
        let pulls = catalogue.iter().filter(|exercise| {
            exercise.pattern == Pattern::VerticalPull && is_allowed(exercise, &person)
        });
        person.excluded = pulls.map(|exercise| exercise.id.clone()).collect();
        let plan = solve_week(&catalogue, &person).expect("plannable").plan;
        let missing = &PlanNote::PatternNotCovered(Pattern::VerticalPull);
        assert!(plan.notes.contains(missing));
        let found = Freer::new(&catalogue, &person)
            .and_then(|mut freer| freer.reliefs())
            .expect("plannable");
        let mends = |relief: &Relief| {
            matches!(relief.limit, Limit::Kit(_)) && relief.mends.contains(missing)
        };
        assert!(found.iter().any(mends), "{found:?}");
    }

    #[test]
    fn what_does_not_bind_is_not_told() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        person.minutes = 180;
        person.days = Weekday::ALL.to_vec();
        person
            .disliked
            .insert(ExerciseId::new("burpee-that-is-not-there"));
        let found = Freer::new(&catalogue, &person)
            .and_then(|mut freer| freer.reliefs())
            .expect("plannable");
        assert_eq!(found, []);
    }

    /// A joint limit is never offered as a price.
    #[test]
    fn joints_are_no_limit_to_bargain_with() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        person.joint_limits = crate::catalogue::JointDemand::ALL.iter().copied().collect();
        let found = Freer::new(&catalogue, &person)
            .and_then(|mut freer| freer.shortfalls())
            .expect("plannable");
        let pull = found.iter().find(|s| s.lack == missing(5));
        let pull = pull.expect("each pull from above asks something of a joint");
        assert!(pull.is_for_doctor);
        assert_eq!(pull.mended_by, []);
        let now = solve_week(&catalogue, &person).expect("plannable").plan;
        let limits = limits(&catalogue, &person, &lacks(&catalogue, &person, &now));
        assert!(!limits.is_empty());
        for limit in limits {
            assert_eq!(limit.relax(&person).joint_limits, person.joint_limits);
        }
    }

    fn missing(basic: u8) -> Finding {
        Finding::MissingPattern { basic }
    }

    #[test]
    fn another_day_lies_farthest_from_the_others() {
        use Weekday::{Friday, Monday, Saturday, Sunday, Thursday, Tuesday, Wednesday};
        let table: [(&[Weekday], Option<Weekday>); 6] = [
            (&[Saturday], Some(Tuesday)),
            (&[Monday, Thursday], Some(Saturday)),
            (&[Monday, Wednesday, Friday], Some(Saturday)),
            (&[Monday, Tuesday, Thursday, Friday], Some(Saturday)),
            (
                &[Monday, Tuesday, Wednesday, Thursday, Friday, Saturday],
                Some(Sunday),
            ),
            (&Weekday::ALL, None),
        ];
        let mut person = crate::plan::tests::person();
        for (days, expected) in table {
            person.days = days.to_vec();
            assert_eq!(free_day(&person), expected, "{days:?}");
        }
    }

    /// A third day is worth what the three-day week is, on the split for three days.
    #[test]
    fn a_day_is_worth_what_the_week_with_it_is() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        person.days = vec![Weekday::Monday, Weekday::Thursday];
        person.minutes = 30;
        person.split = Some(crate::plan::SplitId::new("full-body-twice"));
        let found = Freer::new(&catalogue, &person)
            .and_then(|mut freer| freer.reliefs())
            .expect("plannable");
        let day = Limit::Day(Weekday::Saturday);
        let relief = found.iter().find(|relief| relief.limit == day);
        let relief = relief.expect("two half hours are little");
        let now = solve_week(&catalogue, &person).expect("plannable");
        person.days.push(Weekday::Saturday);
        person.split = None;
        let then = solve_week(&catalogue, &person).expect("plannable");
        assert_eq!(relief.points, then.objective - now.objective);
        assert_eq!(then.plan.days.len(), 3);
        assert!(relief.sets > 0);
    }

    /// One exercise that was ruled out comes back and brings its pattern.
    #[test]
    fn an_exclusion_is_named_by_its_exercise() {
        let catalogue = Catalogue::built_in();
        let mut person = crate::plan::tests::person();
        let hinges = catalogue.iter().filter(|e| e.pattern == Pattern::Hinge);
        person.excluded = hinges.map(|exercise| exercise.id.clone()).collect();
        let found = Freer::new(&catalogue, &person)
            .and_then(|mut freer| freer.shortfalls())
            .expect("plannable");
        let hinge = found.iter().find(|s| s.lack == missing(1));
        let hinge = hinge.expect("every hinge is ruled out");
        assert!(!hinge.is_for_doctor);
        let by_one = hinge.mended_by.iter().filter(
            |relief| matches!(&relief.limit, Limit::Excluded(these) if these.iter().len() == 1),
        );
        assert!(by_one.count() > 0, "{hinge:?}");
        // No length of session brings it.
        let by_time = |relief: &Relief| matches!(relief.limit, Limit::Minutes(_));
        assert!(!hinge.mended_by.iter().any(by_time));
    }

    /// Of all sorts of people: what is left out is told, and nothing else; and the
    /// week planned anew with a limit relaxed holds what that limit is said to mend.
    #[test]
    fn what_is_left_out_is_told_and_what_mends_it_does() {
        let catalogue = Catalogue::built_in();
        let (mut left_out, mut mended) = (0, 0);
        let mut draw = crate::plan::tests::Draw(77);
        for _ in 0..8 {
            let mut person = draw.person(&catalogue);
            // Short weeks, where something has to give way.
            person.minutes = 20 + person.minutes % 4 * 5;
            let plan = solve_week(&catalogue, &person).expect("plannable").plan;
            let found = Freer::new(&catalogue, &person)
                .and_then(|mut freer| freer.shortfalls())
                .expect("plannable");
            for (basic, patterns) in (0..).zip(BASICS) {
                let told = found.iter().find(|s| s.lack == missing(basic));
                assert_eq!(told.is_none(), holds(&catalogue, &plan, patterns));
                left_out += usize::from(told.is_some());
            }
            let sets = weekly_sets(&catalogue, &plan.days);
            for &muscle in Muscle::ALL {
                let has = sets.get(&muscle).copied().unwrap_or(0);
                let floor = crate::plan::dose::target(muscle, &person).floor;
                let told = found.iter().any(
                    |s| matches!(s.lack, Finding::BelowFloor { muscle: m, .. } if m == muscle),
                );
                assert_eq!(told, has < floor, "{muscle}");
            }
            // Each limit once: many mend several things.
            let mut limits: Vec<&Limit> = Vec::new();
            for relief in found.iter().flat_map(|s| &s.mended_by) {
                if !limits.contains(&&relief.limit) {
                    limits.push(&relief.limit);
                }
            }
            for limit in limits {
                let freer = limit.relax(&person);
                let then = solve_week(&catalogue, &freer).expect("plannable").plan;
                let sets = weekly_sets(&catalogue, &then.days);
                for shortfall in &found {
                    let claims = |relief: &Relief| relief.limit == *limit;
                    if !shortfall.mended_by.iter().any(claims) {
                        continue;
                    }
                    mended += 1;
                    match shortfall.lack {
                        Finding::MissingPattern { basic } => {
                            let patterns = BASICS[usize::from(basic)];
                            assert!(holds(&catalogue, &then, patterns), "{limit:?}");
                        }
                        Finding::BelowFloor { muscle, floor, .. } => {
                            let has = sets.get(&muscle).copied().unwrap_or(0);
                            assert!(has >= floor, "{muscle}, {limit:?}");
                        }
                        _ => assert!(then.days.iter().all(|day| !day.items.is_empty())),
                    }
                }
            }
        }
        assert!(left_out > 1 && mended > 10, "{left_out} {mended}");
    }

    fn holds(catalogue: &Catalogue, plan: &Plan, patterns: &[Pattern]) -> bool {
        let mut items = plan.days.iter().flat_map(|day| &day.items);
        items.any(|item| {
            let exercise = catalogue.get(&item.prescription.exercise);
            patterns.contains(&exercise.expect("known").pattern)
        })
    }
}
