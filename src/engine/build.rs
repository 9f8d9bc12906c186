//! Packs the catalogue's data file for the app: the same exercises in half the
//! text, readable in a few lines of code.
//!
//! Start at [`main`]; `catalogue/packed.rs` reads what this writes, and a test
//! holds it to what the strict reader makes of the data file. Runs on the
//! machine that compiles, before the engine does; it is no part of it, and it
//! never judges the data: that is the strict reader's business.

#[path = "slug.rs"]
#[allow(dead_code, reason = "the engine uses more of it")]
mod slug;
#[path = "catalogue/terms.rs"]
#[allow(dead_code, reason = "the engine uses more of it")]
mod terms;

use serde_json::Value;
use std::fmt::Write as _;
use std::path::Path;
use terms::{Equipment, JointDemand, Kind, Loading, Measure, Muscle, Pattern, Role, Sides};

fn main() {
    let data = "catalogue/exercises.json";
    for file in [data, "catalogue/terms.rs", "slug.rs", "build.rs"] {
        println!("cargo::rerun-if-changed={file}");
    }
    let json = std::fs::read_to_string(data).expect("the catalogue's data file");
    let file = serde_json::from_str(&json).expect("the catalogue's data file holds JSON");
    let out = std::env::var_os("OUT_DIR").expect("cargo names a folder for what is built");
    std::fs::write(Path::new(&out).join("catalogue.txt"), pack(&file)).expect("room for the file");
}

/// One basis a line, a form feed, one exercise a line; fields between tabs.
fn pack(file: &Value) -> String {
    let mut out = String::new();
    for basis in list(&file["patterns"]) {
        out.push(letter(&basis["pattern"], Pattern::ALL, Pattern::slug));
        line(&mut out, text(&basis["basis"]));
    }
    out.push('\u{c}');
    let mut exercises: Vec<&Value> = list(&file["exercises"]).iter().collect();
    exercises.sort_by_key(|exercise| text(&exercise["id"]));
    let number_of = |id: &Value| exercises.iter().position(|e| e["id"] == *id);
    for exercise in &exercises {
        let field = |name: &str| &exercise[name];
        for name in ["id", "name", "cue", "caution"] {
            // The cue has two lines.
            let plain = text(field(name)).replace('\n', "|");
            out.push_str(&plain);
            out.push('\t');
        }
        out.push(letter(field("pattern"), Pattern::ALL, Pattern::slug));
        out.push(letter(field("role"), Role::ALL, Role::slug));
        out.push(letter(field("loading"), Loading::ALL, Loading::slug));
        out.push(letter(field("measure"), Measure::ALL, Measure::slug));
        out.push(letter(field("sides"), Sides::ALL, Sides::slug));
        out.push(letter(field("kind"), Kind::ALL, Kind::slug));
        out.push('\t');
        letters(&mut out, field("prime"), Muscle::ALL, Muscle::slug);
        letters(&mut out, field("assist"), Muscle::ALL, Muscle::slug);
        letters(
            &mut out,
            field("equipment"),
            Equipment::ALL,
            Equipment::slug,
        );
        letters(
            &mut out,
            field("joints"),
            JointDemand::ALL,
            JointDemand::slug,
        );
        for name in ["rir", "rest_s", "rep_ds", "setup_s", "strain", "skill"] {
            let _ = write!(out, "{},", field(name));
        }
        let _ = write!(out, "{},{}\t", field("reps")[0], field("reps")[1]);
        for name in ["step_down", "step_up"] {
            let numbers: Vec<String> = list(field(name))
                .iter()
                .map(|id| number_of(id).expect("a step to an exercise").to_string())
                .collect();
            out.push_str(&numbers.join(","));
            out.push('\t');
        }
        out.pop();
        out.push('\n');
    }
    out
}

fn line(out: &mut String, text: &str) {
    out.push_str(text);
    out.push('\n');
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("a list")
}

fn text(value: &Value) -> &str {
    value.as_str().expect("text")
}

/// The term's place among all, from '0' on.
fn letter<T: Copy>(value: &Value, all: &[T], slug: fn(T) -> &'static str) -> char {
    let place = all.iter().position(|&term| slug(term) == text(value));
    let place = place.unwrap_or_else(|| panic!("{value} is none of the terms"));
    char::from(b'0' + u8::try_from(place).expect("few terms"))
}

fn letters<T: Copy>(out: &mut String, values: &Value, all: &[T], slug: fn(T) -> &'static str) {
    out.extend(list(values).iter().map(|value| letter(value, all, slug)));
    out.push('\t');
}
