//! Checks of what happens in a session: clock, warm-up, plates, words.

use crate::Check;
use crate::table::Table;
use weekloom_engine::catalogue::{Catalogue, ExerciseId, Measure};
use weekloom_engine::kit::{Kit, PlatePairs};
use weekloom_engine::load::{FIRST_PERCENT, Ladder, SECOND_PERCENT, WARM_UP_REPS, warm_up};
use weekloom_engine::plan::time::{Effort, seconds};
use weekloom_engine::presets::KitPreset;
use weekloom_engine::units::{Load, Unit};

/// What this file checks.
pub const CHECKS: &[Check] = &[
    ("session-clock", clock),
    ("supersets-save", supersets),
    ("seconds-of-a-rep", rep_seconds),
    ("usual-tempo", usual_tempo),
    ("two-step-warm-up", warm_up_steps),
    ("warm-up-of-the-1RM", warm_up_of_the_one_rm),
    ("bars", bars),
    ("discs", discs),
    ("plates-on-each-side", plates),
    ("pound-plates-on-each-side", pound_plates),
    ("not-loadable", not_loadable),
    ("smallest-step", smallest_step),
    ("disc-tolerance", tolerance),
    ("pounds", pounds),
    ("signs-and-symptoms", signs),
    ("screening-inputs", screening),
];

/// Eight exercises, three sets of ten three-second reps.
fn typical(rest_s: u32, has_pairs: bool) -> u32 {
    let efforts: Vec<Effort> = (0..8)
        .map(|at| Effort {
            sets: 3,
            work_s: 30,
            rest_s,
            ready_s: 0,
            superset: has_pairs.then_some(at / 2),
        })
        .collect();
    seconds(&efforts)
}

fn clock(table: &Table) {
    for row in table.rows() {
        let rest = u32::try_from(row.whole("rest s")).expect("seconds");
        let found = f64::from(typical(rest, row.flag("pairs"))) / 60.0;
        assert!((found - row.number("minutes")).abs() < 1e-9, "{found}");
    }
}

fn supersets(table: &Table) {
    let row = table.only();
    let saved = 1.0 - f64::from(typical(120, true)) / f64::from(typical(120, false));
    let saved = saved * 100.0;
    assert!(
        (row.number("least")..=row.number("most")).contains(&saved),
        "{saved}"
    );
}

fn each_rep(mut check: impl FnMut(f64)) {
    for exercise in Catalogue::built_in().iter() {
        if exercise.measure == Measure::Reps {
            check(f64::from(exercise.rep_ds) / 10.0);
        }
    }
}

fn rep_seconds(table: &Table) {
    let row = table.only();
    each_rep(|s| assert!((row.number("least")..=row.number("most")).contains(&s)));
}

fn usual_tempo(table: &Table) {
    let row = table.only();
    let (mut inside, mut all) = (0, 0);
    each_rep(|s| {
        all += 1;
        inside += i32::from((row.number("least")..=row.number("most")).contains(&s));
    });
    // A few lifts are slower by their nature.
    assert!(inside * 10 >= all * 9, "{inside} of {all}");
}

fn bench_press(working: Load) -> Vec<(Load, u16)> {
    let catalogue = Catalogue::built_in();
    let exercise = catalogue
        .get(&ExerciseId::new("barbell-bench-press"))
        .expect("in the catalogue");
    let ladder = Ladder::of(exercise, &Kit::full_gym()).expect("a bar");
    warm_up(working, &ladder, exercise)
        .iter()
        .map(|set| (set.load, set.reps))
        .collect()
}

fn warm_up_steps(table: &Table) {
    let row = table.only();
    assert_eq!(i64::from(WARM_UP_REPS), row.whole("reps"));
    assert_eq!(FIRST_PERCENT, row.whole("first"));
    assert_eq!(SECOND_PERCENT, row.whole("second"));
    let wanted = [row.whole("first"), row.whole("second")]
        .map(|percent| (Load::clamped(percent * 1000), WARM_UP_REPS));
    assert_eq!(bench_press(Load::kg(100)), wanted);
}

fn warm_up_of_the_one_rm(table: &Table) {
    let row = table.only();
    // A 1RM of 250 kg: percentages of it are loads the bar makes.
    let working = Load::clamped(row.whole("training load") * 2500);
    let wanted = [row.whole("first"), row.whole("second")]
        .map(|percent| (Load::clamped(percent * 2500), WARM_UP_REPS));
    assert_eq!(bench_press(working), wanted);
}

fn load(number: f64, unit: Unit) -> Load {
    #[expect(clippy::cast_possible_truncation, reason = "small")]
    unit.load_from_hundredths((number * 100.0).round() as i64)
}

fn barbell(bar: f64, plates: &[f64], unit: Unit) -> Ladder {
    let catalogue = Catalogue::built_in();
    let exercise = catalogue.get(&ExerciseId::new("deadlift")).expect("known");
    let kit = Kit {
        bar: load(bar, unit),
        plates: plates
            .iter()
            .map(|&plate| PlatePairs {
                plate: load(plate, unit),
                pairs: 4,
            })
            .collect(),
        ..Kit::full_gym()
    };
    Ladder::of(exercise, &kit).expect("a bar")
}

/// The plates on each side, one by one, heaviest first.
fn on_each_side(ladder: &Ladder, wanted: Load) -> Vec<Load> {
    let plates = ladder.plates_for(wanted).expect("makeable");
    plates
        .iter()
        .flat_map(|&(plate, count)| std::iter::repeat_n(plate, usize::from(count)))
        .collect()
}

const KILOGRAM_PLATES: [f64; 7] = [25.0, 20.0, 15.0, 10.0, 5.0, 2.5, 1.25];
const POUND_PLATES: [f64; 6] = [45.0, 35.0, 25.0, 10.0, 5.0, 2.5];

fn bars(table: &Table) {
    for row in table.rows() {
        let bar = load(row.number("kg"), Unit::Kg);
        match row.word("bar") {
            "men" => assert_eq!(KitPreset::FullGym.kit(Unit::Kg).bar, bar),
            // Any bar may be entered; this one is, for one.
            _ => {
                let kit = Kit {
                    bar,
                    ..Kit::full_gym()
                };
                assert_eq!(kit.check(), Ok(()));
            }
        }
    }
}

fn discs(table: &Table) {
    let made: Vec<Load> = table
        .rows()
        .map(|row| load(row.number("kg"), Unit::Kg))
        .collect();
    for &preset in KitPreset::ALL {
        for own in preset.kit(Unit::Kg).plates {
            assert!(made.contains(&own.plate), "{preset}: {:?}", own.plate);
        }
    }
}

fn plates(table: &Table) {
    for row in table.rows() {
        let ladder = barbell(row.number("bar"), &KILOGRAM_PLATES, Unit::Kg);
        let wanted: Vec<Load> = row
            .numbers("plates")
            .iter()
            .map(|&plate| load(plate, Unit::Kg))
            .collect();
        assert_eq!(
            on_each_side(&ladder, load(row.number("load"), Unit::Kg)),
            wanted
        );
    }
}

fn pound_plates(table: &Table) {
    let ladder = barbell(45.0, &POUND_PLATES, Unit::Lb);
    for row in table.rows() {
        let wanted: Vec<Load> = row
            .numbers("plates")
            .iter()
            .map(|&plate| load(plate, Unit::Lb))
            .collect();
        assert_eq!(
            on_each_side(&ladder, load(row.number("load"), Unit::Lb)),
            wanted
        );
    }
}

fn unit(word: &str) -> Unit {
    match word {
        "kg" => Unit::Kg,
        "lb" => Unit::Lb,
        other => panic!("unit '{other}'"),
    }
}

fn not_loadable(table: &Table) {
    for row in table.rows() {
        let unit = unit(row.word("unit"));
        let plates: &[f64] = match unit {
            Unit::Kg => &KILOGRAM_PLATES,
            Unit::Lb => &POUND_PLATES,
        };
        assert_eq!(plates.last().copied(), Some(row.number("smallest")));
        let ladder = barbell(row.number("bar"), plates, unit);
        let wanted = load(row.number("load"), unit);
        assert!(!ladder.makes(wanted) && ladder.plates_for(wanted).is_none());
        // Directed rounding finds what is next to it.
        assert!(ladder.round_down(wanted) < Some(wanted));
        assert!(ladder.round_up(wanted) > Some(wanted));
    }
}

fn smallest_step(table: &Table) {
    for row in table.rows() {
        let unit = unit(row.word("unit"));
        let ladder = barbell(20.0, &[10.0, 5.0, 2.5, row.number("plate")], unit);
        let least = ladder.least();
        let next = ladder.next_above(least).expect("a plate");
        let grown = next.hundredths(unit) - least.hundredths(unit);
        assert_eq!(grown, load(row.number("step"), unit).hundredths(unit));
    }
}

/// Sums of plates are at least ten times finer than the plates themselves.
fn tolerance(table: &Table) {
    let row = table.only();
    let (percent, grams) = (row.number("percent"), row.number("grams"));
    assert!((row.number("kg per 100") - percent).abs() < 1e-9);
    for (bar, plates, unit) in [
        (20.0, &KILOGRAM_PLATES[..], Unit::Kg),
        (45.0, &POUND_PLATES[..], Unit::Lb),
    ] {
        let ladder = barbell(bar, plates, unit);
        for made in ladder.loads() {
            let plates = on_each_side(&ladder, made);
            let exact: i64 = plates.iter().map(|plate| plate.hundredths(unit) * 2).sum();
            let exact = load(bar, unit).hundredths(unit) + exact;
            let off = (made.grams() - unit.load_from_hundredths(exact).grams()).abs();
            #[expect(clippy::cast_precision_loss, reason = "at most a million grams")]
            let (off, total) = (off as f64, made.grams() as f64);
            assert!(off * 10.0 <= grams.max(total * percent / 100.0), "{made:?}");
        }
    }
}

fn pounds(table: &Table) {
    let found = Load::kg(1000).hundredths(Unit::Lb);
    #[expect(clippy::cast_precision_loss, reason = "small")]
    let found = found as f64 / 100_000.0;
    assert!((found - table.only().number("lb")).abs() < 1e-5, "{found}");
}

const WORDS: &str = include_str!("../../src/app/text/words.rs");

/// The texts of a constant of the app's words.
fn words_of(name: &str) -> Vec<String> {
    let start = WORDS
        .find(&format!("pub const {name}:"))
        .unwrap_or_else(|| panic!("the app has no {name}"));
    let rest = &WORDS[start..];
    let end = rest
        .find("\n];")
        .or_else(|| rest.find("\";"))
        .expect("an end");
    let body = &rest[rest.find('=').expect("a value")..=end];
    let texts = body.split('"').skip(1).step_by(2);
    texts.map(str::to_lowercase).collect()
}

fn signs(table: &Table) {
    let said = words_of("CAUTIONS_SIGNS");
    assert_eq!(said.len(), table.rows().count());
    for (row, said) in table.rows().zip(&said) {
        for word in row.word("words").split(' ') {
            assert!(said.contains(word), "'{said}' does not speak of '{word}'");
        }
    }
}

fn screening(table: &Table) {
    let said = words_of("CAUTIONS_DOCTOR").join(" ");
    for row in table.rows() {
        assert!(said.contains(row.word("word")), "{}", row.word("word"));
    }
}
