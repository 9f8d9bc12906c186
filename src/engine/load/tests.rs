//! What the kit makes: plates, steps, warm-up.

use super::*;
use crate::catalogue::{ExerciseId, Kind, Measure, Pattern, Role, Sides};
use crate::kit::PlatePairs;
use crate::units::Unit;

fn exercise(loading: Loading, equipment: &[Equipment]) -> Exercise {
    Exercise {
        id: ExerciseId::new("fixture"),
        name: "Fixture".to_owned(),
        pattern: Pattern::Squat,
        role: Role::Legs,
        prime: Vec::new(),
        assist: Vec::new(),
        equipment: equipment.to_vec(),
        loading,
        measure: Measure::Reps,
        sides: Sides::Both,
        kind: Kind::Compound,
        reps: (6, 10),
        rir: 2,
        rest_s: 150,
        rep_ds: 30,
        setup_s: 60,
        joints: Vec::new(),
        strain: 1,
        skill: 1,
        step_down: Vec::new(),
        step_up: Vec::new(),
        cue: String::new(),
        caution: String::new(),
    }
}

fn kg(text: &str) -> Load {
    Load::parse(text, Unit::Kg).unwrap()
}

fn lb(text: &str) -> Load {
    Load::parse(text, Unit::Lb).unwrap()
}

fn pairs(plates: &[(&str, u8)], unit: Unit) -> Vec<PlatePairs> {
    plates
        .iter()
        .map(|&(plate, pairs)| PlatePairs {
            plate: Load::parse(plate, unit).unwrap(),
            pairs,
        })
        .collect()
}

fn barbell(bar: Load, plates: Vec<PlatePairs>) -> Ladder {
    let kit = Kit {
        bar,
        plates,
        ..Kit::full_gym()
    };
    Ladder::of(&exercise(Loading::Barbell, &[Equipment::Barbell]), &kit).unwrap()
}

fn usual() -> Vec<PlatePairs> {
    let plates = ["25", "20", "15", "10", "5", "2.5", "1.25"].map(|plate| (plate, 4));
    pairs(&plates, Unit::Kg)
}

fn usual_pounds() -> Vec<PlatePairs> {
    let plates = ["45", "35", "25", "10", "5", "2.5"].map(|plate| (plate, 4));
    pairs(&plates, Unit::Lb)
}

/// `20 + 2 x 5` as a sorted list of single plates.
fn on_a_side(ladder: &Ladder, load: Load, unit: Unit) -> Option<String> {
    ladder.plates_for(load).map(|plates| {
        plates
            .iter()
            .flat_map(|&(plate, n)| std::iter::repeat_n(plate.show(unit), usize::from(n)))
            .collect::<Vec<_>>()
            .join(" + ")
    })
}

/// Arithmetic on the disc sets of the federations: IWF bars 20 and 15 kg, discs
/// 25 to 0.5 kg; IPF bar with collars 25 kg, discs 25 to 1.25 kg (IWF and IPF
/// technical rules). Fewest plates on each side.
#[test]
fn federation_loading_table() {
    let cases: &[(&str, &str, &str)] = &[
        ("20", "20", ""),
        ("20", "22.5", "1.25"),
        ("20", "40", "10"),
        ("20", "60", "20"),
        ("20", "62.5", "20 + 1.25"),
        ("20", "72.5", "25 + 1.25"),
        ("20", "97.5", "25 + 10 + 2.5 + 1.25"),
        ("20", "100", "25 + 15"),
        ("20", "102.5", "25 + 15 + 1.25"),
        ("20", "142.5", "25 + 25 + 10 + 1.25"),
        ("20", "180", "25 + 25 + 25 + 5"),
        // The bar with two 2.5 kg collars.
        ("25", "100", "25 + 10 + 2.5"),
        ("25", "25", ""),
        ("15", "50", "15 + 2.5"),
        ("15", "42.5", "10 + 2.5 + 1.25"),
    ];
    for &(bar, load, side) in cases {
        let ladder = barbell(kg(bar), usual());
        assert_eq!(
            on_a_side(&ladder, kg(load), Unit::Kg).as_deref(),
            Some(side),
            "{load} on a {bar} kg bar"
        );
    }
}

/// Pound plates 45, 35, 25, 10, 5, 2.5 with a 45 lb bar (from memory, no
/// federation text).
#[test]
fn pound_loading_table() {
    let ladder = barbell(lb("45"), usual_pounds());
    let cases = [
        ("45", ""),
        ("135", "45"),
        ("185", "45 + 25"),
        ("225", "45 + 45"),
        ("95", "25"),
        ("155", "45 + 10"),
        ("405", "45 + 45 + 45 + 45"),
    ];
    for (load, side) in cases {
        assert_eq!(
            on_a_side(&ladder, lb(load), Unit::Lb).as_deref(),
            Some(side),
            "{load} lb"
        );
        assert_eq!(ladder.round_down(lb(load)).unwrap().show(Unit::Lb), load);
    }
}

#[test]
fn what_cannot_be_loaded() {
    let ladder = barbell(kg("20"), usual());
    for load in ["61", "17.5", "0", "1000"] {
        assert_eq!(ladder.plates_for(kg(load)), None, "{load} kg");
        assert!(!ladder.makes(kg(load)), "{load} kg");
    }
    let ladder = barbell(lb("45"), usual_pounds());
    assert_eq!(ladder.plates_for(lb("137")), None);
    assert_eq!(ladder.round_down(lb("137")), Some(lb("135")));
    assert_eq!(ladder.round_up(lb("137")), Some(lb("140")));
}

/// The step follows from the smallest plate: 2.5 kg with 1.25 kg plates, 1 kg
/// with 0.5 kg discs, 5 lb with 2.5 lb plates.
#[test]
fn steps_follow_the_smallest_plate() {
    let ladder = barbell(kg("20"), usual());
    assert_eq!(ladder.next_above(kg("60")), Some(kg("62.5")));
    let discs =
        ["25", "20", "15", "10", "5", "2.5", "2", "1.5", "1", "0.5"].map(|plate| (plate, 2));
    let ladder = barbell(kg("20"), pairs(&discs, Unit::Kg));
    assert_eq!(ladder.next_above(kg("60")), Some(kg("61")));
    let ladder = barbell(lb("45"), usual_pounds());
    assert_eq!(ladder.next_above(lb("135")), Some(lb("140")));
}

#[test]
fn owned_counts_matter() {
    let ladder = barbell(kg("20"), pairs(&[("10", 1), ("5", 2)], Unit::Kg));
    let loads: Vec<String> = ladder.loads().map(|load| load.show(Unit::Kg)).collect();
    assert_eq!(loads, ["20", "30", "40", "50", "60"]);
    // 40 takes the one ten on each side, 50 a ten and a five.
    assert_eq!(on_a_side(&ladder, kg("40"), Unit::Kg).unwrap(), "10");
    assert_eq!(
        on_a_side(&ladder, kg("60"), Unit::Kg).unwrap(),
        "10 + 5 + 5"
    );
    assert_eq!(ladder.greatest(), kg("60"));
    assert_eq!(ladder.next_above(kg("60")), None);
}

/// Brute force over all plate counts agrees on what can be made and with how
/// few plates.
#[test]
fn fewest_plates_agrees_with_brute_force() {
    let owned = [
        (25_000, 1_u8),
        (10_000, 2),
        (7_500, 2),
        (5_000, 3),
        (1_250, 2),
    ];
    let plates = owned
        .iter()
        .map(|&(grams, pairs)| PlatePairs {
            plate: Load::clamped(grams),
            pairs,
        })
        .collect();
    let ladder = barbell(kg("20"), plates);
    let mut fewest = std::collections::BTreeMap::<i64, u32>::new();
    let mut counts = [0_u8; 5];
    loop {
        let side: i64 = owned
            .iter()
            .zip(counts)
            .map(|(&(grams, _), n)| grams * i64::from(n))
            .sum();
        let plates = counts.iter().map(|&n| u32::from(n)).sum();
        let best = fewest.entry(20_000 + 2 * side).or_insert(plates);
        *best = (*best).min(plates);
        let Some(at) = (0..5).find(|&k| counts[k] < owned[k].1) else {
            break;
        };
        counts[at] += 1;
        counts[..at].fill(0);
    }
    let made: Vec<(i64, u32)> = ladder
        .loads()
        .map(|load| {
            let plates = ladder.plates_for(load).unwrap();
            (
                load.grams(),
                plates.iter().map(|&(_, n)| u32::from(n)).sum(),
            )
        })
        .collect();
    assert_eq!(made, fewest.into_iter().collect::<Vec<_>>());
}

#[test]
fn the_bar_follows_the_equipment() {
    let kit = Kit::full_gym();
    let cases = [
        (Equipment::Barbell, kit.bar, Placement::EachSide),
        (Equipment::CurlBar, kit.curl_bar, Placement::EachSide),
        (Equipment::TrapBar, kit.trap_bar, Placement::EachSide),
        (Equipment::GuidedBar, kit.bar, Placement::EachSide),
        (Equipment::Landmine, kit.bar, Placement::OneEnd),
    ];
    for (equipment, bar, placement) in cases {
        let ladder = Ladder::of(&exercise(Loading::Barbell, &[equipment]), &kit).unwrap();
        assert_eq!(ladder.least(), bar, "{equipment}");
        assert_eq!(ladder.placement(), placement, "{equipment}");
    }
    // All plates of one end: a single 1.25 kg plate is one step.
    let one_end = Ladder::of(&exercise(Loading::Barbell, &[Equipment::Landmine]), &kit).unwrap();
    assert_eq!(one_end.next_above(kg("20")), Some(kg("21.25")));
}

#[test]
fn load_on_the_body_starts_at_nought() {
    let dips = exercise(Loading::BodyweightPlus, &[Equipment::DipBars]);
    let mut kit = Kit::full_gym();
    let belt = Ladder::of(&dips, &kit).unwrap();
    assert_eq!(belt.placement(), Placement::Hung);
    assert_eq!(belt.least(), Load::ZERO);
    assert_eq!(belt.next_above(Load::ZERO), Some(kg("1.25")));
    assert_eq!(on_a_side(&belt, kg("12.5"), Unit::Kg).unwrap(), "10 + 2.5");
    kit.equipment.remove(&Equipment::LoadBelt);
    let held = Ladder::of(&dips, &kit).unwrap();
    assert_eq!(held.next_above(Load::ZERO), Some(kg("2")));
    assert_eq!(held.plates_for(kg("2")), None);
    let nothing = Ladder::of(&dips, &Kit::floor_only()).unwrap();
    assert_eq!(nothing.loads().collect::<Vec<_>>(), [Load::ZERO]);
}

#[test]
fn a_dumbbell_that_the_exercise_names_is_not_hung_from_a_belt() {
    let fixture = exercise(Loading::BodyweightPlus, &[Equipment::Dumbbells]);
    let ladder = Ladder::of(&fixture, &Kit::full_gym()).unwrap();
    assert_eq!(ladder.placement(), Placement::NoPlates);
    assert_eq!(ladder.least(), Load::ZERO);
}

/// Whatever the catalogue holds, a full gym can load it.
#[test]
fn every_loaded_exercise_has_loads() {
    let kit = Kit::full_gym();
    let catalogue = crate::catalogue::Catalogue::built_in();
    for fixture in catalogue.iter() {
        let ladder = Ladder::of(fixture, &kit);
        assert_eq!(ladder.is_some(), fixture.is_loaded(), "{}", fixture.id);
        if let Some(ladder) = ladder {
            assert!(ladder.least() < ladder.greatest(), "{}", fixture.id);
        }
    }
}

#[test]
fn less_help_is_harder() {
    let ladder = Ladder::of(
        &exercise(Loading::Assisted, &[Equipment::AssistMachine]),
        &Kit::full_gym(),
    )
    .unwrap();
    assert_eq!(ladder.harder(kg("40")), Some(kg("35")));
    assert_eq!(ladder.easier(kg("40")), Some(kg("45")));
    assert_eq!(ladder.hardest(), kg("5"));
    assert_eq!(ladder.easiest(), kg("150"));
    assert_eq!(ladder.round_easier(kg("41")), Some(kg("45")));
    assert!(ladder.is_harder(kg("35"), kg("40")));
}

#[test]
fn no_number_no_ladder() {
    let kit = Kit::full_gym();
    for loading in [Loading::Bodyweight, Loading::Band] {
        assert_eq!(Ladder::of(&exercise(loading, &[]), &kit), None);
    }
    let none = Kit {
        dumbbells: Steps::Listed(Vec::new()),
        ..kit
    };
    assert_eq!(
        Ladder::of(&exercise(Loading::DumbbellPair, &[]), &none),
        None
    );
}

#[test]
fn rounding_says_its_direction() {
    let ladder = Ladder::of(&exercise(Loading::Machine, &[]), &Kit::full_gym()).unwrap();
    assert_eq!(ladder.round_down(kg("12.5")), Some(kg("10")));
    assert_eq!(ladder.round_up(kg("12.5")), Some(kg("15")));
    assert_eq!(ladder.nearest(kg("12.5")), kg("10"));
    assert_eq!(ladder.nearest(kg("12.51")), kg("15"));
    assert_eq!(ladder.round_down(kg("4")), None);
    assert_eq!(ladder.nearest(kg("4")), kg("5"));
    assert_eq!(ladder.round_up(kg("151")), None);
    assert_eq!(ladder.nearest(kg("400")), kg("150"));
}

#[test]
fn pound_dumbbells_are_the_pounds_they_say() {
    let kit = Kit {
        dumbbells: Steps::Even {
            first: lb("5"),
            step: lb("5"),
            last: lb("100"),
        },
        ..Kit::full_gym()
    };
    let ladder = Ladder::of(&exercise(Loading::DumbbellPair, &[]), &kit).unwrap();
    let loads: Vec<Load> = ladder.loads().collect();
    let typed: Vec<Load> = (1..=20).map(|n| lb(&(n * 5).to_string())).collect();
    assert_eq!(loads, typed);
}

/// Ribeiro B et al. 2020, IJERPH 17(18):6882: six reps at 40 % and six at 80 %
/// of the training load, here rounded down to what the kit makes.
#[test]
fn warm_up_steps() {
    let kit = Kit::full_gym();
    let squat = exercise(Loading::Barbell, &[Equipment::Barbell]);
    let ladder = Ladder::of(&squat, &kit).unwrap();
    let cases: &[(&str, &[&str])] = &[
        ("100", &["40", "80"]),
        ("62.5", &["25", "50"]),
        // 40 % is below the bar, which is half of the work: take the bar.
        ("40", &["20", "30"]),
        // The bar is too near the work to be a first step.
        ("25", &["20"]),
        ("22.5", &[]),
        ("20", &[]),
    ];
    for &(working, steps) in cases {
        let climb: Vec<String> = warm_up(kg(working), &ladder, &squat)
            .iter()
            .map(|set| set.load.show(Unit::Kg))
            .collect();
        assert_eq!(climb, steps, "{working} kg");
    }
    let curl = Exercise {
        kind: Kind::Isolation,
        ..squat.clone()
    };
    assert_eq!(warm_up(kg("100"), &ladder, &curl).len(), 1);
    let held = Exercise {
        measure: Measure::Seconds,
        ..squat
    };
    assert_eq!(warm_up(kg("100"), &ladder, &held), []);
}

#[test]
fn warm_up_is_makeable_and_below_the_work() {
    let kit = Kit::full_gym();
    for loading in [
        Loading::Barbell,
        Loading::DumbbellPair,
        Loading::Machine,
        Loading::Cable,
        Loading::BodyweightPlus,
        Loading::Assisted,
    ] {
        let fixture = exercise(loading, &[]);
        let ladder = Ladder::of(&fixture, &kit).unwrap();
        for working in ladder.loads() {
            let climb = warm_up(working, &ladder, &fixture);
            for set in &climb {
                assert!(ladder.makes(set.load), "{loading} {working:?}");
                assert!(ladder.is_harder(working, set.load), "{loading} {working:?}");
            }
            assert!(climb.is_sorted_by(|a, b| ladder.is_harder(b.load, a.load)));
        }
    }
}

#[test]
fn a_heap_of_odd_plates_stays_small() {
    let plates: Vec<PlatePairs> = (0..16)
        .map(|n| PlatePairs {
            plate: Load::clamped(311 + 1_777 * n),
            pairs: 20,
        })
        .collect();
    let ladder = barbell(kg("20"), plates);
    assert!(ladder.loads().count() <= 20_001);
    assert!(ladder.loads().is_sorted_by(|a, b| a < b));
}
