//! An invented body: how strong it is, how it tires, what it reports.
//!
//! Whole numbers only, so that every machine invents the same.

use super::{Crew, Histories};
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::{Catalogue, Exercise, Loading, Measure, Pattern};
use weekloom_engine::load::{Ladder, warm_up};
use weekloom_engine::log::{Discomfort, Performance, SetKind};
use weekloom_engine::person::{Person, Status};
use weekloom_engine::plan::PlanDay;
use weekloom_engine::progress::{Rule, SuggestInput, Suggestion, next_climb_load, suggest};
use weekloom_engine::session::{Event, Phase, Refusal, Session, SessionItem};
use weekloom_engine::units::Load;

/// A linear congruential generator (the constants of Knuth's MMIX).
pub(super) struct Dice(u64);

impl Dice {
    pub(super) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number from `least` to `most`, both included.
    pub(super) fn between(&mut self, least: i64, most: i64) -> i64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        #[expect(clippy::cast_possible_wrap, reason = "31 bits")]
        let drawn = (self.0 >> 33) as i64;
        least + drawn % (most - least + 1)
    }
}

/// A member of the crew with the container's bar in their hands.
pub(super) struct Lifter<'a> {
    catalogue: &'a Catalogue,
    member: Crew,
    person: Person,
    dice: Dice,
}

impl<'a> Lifter<'a> {
    pub(super) fn new(catalogue: &'a Catalogue, member: Crew) -> Self {
        Self {
            catalogue,
            member,
            person: member.person(),
            dice: Dice::new(1_882 + member as u64),
        }
    }

    /// Trains one day of the plan from start to finish.
    pub(super) fn session(
        &mut self,
        day: Day,
        week: i32,
        plan_day: u8,
        is_deload: bool,
        planned: &PlanDay,
        histories: &Histories,
    ) -> Result<Session, Refusal> {
        let late = self.dice.between(0, 40 * 60);
        let midnight = Moment(i64::from(day.epoch_days()) * 86_400_000);
        let mut now = midnight.plus_seconds(self.member.hour() * 3600 + late);
        let id = format!("{:011}-{:05}", now.0 / 1000, self.dice.between(0, 46_655));
        let mut session = Session::plan(&id, day, plan_day, is_deload, planned);
        session = session.apply(&Event::Start, now)?;
        let is_sore = self.member == Crew::Observer && week == 10;
        while let Some(at) = session.current {
            let item = &session.items[at];
            let Some(exercise) = self.catalogue.get(&item.prescription.exercise) else {
                session = session.apply(&Event::Skip { item: at }, now)?;
                continue;
            };
            let history: Vec<Performance> = histories
                .get(&exercise.id)
                .map(|history| history.clone().performances())
                .unwrap_or_default();
            let advice = self.advice(exercise, item, &history, &session);
            if item.target.is_none() {
                let target = advice.target();
                session = session.apply(&Event::SetTarget { item: at, target }, now)?;
                now = now.plus_seconds(i64::from(exercise.setup_s));
                // Now and then the last exercise falls to the evening reading.
                if at > 3 && at + 1 == session.items.len() && self.dice.between(1, 9) == 1 {
                    session = note(session, at, "Cut short: instruments at six.", now)?;
                    session = session.apply(&Event::Skip { item: at }, now)?;
                    continue;
                }
            }
            let load = self.load(exercise, &session.items[at], &advice, week);
            if at == 0 && session.items[at].sets.is_empty() {
                (session, now) = self.warm_up(session, exercise, load, now)?;
            }
            let (count, left) = self.effort(exercise, &session.items[at], &advice, load, week);
            now = now.plus_seconds(self.dice.between(35, 55));
            // Beginners are asked to say it every time, the others forget.
            let says = self.person.status == Status::Novice || self.dice.between(1, 5) > 1;
            let set = Event::LogSet {
                load,
                count,
                rir: says.then_some(left),
                kind: SetKind::Work,
            };
            session = session.apply(&set, now)?;
            if is_sore && exercise.pattern == Pattern::HorizontalPush {
                let hurt = Event::Discomfort {
                    item: at,
                    discomfort: Some(Discomfort::Mild),
                };
                session = session.apply(&hurt, now)?;
                session = note(session, at, "Left shoulder, a pinch at the bottom.", now)?;
            }
            if let Phase::Resting { until, .. } = session.phase {
                now = until.plus_seconds(self.dice.between(0, 20));
                session = session.apply(&Event::RestOver, now)?;
            }
        }
        session.apply(&Event::Finish, now.plus_seconds(60))
    }

    fn advice(
        &self,
        exercise: &Exercise,
        item: &SessionItem,
        history: &[Performance],
        session: &Session,
    ) -> Suggestion {
        suggest(&SuggestInput {
            exercise,
            prescription: &item.prescription,
            history,
            kit: &self.person.kit,
            rule: Rule::default_for(self.person.status, exercise),
            status: self.person.status,
            today: session.day,
            is_deload: session.is_deload,
        })
    }

    fn warm_up(
        &mut self,
        mut session: Session,
        exercise: &Exercise,
        load: Load,
        mut now: Moment,
    ) -> Result<(Session, Moment), Refusal> {
        let Some(ladder) = Ladder::of(exercise, &self.person.kit) else {
            return Ok((session, now));
        };
        for set in warm_up(load, &ladder, exercise) {
            now = now.plus_seconds(self.dice.between(60, 90));
            let event = Event::LogSet {
                load: set.load,
                count: set.reps,
                rir: None,
                kind: SetKind::WarmUp,
            };
            session = session.apply(&event, now)?;
        }
        Ok((session, now))
    }

    /// What they load: the advice; at the very first session what they know
    /// they can lift, or the guided climb.
    fn load(
        &self,
        exercise: &Exercise,
        item: &SessionItem,
        advice: &Suggestion,
        week: i32,
    ) -> Load {
        let Some(ladder) = Ladder::of(exercise, &self.person.kit) else {
            return Load::ZERO;
        };
        if let Some(load) = advice.load {
            return load;
        }
        let last = item.work_sets().next_back();
        if self.person.status == Status::Novice || exercise.loading == Loading::Assisted {
            return next_climb_load(last, &ladder, &item.prescription).load();
        }
        // A load they could lift for the goal, the reps in reserve and three more.
        let reps = i64::from(advice.count) + i64::from(advice.rir) + 3;
        let known = self.strength(exercise, week) * 30 / (30 + reps) - body_part(exercise);
        ladder
            .round_down(Load::clamped(known))
            .unwrap_or_else(|| ladder.easiest())
    }

    /// Reps or seconds done, and reps in reserve as they would tell them.
    fn effort(
        &mut self,
        exercise: &Exercise,
        item: &SessionItem,
        advice: &Suggestion,
        load: Load,
        week: i32,
    ) -> (u16, u8) {
        let set = i64::try_from(item.work_sets_done()).unwrap_or(0);
        let week_number = i64::from(week);
        let fresh = match (exercise.measure, exercise.loading) {
            (Measure::Seconds, _) => 45 + 2 * week_number - 3 * set,
            (Measure::Reps, Loading::Assisted) => 8 + week_number / 3,
            (Measure::Reps, Loading::Bodyweight | Loading::Band) => {
                16 * self.member.strength_percent() / 100 + week_number / 2
            }
            (Measure::Reps, _) => {
                let lifted = (load.grams() + body_part(exercise)).max(1);
                // Epley 1985, solved for the reps.
                30 * (self.strength(exercise, week) - lifted) / lifted
            }
        };
        let possible = fresh - set / 2 + self.dice.between(-1, 1);
        let (asked, aim) = (i64::from(advice.count), i64::from(advice.rir));
        let is_last = item.work_sets_left() == 1;
        // The last set goes on for a rep or two where it is easy.
        let more = if is_last {
            (possible - asked - aim).clamp(0, 2)
        } else {
            0
        };
        let done = (asked + more).min(possible).clamp(1, 90);
        let left = (possible - done).clamp(0, 8);
        (
            u16::try_from(done).unwrap_or(1),
            u8::try_from(left).unwrap_or(0),
        )
    }

    /// The most they could lift once, in grams, the lifted part of the body
    /// included.
    fn strength(&self, exercise: &Exercise, week: i32) -> i64 {
        let once = by_pattern(exercise.pattern) * by_loading(exercise.loading) / 100;
        let own = once * self.member.strength_percent() / 100;
        let grown = own * (1000 + self.member.weekly_gain() * i64::from(week)) / 1000;
        grown + body_part(exercise)
    }
}

fn note(session: Session, item: usize, text: &str, now: Moment) -> Result<Session, Refusal> {
    let event = Event::Note {
        item,
        text: text.to_owned(),
    };
    session.apply(&event, now)
}

/// The part of the body that is lifted with the load, in grams.
const fn body_part(exercise: &Exercise) -> i64 {
    match exercise.loading {
        Loading::BodyweightPlus => 60_000,
        _ => 0,
    }
}

/// What is lifted once with a bar, in grams. Invented.
const fn by_pattern(pattern: Pattern) -> i64 {
    match pattern {
        Pattern::Squat => 105_000,
        Pattern::Hinge => 120_000,
        Pattern::HipExtension => 130_000,
        Pattern::Lunge | Pattern::Carry => 65_000,
        Pattern::CalfRaise | Pattern::Shrug => 100_000,
        Pattern::HorizontalPush | Pattern::HorizontalPull | Pattern::VerticalPull => 78_000,
        Pattern::VerticalPush | Pattern::KneeExtension => 52_000,
        Pattern::KneeFlexion | Pattern::HipAbduction | Pattern::HipAdduction => 45_000,
        Pattern::ElbowFlexion | Pattern::ElbowExtension | Pattern::TrunkFlexion => 40_000,
        Pattern::ChestFly | Pattern::ShoulderExtension => 36_000,
        Pattern::TrunkStability | Pattern::BackExtension | Pattern::Wrist => 30_000,
        Pattern::SideRaise | Pattern::RearRaise => 24_000,
    }
}

/// The same held another way, percent. Invented.
const fn by_loading(loading: Loading) -> i64 {
    match loading {
        Loading::Barbell | Loading::Machine => 100,
        Loading::Cable => 80,
        Loading::Single => 50,
        Loading::DumbbellPair => 42,
        Loading::BodyweightPlus | Loading::Bodyweight | Loading::Assisted | Loading::Band => 25,
    }
}
