//! Tests of the reader, one row per refusal, and of the built-in exercises.

use super::*;
use crate::kit::Kit;

/// A basis for every pattern, as JSON.
fn patterns() -> String {
    let rows: Vec<String> = Pattern::ALL
        .iter()
        .map(|p| format!(r#"{{"pattern":"{p}","basis":"common practice, no source"}}"#))
        .collect();
    rows.join(",")
}

fn file(patterns: &str, exercises: &str) -> String {
    format!(r#"{{"patterns":[{patterns}],"exercises":[{exercises}]}}"#)
}

/// A complete exercise with a changed id, name and steps.
fn row(id: &str, step_down: &str, step_up: &str) -> String {
    ROW.replace(r#""id":"row""#, &format!(r#""id":"{id}""#))
        .replace(r#""name":"Row""#, &format!(r#""name":"Row {id}""#))
        .replace(
            r#""step_down":[]"#,
            &format!(r#""step_down":[{step_down}]"#),
        )
        .replace(r#""step_up":[]"#, &format!(r#""step_up":[{step_up}]"#))
}

const ROW: &str = r#"{"id":"row","name":"Row","pattern":"horizontal-pull","role":"pull","prime":["lats"],"assist":["biceps"],"equipment":["barbell"],"loading":"barbell","measure":"reps","sides":"both","kind":"compound","reps":[6,10],"rir":2,"rest_s":150,"rep_ds":35,"setup_s":60,"joints":["grip"],"strain":1,"skill":2,"step_down":[],"step_up":[],"cue":"Hinge forward.\nPull to the ribs.","caution":"Keep the back long."}"#;

fn built_in() -> Catalogue {
    Catalogue::read(include_str!("exercises.json")).unwrap()
}

#[test]
fn the_packed_exercises_are_those_of_the_file() {
    assert_eq!(Catalogue::built_in(), built_in());
}

#[test]
fn a_complete_exercise_reads_into_every_field() {
    let catalogue = Catalogue::read(&file(&patterns(), ROW)).unwrap();
    assert_eq!(catalogue.len(), 1);
    assert_eq!(
        catalogue.get(&ExerciseId::new("row")),
        Some(&Exercise {
            id: ExerciseId::new("row"),
            name: "Row".into(),
            pattern: Pattern::HorizontalPull,
            role: Role::Pull,
            prime: vec![Muscle::Lats],
            assist: vec![Muscle::Biceps],
            equipment: vec![Equipment::Barbell],
            loading: Loading::Barbell,
            measure: Measure::Reps,
            sides: Sides::Both,
            kind: Kind::Compound,
            reps: (6, 10),
            rir: 2,
            rest_s: 150,
            rep_ds: 35,
            setup_s: 60,
            joints: vec![JointDemand::Grip],
            strain: 1,
            skill: 2,
            step_down: vec![],
            step_up: vec![],
            cue: "Hinge forward.\nPull to the ribs.".into(),
            caution: "Keep the back long.".into(),
        })
    );
    assert_eq!(catalogue.bases().len(), Pattern::ALL.len());
}

#[test]
fn each_fault_of_an_exercise_is_refused_by_name_field_and_range() {
    let long_name = format!(r#""name":"{}""#, "x".repeat(49));
    let long_caution = format!(r#""caution":"{}""#, "x".repeat(141));
    let long_cue = format!(r#""cue":"{}\n{}""#, "x".repeat(80), "y".repeat(80));
    let id = r#""id":"row""#;
    let prime = r#""prime":["lats"]"#;
    let assist = r#""assist":["biceps"]"#;
    let equipment = r#""equipment":["barbell"]"#;
    let loading = r#""loading":"barbell""#;
    let reps = r#""reps":[6,10]"#;
    let cue = r#""cue":"Hinge forward.\nPull to the ribs.""#;
    let caution = r#""caution":"Keep the back long.""#;
    #[rustfmt::skip]
    let faults: &[(&str, &str, &str)] = &[
        // Shape.
        (r#""rir":2,"#, "", r#"exercise "row": missing field `rir`"#),
        (r#""rir":2,"#, r#""rir":2,"tempo":3,"#, r#"exercise "row": unknown field `tempo`"#),
        (r#""rir":2,"#, r#""rir":2,"rir":3,"#, "duplicate field `rir`"),
        (r#""rir":2"#, r#""rir":"two""#, r#"exercise "row": invalid type: string "two""#),
        (r#""rir":2"#, r#""rir":-1"#, r#"exercise "row": invalid value: integer `-1`"#),
        (r#""id":"row","#, "", "exercise number 1: missing field `id`"),
        // Slugs.
        (id, r#""id":"Row""#, r#"exercise "Row": id must be a slug of a-z, 0-9 and single hyphens"#),
        (id, r#""id":"row--b""#, r#"exercise "row--b": id must be a slug"#),
        (id, r#""id":"own-row""#, r#"exercise "own-row": id begins with "own-", which is kept"#),
        (id, r#""id":"""#, r#"exercise "": id must be a slug"#),
        (r#""pattern":"horizontal-pull""#, r#""pattern":"pull""#, r#"exercise "row": pattern "pull" is not one of: squat, lunge,"#),
        (r#""role":"pull""#, r#""role":"back""#, r#"exercise "row": role "back" is not one of: push, pull, legs, trunk"#),
        (loading, r#""loading":"bar""#, r#"exercise "row": loading "bar" is not one of: barbell,"#),
        (r#""measure":"reps""#, r#""measure":"time""#, r#"exercise "row": measure "time" is not one of: reps, seconds"#),
        (r#""sides":"both""#, r#""sides":"one""#, r#"exercise "row": sides "one" is not one of: both, each"#),
        (r#""kind":"compound""#, r#""kind":"big""#, r#"exercise "row": kind "big" is not one of: compound, isolation"#),
        (prime, r#""prime":["back"]"#, r#"exercise "row": prime "back" is not one of: chest, lats,"#),
        (assist, r#""assist":["arms"]"#, r#"exercise "row": assist "arms" is not one of: chest, lats,"#),
        (equipment, r#""equipment":["bar"]"#, r#"exercise "row": equipment "bar" is not one of: barbell, rack,"#),
        (r#""joints":["grip"]"#, r#""joints":["neck"]"#, r#"exercise "row": joints "neck" is not one of: overhead,"#),
        // What fits together.
        (r#""role":"pull""#, r#""role":"push""#, r#"exercise "row": role "push" does not fit pattern "horizontal-pull"; allowed: pull"#),
        (prime, r#""prime":[]"#, r#"exercise "row": prime is empty; name at least one muscle"#),
        (prime, r#""prime":["lats","lats"]"#, r#"exercise "row": prime holds "lats" twice; keep one"#),
        (assist, r#""assist":["lats"]"#, r#"exercise "row": "lats" stands in prime and in assist; keep one"#),
        (equipment, r#""equipment":["rack"]"#, r#"exercise "row": loading "barbell" needs one of these in equipment: barbell, curl-bar, trap-bar, landmine, guided-bar"#),
        (loading, r#""loading":"dumbbell-pair""#, r#"needs one of these in equipment: dumbbells"#),
        (loading, r#""loading":"single""#, r#"needs one of these in equipment: dumbbells, kettlebell"#),
        (loading, r#""loading":"machine""#, r#"needs one of these in equipment: pulldown-machine, row-machine,"#),
        (loading, r#""loading":"cable""#, r#"needs one of these in equipment: cable, pulldown-machine, row-machine"#),
        (loading, r#""loading":"bodyweight-plus""#, r#"needs one of these in equipment: load-belt, dumbbells, kettlebell"#),
        (loading, r#""loading":"assisted""#, r#"needs one of these in equipment: assist-machine"#),
        (loading, r#""loading":"band""#, r#"needs one of these in equipment: bands"#),
        (r#""measure":"reps""#, r#""measure":"seconds""#, r#"exercise "row": rep_ds 35 must be 0 when seconds are counted"#),
        // Ranges.
        (reps, r#""reps":[10,6]"#, r#"exercise "row": reps [10,6] must run from least to most"#),
        (reps, r#""reps":[0,6]"#, r#"exercise "row": reps 0 is not between 1 and 100"#),
        (reps, r#""reps":[6,101]"#, r#"exercise "row": reps 101 is not between 1 and 100"#),
        (r#""rir":2"#, r#""rir":6"#, r#"exercise "row": rir 6 is not between 0 and 5"#),
        (r#""rest_s":150"#, r#""rest_s":14"#, r#"exercise "row": rest_s 14 is not between 15 and 300"#),
        (r#""rest_s":150"#, r#""rest_s":301"#, r#"exercise "row": rest_s 301 is not between 15 and 300"#),
        (r#""rep_ds":35"#, r#""rep_ds":0"#, r#"exercise "row": rep_ds 0 is not between 10 and 100"#),
        (r#""setup_s":60"#, r#""setup_s":301"#, r#"exercise "row": setup_s 301 is not between 0 and 300"#),
        (r#""strain":1"#, r#""strain":4"#, r#"exercise "row": strain 4 is not between 0 and 3"#),
        (r#""skill":2"#, r#""skill":4"#, r#"exercise "row": skill 4 is not between 0 and 3"#),
        // Text.
        (r#""name":"Row""#, r#""name":"""#, r#"exercise "row": name of 0 characters must be plain ASCII text of 1 to 48"#),
        (r#""name":"Row""#, r#""name":" Row""#, r#"exercise "row": name of 4 characters"#),
        (r#""name":"Row""#, &long_name, r#"exercise "row": name of 49 characters"#),
        (caution, r#""caution":"""#, r#"exercise "row": caution of 0 characters must be plain ASCII text of 1 to 140"#),
        (caution, r#""caution":"Don\u2019t.""#, r#"exercise "row": caution of 6 characters must be plain ASCII"#),
        (caution, &long_caution, r#"exercise "row": caution of 141 characters"#),
        (cue, r#""cue":"One line.""#, r#"exercise "row": cue of 9 characters in 1 lines must be two lines of together at most 160"#),
        (cue, r#""cue":"One.\nTwo.\nThree.""#, r#"exercise "row": cue of 16 characters in 3 lines"#),
        (cue, r#""cue":"One.\n""#, r#"exercise "row": cue of 0 characters must be plain ASCII"#),
        (cue, &long_cue, r#"exercise "row": cue of 161 characters in 2 lines"#),
        // Steps.
        (r#""step_down":[]"#, r#""step_down":["row"]"#, r#"exercise "row": step_down names the exercise itself; name another"#),
        (r#""step_up":[]"#, r#""step_up":["hop"]"#, r#"exercise "row": step_up names "hop", which the file does not hold"#),
        (r#""step_down":[]"#, r#""step_down":["hop"]"#, r#"exercise "row": step_down names "hop", which the file does not hold"#),
        (r#""step_up":[]"#, r#""step_up":["hop","hop"]"#, r#"exercise "row": step_up holds "hop" twice; keep one"#),
    ];
    for (from, to, expected) in faults {
        assert!(ROW.contains(from), "the row has no {from}");
        let error = Catalogue::read(&file(&patterns(), &ROW.replace(from, to)))
            .expect_err(&format!("{to} was read"))
            .to_string();
        assert!(
            error.contains(expected),
            "for {to}\nwanted {expected}\ngot    {error}"
        );
    }
}

#[test]
fn each_fault_between_exercises_is_refused() {
    let named_alike = row("b", "", "").replace("Row b", "Row a");
    #[rustfmt::skip]
    let faults = [
        (vec![row("a", "", ""), row("a", "", "").replace("Row a", "Row b")], r#"exercise "a": id stands twice; ids are unique"#),
        (vec![row("a", "", ""), named_alike], r#"exercise "b": name "Row a" is taken; names are unique"#),
        (vec![row("a", r#""b""#, ""), row("b", r#""c""#, ""), row("c", r#""a""#, "")], r#"exercise "a": step_down leads round in a circle: a -> b -> c -> a"#),
        // An easier and a harder that name each other as easier.
        (vec![row("a", "", r#""b""#), row("b", "", r#""a""#)], "step_down leads round in a circle: a -> b -> a"),
        (vec![row("a", r#""b""#, r#""b""#), row("b", "", "")], "step_down leads round in a circle: a -> b -> a"),
        // The circle is found behind an exercise that only leads to it.
        (vec![row("a", r#""b""#, ""), row("b", r#""c""#, ""), row("c", r#""b""#, "")], r#"exercise "b": step_down leads round in a circle: b -> c -> b"#),
    ];
    for (exercises, expected) in faults {
        let error = Catalogue::read(&file(&patterns(), &exercises.join(",")))
            .unwrap_err()
            .to_string();
        assert!(
            error.contains(expected),
            "wanted {expected}\ngot    {error}"
        );
    }
    // The same steps said from both ends are no circle.
    let said_twice = [row("a", r#""b""#, ""), row("b", "", r#""a""#)].join(",");
    assert!(Catalogue::read(&file(&patterns(), &said_twice)).is_ok());
}

#[test]
fn each_fault_of_the_file_and_its_bases_is_refused() {
    let all = patterns();
    let first = r#"{"pattern":"squat","basis":"common practice, no source"}"#;
    #[rustfmt::skip]
    let faults = [
        ("{".to_string(), "catalogue file: EOF while parsing"),
        ("{}".to_string(), "catalogue file: missing field `patterns`"),
        (file(&all, ROW).replacen('{', r#"{"version":2,"#, 1), "catalogue file: unknown field `version`"),
        (file(&all.replace(first, &format!("{first},{first}")), ROW), r#"patterns: "squat" stands twice; give each pattern one basis"#),
        (file(&all.replace(&format!("{first},"), ""), ROW), r#"patterns: "squat" is missing; give each pattern one basis"#),
        (file(&all.replace(r#""squat""#, r#""squats""#), ROW), r#"patterns: pattern "squats" is not one of: squat, lunge,"#),
        (file(&all.replacen("common practice, no source", "", 1), ROW), r#"patterns: basis of "squat" must be plain ASCII text"#),
        (file(&all.replacen(r#""basis""#, r#""why""#, 1), ROW), "unknown field `why`"),
    ];
    for (json, expected) in faults {
        let error = Catalogue::read(&json).unwrap_err().to_string();
        assert!(
            error.contains(expected),
            "wanted {expected}\ngot    {error}"
        );
    }
}

#[test]
fn the_built_in_file_is_large_enough_and_in_order() {
    let catalogue = built_in();
    assert!(catalogue.len() >= 130, "{} exercises", catalogue.len());
    for pattern in Pattern::ALL {
        let count = catalogue.iter().filter(|e| e.pattern == *pattern).count();
        assert!(count >= 2, "{pattern}: {count}");
    }
    for muscle in Muscle::ALL {
        assert!(
            catalogue.iter().any(|e| e.prime.contains(muscle)),
            "nothing trains {muscle} directly"
        );
    }
    for thing in Equipment::ALL {
        assert!(
            catalogue.iter().any(|e| e.equipment.contains(thing)),
            "nothing uses {thing}"
        );
    }
    // One exercise a line, by id: a change to one shows as one changed line.
    let ids: Vec<&str> = include_str!("exercises.json")
        .lines()
        .filter_map(|line| line.strip_prefix(r#"{"id":""#)?.split('"').next())
        .collect();
    assert_eq!(ids.len(), catalogue.len());
    assert!(ids.is_sorted());
}

/// Muscles of which a pattern must load at least one directly, so that a slip
/// in the data cannot send a slot's sets to the wrong muscle (common practice,
/// no source).
fn expected_prime(pattern: Pattern) -> &'static [Muscle] {
    match pattern {
        Pattern::Squat | Pattern::Lunge | Pattern::KneeExtension => &[Muscle::Quadriceps],
        Pattern::Hinge => &[Muscle::Glutes, Muscle::Hamstrings],
        Pattern::HipExtension => &[Muscle::Glutes],
        Pattern::HipAbduction => &[Muscle::Abductors],
        Pattern::HipAdduction => &[Muscle::Adductors],
        Pattern::KneeFlexion => &[Muscle::Hamstrings],
        Pattern::CalfRaise => &[Muscle::Calves],
        Pattern::HorizontalPush | Pattern::ChestFly => &[Muscle::Chest],
        Pattern::VerticalPush => &[Muscle::FrontDelts],
        Pattern::HorizontalPull => &[Muscle::Lats, Muscle::UpperBack],
        Pattern::VerticalPull | Pattern::ShoulderExtension => &[Muscle::Lats],
        Pattern::SideRaise => &[Muscle::SideDelts],
        Pattern::RearRaise => &[Muscle::RearDelts],
        Pattern::Shrug => &[Muscle::UpperTraps],
        Pattern::ElbowFlexion => &[Muscle::Biceps],
        Pattern::ElbowExtension => &[Muscle::Triceps],
        Pattern::Wrist => &[Muscle::Forearms],
        Pattern::TrunkFlexion => &[Muscle::Abdominals],
        Pattern::TrunkStability => &[Muscle::Abdominals, Muscle::SpinalErectors],
        Pattern::Carry => &[Muscle::Forearms, Muscle::Abdominals, Muscle::UpperTraps],
        Pattern::BackExtension => &[Muscle::SpinalErectors, Muscle::Glutes],
    }
}

#[test]
fn prime_movers_fit_the_pattern_and_stay_few() {
    for exercise in built_in().iter() {
        let expected = expected_prime(exercise.pattern);
        assert!(
            expected.iter().any(|m| exercise.prime.contains(m)),
            "{}: {:?}",
            exercise.id,
            exercise.prime
        );
        // A lift that lists every muscle it touches would win every plan.
        assert!(exercise.prime.len() <= 2, "{}", exercise.id);
        assert!(exercise.assist.len() <= 4, "{}", exercise.id);
    }
}

#[test]
fn a_press_is_no_triceps_exercise_and_a_row_no_curl() {
    let catalogue = built_in();
    let half_sets = |id: &str, muscle| {
        let exercise = catalogue.get(&ExerciseId::new(id)).unwrap();
        exercise.half_sets_for(muscle)
    };
    #[rustfmt::skip]
    let rows = [
        ("barbell-bench-press", Muscle::Chest, 2), ("barbell-bench-press", Muscle::Triceps, 1),
        ("barbell-bench-press", Muscle::FrontDelts, 1), ("barbell-bench-press", Muscle::SideDelts, 0),
        ("overhead-press", Muscle::FrontDelts, 2), ("overhead-press", Muscle::Triceps, 1),
        // Mannarino et al. 2021, JSCR 35(10):2677-2681: row half as much as curl.
        ("barbell-row", Muscle::Lats, 2), ("barbell-row", Muscle::Biceps, 1),
        ("barbell-curl", Muscle::Biceps, 2),
        ("lat-pulldown", Muscle::Lats, 2), ("chin-up", Muscle::Biceps, 1),
        ("back-squat", Muscle::Quadriceps, 2), ("back-squat", Muscle::Glutes, 2), ("back-squat", Muscle::Hamstrings, 0),
        ("straight-leg-deadlift", Muscle::Hamstrings, 2), ("straight-leg-deadlift", Muscle::Quadriceps, 0),
        ("dip", Muscle::Chest, 2), ("dip", Muscle::Triceps, 2),
    ];
    for (id, muscle, expected) in rows {
        assert_eq!(half_sets(id, muscle), expected, "{id}, {muscle}");
    }
}

#[test]
fn an_easier_variant_asks_no_more_skill_or_strain_and_trains_something_alike() {
    let catalogue = built_in();
    let muscles = |e: &Exercise| -> Vec<Muscle> { [&e.prime[..], &e.assist[..]].concat() };
    for exercise in catalogue.iter() {
        let downs = exercise.step_down.iter().map(|id| (id, &exercise.id));
        let ups = exercise.step_up.iter().map(|id| (&exercise.id, id));
        for (easier, harder) in downs.chain(ups) {
            let (easier, harder) = (
                catalogue.get(easier).unwrap(),
                catalogue.get(harder).unwrap(),
            );
            let pair = format!("{} before {}", easier.id, harder.id);
            assert!(easier.skill <= harder.skill, "skill: {pair}");
            assert!(easier.strain <= harder.strain, "strain: {pair}");
            let alike = muscles(easier).iter().any(|m| harder.prime.contains(m))
                || muscles(harder).iter().any(|m| easier.prime.contains(m));
            assert!(alike, "nothing alike: {pair}");
        }
    }
}

#[test]
fn stepping_down_from_the_hardest_arrives_where_no_skill_is_needed() {
    // The chains a beginner climbs, read from the top, nearest step first.
    let catalogue = built_in();
    #[rustfmt::skip]
    let rows: &[(&str, &[&str])] = &[
        ("feet-raised-push-up", &["push-up", "knee-push-up", "wall-push-up"]),
        ("loaded-pull-up", &["pull-up", "chin-up", "lowering-pull-up", "foot-assisted-pull-up", "bar-hang"]),
        ("feet-raised-inverted-row", &["inverted-row", "high-bar-inverted-row", "band-row", "lying-elbow-drive"]),
        ("single-leg-squat", &["single-leg-squat-to-box", "step-up", "sit-to-stand", "wall-sit"]),
        ("long-lever-plank", &["plank", "knee-plank", "dead-bug"]),
    ];
    for (hardest, chain) in rows {
        let mut here = catalogue.get(&ExerciseId::new(hardest)).unwrap();
        for next in *chain {
            assert_eq!(here.step_down[0].as_str(), *next, "below {}", here.id);
            here = catalogue.get(&here.step_down[0]).unwrap();
        }
        assert_eq!(here.skill, 0, "{}", here.id);
        assert!(here.step_down.is_empty(), "{}", here.id);
    }
}

#[test]
fn each_kit_covers_the_basic_patterns_it_can() {
    use Equipment as E;
    use Pattern as P;
    type Families = &'static [&'static [P]];
    const LEGS: &[P] = &[P::Squat, P::Lunge];
    const HINGE: &[P] = &[P::Hinge];
    const PUSH: &[P] = &[P::HorizontalPush];
    const PRESS: &[P] = &[P::VerticalPush];
    const ROW: &[P] = &[P::HorizontalPull];
    const PULL: &[P] = &[P::VerticalPull];
    const TRUNK: &[P] = &[P::TrunkFlexion, P::TrunkStability];
    const ARMS: &[P] = &[P::ElbowFlexion];
    const SIDE: &[P] = &[P::SideRaise];
    const REAR: &[P] = &[P::RearRaise];

    let machines = [
        E::Cable,
        E::PulldownMachine,
        E::RowMachine,
        E::ChestPressMachine,
        E::ShoulderPressMachine,
        E::FlyMachine,
        E::LegPress,
        E::LegExtensionMachine,
        E::LegCurlMachine,
        E::CalfMachine,
    ];
    // Kit; families it must cover with at least two exercises each; with one.
    #[rustfmt::skip]
    let rows: &[(&str, &[Equipment], Families, Families)] = &[
        ("floor only", &[], &[LEGS, HINGE, PUSH, PRESS, TRUNK], &[ROW, PULL, REAR]),
        ("floor and a bar", &[E::PullUpBar], &[LEGS, HINGE, PUSH, PRESS, PULL, TRUNK], &[ROW, REAR]),
        ("dumbbells", &[E::Dumbbells], &[LEGS, HINGE, PUSH, PRESS, ROW, TRUNK, ARMS, SIDE, REAR], &[PULL]),
        ("dumbbells and bench", &[E::Dumbbells, E::Bench], &[LEGS, HINGE, PUSH, PRESS, ROW, TRUNK, ARMS, SIDE], &[PULL]),
        ("kettlebells", &[E::Kettlebell], &[LEGS, HINGE, PUSH, PRESS, ROW, TRUNK], &[PULL, ARMS, SIDE]),
        ("bands", &[E::Bands], &[LEGS, HINGE, PUSH, PRESS, ROW, PULL, TRUNK, REAR], &[ARMS, SIDE]),
        ("rings", &[E::Rings], &[LEGS, HINGE, PUSH, PRESS, ROW, TRUNK, REAR], &[PULL, ARMS]),
        ("barbell, rack, bench", &[E::Barbell, E::Rack, E::Bench], &[LEGS, HINGE, PUSH, PRESS, ROW, TRUNK], &[PULL, ARMS]),
        ("machines and cable", &machines, &[LEGS, HINGE, PUSH, PRESS, ROW, PULL, TRUNK, REAR], &[ARMS, SIDE]),
        ("everything", Equipment::ALL, &[LEGS, HINGE, PUSH, PRESS, ROW, PULL, TRUNK, ARMS, SIDE, REAR], &[]),
    ];
    let catalogue = built_in();
    for (name, equipment, two, one) in rows {
        let kit = Kit {
            equipment: equipment.iter().copied().collect(),
            ..Kit::floor_only()
        };
        for (least, families) in [(2, two), (1, one)] {
            for family in *families {
                let count = catalogue
                    .iter()
                    .filter(|e| kit.allows(e) && family.contains(&e.pattern))
                    .count();
                assert!(count >= least, "{name}: {count} of {}", slugs(family));
            }
        }
    }
}

#[test]
fn whoever_must_spare_a_joint_still_covers_the_basics_in_a_full_gym() {
    use Pattern as P;
    #[rustfmt::skip]
    let families: &[&[P]] = &[
        &[P::Squat, P::Lunge], &[P::Hinge, P::HipExtension], &[P::HorizontalPush],
        &[P::VerticalPush, P::SideRaise], &[P::HorizontalPull], &[P::VerticalPull, P::HorizontalPull],
        &[P::TrunkFlexion, P::TrunkStability],
    ];
    let catalogue = built_in();
    for demand in JointDemand::ALL {
        for family in families {
            let count = catalogue
                .iter()
                .filter(|e| family.contains(&e.pattern) && !e.joints.contains(demand))
                .count();
            assert!(count >= 3, "without {demand}: {count} of {}", slugs(family));
        }
    }
}

#[test]
fn the_built_in_numbers_follow_the_trade() {
    for e in built_in().iter() {
        let id = &e.id;
        // One to two seconds up, one to two down: Ratamess et al. 2009, MSSE
        // 41(3):687-708; slower where the cue asks for it, faster for a swing.
        if e.measure == Measure::Reps && e.kind == Kind::Compound {
            assert!((20..=70).contains(&e.rep_ds), "{id}");
        }
        // Heaviest lifts are left furthest from failure.
        assert!(e.strain < 2 || e.rir >= 2, "{id}");
        assert!(e.kind == Kind::Isolation || e.rir >= 1, "{id}");
        // Rest of a compound is no shorter than rest of an isolation lift.
        assert!(e.kind == Kind::Isolation || e.rest_s >= 75, "{id}");
        // Whoever holds a load overhead unsupported hears of it.
        assert!(
            e.pattern != Pattern::VerticalPush
                || e.joints.contains(&JointDemand::Overhead)
                || e.equipment.contains(&Equipment::Landmine),
            "{id}"
        );
    }
}
