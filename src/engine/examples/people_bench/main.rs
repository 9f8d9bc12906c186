//! Plans people drawn from a seed and states their programmes for a solver:
//! `cargo run --release -p weekloom-engine --example people_bench -- FIRST COUNT FOLDER`.
//!
//! Writes FOLDER/NUMBER.lp for each and prints one JSON object a line: number,
//! points of our plan, points the programme's objective leaves out, and the
//! microseconds the plan took. Then reads lines `NUMBER NAME NAME ...` of chosen
//! columns from standard input and prints the points of each such week.

mod people;

use std::collections::BTreeSet;
use std::io::BufRead;
use std::time::Instant;
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::plan::objective;
use weekloom_engine::plan::programme::Programme;
use weekloom_engine::plan::solve_week;

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
        let programme = Programme::new(&catalogue, &person).expect("plannable");
        std::fs::write(format!("{folder}/{n}.lp"), programme.to_lp()).expect("written");
        let start = programme.columns_of(&solved.draft);
        println!(
            "{{\"number\":{n},\"points\":{},\"bound\":{},\"constant\":{},\"micros\":{micros},\"days\":{},\"minutes\":{},\"size\":{:?},\"start\":{start:?}}}",
            solved.objective,
            solved.bound,
            programme.constant(),
            person.days.len(),
            person.minutes,
            [programme.size().0, programme.size().1],
        );
    }
    for line in std::io::stdin().lock().lines().map_while(Result::ok) {
        let mut words = line.split_whitespace();
        let Some(n) = words.next().and_then(|n| n.parse().ok()) else {
            continue;
        };
        let person = people::Draw::numbered(n).person(&catalogue);
        let programme = Programme::new(&catalogue, &person).expect("plannable");
        let week = programme.week_of(&words.collect::<BTreeSet<_>>());
        let score = objective::score(&catalogue, &person, &week).expect("in the programme");
        println!("{{\"number\":{n},\"points\":{}}}", score.total());
    }
}
