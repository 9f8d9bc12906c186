//! Invented people, plans and sessions.

use std::collections::BTreeSet;
use weekloom_engine::calendar::{Day, Moment, Weekday};
use weekloom_engine::catalogue::own::own_id;
use weekloom_engine::catalogue::{
    Catalogue, Equipment, Exercise, ExerciseId, JointDemand, Muscle, Pattern,
};
use weekloom_engine::kit::{Kit, PlatePairs, Steps};
use weekloom_engine::log::{Discomfort, SetEntry, SetKind};
use weekloom_engine::order::Set;
use weekloom_engine::person::{Person, Priority, Status};
use weekloom_engine::plan::split::Focus;
use weekloom_engine::plan::{
    OwnSplit, PickReason, Plan, PlanDay, PlanItem, PlanNote, Prescription, Slot, Split, SplitDay,
    SplitId,
};
use weekloom_engine::progress::{DeloadAnswer, Rule};
use weekloom_engine::review::{Block, Goal};
use weekloom_engine::schedule::{Extra, How, Pause, Repairs, Settled, Travel};
use weekloom_engine::session::{ItemState, Phase, Session, SessionItem, Target};
use weekloom_engine::units::{Load, Unit};
use weekloom_store::{
    AcceptedPlan, Amendment, Chronicle, Hand, Notice, OwnExercises, Remark, Screen, Settings,
    Sound, Theme, Weighing,
};

/// A linear congruential generator (the constants of Knuth's MMIX).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        let mut dice = Self(seed);
        dice.next();
        dice
    }

    fn next(&mut self) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        self.0 >> 33
    }

    /// A number from `least` to `most`, both included.
    pub fn between(&mut self, least: i64, most: i64) -> i64 {
        least + (self.next() % u64::try_from(most - least + 1).unwrap()) as i64
    }

    pub fn index(&mut self, len: usize) -> usize {
        self.between(0, len as i64 - 1) as usize
    }

    pub fn coin(&mut self) -> bool {
        self.next().is_multiple_of(2)
    }

    fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.index(all.len())]
    }

    fn some_of<T: Copy + Ord>(&mut self, all: &[T]) -> Set<T> {
        all.iter().copied().filter(|_| self.coin()).collect()
    }

    fn maybe<T>(&mut self, make: impl FnOnce(&mut Self) -> T) -> Option<T> {
        self.coin().then(|| make(self))
    }

    fn list<T>(&mut self, most: i64, mut make: impl FnMut(&mut Self) -> T) -> Vec<T> {
        (0..self.between(0, most)).map(|_| make(self)).collect()
    }
}

const EXERCISES: [&str; 9] = [
    "goblet-squat",
    "barbell-bench-press",
    "one-arm-dumbbell-row",
    "pull-up",
    "romanian-deadlift",
    "standing-calf-raise",
    "side-plank",
    "cable-face-pull",
    "a-lift-nobody-knows",
];

pub fn exercise(dice: &mut Dice) -> ExerciseId {
    ExerciseId::new(dice.of(&EXERCISES))
}

fn load(dice: &mut Dice) -> Load {
    Load::clamped(dice.between(0, 1_000_000))
}

fn bar(dice: &mut Dice) -> Load {
    Load::clamped(dice.between(0, 30_000))
}

fn steps(dice: &mut Dice) -> Steps {
    if dice.coin() {
        let first = dice.between(0, 50_000);
        Steps::Even {
            first: Load::clamped(first),
            step: Load::clamped(dice.between(100, 10_000)),
            last: Load::clamped(first + dice.between(0, 100_000)),
        }
    } else {
        let loads: BTreeSet<Load> = dice.list(12, load).into_iter().collect();
        Steps::Listed(loads.into_iter().collect())
    }
}

fn weekdays(dice: &mut Dice) -> Vec<Weekday> {
    let mut days = dice.some_of(&Weekday::ALL);
    days.insert(dice.of(&Weekday::ALL));
    days.into_iter().collect()
}

fn kit(dice: &mut Dice) -> Kit {
    Kit {
        equipment: dice.some_of(Equipment::ALL),
        bar: bar(dice),
        curl_bar: bar(dice),
        trap_bar: bar(dice),
        plates: dice.list(8, |dice| PlatePairs {
            plate: Load::clamped(dice.between(1, 25_000)),
            pairs: dice.between(1, 20) as u8,
        }),
        dumbbells: steps(dice),
        kettlebells: steps(dice),
        machine: steps(dice),
        cable: steps(dice),
    }
}

pub fn person(dice: &mut Dice) -> Person {
    Person {
        days: weekdays(dice),
        minutes: dice.between(20, 180) as u16,
        kit: kit(dice),
        status: dice.of(Status::ALL),
        is_older: dice.coin(),
        priorities: dice
            .some_of(Muscle::ALL)
            .into_iter()
            .map(|muscle| (muscle, dice.of(Priority::ALL)))
            .collect(),
        excluded: dice.list(3, exercise).into_iter().collect(),
        disliked: dice.list(3, exercise).into_iter().collect(),
        joint_limits: dice.some_of(JointDemand::ALL),
        split: dice.maybe(|_| SplitId::new("upper-lower")),
        own_splits: own_splits(dice),
        unit: dice.of(&[Unit::Kg, Unit::Lb]),
        rules: dice
            .list(3, |dice| (exercise(dice), dice.of(Rule::ALL)))
            .into_iter()
            .collect(),
    }
}

fn own_splits(dice: &mut Dice) -> Vec<OwnSplit> {
    let mut own: Vec<OwnSplit> = Vec::new();
    for _ in 0..dice.between(0, 3) {
        let day = |dice: &mut Dice| SplitDay {
            focus: dice.of(Focus::ALL),
            slots: dice.list(12, |dice| {
                let mut slot = Slot::of(dice.of(Pattern::ALL));
                slot.patterns
                    .extend(dice.maybe(|dice| dice.of(Pattern::ALL)));
                slot.muscle = dice.maybe(|dice| dice.of(Muscle::ALL));
                slot
            }),
        };
        let mut fresh = OwnSplit {
            name: dice.of(&["Station week", "Rücken \"first\" 🧵"]).to_owned(),
            split: Split {
                id: OwnSplit::free_slug(&own),
                days: dice.list(6, day),
            },
        };
        fresh.settle();
        own.push(fresh);
    }
    own
}

/// Own exercises: some of the built-in ones under other names, changed.
pub fn exercises(dice: &mut Dice) -> OwnExercises {
    let mut own = OwnExercises::default();
    let built_in = Catalogue::built_in();
    let names = [
        "Station row",
        "Rück \"über\" 🧵",
        "=1+1",
        "\u{202e}rekab",
        "<b>press</b>",
    ];
    for _ in 0..dice.between(1, 4) {
        let like = built_in.iter().nth(dice.index(built_in.len())).unwrap();
        let name = dice.of(&names);
        let exercise = Exercise {
            id: own_id(name),
            name: name.to_owned(),
            rest_s: dice.between(0, 600) as u16,
            strain: dice.between(0, 3) as u8,
            caution: dice.of(&["", "Not alone."]).to_owned(),
            ..like.clone()
        };
        own.put(exercise, Moment(dice.between(0, 3)));
    }
    own
}

/// Blocks and changes of past sessions.
pub fn chronicle(dice: &mut Dice) -> Chronicle {
    let mut chronicle = Chronicle::default();
    for n in 0..dice.between(0, 3) {
        let goals = [
            Goal::EverySession,
            Goal::Rise(ExerciseId::new("back-squat")),
            Goal::NoPain(ExerciseId::new("push-up")),
            Goal::Sets(Muscle::Chest),
        ];
        let weeks = dice.between(3, 12) as u8;
        chronicle.put_block(Block {
            start: Day::from_epoch_days(20_000 + 7 * (20 * n as i32 + dice.between(0, 2) as i32)),
            weeks,
            lighter: dice.coin().then(|| weeks - 1),
            goals: (0..dice.between(0, 3))
                .map(|_| goals[dice.index(goals.len())].clone())
                .collect(),
        });
    }
    for at in 0..dice.between(0, 4) {
        let is_gone = dice.coin();
        let numbers = |dice: &mut Dice| {
            let rir = dice.coin().then(|| dice.between(0, 10) as u8);
            (
                Load::clamped(dice.between(0, 200_000)),
                dice.between(0, 30) as u16,
                rir,
            )
        };
        let is_new = !is_gone && dice.coin();
        chronicle.note(Amendment {
            was: (!is_new).then(|| numbers(dice)),
            now: (!is_gone).then(|| numbers(dice)),
            session: "s-1".to_owned(),
            at: Moment(at),
            exercise: ExerciseId::new("back-squat"),
            item: 1,
            set: 2,
        });
    }
    for at in 0..dice.between(0, 4) {
        chronicle.note_remark(Remark {
            session: "s-1".to_owned(),
            at: Moment(at),
            item: dice.between(0, 3) as u8,
            note: dice.of(&["", "seat 4", "\u{2603} \"grip\""]).to_owned(),
            discomfort: dice.of(&[None, Some(Discomfort::Mild), Some(Discomfort::Painful)]),
        });
    }
    for _ in 0..dice.between(0, 4) {
        let weight = dice
            .coin()
            .then(|| Load::clamped(dice.between(40_000, 120_000)));
        let at = Moment(dice.between(0, 3));
        let day = Day::from_epoch_days(20_000 + dice.between(0, 5) as i32);
        chronicle.weigh(day, Weighing { at, weight });
    }
    chronicle
}

pub fn settings(dice: &mut Dice) -> Settings {
    Settings {
        theme: dice.of(&[Theme::Auto, Theme::Light, Theme::Dark]),
        hand: dice.of(&[Hand::Right, Hand::Left]),
        sound: dice.of(&[Sound::On, Sound::Off]),
        notice: dice.of(&[Notice::On, Notice::Off]),
        screen: dice.of(&[Screen::StaysOn, Screen::MayDim]),
        cautions_read: dice.maybe(day),
        backed_up: dice.maybe(day),
        deload: dice.maybe(|dice| match dice.coin() {
            true => DeloadAnswer::Taken(day(dice)),
            false => DeloadAnswer::Declined(day(dice)),
        }),
    }
}

fn day(dice: &mut Dice) -> Day {
    Day::from_epoch_days(dice.between(-1_000, 40_000) as i32)
}

fn prescription(dice: &mut Dice) -> Prescription {
    let least = dice.between(1, 60) as u16;
    Prescription {
        exercise: exercise(dice),
        sets: dice.between(1, 10) as u8,
        reps: (least, least + dice.between(0, 30) as u16),
        rir: dice.between(0, 5) as u8,
        rest_s: dice.between(0, 900) as u16,
    }
}

fn reason(dice: &mut Dice) -> PickReason {
    match dice.between(0, 6) {
        0 => PickReason::CoversPattern(dice.of(Pattern::ALL)),
        1 => PickReason::Feeds {
            muscle: dice.of(Muscle::ALL),
            half_sets: dice.between(1, 24) as u32,
        },
        2 => PickReason::Priority(dice.of(Muscle::ALL)),
        3 => PickReason::LeadsDay,
        4 => PickReason::EasyToLearn,
        5 => PickReason::BestWithKit,
        _ => PickReason::SavesTime,
    }
}

fn note(dice: &mut Dice) -> PlanNote {
    let day = dice.between(0, 6) as u8;
    match dice.between(0, 4) {
        0 => PlanNote::PatternNotCovered(dice.of(Pattern::ALL)),
        1 => PlanNote::SlotDropped {
            day,
            patterns: dice.list(3, |dice| dice.of(Pattern::ALL)),
        },
        2 => PlanNote::BelowFloor {
            muscle: dice.of(Muscle::ALL),
            half_sets: dice.between(0, 10) as u32,
            floor: dice.between(10, 20) as u32,
        },
        3 => PlanNote::OverTime {
            day,
            seconds: dice.between(1, 3_000) as u32,
        },
        _ => PlanNote::ShortRecovery {
            day,
            muscle: dice.of(Muscle::ALL),
        },
    }
}

pub fn plan(dice: &mut Dice) -> AcceptedPlan {
    let days = 1 + dice.between(0, 5);
    AcceptedPlan {
        plan: Plan {
            split: SplitId::new("full-body"),
            days: (0..days).map(|_| plan_day(dice)).collect(),
            notes: dice.list(4, note),
        },
        accepted: day(dice),
        weekdays: weekdays(dice),
        repairs: repairs(dice),
    }
}

fn plan_day(dice: &mut Dice) -> PlanDay {
    PlanDay {
        focus: dice.of(Focus::ALL),
        seconds: dice.between(0, 9_000) as u32,
        items: (0..dice.between(0, 8))
            .map(|key| PlanItem {
                key: key as u16,
                prescription: prescription(dice),
                superset: dice.maybe(|dice| dice.between(0, 3) as u8),
                reasons: dice.list(3, reason),
            })
            .collect(),
    }
}

fn repairs(dice: &mut Dice) -> Repairs {
    let extra = |dice: &mut Dice| Extra {
        plan_day: dice.between(0, 27) as u8,
        prescription: prescription(dice),
    };
    Repairs {
        settled: dice.list(3, |dice| Settled {
            day: day(dice),
            chosen: day(dice),
            how: match dice.maybe(|dice| dice.list(3, extra)) {
                None => How::Shifted,
                Some(extras) => How::LetGo(extras),
            },
        }),
        pause: dice.maybe(|dice| Pause {
            from: day(dice),
            resume: day(dice),
        }),
        travel: dice.maybe(|dice| Travel {
            from: day(dice),
            back: day(dice),
            days: vec![plan_day(dice)],
            kit: dice.maybe(kit),
        }),
    }
}

const NOTES: [&str; 4] = [
    "",
    "left knee",
    "těžké, ale dobré",
    "🧶 \"quoted\" \\ \n line",
];

fn item(dice: &mut Dice, key: u16, start: i64) -> SessionItem {
    let prescription = prescription(dice);
    let mut at = start;
    let mut set_load = load(dice);
    let sets = (0..dice.between(0, 6))
        .map(|_| {
            at += dice.between(0, 300_000);
            if dice.between(0, 3) == 0 {
                set_load = load(dice);
            }
            SetEntry {
                kind: dice.of(&[SetKind::Work, SetKind::Work, SetKind::WarmUp]),
                load: set_load,
                count: dice.between(1, 900) as u16,
                rir: dice.maybe(|dice| dice.between(0, 10) as u8),
                at: Moment(at),
            }
        })
        .collect();
    SessionItem {
        key,
        superset: dice.maybe(|dice| dice.between(0, 3) as u8),
        target: dice.maybe(|dice| Target {
            load: dice.maybe(load),
            count: dice.between(1, 60) as u16,
            rir: if dice.coin() {
                prescription.rir
            } else {
                dice.between(0, 5) as u8
            },
        }),
        prescription,
        sets,
        state: dice.of(&[ItemState::Open, ItemState::Skipped]),
        discomfort: dice.maybe(|dice| dice.of(Discomfort::ALL)),
        note: dice.of(&NOTES).to_owned(),
        swapped_from: dice.maybe(exercise),
    }
}

/// A session in any phase.
pub fn session(dice: &mut Dice) -> Session {
    let day = dice.between(20_000, 21_000);
    let start = day * 86_400_000 + dice.between(0, 80_000_000);
    let started = dice.maybe(|_| Moment(start));
    let items: Vec<SessionItem> = (0..dice.between(0, 7))
        .map(|key| item(dice, key as u16, start))
        .collect();
    let later = Moment(start + dice.between(0, 9_000_000));
    Session {
        id: format!("s{start}"),
        day: Day::from_epoch_days(day as i32),
        plan_day: dice.maybe(|dice| dice.between(0, 6) as u8),
        is_deload: dice.coin(),
        started,
        paused_s: dice.between(0, 600) as u32,
        current: match items.len() {
            0 => None,
            len => dice.maybe(|dice| dice.index(len)),
        },
        items,
        phase: match dice.between(0, 4) {
            0 => Phase::Planned,
            1 => Phase::Active,
            2 => Phase::Resting {
                since: later,
                until: later.plus_seconds(90),
            },
            3 => Phase::Paused { since: later },
            _ => Phase::Finished { at: later },
        },
    }
}

/// A finished session.
pub fn finished(dice: &mut Dice) -> Session {
    let mut session = session(dice);
    let start = Moment(i64::from(session.day.epoch_days()) * 86_400_000);
    session.phase = Phase::Finished {
        at: start.plus_seconds(dice.between(90_000, 99_000)),
    };
    session.current = None;
    session
}
