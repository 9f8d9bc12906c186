//! The planner against a solver's proofs.
//!
//! `tests/oracle/proved.json` holds, for forty drawn people and some hard ones, what HiGHS
//! proved of the programme that `plan::programme` states: a bound on the worth of any week,
//! and the worth of the best week it found. `cargo xtask bench --people 500 --prove` writes the
//! file anew. A proof is about one programme: when the catalogue or the objective changes, its fingerprint
//! changes, and the proofs must be made again.

#[path = "../src/engine/examples/people_bench/people.rs"]
mod people;

use serde_json::Value;
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::person::{Person, Priority};
use weekloom_engine::plan::programme::Programme;
use weekloom_engine::plan::{Solved, objective, solve_week, weekly_sets};

/// Hundredths of a percent of the proved bound that a plan may be worth less.
const OPEN: i64 = 100;

const PROVED: &str = include_str!("oracle/proved.json");

fn solved(catalogue: &Catalogue, person: &Person) -> Solved {
    solve_week(catalogue, person).expect("some exercise needs no kit")
}

#[test]
fn plans_are_near_the_proved_best() {
    let catalogue = Catalogue::built_in();
    let proved: Vec<Value> = serde_json::from_str(PROVED).expect("a list of proofs");
    assert!(proved.len() >= 40);
    let mut stale = Vec::new();
    let mut wrong = Vec::new();
    for proof in &proved {
        let number = |name: &str| proof[name].as_i64().expect("a whole number");
        let person = people::Draw::numbered(number("number") as u32).person(&catalogue);
        let programme = Programme::new(&catalogue, &person).expect("plannable");
        if format!("{:016x}", programme.fingerprint()) != proof["fingerprint"] {
            stale.push(number("number"));
            continue;
        }
        let ours = solved(&catalogue, &person);
        let (best, bound) = (number("incumbent"), number("bound"));
        let share = bound.abs() / 10_000 * OPEN;
        let case = format!("person {}: worth {}", number("number"), ours.objective);
        if ours.objective > bound + 10 {
            wrong.push(format!("{case} is above the proved bound {bound}"));
        }
        if ours.bound + 10 < best {
            wrong.push(format!(
                "{case}: own bound {} is below a week of {best}",
                ours.bound
            ));
        }
        if best - ours.objective > share {
            wrong.push(format!("{case} is more than 1 % below a week of {best}"));
        }
        // Where the solver itself could not close the gap, its bound proves little.
        if bound - best <= share && bound - ours.objective > 2 * share {
            wrong.push(format!("{case} is more than 2 % below the bound {bound}"));
        }
    }
    assert!(
        stale.is_empty(),
        "the programme has changed for {stale:?}: make the proofs again with `cargo xtask bench --prove`"
    );
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The gap that two plans of nearly the same problem may differ by: the search's own.
fn slack(solved: &Solved) -> i64 {
    solved.bound.abs() / 10_000 * 3 * OPEN
}

/// A week under fewer limits is worth as much as before, but for the gap of the search.
fn assert_never_worth_less(person: &Person, before: &Solved, after: &Solved) {
    assert!(
        after.objective + slack(before) >= before.objective,
        "{person:?}: {} then {}",
        before.objective,
        after.objective
    );
}

fn everybody(count: u32) -> Vec<Person> {
    let catalogue = Catalogue::built_in();
    (1000..1000 + count)
        .map(|number| people::Draw::numbered(number).person(&catalogue))
        .collect()
}

#[test]
fn more_minutes_are_never_worth_less() {
    let catalogue = Catalogue::built_in();
    for person in everybody(25) {
        let more = Person {
            minutes: (person.minutes + 15).min(180),
            ..person.clone()
        };
        let (before, after) = (solved(&catalogue, &person), solved(&catalogue, &more));
        assert_never_worth_less(&person, &before, &after);
    }
}

#[test]
fn fewer_exclusions_are_never_worth_less() {
    let catalogue = Catalogue::built_in();
    for person in everybody(25) {
        let mut freer = person.clone();
        freer.excluded = Default::default();
        freer.disliked = Default::default();
        let (before, after) = (solved(&catalogue, &person), solved(&catalogue, &freer));
        assert_never_worth_less(&person, &before, &after);
    }
}

/// More kit turns a makeshift slot into a proper one, which is then missed when empty; with
/// slots that no kit change touches, more is never worth less.
#[test]
fn more_kit_is_never_worth_less() {
    let catalogue = Catalogue::built_in();
    for mut person in everybody(25) {
        person.excluded = Default::default();
        person.joint_limits = Default::default();
        let home = weekloom_engine::presets::KitPreset::BarbellAtHome.kit(person.unit);
        let gym = weekloom_engine::presets::KitPreset::FullGym.kit(person.unit);
        let at_home = Person {
            kit: home,
            ..person.clone()
        };
        let in_gym = Person {
            kit: gym,
            ..person.clone()
        };
        let (before, after) = (solved(&catalogue, &at_home), solved(&catalogue, &in_gym));
        assert_never_worth_less(&person, &before, &after);
    }
}

/// A muscle that matters more gets at least as many sets, or the week cannot hold more of it.
#[test]
fn a_priority_never_takes_sets_away() {
    let catalogue = Catalogue::built_in();
    for mut person in everybody(25) {
        person.priorities = Default::default();
        let usual = solved(&catalogue, &person);
        for muscle in [
            weekloom_engine::catalogue::Muscle::Chest,
            weekloom_engine::catalogue::Muscle::Hamstrings,
        ] {
            let mut wanting = person.clone();
            wanting.priorities.insert(muscle, Priority::More);
            let wanted = solved(&catalogue, &wanting);
            let sets = |solved: &Solved| {
                let sets = weekly_sets(&catalogue, &solved.plan.days);
                sets.get(&muscle).copied().unwrap_or(0)
            };
            // One set either way is the search's own gap.
            assert!(
                sets(&wanted) + 2 >= sets(&usual),
                "{person:?} {muscle}: {} then {}",
                sets(&usual),
                sets(&wanted)
            );
        }
    }
}

/// The plan's worth is what the objective says of its draft, and never above the bound.
#[test]
fn a_plan_tells_its_own_worth() {
    let catalogue = Catalogue::built_in();
    for person in everybody(25) {
        let found = solved(&catalogue, &person);
        let score = objective::score(&catalogue, &person, &found.draft).expect("its own week");
        assert_eq!(found.objective, score.total());
        assert!(found.bound >= found.objective);
    }
}
