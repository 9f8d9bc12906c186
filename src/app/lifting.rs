//! What a screen asks about the set that is up: the suggestion, the numbers to
//! begin with, and the numbers in hand before they are logged.
//!
//! The sums are the engine's; this gathers what they need from the app.

use crate::effects::storage::session_storage;
use crate::markup::{LiveText, Text};
use crate::state::App;
use crate::text::{block, dates, reasons};
use leptos::prelude::untrack;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::{Exercise, ExerciseId};
use weekloom_engine::kit::Kit;
use weekloom_engine::load::Ladder;
use weekloom_engine::person::{Person, Status};
use weekloom_engine::plan::{Plan, PlanDay, Prescription, prescribe};
use weekloom_engine::presets::KitPreset;
use weekloom_engine::progress::{
    DeloadAnswer, DeloadReason, Reason, Rule, SIGN_DAYS, SuggestInput, Suggestion,
    WeeksSinceDeload, deload_advice, is_long_since, next_climb_load, suggest, training_since,
};
use weekloom_engine::review::Weights;
use weekloom_engine::session::SessionItem;
use weekloom_engine::units::{Load, Unit};
use weekloom_store::SessionLine;

/// Sets of an exercise added on the day.
const ADDED_SETS: u8 = 3;

/// Days for which the end of a block is told (the project's own judgement).
const ENDED_DAYS: i32 = 28;

/// A lighter week that a day lies in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lighter {
    /// It is under way or was begun.
    Taken,
    /// The block has it; it is asked for when it comes.
    Planned,
}

impl App {
    /// The unit, without following its changes: for text that is made once.
    #[must_use]
    pub fn unit_now(self) -> Unit {
        untrack(|| self.unit())
    }

    /// The unit loads are read and typed in.
    #[must_use]
    pub fn unit(self) -> Unit {
        self.person
            .with(|p| p.as_ref().map_or(Unit::Kg, |p| p.unit))
    }

    /// The unit's symbol, as it is now and will be.
    #[must_use]
    pub fn unit_symbol(self) -> LiveText {
        Box::new(move || self.unit().symbol().into())
    }

    /// The kit at hand: on a journey that of the journey.
    #[must_use]
    pub fn kit(self) -> Kit {
        let today = self.today.get_untracked();
        let away = self
            .plan
            .with_untracked(|p| p.as_ref()?.repairs.travel_on(today)?.kit.clone());
        away.unwrap_or_else(|| {
            self.person.with_untracked(|p| {
                p.as_ref()
                    .map_or_else(|| KitPreset::FloorAndBar.kit(Unit::Kg), |p| p.kit.clone())
            })
        })
    }

    /// The plan and the person as they are today: on a journey those of the journey.
    #[must_use]
    pub fn plan_at_hand(self) -> Option<(Plan, Person)> {
        let accepted = self.plan.get_untracked()?;
        let mut person = self.person.get_untracked()?;
        let mut plan = accepted.plan;
        if let Some(journey) = accepted.repairs.travel_on(self.today.get_untracked()) {
            plan.days.clone_from(&journey.days);
            person.kit = self.kit();
        }
        Some((plan, person))
    }

    /// Something of the kit as text.
    pub fn kit_text(self, show: &dyn Fn(&Kit, Unit) -> String) -> String {
        self.person.with(|p| {
            p.as_ref()
                .map_or_else(String::new, |p| show(&p.kit, p.unit))
        })
    }

    /// Changes the kit and keeps it.
    ///
    /// # Errors
    /// In words, when the kit would make no sense; nothing changes then.
    pub fn change_kit(self, change: &dyn Fn(&mut Kit)) -> Result<(), String> {
        let Some(mut person) = self.person.get_untracked() else {
            return Ok(());
        };
        change(&mut person.kit);
        person
            .kit
            .check()
            .map_err(|e| crate::text::errors::other(&e))?;
        self.set_person(person);
        Ok(())
    }

    /// What was done of an exercise last time, with how long ago.
    #[must_use]
    pub fn last_in_words(self, id: &ExerciseId) -> Option<String> {
        let history = self.history(id);
        let last = history.iter().rev().find(|p| !p.sets.is_empty())?;
        let exercise = self.exercise(id);
        let sets = reasons::sets_in_words(&last.sets, exercise, self.unit_now());
        let when = dates::ago(self.today.get_untracked().days_since(last.day));
        Some(format!("{sets} ({when})"))
    }

    /// What to lift today.
    #[must_use]
    pub fn suggestion(self, prescription: &Prescription, exercise: &Exercise) -> Suggestion {
        let (status, rule) = self.person.with_untracked(|p| match p {
            Some(p) => (p.status, p.rule_for(exercise)),
            None => (Status::Novice, Rule::default_for(Status::Novice, exercise)),
        });
        let is_deload = self
            .session
            .with_untracked(|s| s.as_ref().is_some_and(|s| s.is_deload));
        suggest(&SuggestInput {
            exercise,
            prescription,
            history: &self.history(&exercise.id),
            kit: &self.kit(),
            rule,
            status,
            today: self.today.get_untracked(),
            is_deload,
        })
    }

    /// The last day of the lighter week, while it lasts.
    #[must_use]
    pub fn lighter_until(self) -> Option<Day> {
        let today = self.today.get();
        self.settings.with(|s| s.deload?.lasts_until(today))
    }

    /// Whether a day to come lies in a lighter week: one that was taken, or one that
    /// the block plans and nobody has put off.
    #[must_use]
    pub fn lighter_on(self, day: Day) -> Option<Lighter> {
        let answer = self.settings.with(|s| s.deload);
        if answer.is_some_and(|answer| answer.is_quiet(day)) {
            let is_taken = answer.and_then(|answer| answer.lasts_until(day)).is_some();
            return is_taken.then_some(Lighter::Taken);
        }
        // One that cannot be read is set aside and told of elsewhere.
        let chronicle = self.ask(|store| store.load_chronicle().unwrap_or_default());
        let block = chronicle.block_on(day)?;
        block.lighter_until(day).map(|_| Lighter::Planned)
    }

    /// A block that is over while none has followed it, in words, for some weeks.
    #[must_use]
    pub fn ended_block(self) -> Option<String> {
        let today = self.today.get_untracked();
        let chronicle = self.ask(|store| store.load_chronicle()).ok()?;
        let last = chronicle.blocks.values().next_back()?;
        let is_lately = (0..ENDED_DAYS).contains(&today.days_since(last.end()));
        is_lately.then(|| block::place(last, today))
    }

    /// A day of the plan as it is asked for today.
    #[must_use]
    pub fn as_today(self, planned: &PlanDay) -> PlanDay {
        match self.lighter_until() {
            Some(_) => planned.lighter(self.catalogue()),
            None => planned.clone(),
        }
    }

    /// What the body weighed, by day; nothing where that cannot be read.
    #[must_use]
    pub fn weights(self) -> Weights {
        self.ask(|store| store.load_chronicle().unwrap_or_default().weights())
    }

    /// Why a lighter week is worth proposing, if it is. Sessions are read only
    /// once the last one is long enough ago, and only those of some weeks.
    #[must_use]
    pub fn deload_advice(self) -> Option<DeloadReason> {
        let today = self.today.get_untracked();
        let answer = self.settings.with_untracked(|s| s.deload);
        if answer.is_some_and(|answer| answer.is_quiet(today)) {
            return None;
        }
        // One that cannot be read is set aside and told of elsewhere.
        let chronicle = self.ask(|store| store.load_chronicle().unwrap_or_default());
        let block = chronicle.block_on(today);
        if block.is_some_and(|block| block.lighter_until(today).is_some()) {
            return Some(DeloadReason::Block);
        }
        let days = |line: &SessionLine| (line.day, line.is_deload);
        let days = self
            .index
            .with_untracked(|index| index.recent.iter().map(days).collect());
        let start = training_since(days, answer, today)?;
        if !is_long_since(start, today) {
            return None;
        }
        let history = self.ask(|store| store.performances_since(today.plus(-SIGN_DAYS)));
        let since = WeeksSinceDeload::since(self.catalogue(), Some(start), &history, today);
        // The calendar is silent where the block has a lighter week to come.
        let is_to_come = block.is_some_and(|b| b.lighter > b.week_of(today));
        deload_advice(&since)
            .filter(|reason| !is_to_come || !matches!(reason, DeloadReason::Planned { .. }))
    }

    /// Keeps what was said to the proposal of a lighter week.
    pub fn answer_deload(self, answer: DeloadAnswer) {
        self.change_settings(&|settings| settings.deload = Some(answer));
    }

    /// The load and reps the steppers begin with: what was just lifted, else
    /// what is suggested; on a first climb, the next rung of it.
    #[must_use]
    pub fn opening_numbers(
        self,
        item: &SessionItem,
        ladder: Option<&Ladder>,
        suggestion: &Suggestion,
    ) -> (Load, u16) {
        let last = item.work_sets().next_back();
        let is_climb = matches!(suggestion.reason, Reason::FirstClimb);
        let load = match (ladder, last) {
            (None, _) => Load::ZERO,
            (Some(ladder), last) if is_climb => {
                next_climb_load(last, ladder, &item.prescription).load()
            }
            (Some(_), Some(last)) => last.load,
            (Some(ladder), None) => suggestion.load.unwrap_or_else(|| ladder.easiest()),
        };
        (load, suggestion.count)
    }

    /// The exercise done in turn with an item of the session.
    #[must_use]
    pub fn superset_partner(self, item: usize) -> Option<Text> {
        self.session.with_untracked(|s| {
            let items = &s.as_ref()?.items;
            let group = items.get(item)?.superset?;
            items
                .iter()
                .enumerate()
                .find(|(index, other)| *index != item && other.superset == Some(group))
                .map(|(_, other)| self.name_of(&other.prescription.exercise))
        })
    }

    /// A prescription for an exercise that the plan does not hold.
    #[must_use]
    pub fn prescription_for(self, exercise: &Exercise) -> Prescription {
        self.person.with_untracked(|person| match person {
            Some(person) => prescribe(exercise, person, ADDED_SETS),
            None => Prescription {
                exercise: exercise.id.clone(),
                sets: ADDED_SETS,
                reps: exercise.reps,
                rir: exercise.rir,
                rest_s: exercise.rest_s,
            },
        })
    }

    fn draft_key(self) -> String {
        format!("{}draft", self.space.prefix())
    }

    fn session_id(self) -> Option<String> {
        self.session
            .with_untracked(|s| s.as_ref().map(|s| s.id.clone()))
    }

    /// The numbers in hand of this very set, if any were kept.
    #[must_use]
    pub fn draft_for(self, item: usize, set: usize) -> Option<(Load, u16, Option<u8>)> {
        let draft = session_storage()?.get_item(&self.draft_key()).ok()??;
        let of_this = self.draft_head(item, set)?;
        let mut numbers = draft.strip_prefix(&of_this)?.split(' ');
        let grams = numbers.next()?.parse().ok()?;
        let count = numbers.next()?.parse().ok()?;
        let rir = numbers.next().and_then(|rir| rir.parse().ok());
        Some((Load::clamped(grams), count, rir))
    }

    /// Keeps what was turned or typed and not yet logged over a reload, for
    /// this window only. Where the browser denies it only the reload loses
    /// it, never a logged set.
    pub fn keep_draft(self, item: usize, set: usize, load: Load, count: u16, rir: Option<u8>) {
        if let (Some(storage), Some(of_this)) = (session_storage(), self.draft_head(item, set)) {
            let rir = rir.map_or_else(String::new, |rir| rir.to_string());
            let draft = format!("{of_this}{} {count} {rir}", load.grams());
            let _ = storage.set_item(&self.draft_key(), &draft);
        }
    }

    fn hold_key(self) -> String {
        format!("{}hold", self.space.prefix())
    }

    /// Since when this very set is held, if its clock runs.
    #[must_use]
    pub fn hold_of(self, (item, set): (usize, usize)) -> Option<Moment> {
        let kept = session_storage()?.get_item(&self.hold_key()).ok()??;
        let since = kept.strip_prefix(&self.draft_head(item, set)?)?;
        since.parse().ok().map(Moment)
    }

    /// Keeps since when a set is held over a reload, for this window only.
    pub fn keep_hold(self, (item, set): (usize, usize), since: Option<Moment>) {
        let (Some(storage), Some(of_this)) = (session_storage(), self.draft_head(item, set)) else {
            return;
        };
        // Refused, a reload forgets the clock, and the person says how long it was.
        let _ = match since {
            Some(since) => storage.set_item(&self.hold_key(), &format!("{of_this}{}", since.0)),
            None => storage.remove_item(&self.hold_key()),
        };
    }

    /// The very set that numbers in hand belong to.
    fn draft_head(self, item: usize, set: usize) -> Option<String> {
        Some(format!("{} {item} {set} ", self.session_id()?))
    }

    /// Characters of storage used by this space.
    #[must_use]
    pub fn used_characters(self) -> usize {
        self.saving.track();
        self.ask(weekloom_store::Store::used)
    }
}
