//! Whatever the history, the prescription and the kit: a suggestion is made without a
//! panic, is one the kit makes, and rises by no more than the larger of ten percent and one
//! step over what was really lifted.
//!
//! `cargo +nightly fuzz run --fuzz-dir tests/fuzz suggest -- -max_total_time=600`

#![no_main]

use libfuzzer_sys::arbitrary::{Result, Unstructured};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::{Catalogue, Exercise};
use weekloom_engine::kit::{Kit, PlatePairs, Steps};
use weekloom_engine::load::{Direction, Ladder, warm_up};
use weekloom_engine::log::{Discomfort, Performance, SetEntry, SetKind};
use weekloom_engine::person::Status;
use weekloom_engine::plan::Prescription;
use weekloom_engine::progress::{
    Reason, Rule, SuggestInput, WeeksSinceDeload, bests, deload_advice, next_climb_load, suggest,
};
use weekloom_engine::units::Load;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

/// Loads near each other, now and then one far off.
fn load(raw: &mut Unstructured<'_>) -> Result<Load> {
    Ok(match raw.int_in_range(0..=7)? {
        0 => Load::clamped(raw.int_in_range(0..=1_000_000)?),
        _ => Load::clamped(raw.int_in_range(0..=60)? * 1_250),
    })
}

fn steps(raw: &mut Unstructured<'_>) -> Result<Steps> {
    Ok(if raw.ratio(1, 4)? {
        let count = raw.int_in_range(0..=6)?;
        Steps::Listed((0..count).map(|_| load(raw)).collect::<Result<_>>()?)
    } else {
        Steps::Even {
            first: load(raw)?,
            step: Load::clamped(raw.int_in_range(0..=40)? * 250),
            last: load(raw)?,
        }
    })
}

fn kit(raw: &mut Unstructured<'_>) -> Result<Kit> {
    let mut kit = Kit::full_gym();
    if raw.ratio(1, 2)? {
        let kinds = raw.int_in_range(0..=5)?;
        kit.plates = (0..kinds)
            .map(|_| {
                Ok(PlatePairs {
                    plate: Load::clamped(raw.int_in_range(1..=100)? * 250),
                    pairs: raw.int_in_range(0..=5)?,
                })
            })
            .collect::<Result<_>>()?;
        kit.bar = load(raw)?;
        kit.dumbbells = steps(raw)?;
        kit.machine = steps(raw)?;
        kit.cable = steps(raw)?;
    }
    Ok(kit)
}

fn prescription(raw: &mut Unstructured<'_>, exercise: &Exercise) -> Result<Prescription> {
    let is_usual = raw.ratio(3, 4)?;
    Ok(Prescription {
        exercise: exercise.id.clone(),
        sets: raw.int_in_range(0..=6)?,
        reps: if is_usual {
            exercise.reps
        } else {
            (raw.arbitrary()?, raw.arbitrary()?)
        },
        rir: raw.int_in_range(0..=5)?,
        rest_s: 120,
    })
}

fn performance(raw: &mut Unstructured<'_>, exercise: &Exercise) -> Result<Performance> {
    let sets = raw.int_in_range(0..=5)?;
    let shared = load(raw)?;
    let is_alike = raw.ratio(3, 4)?;
    Ok(Performance {
        day: Day::from_epoch_days(20_000 + raw.int_in_range(0..=400)?),
        prescription: prescription(raw, exercise)?,
        suggested: None,
        is_deload: raw.ratio(1, 10)?,
        sets: (0..sets)
            .map(|_| {
                Ok(SetEntry {
                    kind: if raw.ratio(1, 8)? {
                        SetKind::WarmUp
                    } else {
                        SetKind::Work
                    },
                    load: if is_alike { shared } else { load(raw)? },
                    count: if raw.ratio(1, 16)? {
                        raw.arbitrary()?
                    } else {
                        raw.int_in_range(0..=20)?
                    },
                    rir: if raw.ratio(1, 4)? {
                        None
                    } else {
                        Some(raw.int_in_range(0..=10)?)
                    },
                    at: Moment(0),
                })
            })
            .collect::<Result<_>>()?,
        discomfort: match raw.int_in_range(0..=9)? {
            0 => Some(Discomfort::Mild),
            1 => Some(Discomfort::Painful),
            _ => None,
        },
    })
}

fn check(raw: &mut Unstructured<'_>) -> Result<()> {
    let at = raw.choose_index(CATALOGUE.len())?;
    let exercise = CATALOGUE.iter().nth(at).expect("within");
    let kit = kit(raw)?;
    let prescription = prescription(raw, exercise)?;
    let status = *raw.choose(Status::ALL)?;
    let sessions = raw.int_in_range(0..=12)?;
    let history = (0..sessions)
        .map(|_| performance(raw, exercise))
        .collect::<Result<Vec<_>>>()?;
    let input = SuggestInput {
        exercise,
        prescription: &prescription,
        history: &history,
        kit: &kit,
        rule: *raw.choose(Rule::ALL)?,
        status,
        today: Day::from_epoch_days(20_000 + raw.int_in_range(0..=800)?),
        is_deload: raw.ratio(1, 10)?,
    };
    let found = suggest(&input);
    assert_eq!(found, suggest(&input), "not the same twice");
    assert!((1..=900).contains(&found.count));
    assert!(!found.sources().is_empty());
    let ladder = Ladder::of(exercise, &kit);
    if let Some(load) = found.load {
        let ladder = ladder.as_ref().expect("a load needs a ladder");
        assert!(ladder.makes(load));
        let last = found.reason.last().expect("a load rests on a session");
        assert!(history.iter().any(|session| {
            session.day == last.day && session.sets.iter().any(|set| set.load == last.load)
        }));
        let percent = if status == Status::Advanced { 105 } else { 110 };
        let published = Load::clamped(last.load.grams() * percent / 100);
        let step = ladder.harder(last.load).unwrap_or(last.load);
        let is_within = match ladder.direction() {
            Direction::MoreIsHarder => load <= published.max(step),
            Direction::LessIsHarder => load >= step,
        };
        assert!(
            is_within,
            "{load:?} after {:?}: {:?}",
            last.load, found.reason
        );
        let is_up = ladder.is_harder(load, last.load);
        assert_eq!(is_up, matches!(found.reason, Reason::Raised { .. }));
        let latest = history.iter().map(|session| session.day).max();
        let hurt =
            |session: &Performance| Some(session.day) == latest && session.discomfort.is_some();
        assert!(!is_up || !(input.is_deload || history.iter().any(hurt)));
        for set in warm_up(load, ladder, exercise) {
            assert!(ladder.makes(set.load) && ladder.is_harder(load, set.load));
        }
    }
    if let Some(ladder) = &ladder {
        let last = history.last().and_then(|session| session.sets.last());
        assert!(ladder.makes(next_climb_load(last, ladder, &prescription).load()));
    }
    if let Some((newest, earlier)) = history.split_last() {
        let _ = bests(earlier, newest, ladder.as_ref().map(Ladder::direction));
    }
    let _ = deload_advice(&WeeksSinceDeload::read(&CATALOGUE, &history, input.today));
    Ok(())
}

fuzz_target!(|bytes: &[u8]| {
    // Bytes that run out end in noughts; that is an input like any other.
    let _ = check(&mut Unstructured::new(bytes));
});
