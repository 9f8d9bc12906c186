//! Plans people drawn from a seed and states their programmes for a solver:
//! `cargo run --release -p weekloom-engine --example people_bench -- FIRST COUNT FOLDER`.
//!
//! Writes FOLDER/NUMBER.lp for each and prints one JSON object a line: number,
//! points of our plan, those of its sets alone, and our bound, points the programme's
//! objective leaves out, the microseconds the plan took and the columns that it chooses.

mod people;

use std::time::Instant;
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::plan::programme::Programme;
use weekloom_engine::plan::{objective, solve_week};

fn main() {
    let catalogue = Catalogue::built_in();
    let words: Vec<String> = std::env::args().skip(1).collect();
    let number = |at: usize| words[at].parse::<u32>().expect("a number");
    let (first, count, folder) = (number(0), number(1), &words[2]);
    for n in first..first + count {
        let person = people::Draw::numbered(n).person(&catalogue);
        let started = Instant::now();
        let solved = solve_week(&catalogue, &person).expect("plannable");
        let micros = started.elapsed().as_micros();
        let score =
            objective::score(&catalogue, &person, &solved.draft).expect("a draft of theirs");
        let programme = Programme::new(&catalogue, &person).expect("plannable");
        std::fs::write(format!("{folder}/{n}.lp"), programme.to_lp()).expect("written");
        let start = programme.columns_of(&solved.draft);
        println!(
            "{{\"number\":{n},\"points\":{},\"stimulus\":{},\"bound\":{},\"constant\":{},\"fingerprint\":\"{:016x}\",\"micros\":{micros},\"days\":{},\"minutes\":{},\"size\":{:?},\"start\":{start:?}}}",
            solved.objective,
            score.stimulus,
            solved.bound,
            programme.constant(),
            programme.fingerprint(),
            person.days.len(),
            person.minutes,
            [programme.size().0, programme.size().1],
        );
    }
}
