//! What a person tells Weekloom: days, minutes, kit, experience and wishes.
//!
//! Start at [`Person`].

use crate::calendar::Weekday;
use crate::catalogue::{Exercise, ExerciseId, JointDemand, Muscle};
use crate::kit::Kit;
use crate::order::{Map, Set};
use crate::plan::{OwnSplit, SplitId};
use crate::progress::Rule;
use crate::slug::slugged;
use crate::units::Unit;

slugged! {
    /// Training status. Definitions: Ratamess et al. 2009, MSSE 41(3):687-708
    /// (novice: none or several years off; intermediate: about six months of
    /// consistent training; advanced: years).
    Status {
        /// No training, or several years off.
        Novice = "novice",
        /// About six months of consistent training.
        Intermediate = "intermediate",
        /// Years of consistent training.
        Advanced = "advanced",
    }
}

slugged! {
    /// How much a muscle matters to the person.
    Priority {
        /// Keep what there is.
        Less = "less",
        /// As usual.
        Usual = "usual",
        /// Bring it up.
        More = "more",
    }
}

/// A person, as the planner sees them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// Weekdays on which they can train, ascending, without repeats.
    pub days: Vec<Weekday>,
    /// Minutes for one session, [`crate::bounds::SESSION_MIN`].
    pub minutes: u16,
    /// What is at hand.
    pub kit: Kit,
    /// Training status.
    pub status: Status,
    /// Sixty-five or older: longer rests, more reps, less strain (Garber et
    /// al. 2011, MSSE 43(7):1334-1359).
    pub is_older: bool,
    /// Muscles that matter more or less than usual.
    pub priorities: Map<Muscle, Priority>,
    /// Exercises never to be planned.
    pub excluded: Set<ExerciseId>,
    /// Exercises to plan only when little else serves.
    pub disliked: Set<ExerciseId>,
    /// Joint demands to avoid.
    pub joint_limits: Set<JointDemand>,
    /// The split wanted; `None` leaves it to the default for the days.
    pub split: Option<SplitId>,
    /// Splits of the person's own making, no id twice.
    pub own_splits: Vec<OwnSplit>,
    /// Unit loads are read and typed in.
    pub unit: Unit,
    /// Rules of progression chosen for exercises. They belong to the exercise
    /// and not to its place in a plan: a new plan keeps them.
    pub rules: Map<ExerciseId, Rule>,
}

impl Person {
    /// How the load of an exercise moves: as chosen, or as usual where nothing
    /// was chosen or the choice makes no sense of the exercise.
    #[must_use]
    pub fn rule_for(&self, exercise: &Exercise) -> Rule {
        match self.rules.get(&exercise.id) {
            Some(&rule) if Rule::offered_for(exercise).contains(&rule) => rule,
            _ => Rule::default_for(self.status, exercise),
        }
    }

    /// Chooses a rule for an exercise. The usual one is no choice: it follows
    /// the training status.
    pub fn choose_rule(&mut self, exercise: &Exercise, rule: Rule) {
        if rule == Rule::default_for(self.status, exercise) {
            self.rules.remove(&exercise.id);
        } else {
            self.rules.insert(exercise.id.clone(), rule);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::plan::tests::person;

    #[test]
    fn the_rule_is_the_one_chosen_where_it_makes_sense() {
        let catalogue = Catalogue::built_in();
        let get = |id: &str| catalogue.get(&ExerciseId::new(id)).expect("known");
        let (bench, push_up) = (get("barbell-bench-press"), get("push-up"));
        let mut person = person();
        person.status = Status::Novice;
        assert_eq!(person.rule_for(bench), Rule::FixedSteps);
        person.choose_rule(bench, Rule::EffortLed);
        assert_eq!(person.rule_for(bench), Rule::EffortLed);
        // Others are as before, and so is one that was never offered.
        assert_eq!(person.rule_for(push_up), Rule::RepsThenVariant);
        person.rules.insert(push_up.id.clone(), Rule::PercentOfMax);
        assert_eq!(person.rule_for(push_up), Rule::RepsThenVariant);
        // The usual one is no choice and follows the status.
        person.choose_rule(bench, Rule::FixedSteps);
        assert!(!person.rules.contains_key(&bench.id));
        person.status = Status::Advanced;
        assert_eq!(person.rule_for(bench), Rule::DoubleProgression);
    }
}
