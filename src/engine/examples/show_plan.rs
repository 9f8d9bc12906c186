//! Prints planned weeks to read them as a coach would:
//! `cargo run -p weekloom-engine --example show_plan`.

use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::{Catalogue, Equipment, ExerciseId, JointDemand, Muscle};
use weekloom_engine::kit::Kit;
use weekloom_engine::order::{Map, Set};
use weekloom_engine::person::{Person, Priority, Status};
use weekloom_engine::plan::{SplitId, plan_week, weekly_sets};
use weekloom_engine::units::Unit;

fn person(days: &[usize], minutes: u16, status: Status) -> Person {
    Person {
        days: days.iter().map(|&d| Weekday::from_index(d)).collect(),
        minutes,
        kit: Kit::full_gym(),
        status,
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

fn kit(things: &[Equipment]) -> Kit {
    Kit {
        equipment: things.iter().copied().collect(),
        ..Kit::full_gym()
    }
}

fn show(catalogue: &Catalogue, title: &str, person: &Person) {
    let plan = match plan_week(catalogue, person) {
        Ok(plan) => plan,
        Err(error) => {
            println!("## {title}\n  {error}\n");
            return;
        }
    };
    println!("## {title} [{}]", plan.split);
    for day in &plan.days {
        println!(" {} ({} min)", day.focus, (day.seconds + 30) / 60);
        for item in &day.items {
            let p = &item.prescription;
            println!(
                "   {} {:<38} {} x {}-{} rir {} rest {:<4} {:?}",
                item.superset.map_or(' ', |n| char::from(b'a' + n - 1)),
                p.exercise.as_str(),
                p.sets,
                p.reps.0,
                p.reps.1,
                p.rir,
                p.rest_s,
                item.reasons
            );
        }
    }
    let sets = weekly_sets(catalogue, &plan.days);
    let line: Vec<String> = Muscle::ALL
        .iter()
        .filter_map(|m| sets.get(m).map(|n| format!("{m} {}.{}", n / 2, n % 2 * 5)))
        .collect();
    println!(" sets: {}", line.join(", "));
    for note in &plan.notes {
        println!(" note: {note:?}");
    }
    println!();
}

fn main() {
    let catalogue = Catalogue::built_in();
    let mwf = [0, 2, 4];
    use Status::{Advanced, Intermediate, Novice};
    show(
        &catalogue,
        "3 days, 65 min, intermediate",
        &person(&mwf, 65, Intermediate),
    );
    let mut p = person(&mwf, 65, Intermediate);
    p.split = Some(SplitId::new("push-pull-legs"));
    show(&catalogue, "the same, push / pull / legs", &p);
    show(
        &catalogue,
        "3 days, 45 min, novice",
        &person(&mwf, 45, Novice),
    );
    show(
        &catalogue,
        "2 days, 60 min, novice",
        &person(&[1, 4], 60, Novice),
    );
    let mut p = person(&[1, 4], 50, Novice);
    p.is_older = true;
    p.joint_limits = Set::from([JointDemand::DeepKnee, JointDemand::Overhead]);
    show(&catalogue, "2 days, 50 min, older, knees and shoulders", &p);
    show(
        &catalogue,
        "4 days, 60 min, intermediate",
        &person(&[0, 1, 3, 4], 60, Intermediate),
    );
    let mut p = person(&[0, 1, 3, 4], 60, Intermediate);
    p.split = Some(SplitId::new("full-body-four"));
    show(&catalogue, "4 days full body", &p);
    let mut p = person(&[0, 1, 2, 3, 4], 75, Advanced);
    p.priorities.insert(Muscle::SideDelts, Priority::More);
    p.priorities.insert(Muscle::Hamstrings, Priority::More);
    show(
        &catalogue,
        "5 days, 75 min, advanced, side delts and hamstrings",
        &p,
    );
    show(
        &catalogue,
        "6 days, 75 min, advanced",
        &person(&[0, 1, 2, 3, 4, 5], 75, Advanced),
    );
    let mut p = person(&mwf, 40, Intermediate);
    p.kit = kit(&[Equipment::Dumbbells, Equipment::Bench, Equipment::PullUpBar]);
    show(
        &catalogue,
        "3 days, 40 min, dumbbells, bench, pull-up bar",
        &p,
    );
    let mut p = person(&mwf, 30, Novice);
    p.kit = Kit::floor_only();
    show(&catalogue, "3 days, 30 min, nothing but a floor", &p);
    show(
        &catalogue,
        "1 day, 60 min, intermediate",
        &person(&[5], 60, Intermediate),
    );
    show(
        &catalogue,
        "3 days, 25 min, intermediate",
        &person(&mwf, 25, Intermediate),
    );
    let mut p = person(&[0, 1, 3, 5], 70, Intermediate);
    p.kit = kit(&[
        Equipment::Barbell,
        Equipment::Rack,
        Equipment::Bench,
        Equipment::PullUpBar,
        Equipment::DipBars,
    ]);
    p.disliked = Set::from([ExerciseId::new("back-squat")]);
    show(
        &catalogue,
        "4 days, 70 min, barbell, rack, bench, bars; dislikes back squats",
        &p,
    );
    show(
        &catalogue,
        "7 days, 45 min, advanced",
        &person(&[0, 1, 2, 3, 4, 5, 6], 45, Advanced),
    );
}
