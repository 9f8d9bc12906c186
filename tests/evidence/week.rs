//! Checks of the week: how many sets, how they count, how long they rest.

use crate::Check;
use crate::table::Table;
use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::{Catalogue, ExerciseId, Kind, Measure, Muscle};
use weekloom_engine::compare::{Comparison, Side, Verdict, compare, equal_week};
use weekloom_engine::estimate::percent_for;
use weekloom_engine::kit::Kit;
use weekloom_engine::loom::GROWTH_WINDOW_H;
use weekloom_engine::order::{Map, Set};
use weekloom_engine::person::{Person, Priority, Status};
use weekloom_engine::plan::dose::{FLOOR, SESSION_CAP, Size, response, size, target};
use weekloom_engine::plan::objective::SETS;
use weekloom_engine::plan::{SplitId, plan_week, prescribe};
use weekloom_engine::units::Unit;

/// What this file checks.
pub const CHECKS: &[Check] = &[
    ("weekly-floor", floor),
    ("weekly-ten", ten),
    ("weekly-ten-of-the-stand", ten),
    ("weekly-band-of-the-trained", band),
    ("counting-sets", counting),
    ("counting-worked", counting_worked),
    ("session-plateau", plateau),
    ("gain-per-weekly-set", gain),
    ("sets-per-exercise", sets_per_exercise),
    ("kept-on-a-third", kept),
    ("sets-of-an-exercise", sets_of_an_exercise),
    ("older-people-do-more-reps", older),
    ("goal-table", goals),
    ("rest-and-size", rest_and_size),
    ("protein-synthesis", synthesis),
    ("split-and-full-body", split_and_full_body),
    ("strength-by-days", strength_by_days),
];

fn person(status: Status) -> Person {
    Person {
        days: vec![Weekday::Monday, Weekday::Wednesday, Weekday::Friday],
        minutes: 60,
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

/// Half sets of a number of sets.
fn halves(sets: i64) -> u32 {
    u32::try_from(sets * 2).expect("sets")
}

fn muscles(of: impl Fn(Size) -> bool) -> impl Iterator<Item = Muscle> {
    let all = Muscle::ALL.iter().copied();
    all.filter(move |&muscle| of(size(muscle)))
}

fn floor(table: &Table) {
    let floor = halves(table.only().whole("sets"));
    assert_eq!(FLOOR, floor);
    for &status in Status::ALL {
        for muscle in muscles(|size| size != Size::Minor) {
            assert_eq!(target(muscle, &person(status)).floor, floor);
        }
    }
}

fn ten(table: &Table) {
    let ten = halves(table.only().whole("sets"));
    for &status in Status::ALL {
        for muscle in muscles(|size| size == Size::Large) {
            assert!(target(muscle, &person(status)).enough >= ten);
        }
    }
}

fn band(table: &Table) {
    let row = table.only();
    let band = halves(row.whole("least"))..=halves(row.whole("most"));
    for status in [Status::Intermediate, Status::Advanced] {
        for muscle in muscles(|size| size != Size::Minor) {
            let target = target(muscle, &person(status));
            assert!(band.contains(&target.enough), "{status} {muscle}");
        }
    }
}

fn counting(table: &Table) {
    for row in table.rows() {
        for exercise in Catalogue::built_in().iter() {
            for &muscle in Muscle::ALL {
                let kind = match () {
                    () if exercise.prime.contains(&muscle) => "direct",
                    () if exercise.assist.contains(&muscle) => "indirect",
                    () => "none",
                };
                if kind == row.word("work") {
                    let counted = f64::from(exercise.half_sets_for(muscle)) / 2.0;
                    assert!((counted - row.number("sets")).abs() < 1e-9);
                }
            }
        }
    }
}

fn counting_worked(table: &Table) {
    let catalogue = Catalogue::built_in();
    let work = [
        ("barbell-bench-press", 4),
        ("overhead-press", 3),
        ("cable-pushdown", 3),
    ];
    for row in table.rows() {
        let muscle = Muscle::from_slug(row.word("muscle")).expect("a muscle");
        let counted: u32 = work
            .iter()
            .map(|(id, sets)| {
                let exercise = catalogue.get(&ExerciseId::new(id)).expect("known");
                exercise.half_sets_for(muscle) * sets
            })
            .sum();
        let counted = f64::from(counted) / 2.0;
        assert!(
            (counted - row.number("sets")).abs() < 1e-9,
            "{muscle}: {counted}"
        );
    }
}

fn plateau(table: &Table) {
    assert_eq!(SESSION_CAP, halves(table.only().whole("sets")));
}

/// The response to whole sets.
fn grown(sets: i64) -> i64 {
    response(sets * 8)
}

fn gain(table: &Table) {
    let row = table.only();
    let straight = |sets: f64| row.number("per set") * sets;
    assert!((straight(5.0) - row.number("five to ten")).abs() < 1e-9);
    assert!((straight(10.0) - row.number("ten to twenty")).abs() < 1e-9);
    // More sets do more, and less than the straight line says.
    let (first, second) = (grown(10) - grown(5), grown(20) - grown(10));
    assert!(first > 0 && second > 0);
    #[expect(clippy::cast_precision_loss, reason = "small")]
    let ratio = second as f64 / first as f64;
    assert!(ratio < row.number("ten to twenty") / row.number("five to ten"));
}

/// More sets do more, each less than the one before, there and here.
fn sets_per_exercise(table: &Table) {
    let rows: Vec<(f64, f64)> = table
        .rows()
        .map(|row| {
            #[expect(clippy::cast_precision_loss, reason = "small")]
            let middle = (row.whole("from") + row.whole("to")) as f64 / 2.0;
            (middle, row.number("effect"))
        })
        .collect();
    let slope = |value: &dyn Fn(usize) -> f64, at: usize| {
        (value(at + 1) - value(at)) / (rows[at + 1].0 - rows[at].0)
    };
    let published = |at: usize| rows[at].1;
    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        reason = "small"
    )]
    let here = |at: usize| response((rows[at].0 * 8.0 * 3.0) as i64) as f64;
    for at in 0..rows.len() - 2 {
        for value in [&published as &dyn Fn(usize) -> f64, &here] {
            assert!(slope(value, at) > slope(value, at + 1));
            assert!(slope(value, at + 1) > 0.0);
        }
    }
}

/// Where a muscle matters less, the young may keep it on a part of the usual
/// dose no smaller than published; the old keep their floor.
fn kept(table: &Table) {
    let least = table
        .rows()
        .map(|row| row.number("share"))
        .fold(1.0, f64::min);
    for &status in Status::ALL {
        for muscle in muscles(|size| size != Size::Minor) {
            let usual = target(muscle, &person(status));
            let mut less = person(status);
            less.priorities.insert(muscle, Priority::Less);
            let young = target(muscle, &less);
            assert!(young.floor < usual.floor);
            assert!(f64::from(young.floor) >= least * f64::from(usual.floor));
            assert!(f64::from(young.floor) >= least * f64::from(usual.enough));
            less.is_older = true;
            assert_eq!(target(muscle, &less).floor, usual.floor);
        }
    }
}

fn sets_of_an_exercise(table: &Table) {
    let row = table.only();
    let (least, most) = (i64::from(SETS.0), i64::from(SETS.1));
    assert_eq!(least, row.whole("least sets"));
    assert!(most >= row.whole("most sets"));
    // What strength asks of the load is eight reps or fewer by the table.
    let at = (1..=20).rev().find(|&reps| {
        percent_for(reps).is_some_and(|percent| i64::from(percent) >= row.whole("percent"))
    });
    let heavy = Catalogue::built_in();
    let mut mains = heavy.iter().filter(|exercise| exercise.strain == 3);
    assert!(mains.all(|exercise| Some(exercise.reps.0) <= at));
}

fn older(table: &Table) {
    let row = table.only();
    let mut old = person(Status::Intermediate);
    old.is_older = true;
    for exercise in Catalogue::built_in().iter() {
        if exercise.measure == Measure::Reps {
            let (least, most) = prescribe(exercise, &old, 3).reps;
            assert!(i64::from(least) >= row.whole("least"), "{}", exercise.id);
            assert!(i64::from(most) >= row.whole("most"), "{}", exercise.id);
        }
    }
}

/// Reps and percent of the goal table are those of the percent table; sets fit
/// those the planner may give; heavy lifts rest as strength asks.
fn goals(table: &Table) {
    let catalogue = Catalogue::built_in();
    for row in table.rows() {
        let reps = |column| u16::try_from(row.whole(column)).expect("reps");
        let percent = |reps| i64::from(percent_for(reps).expect("in the table"));
        let (few, many) = (reps("least reps"), reps("most reps"));
        assert!(percent(few) <= row.whole("most percent"), "{few} reps");
        assert!(percent(many) >= row.whole("least percent"), "{many} reps");
        assert!(i64::from(SETS.0) <= row.whole("most sets"));
        assert!(i64::from(SETS.1) >= row.whole("least sets"));
        let rest = row.whole("least rest")..=row.whole("most rest");
        if row.word("goal") == "strength" {
            let mut heavy = catalogue.iter().filter(|exercise| exercise.strain == 3);
            assert!(heavy.all(|exercise| rest.contains(&i64::from(exercise.rest_s))));
        }
    }
}

/// Longer rests are no worse for size, so taxing compounds never rest less than
/// the most the goal table gives for it.
fn rest_and_size(table: &Table) {
    let row = table.only();
    assert!(row.number("longer") >= row.number("short"));
    assert!(row.number("longer low") >= row.number("short low"));
    assert!(row.number("longer high") >= row.number("short high"));
    let catalogue = Catalogue::built_in();
    let mut compounds = catalogue
        .iter()
        .filter(|exercise| exercise.kind == Kind::Compound && exercise.strain >= 2);
    assert!(compounds.all(|exercise| exercise.rest_s >= 90));
}

fn synthesis(table: &Table) {
    for row in table.rows() {
        let rise = (row.number("trained") / row.number("untrained") - 1.0) * 100.0;
        assert!((rise - row.number("rise percent")).abs() < 0.5, "{rise}");
        // The window is open at every time the rise was measured.
        assert!(row.whole("hours") < i64::from(GROWTH_WINDOW_H.0));
    }
}

/// The usual week of three days against push, pull and legs, its sets as near as
/// may be.
fn full_body_against_split() -> Comparison {
    let catalogue = Catalogue::built_in();
    let person = person(Status::Intermediate);
    let first = plan_week(&catalogue, &person).expect("a week");
    let other = SplitId::new("push-pull-legs");
    let second = equal_week(&catalogue, &person, &first, &other).expect("a week");
    compare(&catalogue, &person, &first, &second)
}

/// No difference between split and full body could be told from none, and so
/// neither is called better for growth.
fn split_and_full_body(table: &Table) {
    for row in table.rows() {
        assert!(row.number("low") < row.number("difference"));
        assert!(row.number("difference") < row.number("high"));
        assert!(row.number("low") < 0.0 && row.number("high") > 0.0);
        assert!(row.number("p") > 0.05);
    }
    assert_eq!(full_body_against_split().verdict[0], Verdict::GrowAlike);
}

/// More days go with more strength, and the week with more days is said to have
/// that.
fn strength_by_days(table: &Table) {
    let rows: Vec<(i64, f64)> = table
        .rows()
        .map(|row| (row.whole("days"), row.number("effect")))
        .collect();
    assert!(rows.is_sorted_by(|a, b| a.0 < b.0 && a.1 < b.1));
    let found = full_body_against_split();
    assert!(found.first.frequency_tenths > found.second.frequency_tenths);
    assert!(found.verdict.contains(&Verdict::MoreOften(Side::First)));
}
