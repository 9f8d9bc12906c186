//! Freshness: what must hold whatever the numbers.

use super::*;
use crate::catalogue::ExerciseId;
use crate::plan::Prescription;

fn item(slug: &str, sets: u8, rest_s: u16, superset: Option<u8>) -> PlanItem {
    PlanItem {
        key: 1,
        prescription: Prescription {
            exercise: ExerciseId::new(slug),
            sets,
            reps: (10, 10),
            rir: 0,
            rest_s,
        },
        superset,
        reasons: Vec::new(),
    }
}

fn lost(items: &[PlanItem]) -> Vec<u32> {
    let catalogue = Catalogue::built_in();
    let reps = session_reps(&catalogue, items);
    reps.iter().map(|r| r.lost).collect()
}

#[test]
fn half_of_what_is_left_goes_in_each_half_time() {
    let of = |seconds| FITTED.left(800_000, seconds);
    assert_eq!(of(0), 800_000);
    assert_eq!(of(FITTED.half_s), 400_000);
    assert_eq!(of(FITTED.half_s * 3), 100_000);
    assert_eq!(of(100 * FITTED.half_s), 0);
    assert!((0..900).all(|s| of(s) >= of(s + 1)), "it never comes back");
}

#[test]
fn the_first_set_is_whole_and_later_ones_are_not() {
    let sets = |sets| lost(&[item("barbell-bench-press", sets, 120, None)])[0];
    assert_eq!(sets(1), 0);
    assert!(sets(2) > 0);
    // Each set loses at least as much as the one before.
    let steps: Vec<u32> = (1..6).map(|n| sets(n + 1) - sets(n)).collect();
    assert!(steps.is_sorted(), "{steps:?}");
}

#[test]
fn longer_rests_cost_less() {
    let rests = [60, 120, 180, 300];
    let lost: Vec<u32> = rests
        .map(|s| lost(&[item("back-squat", 4, s, None)])[0])
        .to_vec();
    assert!(lost.is_sorted_by(|a, b| a > b), "{lost:?}");
}

#[test]
fn what_shares_no_muscle_costs_nothing() {
    let bench = item("barbell-bench-press", 4, 120, None);
    let after = |slug| lost(&[item(slug, 4, 120, None), bench.clone()])[1];
    let alone = lost(std::slice::from_ref(&bench))[0];
    assert_eq!(after("lying-leg-curl"), alone);
    // A muscle that assists costs less than the one that does the work.
    assert!(after("cable-pushdown") > alone);
    assert!(after("machine-chest-fly") > after("cable-pushdown"));
}

#[test]
fn partners_of_a_superset_rest_while_the_other_works() {
    let pair = [
        item("barbell-bench-press", 3, 60, Some(1)),
        item("lying-leg-curl", 3, 60, Some(1)),
    ];
    let straight = lost(&[item("barbell-bench-press", 3, 60, None)])[0];
    assert!(lost(&pair)[0] < straight);
}

#[test]
fn reps_in_reserve_tire_less() {
    let mut easy = item("barbell-curl", 4, 60, None);
    easy.prescription.rir = 4;
    let catalogue = Catalogue::built_in();
    let mut muscles = [Muscles::fresh(FITTED), Muscles::fresh(FITTED)];
    let curl = catalogue
        .get(&ExerciseId::new("barbell-curl"))
        .expect("known");
    muscles[0].work(curl, 1_000, 30);
    muscles[1].work(curl, 700, 30);
    assert!(muscles[0].lost(curl) > muscles[1].lost(curl));
    assert!(lost(&[easy])[0] > 0);
}

#[test]
fn holds_have_no_reps_to_lose_and_the_unknown_counts_for_nothing() {
    let all = [
        item("plank", 3, 60, None),
        item("no-such-thing", 3, 60, None),
    ];
    let catalogue = Catalogue::built_in();
    assert_eq!(session_reps(&catalogue, &all), [Reps::default(); 2]);
    assert_eq!(total(&catalogue, &[]), Reps::default());
}
