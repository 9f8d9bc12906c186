//! The backup's published schema says what the backup is.
//!
//! Checked by a reader of just those JSON Schema words that the file uses; it
//! refuses any other word, so that nothing in the schema goes unchecked.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use serde_json::Value;
use weekloom_engine::calendar::Day;
use weekloom_store::backup::export;

const SCHEMA: &str = include_str!("../../backup.schema.json");

/// The first thing in `value` that the schema forbids.
fn check(root: &Value, schema: &Value, value: &Value, place: &str) -> Result<(), String> {
    for (word, rule) in schema.as_object().unwrap() {
        let fits = match word.as_str() {
            "$schema" | "$defs" | "title" | "description" | "required" | "prefixItems" => true,
            "$ref" => {
                let name = rule.as_str().unwrap().strip_prefix("#/$defs/").unwrap();
                check(root, &root["$defs"][name], value, place)?;
                true
            }
            "anyOf" => {
                let mut all = rule.as_array().unwrap().iter();
                all.any(|one| check(root, one, value, place).is_ok())
            }
            "const" => rule == value,
            "enum" => rule.as_array().unwrap().contains(value),
            "type" => match rule.as_str().unwrap() {
                "null" => value.is_null(),
                "boolean" => value.is_boolean(),
                "integer" => value.is_i64() || value.is_u64(),
                "string" => value.is_string(),
                "array" => value.is_array(),
                "object" => value.is_object(),
                other => panic!("the schema has a type '{other}'"),
            },
            "minimum" => value.as_i64() >= rule.as_i64(),
            "maximum" => value.as_i64() <= rule.as_i64(),
            "minLength" => value.as_str().map(|s| s.chars().count() as u64) >= rule.as_u64(),
            "maxLength" => value.as_str().map(|s| s.chars().count() as u64) <= rule.as_u64(),
            "minItems" => value.as_array().map(|a| a.len() as u64) >= rule.as_u64(),
            "maxItems" => value.as_array().map(|a| a.len() as u64) <= rule.as_u64(),
            "minProperties" => value.as_object().map(|o| o.len() as u64) >= rule.as_u64(),
            "maxProperties" => value.as_object().map(|o| o.len() as u64) <= rule.as_u64(),
            "items" => {
                for (i, item) in value.as_array().into_iter().flatten().enumerate() {
                    check(root, rule, item, &format!("{place}[{i}]"))?;
                }
                true
            }
            "properties" | "additionalProperties" => true,
            other => panic!("the schema has a word '{other}' that this test cannot read"),
        };
        if !fits {
            return Err(format!("{place}: {value} breaks {word} {rule}"));
        }
    }
    if let (Some(rules), Some(items)) = (schema["prefixItems"].as_array(), value.as_array()) {
        for (i, (rule, item)) in rules.iter().zip(items).enumerate() {
            check(root, rule, item, &format!("{place}[{i}]"))?;
        }
    }
    let Some(object) = value.as_object() else {
        return Ok(());
    };
    for name in schema["required"].as_array().into_iter().flatten() {
        if !object.contains_key(name.as_str().unwrap()) {
            return Err(format!("{place}: {name} is missing"));
        }
    }
    for (name, inner) in object {
        let place = format!("{place}.{name}");
        match (&schema["properties"][name], &schema["additionalProperties"]) {
            (Value::Null, Value::Bool(false)) => return Err(format!("{place} is not allowed")),
            (Value::Null, Value::Null) => {}
            (Value::Null, rule) => check(root, rule, inner, &place)?,
            (rule, _) => check(root, rule, inner, &place)?,
        }
    }
    Ok(())
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
        .and(store.save_now(&invent::session(dice)).unwrap());
    keep(&mut store, changes);
    serde_json::from_str(&export(&store, Day::from_epoch_days(20_000)).text).unwrap()
}

#[test]
fn every_backup_fits_the_schema() {
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    let none = export(&empty(), Day::from_epoch_days(20_000)).text;
    let none = serde_json::from_str(&none).unwrap();
    assert_eq!(check(&schema, &schema, &none, "$"), Ok(()));
    for seed in 0..60 {
        let found = check(&schema, &schema, &backup(seed), "$");
        assert_eq!(found, Ok(()), "seed {seed}");
    }
}

/// Everything else is refused by the schema: each case spoils a good file.
#[test]
fn what_is_no_backup_breaks_the_schema() {
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    type Spoil = fn(&mut Value);
    let cases: [(&str, Spoil); 7] = [
        ("format", |v| v["format"] = "other".into()),
        ("version", |v| v["version"] = 2.into()),
        ("missing", |v| {
            v.as_object_mut().unwrap().remove("sessions");
        }),
        ("unknown", |v| v["more"] = 1.into()),
        ("minutes", |v| v["person"]["minutes"] = 500.into()),
        ("weekday", |v| v["plan"]["weekdays"][0] = 8.into()),
        ("session", |v| v["sessions"][0]["x"] = Value::Null),
    ];
    for (name, spoil) in cases {
        let mut value = backup(3);
        assert_eq!(check(&schema, &schema, &value, "$"), Ok(()));
        spoil(&mut value);
        assert!(check(&schema, &schema, &value, "$").is_err(), "{name}");
    }
}
