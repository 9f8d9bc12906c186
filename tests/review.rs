//! The review against trainees whose reason for standing still is known.
//!
//! Each trains twelve weeks with a strength that the review does not see. What
//! holds it back is planted: few sets, little rest, missed sessions, sets far too
//! easy, a place at the end of the session, or nothing but a ceiling; some are
//! held back by nothing. Start at [`Plant`] and [`train`]. The review is given
//! the sessions alone, and what it says of the bench press is counted against
//! what was planted. The model of the body is the project's own judgement, as in
//! the simulation of a year: it says whether the review finds what is there, not
//! how often people have which trouble.
//!
//! Thresholds were chosen on seeds from nought; what is asserted is judged on
//! seeds from [`JUDGED`] on, which were not looked at before.
//!
//! `WEEKLOOM_PEOPLE=500` sets how many of each; `WEEKLOOM_TABLE=FILE` writes the
//! table as JSON, for `cargo xtask bench --review`.

use std::io::Write as _;
use weekloom_engine::calendar::{Day, Moment, Weekday};
use weekloom_engine::catalogue::{Catalogue, ExerciseId};
use weekloom_engine::kit::Kit;
use weekloom_engine::load::Ladder;
use weekloom_engine::log::{Performance, SetEntry, SetKind};
use weekloom_engine::order::{Map, Set};
use weekloom_engine::person::{Person, Status};
use weekloom_engine::plan::{Focus, Plan, PlanDay, PlanItem, Prescription, SplitId};
use weekloom_engine::progress::{Rule, SuggestInput, suggest};
use weekloom_engine::review::{
    Cause, Change, Finding, Logs, Planned, Review, Weights, propose, review, take,
};
use weekloom_engine::schedule::Repairs;
use weekloom_engine::session::{Phase, Session, session_performances};
use weekloom_engine::units::{Load, Unit};

/// People by row in a debug build.
const PEOPLE: u64 = 25;
const WEEKS: i32 = 12;
/// Seeds from here on are judged; those before were for choosing thresholds.
const JUDGED: u64 = 1_000_000;
const BENCH: &str = "barbell-bench-press";

/// A linear congruential generator (Knuth's MMIX constants).
struct Dice(u64);

impl Dice {
    fn new(seed: u64) -> Self {
        let mut dice = Self((seed + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15));
        for _ in 0..4 {
            dice.uniform();
        }
        dice
    }

    fn uniform(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        #[expect(clippy::cast_precision_loss, reason = "53 bits")]
        let number = (self.0 >> 11) as f64 / (1_u64 << 53) as f64;
        number
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.uniform()
    }

    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.uniform()).sum::<f64>() - 6.0
    }
}

/// What holds a trainee back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Plant {
    /// Nothing: they gain.
    Gains,
    /// Nothing to be seen: they are as strong as they will be.
    Ceiling,
    FewSets,
    LittleRest,
    Missed,
    TooEasy,
    Late,
}

const PLANTS: [Plant; 7] = [
    Plant::Gains,
    Plant::Ceiling,
    Plant::FewSets,
    Plant::LittleRest,
    Plant::Missed,
    Plant::TooEasy,
    Plant::Late,
];

/// What the review says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Said {
    Rose,
    NoneVisible,
    FewSets,
    LittleRest,
    Missed,
    TooEasy,
    Late,
    NotTold,
}

const SAID: [Said; 8] = [
    Said::Rose,
    Said::NoneVisible,
    Said::FewSets,
    Said::LittleRest,
    Said::Missed,
    Said::TooEasy,
    Said::Late,
    Said::NotTold,
];

impl Plant {
    /// What the review ought to say.
    const fn wanted(self) -> Said {
        match self {
            Self::Gains => Said::Rose,
            Self::Ceiling => Said::NoneVisible,
            Self::FewSets => Said::FewSets,
            Self::LittleRest => Said::LittleRest,
            Self::Missed => Said::Missed,
            Self::TooEasy => Said::TooEasy,
            Self::Late => Said::Late,
        }
    }
}

const LIFTS: [&str; 4] = [BENCH, "back-squat", "barbell-row", "dumbbell-curl"];

fn plan(catalogue: &Catalogue, plant: Plant) -> Plan {
    let mut lifts = LIFTS.to_vec();
    if plant == Plant::Late {
        lifts.rotate_left(1);
    }
    let mut key = 0;
    let days = (0..3)
        .map(|_| PlanDay {
            focus: Focus::FullBody,
            items: lifts
                .iter()
                .map(|id| {
                    key += 1;
                    let exercise = catalogue.get(&ExerciseId::new(id)).expect("known");
                    let is_few = plant == Plant::FewSets && *id == BENCH;
                    PlanItem {
                        key,
                        prescription: Prescription {
                            exercise: exercise.id.clone(),
                            sets: if is_few { 1 } else { 4 },
                            reps: (6, 10),
                            rir: 2,
                            rest_s: 150,
                        },
                        superset: None,
                        reasons: Vec::new(),
                    }
                })
                .collect(),
            seconds: 3_000,
        })
        .collect();
    Plan {
        split: SplitId::new("full-body-3"),
        days,
        notes: Vec::new(),
    }
}

fn person() -> Person {
    Person {
        days: vec![Weekday::Monday, Weekday::Wednesday, Weekday::Friday],
        minutes: 75,
        kit: Kit::full_gym(),
        status: Status::Intermediate,
        is_older: false,
        priorities: Map::new(),
        excluded: Set::new(),
        disliked: Set::new(),
        joint_limits: Set::new(),
        split: None,
        own_splits: Vec::new(),
        unit: Unit::Kg,
        rules: Map::new(),
    }
}

#[expect(clippy::cast_precision_loss, reason = "at most a million grams")]
fn kg(load: Load) -> f64 {
    load.grams() as f64 / 1000.0
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held within"
)]
fn whole(number: f64, most: f64) -> u16 {
    number.round().clamp(0.0, most) as u16
}

/// Twelve weeks of sessions.
fn train(catalogue: &Catalogue, plant: Plant, seed: u64) -> (Plan, Vec<Session>) {
    let mut dice = Dice::new(seed);
    let (plan, person) = (plan(catalogue, plant), person());
    let start = Day::from_ymd(2026, 1, 5).expect("a Monday");
    // Kilograms lifted once, in the order of LIFTS.
    let mut strength: Vec<f64> = [85.0, 110.0, 80.0, 22.0]
        .iter()
        .map(|usual| usual * dice.between(0.8, 1.25))
        .collect();
    // A gain of 12 to 30 % over the weeks where nothing holds it back: the
    // middle half of trials (Polito et al., EVIDENCE 15.3).
    let rate = dice.between(0.12, 0.30) / 36.0;
    let curve = dice.between(27.0, 40.0);
    let (bias, scatter) = (dice.between(0.2, 1.7), dice.between(0.5, 1.2));
    let kept = match plant {
        Plant::Missed => dice.between(0.35, 0.6),
        _ => dice.between(0.85, 1.0),
    };
    let rest = match plant {
        Plant::LittleRest => dice.between(40.0, 80.0),
        _ => dice.between(135.0, 190.0),
    };
    let easy = match plant {
        Plant::TooEasy => dice.between(0.72, 0.82),
        _ => 1.0,
    };
    let mut history: Map<ExerciseId, Vec<Performance>> = Map::new();
    let mut sessions = Vec::new();
    for n in 0..WEEKS * 3 {
        if dice.uniform() > kept {
            continue;
        }
        let day = start.plus(n / 3 * 7 + n % 3 * 2);
        let form = 1.0 + 0.02 * dice.normal();
        let mut clock = Moment(i64::from(day.epoch_days()) * 86_400_000 + 64_800_000);
        let plan_day = u8::try_from(n % 3).expect("three");
        let planned = &plan.days[usize::from(plan_day)];
        let mut session = Session::plan(&format!("{n:03}"), day, plan_day, false, planned);
        session.started = Some(clock);
        for item in &mut session.items {
            let asked = item.prescription.clone();
            let exercise = catalogue.get(&asked.exercise).expect("known");
            let at = LIFTS
                .iter()
                .position(|id| *id == asked.exercise.as_str())
                .expect("one of them");
            let is_bench = at == 0;
            let past = history.get_or_insert_with(exercise.id.clone(), Vec::new);
            let ladder = Ladder::of(exercise, &person.kit).expect("a load");
            let advice = suggest(&SuggestInput {
                exercise,
                prescription: &asked,
                history: past,
                kit: &person.kit,
                rule: Rule::DoubleProgression,
                status: person.status,
                today: day,
                is_deload: false,
            });
            // They know what they can lift on the first day.
            let known = strength[at] / (1.0 + 11.0 / curve);
            let wanted = advice
                .load
                .unwrap_or_else(|| ladder.round_down(grams(known)).expect("a load"));
            let is_easy = is_bench && easy < 1.0;
            let wanted = if is_easy {
                grams(strength[at] / (1.0 + 11.0 / curve) * easy)
            } else {
                wanted
            };
            let load = ladder
                .round_down(wanted)
                .unwrap_or_else(|| ladder.easiest());
            let loss: f64 = if rest < 100.0 && is_bench { 0.82 } else { 0.94 };
            clock = clock.plus_seconds(120);
            for set in 0..asked.sets {
                let room =
                    (strength[at] * form / kg(load).max(1.0) - 1.0) * curve * loss.powi(set.into());
                let room = whole(room, 60.0).max(1);
                let goal = if is_easy { 8 } else { advice.count };
                let done = room.min(goal.max(asked.reps.0));
                let noise = scatter * dice.normal();
                let said = whole(f64::from(room - done) - bias + noise, 10.0);
                clock = clock.plus_seconds(i64::from(done) * 4);
                item.sets.push(SetEntry {
                    kind: SetKind::Work,
                    load,
                    count: done,
                    rir: u8::try_from(said).ok(),
                    at: clock,
                });
                let taken = if is_bench { rest } else { 150.0 } * dice.between(0.85, 1.15);
                clock = clock.plus_seconds(i64::from(whole(taken, 900.0)));
            }
            let held_back = match plant {
                Plant::Gains => 1.0,
                // Growth is for each session, so missing them tells by itself;
                // what was gained is half lost in the gaps.
                Plant::Missed => 0.25,
                _ if is_bench => 0.04,
                _ => 1.0,
            };
            strength[at] *= 1.0 + rate * held_back;
        }
        session.phase = Phase::Finished { at: clock };
        for performance in session_performances(&session) {
            let id = performance.exercise().clone();
            history.get_or_insert_with(id, Vec::new).push(performance);
        }
        sessions.push(session);
    }
    (plan, sessions)
}

fn grams(kilograms: f64) -> Load {
    #[expect(clippy::cast_possible_truncation, reason = "a few hundred thousand")]
    let grams = (kilograms * 1000.0) as i64;
    Load::clamped(grams)
}

fn said(found: &Review) -> Said {
    let bench = ExerciseId::new(BENCH);
    for finding in &found.findings {
        if finding.exercise() != Some(&bench) {
            continue;
        }
        match finding {
            Finding::Rose { .. } => return Said::Rose,
            Finding::Stalled { causes, .. } => {
                return match causes.first() {
                    None => Said::NoneVisible,
                    Some(Cause::Adherence { .. }) => Said::Missed,
                    Some(Cause::FewSets { .. }) => Said::FewSets,
                    Some(Cause::LittleRest { .. }) => Said::LittleRest,
                    Some(Cause::TooEasy { .. }) => Said::TooEasy,
                    Some(Cause::Late { .. }) => Said::Late,
                };
            }
            _ => {}
        }
    }
    Said::NotTold
}

fn reviewed(catalogue: &Catalogue, plant: Plant, seed: u64) -> (Plan, Review) {
    let (plan, sessions) = train(catalogue, plant, seed);
    let start = Day::from_ymd(2026, 1, 5).expect("a Monday");
    let person = person();
    let found = review(&Logs {
        catalogue,
        person: &person,
        sessions: &sessions,
        weights: &Weights::new(),
        is_whole: true,
        planned: Some(Planned {
            plan: &plan,
            accepted: start,
            weekdays: &person.days,
            repairs: &Repairs::default(),
        }),
        from: start,
        today: start.plus(7 * WEEKS),
    });
    (plan, found)
}

fn confusion(from: u64, people: u64) -> Vec<[usize; 8]> {
    let catalogue = Catalogue::built_in();
    PLANTS
        .iter()
        .map(|&plant| {
            let mut row = [0; 8];
            for seed in from..from + people {
                let (_, found) = reviewed(&catalogue, plant, seed);
                let said = said(&found);
                let at = SAID.iter().position(|s| *s == said).expect("one of them");
                row[at] += 1;
            }
            row
        })
        .collect()
}

fn people() -> u64 {
    match std::env::var("WEEKLOOM_PEOPLE") {
        Ok(text) => text.parse().expect("WEEKLOOM_PEOPLE is a number of people"),
        Err(_) => PEOPLE,
    }
}

fn told(title: &str, table: &[[usize; 8]]) -> String {
    let mut text = format!("{title}\n{:<12}", "planted");
    for said in SAID {
        text += &format!("{:>12}", format!("{said:?}"));
    }
    for (plant, row) in PLANTS.iter().zip(table) {
        text += &format!("\n{:<12}", format!("{plant:?}"));
        for number in row {
            text += &format!("{number:>12}");
        }
    }
    text + "\n"
}

#[test]
fn the_planted_cause_is_found() {
    let people = people();
    let table = confusion(JUDGED, people);
    let mut text = told("review: seeds that are judged", &table);
    if let Ok(file) = std::env::var("WEEKLOOM_TABLE") {
        let chosen_on = confusion(0, people);
        text += &told("review: seeds that thresholds were chosen on", &chosen_on);
        let row = |(plant, row): (&Plant, &[usize; 8])| {
            let cells = SAID.iter().zip(row);
            let cells: Vec<String> = cells.map(|(said, n)| format!("\"{said:?}\":{n}")).collect();
            format!("{{\"planted\":\"{plant:?}\",{}}}", cells.join(","))
        };
        let rows: Vec<String> = PLANTS.iter().zip(&table).map(row).collect();
        std::fs::write(file, format!("[{}]\n", rows.join(",\n"))).expect("the table is written");
    }
    std::io::stderr()
        .write_all(text.as_bytes())
        .expect("stderr can be written");
    for (&plant, row) in PLANTS.iter().zip(&table) {
        let wanted = SAID.iter().position(|s| *s == plant.wanted()).expect("one");
        let silent = row[SAID.len() - 1];
        let right = share(row[wanted], people);
        // Another cause than the planted one is worse than "not enough to tell".
        let wrong = share(row.iter().sum::<usize>() - row[wanted] - silent, people);
        let (least, most) = limits(plant);
        assert!(right >= least, "{plant:?}: {right} right in {row:?}");
        assert!(wrong <= most, "{plant:?}: {wrong} wrong in {row:?}");
    }
}

#[expect(clippy::cast_precision_loss, reason = "counts of people")]
fn share(number: usize, of: u64) -> f64 {
    number as f64 / of as f64
}

/// The least share that must be found and the most that may be told wrongly, by
/// what was planted.
const fn limits(plant: Plant) -> (f64, f64) {
    match plant {
        Plant::Gains => (0.9, 0.05),
        // Half the sessions are half the days to tell by.
        Plant::Missed => (0.45, 0.1),
        _ => (0.7, 0.1),
    }
}

/// What is proposed answers the cause, and changes nothing else.
#[test]
fn the_proposal_answers_the_cause() {
    let catalogue = Catalogue::built_in();
    let bench = ExerciseId::new(BENCH);
    let mut answered = [0; 3];
    for seed in JUDGED..JUDGED + 20 {
        for (at, plant) in [Plant::FewSets, Plant::Missed, Plant::Ceiling]
            .into_iter()
            .enumerate()
        {
            let (plan, found) = reviewed(&catalogue, plant, seed);
            if said(&found) != plant.wanted() {
                continue;
            }
            let proposed = propose(&catalogue, &person(), &plan, &found);
            let is_answered = proposed.iter().any(|proposed| match &proposed.change {
                Change::Sets {
                    exercise, from, to, ..
                } => plant == Plant::FewSets && *exercise == bench && to > from,
                Change::Days { from, to } => plant == Plant::Missed && to.len() < from.len(),
                Change::Swap { from, .. } => plant == Plant::Ceiling && *from == bench,
                _ => false,
            });
            assert!(is_answered, "{plant:?}: {proposed:?}");
            answered[at] += 1;
            let changes: Vec<Change> = proposed.into_iter().map(|p| p.change).collect();
            let taken = take(&catalogue, &person(), &plan, &changes).expect("a plan");
            assert_ne!(taken.plan, plan);
            let none = take(&catalogue, &person(), &plan, &[]).expect("a plan");
            let items = |plan: &Plan| -> Vec<PlanItem> {
                plan.days.iter().flat_map(|d| d.items.clone()).collect()
            };
            assert_eq!(items(&none.plan), items(&plan));
        }
    }
    assert!(answered.iter().all(|&n| n > 0), "{answered:?}");
}

/// Three weeks tell nothing, and nothing is proposed.
#[test]
fn thin_data_proposes_nothing() {
    let catalogue = Catalogue::built_in();
    let (person, start) = (person(), Day::from_ymd(2026, 1, 5).expect("a Monday"));
    for plant in PLANTS {
        let (plan, sessions) = train(&catalogue, plant, JUDGED);
        for days in [0, 8, 20, 26] {
            let early: Vec<Session> = sessions
                .iter()
                .filter(|s| s.day.days_since(start) <= days)
                .cloned()
                .collect();
            let found = review(&Logs {
                catalogue: &catalogue,
                person: &person,
                sessions: &early,
                weights: &Weights::new(),
                is_whole: true,
                planned: None,
                from: start,
                today: start.plus(days),
            });
            assert!(found.is_thin, "{plant:?} after {days} days");
            assert_eq!(found.findings, []);
            assert_eq!(propose(&catalogue, &person, &plan, &found), []);
        }
    }
}
