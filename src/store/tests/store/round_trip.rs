//! What is written comes back the same.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use std::fmt::Debug;
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::catalogue::Pattern;
use weekloom_engine::person::Person;
use weekloom_engine::plan::{Focus, OwnSplit, Slot, Split, SplitDay};
use weekloom_engine::progress::Rule;
use weekloom_engine::units::Load;
use weekloom_store::wire::{self, Stored};
use weekloom_store::{Shelf, StoreError};

fn comes_back<T: Stored + PartialEq + Debug>(make: fn(&mut Dice) -> T) {
    for seed in 0..500 {
        let value = make(&mut Dice::new(seed));
        let text = wire::to_text(&value).unwrap_or_else(|e| panic!("seed {seed}: {e}"));
        assert!(text.is_ascii(), "seed {seed}");
        assert_eq!(
            wire::from_text::<T>(&text).as_ref(),
            Ok(&value),
            "seed {seed}"
        );
    }
}

#[test]
fn a_person_comes_back() {
    comes_back(invent::person);
}

#[test]
fn a_plan_comes_back() {
    comes_back(invent::plan);
}

#[test]
fn settings_come_back() {
    comes_back(invent::settings);
}

#[test]
fn own_exercises_come_back() {
    comes_back(invent::exercises);
}

#[test]
fn a_chronicle_comes_back() {
    comes_back(invent::chronicle);
}

#[test]
fn a_session_comes_back() {
    comes_back(invent::session);
}

#[test]
fn everything_saved_is_loaded_by_a_later_start() {
    let dice = &mut Dice::new(7);
    let (person, plan, settings) = (
        invent::person(dice),
        invent::plan(dice),
        invent::settings(dice),
    );
    let (now, done) = (invent::session(dice), invent::finished(dice));
    let exercises = invent::exercises(dice);
    let mut store = empty();
    let changes = store
        .save_person(&person)
        .unwrap()
        .and(store.save_plan(&plan).unwrap())
        .and(store.save_settings(&settings).unwrap())
        .and(store.save_now(&now).unwrap())
        .and(store.save_session(&done).unwrap())
        .and(store.save_exercises(&exercises).unwrap());
    keep(&mut store, changes);

    let shelf = store.into_shelf();
    assert!(shelf.keys().iter().all(|key| key.starts_with("weekloom.")));
    let (store, report) = weekloom_store::Store::open(shelf, weekloom_store::Space::Own, vec![]);
    assert_eq!(report, weekloom_store::OpenReport::default());
    assert_eq!(store.load_person(), Ok(Some(person)));
    assert_eq!(store.load_plan(), Ok(Some(plan)));
    assert_eq!(store.load_settings(), Ok(settings));
    assert_eq!(store.load_now(), Ok(Some(now)));
    assert_eq!(store.load_exercises(), Ok(exercises));
    assert_eq!(store.read_session(&done.id), Ok(Some(done)));
}

#[test]
fn what_could_not_be_read_back_is_refused_before_it_is_written() {
    let dice = &mut Dice::new(1);
    let store = empty();
    let mut person = invent::person(dice);
    person.minutes = 19;
    let error = store.save_person(&person).unwrap_err();
    assert_eq!(
        error.to_string(),
        "the value cannot be kept: minutes: minutes 19 is not between 20 and 180"
    );
    let mut session = invent::finished(dice);
    session.id = "no spaces, please".to_owned();
    assert!(matches!(
        store.save_session(&session),
        Err(StoreError::Refused(e)) if e.place == "id"
    ));
}

/// Whoever never chose a rule has no field for it; a rule nobody knows is
/// refused, not dropped.
#[test]
fn rules_chosen_are_kept_and_absent_where_none_was() {
    let mut person = invent::person(&mut Dice::new(3));
    person.rules = weekloom_engine::order::Map::new();
    let without = wire::to_text(&person).unwrap();
    assert!(!without.contains("rules"));
    assert_eq!(wire::from_text(&without).as_ref(), Ok(&person));
    let squat = ExerciseId::new("goblet-squat");
    person.rules.insert(squat, Rule::EffortLed);
    let with = wire::to_text(&person).unwrap();
    let chosen = r#""rules":{"goblet-squat":"effort-led"}"#;
    assert!(with.contains(chosen), "{with}");
    assert_eq!(wire::from_text(&with).as_ref(), Ok(&person));
    for (to, what) in [
        (
            r#""rules":{"goblet-squat":"by-mood"}"#,
            "'by-mood' is not known",
        ),
        (r#""rules":{"Goblet squat":"effort-led"}"#, "small letters"),
    ] {
        let error = wire::from_text::<Person>(&with.replace(chosen, to)).unwrap_err();
        assert_eq!(error.place, "rules");
        assert!(error.what.contains(what), "{error:?}");
    }
}

/// Each case is one changed value in a good text.
#[test]
fn values_out_of_bounds_are_refused_with_their_place() {
    let mut person = invent::person(&mut Dice::new(3));
    person.kit.bar = Load::kg(20);
    let mut own = OwnSplit {
        name: "n".repeat(OwnSplit::NAME),
        split: Split {
            id: OwnSplit::free_slug(&[]),
            days: vec![SplitDay {
                focus: Focus::Own,
                slots: vec![Slot::of(Pattern::Squat)],
            }],
        },
    };
    own.settle();
    person.own_splits = vec![own];
    let text = wire::to_text(&person).unwrap();
    let cases = [
        (
            r#""bar":20000"#,
            r#""bar":-1"#,
            "kit.bar",
            "-1 is not between",
        ),
        (r#""bar":20000"#, r#""bar":1000001"#, "kit.bar", "1000001"),
        (r#""bar":20000"#, r#""bar":20.5"#, "line 1", "invalid type"),
        (
            r#""bar":20000"#,
            r#""rod":20000"#,
            "line 1",
            "unknown field",
        ),
        (r#""unit":""#, r#""unit":"stone "#, "unit", "is not known"),
        (r#""days":["#, r#""days":[9,"#, "days", "not in order"),
        (r#""bar":20000"#, r#""bar":900000"#, "kit", "bar"),
        (r#""own-1""#, r#""full-body""#, "own_splits[0]", "'own-'"),
        (
            r#""name":"n"#,
            r#""name":"nn"#,
            "own_splits[0]",
            "41 is not",
        ),
        (
            r#"["squat"]"#,
            "[]",
            "own_splits[0].days[0].slots[0]",
            "patterns",
        ),
        (r#"["squat"]"#, r#"["squot"]"#, "own_splits[0]", "not known"),
    ];
    for (from, to, place, words) in cases {
        let changed = text.replacen(from, to, 1);
        assert_ne!(changed, text, "{from}");
        let error = wire::from_text::<Person>(&changed).unwrap_err();
        assert!(error.place.starts_with(place), "{to}: {error:?}");
        assert!(error.what.contains(words), "{to}: {error:?}");
    }
}
