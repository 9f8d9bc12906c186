//! Editing the plan, with the way back: every edit is kept at once and can be
//! undone, as many as were made in this window, and redone.
//!
//! Start at [`App::edit`]. A step holds the plan it leads to as kept text. The
//! latest [`KEPT`] on either side outlive a reload; a plan that came from
//! elsewhere (a backup, another window) begins without any. One's own cycles have
//! steps of their own, which last as long as the page: [`App::change_cycles`].

use crate::effects::storage::session_storage;
use crate::state::App;
use crate::text::language::tr;
use crate::text::{edits, errors, words};
use weekloom_engine::calendar::Weekday;
use weekloom_engine::person::Person;
use weekloom_engine::plan::{Edit, OwnSplit, PlanNote, SplitId};
use weekloom_store::AcceptedPlan;
use weekloom_store::wire::{from_text, to_text};

/// Steps kept over a reload.
const KEPT: usize = 50;

/// A way back or forth: what was done, and the plan one comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What is undone or done again.
    pub name: String,
    plan: String,
}

/// Which way along the steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// To the plan before.
    Back,
    /// To the plan that was left.
    Forth,
}

impl Way {
    const fn other(self) -> Self {
        match self {
            Self::Back => Self::Forth,
            Self::Forth => Self::Back,
        }
    }
}

/// The steps either way, the next one last.
#[derive(Debug, Default)]
pub struct Steps {
    back: Vec<Step>,
    forth: Vec<Step>,
}

impl Steps {
    /// What the next step that way would undo or do again.
    #[must_use]
    pub fn next(&self, way: Way) -> Option<&str> {
        self.of(way).last().map(|step| step.name.as_str())
    }

    const fn of(&self, way: Way) -> &Vec<Step> {
        match way {
            Way::Back => &self.back,
            Way::Forth => &self.forth,
        }
    }

    const fn of_mut(&mut self, way: Way) -> &mut Vec<Step> {
        match way {
            Way::Back => &mut self.back,
            Way::Forth => &mut self.forth,
        }
    }
}

/// A way back or forth among one's own cycles.
#[derive(Debug, Clone, PartialEq, Eq)]
struct CycleStep {
    /// The cycle that was changed.
    name: String,
    cycles: Vec<OwnSplit>,
    /// What one trained by then.
    split: Option<SplitId>,
}

/// The steps back from changes of one's own cycles, and forth again.
#[derive(Debug, Default)]
pub struct CycleSteps {
    /// The cycles that the steps lead from; none of them holds for others.
    at: Vec<OwnSplit>,
    back: Vec<CycleStep>,
    forth: Vec<CycleStep>,
}

impl CycleSteps {
    const fn of_mut(&mut self, way: Way) -> &mut Vec<CycleStep> {
        match way {
            Way::Back => &mut self.back,
            Way::Forth => &mut self.forth,
        }
    }
}

impl App {
    /// Changes one's own cycles and keeps them; the name says which was changed.
    pub fn change_cycles(self, name: String, change: &dyn Fn(&mut Person)) {
        let Some(before) = self.person.get_untracked() else {
            return;
        };
        let mut person = before.clone();
        change(&mut person);
        if person == before {
            return;
        }
        self.cycle_steps.update(|steps| {
            if steps.at != before.own_splits {
                steps.back.clear();
            }
            steps.at.clone_from(&person.own_splits);
            steps.forth.clear();
            steps.back.push(CycleStep {
                name,
                cycles: before.own_splits,
                split: before.split,
            });
        });
        self.set_person(person);
    }

    /// The cycle that the next step that way would change.
    pub fn next_cycle_step(self, way: Way) -> Option<String> {
        self.cycle_steps.with(|steps| {
            let is_here = self
                .person
                .with(|person| person.as_ref().is_some_and(|p| p.own_splits == steps.at));
            let steps = match way {
                Way::Back => &steps.back,
                Way::Forth => &steps.forth,
            };
            let next = steps.last().filter(|_| is_here);
            next.map(|step| step.name.clone())
        })
    }

    /// Undoes the last change of one's own cycles, or does it again.
    pub fn go_among_cycles(self, way: Way) {
        let Some(mut person) = self.person.get_untracked() else {
            return;
        };
        let mut found = None;
        self.cycle_steps.update(|steps| {
            found = steps.of_mut(way).pop();
            let Some(step) = &found else { return };
            steps.at.clone_from(&step.cycles);
            steps.of_mut(way.other()).push(CycleStep {
                name: step.name.clone(),
                cycles: person.own_splits.clone(),
                split: person.split.clone(),
            });
        });
        let Some(step) = found else { return };
        // What was taken up since stays, unless it is gone with the step.
        let is_own =
            |cycles: &[OwnSplit], id: &SplitId| cycles.iter().any(|own| own.split.id == *id);
        let present = person.split.take();
        let is_gone = |id: &SplitId| is_own(&person.own_splits, id) && !is_own(&step.cycles, id);
        person.split = match present {
            Some(id) if is_gone(&id) => None,
            None => step.split,
            kept => kept,
        };
        person.own_splits = step.cycles;
        self.set_person(person);
    }

    /// Makes an edit of the plan and keeps it.
    ///
    /// # Errors
    /// In words, when the plan refuses it.
    pub fn edit(self, edit: &Edit) -> Result<(), String> {
        let (Some(accepted), Some(person)) =
            (self.plan.get_untracked(), self.person.get_untracked())
        else {
            return Ok(());
        };
        let plan = accepted
            .plan
            .edit(self.catalogue(), &person, edit)
            .map_err(|refused| errors::other(&refused))?;
        let name = edits::done(edit, &accepted.plan, &|id| self.name_of(id));
        self.step(name, AcceptedPlan { plan, ..accepted });
        Ok(())
    }

    /// Other weekdays for the same sessions, for plan and person.
    pub fn train_on(self, weekdays: Vec<Weekday>) {
        let Some(mut accepted) = self.plan.get_untracked() else {
            return;
        };
        accepted.weekdays = weekdays;
        // How near days lie to each other is measured afresh.
        let rests = |note: &PlanNote| !matches!(note, PlanNote::ShortRecovery { .. });
        accepted.plan.notes.retain(rests);
        self.step(tr(words::OTHER_DAYS).to_owned(), accepted);
    }

    fn step(self, name: String, changed: AcceptedPlan) {
        self.remember(name);
        self.take_up_plan(changed);
    }

    /// Makes a step back to the present plan, before another takes its place.
    pub fn remember(self, name: String) {
        let before = self.plan.with_untracked(|plan| plan.as_ref().map(to_text));
        if let Some(Ok(plan)) = before {
            self.steps.update(|steps| {
                steps.back.push(Step { name, plan });
                steps.forth.clear();
            });
        }
    }

    /// Undoes the last edit, or does it again.
    pub fn go(self, way: Way) {
        let Some(Ok(present)) = self.plan.with_untracked(|plan| plan.as_ref().map(to_text)) else {
            return;
        };
        let mut found = None;
        self.steps.update(|steps| {
            if let Some(step) = steps.of_mut(way).pop() {
                found = from_text::<AcceptedPlan>(&step.plan).ok();
                steps.of_mut(way.other()).push(Step {
                    plan: present,
                    ..step
                });
            }
        });
        if let Some(mut plan) = found {
            // What was chosen for the calendar is no edit of the plan.
            let present = self.plan.get_untracked();
            plan.repairs = present.map(|p| p.repairs).unwrap_or_default();
            self.take_up_plan(plan);
        }
    }

    /// Shows and keeps a plan; the person trains on its weekdays.
    pub fn take_up_plan(self, accepted: AcceptedPlan) {
        let person = self.person.get_untracked().map(|mut person| {
            person.days.clone_from(&accepted.weekdays);
            person
        });
        let is_moved = self.person.with_untracked(|present| *present != person);
        self.keep(self.ask(|store| {
            let changes = store.save_plan(&accepted)?;
            match &person {
                Some(person) if is_moved => Ok(changes.and(store.save_person(person)?)),
                _ => Ok(changes),
            }
        }));
        if is_moved {
            self.person.set(person);
        }
        self.plan.set(Some(accepted));
        self.keep_steps();
    }

    /// Writes the steps where a reload finds them. Where the browser denies
    /// it, they last as long as the page.
    pub fn keep_steps(self) {
        let mut text = String::new();
        if let Some(Ok(plan)) = self.plan.with_untracked(|plan| plan.as_ref().map(to_text)) {
            text.push_str(&plan);
        }
        self.steps.with_untracked(|steps| {
            for (mark, steps) in [("\n-", &steps.back), ("\n+", &steps.forth)] {
                for step in &steps[steps.len().saturating_sub(KEPT)..] {
                    for part in [mark, &step.name, "\n", &step.plan] {
                        text.push_str(part);
                    }
                }
            }
        });
        if let Some(storage) = session_storage() {
            let _ = storage.set_item(&self.space.steps_key(), &text);
        }
    }

    /// Finds the steps of this window again, if they lead to the present plan.
    pub fn find_steps(self) {
        let present = self.plan.with_untracked(|plan| plan.as_ref().map(to_text));
        let kept = session_storage()
            .and_then(|storage| storage.get_item(&self.space.steps_key()).ok().flatten())
            .unwrap_or_default();
        let mut lines = kept.split('\n');
        let mut found = Steps::default();
        if present.is_some_and(|plan| plan.ok().as_deref() == lines.next()) {
            while let (Some(name), Some(plan)) = (lines.next(), lines.next()) {
                let way = if name.starts_with('-') {
                    Way::Back
                } else {
                    Way::Forth
                };
                found.of_mut(way).push(Step {
                    name: name[1..].to_owned(),
                    plan: plan.to_owned(),
                });
            }
        }
        self.steps.set(found);
    }
}
