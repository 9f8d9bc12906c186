//! The backup's published schema says what the backup is.
//!
//! Checked by the crate `boon`, which knows nothing of ours.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use boon::{Compiler, SchemaIndex, Schemas};
use serde_json::Value;
use weekloom_engine::calendar::Day;
use weekloom_store::backup::export;

const SCHEMA: &str = include_str!("../../backup.schema.json");

/// The schema, ready to judge.
struct Validator {
    schemas: Schemas,
    backup: SchemaIndex,
}

/// Refuses a schema that is no JSON Schema of its draft.
fn validator() -> Validator {
    let name = "https://weekloom.test/backup.schema.json";
    let mut schemas = Schemas::new();
    let mut compiler = Compiler::new();
    compiler
        .add_resource(name, serde_json::from_str(SCHEMA).unwrap())
        .unwrap();
    let backup = compiler
        .compile(name, &mut schemas)
        .unwrap_or_else(|error| panic!("{error:#}"));
    Validator { schemas, backup }
}

/// The first thing in `value` that the schema forbids.
fn check(schema: &Validator, value: &Value) -> Result<(), String> {
    schema
        .schemas
        .validate(value, schema.backup)
        .map_err(|error| format!("{error:#}"))
}

fn backup(seed: u64) -> Value {
    let dice = &mut Dice::new(seed);
    let mut store = empty();
    for _ in 0..6 {
        let changes = store.finish_session(&invent::finished(dice)).unwrap();
        keep(&mut store, changes);
    }
    let changes = store
        .save_person(&invent::person(dice))
        .unwrap()
        .and(store.save_plan(&invent::plan(dice)).unwrap())
        .and(store.save_settings(&invent::settings(dice)).unwrap())
        .and(store.save_now(&invent::session(dice)).unwrap())
        .and(store.save_exercises(&invent::exercises(dice)).unwrap())
        .and(store.save_chronicle(&invent::chronicle(dice)).unwrap());
    keep(&mut store, changes);
    serde_json::from_str(&export(&store, Day::from_epoch_days(20_000)).text).unwrap()
}

#[test]
fn every_backup_fits_the_schema() {
    let schema = validator();
    let none = export(&empty(), Day::from_epoch_days(20_000)).text;
    let none = serde_json::from_str(&none).unwrap();
    assert_eq!(check(&schema, &none), Ok(()));
    for seed in 0..60 {
        let found = check(&schema, &backup(seed));
        assert_eq!(found, Ok(()), "seed {seed}");
    }
}

/// Everything else is refused by the schema: each case spoils a good file.
#[test]
fn what_is_no_backup_breaks_the_schema() {
    let schema = validator();
    type Spoil = fn(&mut Value);
    let cases: [(&str, Spoil); 8] = [
        ("format", |v| v["format"] = "other".into()),
        ("version", |v| v["version"] = 1.into()),
        ("missing", |v| {
            v.as_object_mut().unwrap().remove("sessions");
        }),
        ("unknown", |v| v["more"] = 1.into()),
        ("minutes", |v| v["person"]["minutes"] = 500.into()),
        ("weekday", |v| v["plan"]["weekdays"][0] = 8.into()),
        ("exercises", |v| v["exercises"] = 1.into()),
        ("session", |v| v["sessions"][0]["x"] = Value::Null),
    ];
    for (name, spoil) in cases {
        let mut value = backup(3);
        assert_eq!(check(&schema, &value), Ok(()));
        spoil(&mut value);
        assert!(check(&schema, &value).is_err(), "{name}");
    }
}
