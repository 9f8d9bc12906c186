//! Checks of progression: what earns load, how much, and what takes it away.

use crate::Check;
use crate::table::Table;
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::{Catalogue, Exercise, ExerciseId};
use weekloom_engine::kit::{Kit, PlatePairs};
use weekloom_engine::log::{Performance, SetEntry, SetKind};
use weekloom_engine::person::Status;
use weekloom_engine::plan::Prescription;
use weekloom_engine::presets::KitPreset;
use weekloom_engine::progress::{
    DELOAD_DAYS, EARLIEST_WEEKS, Evidence, LATEST_WEEKS, Reason, Rule, SuggestInput, Suggestion,
    layoff_percent, suggest,
};
use weekloom_engine::units::{Load, Unit};

/// What this file checks.
pub const CHECKS: &[Check] = &[
    ("two-for-two", two_for_two),
    ("two-for-two-worked", two_for_two_worked),
    ("size-of-a-step", step_size),
    ("size-of-a-step-in-the-book", step_size_of_the_book),
    ("step-by-status", step_by_status),
    ("step-for-beginners-in-pounds", beginners_step),
    ("light-loads-break-the-ceiling", light_loads),
    ("deload-survey", deload_survey),
    ("deload-direction", deload_direction),
    ("a-week-off", a_week_off),
    ("time-off-costs", time_off),
    ("ten-weeks-off", ten_weeks_off),
];

/// A trainee of one exercise.
struct Trainee {
    exercise: Exercise,
    kit: Kit,
    rule: Rule,
    status: Status,
    goal: (u16, u16),
    history: Vec<Performance>,
    today: i32,
    is_deload: bool,
}

fn day(n: i32) -> Day {
    Day::from_ymd(2026, 11, 2).expect("a day").plus(n)
}

impl Trainee {
    fn of(id: &str) -> Self {
        let catalogue = Catalogue::built_in();
        Self {
            exercise: catalogue.get(&ExerciseId::new(id)).expect("known").clone(),
            kit: Kit::full_gym(),
            rule: Rule::DoubleProgression,
            status: Status::Intermediate,
            goal: (8, 12),
            history: Vec::new(),
            today: 0,
            is_deload: false,
        }
    }

    fn prescription(&self) -> Prescription {
        Prescription {
            exercise: self.exercise.id.clone(),
            sets: 3,
            reps: self.goal,
            rir: 2,
            rest_s: 120,
        }
    }

    /// Does a session two days after the last.
    fn did(mut self, load: Load, counts: &[u16], rir: Option<u8>) -> Self {
        self.history.push(Performance {
            day: day(self.today),
            prescription: self.prescription(),
            suggested: None,
            is_deload: false,
            sets: counts
                .iter()
                .map(|&count| SetEntry {
                    kind: SetKind::Work,
                    load,
                    count,
                    rir,
                    at: Moment(0),
                })
                .collect(),
            discomfort: None,
        });
        self.today += 2;
        self
    }

    fn suggest(&self) -> Suggestion {
        suggest(&SuggestInput {
            exercise: &self.exercise,
            prescription: &self.prescription(),
            history: &self.history,
            kit: &self.kit,
            rule: self.rule,
            status: self.status,
            today: day(self.today),
            is_deload: self.is_deload,
        })
    }

    /// Grams above the last load.
    fn rise(&self) -> i64 {
        let last = self.history.last().expect("a session").sets[0].load;
        let next = self.suggest().load.expect("a load");
        next.grams() - last.grams()
    }
}

fn by_two_for_two(reason: &Reason) -> bool {
    matches!(
        reason,
        Reason::Raised {
            evidence: Evidence::TwoForTwo,
            ..
        }
    )
}

fn two_for_two(table: &Table) {
    let row = table.only();
    let over = u16::try_from(row.whole("reps over")).expect("reps");
    for shown in 0..=3 {
        for sessions in 1..=3 {
            let mut trainee = Trainee::of("barbell-bench-press");
            for _ in 0..sessions {
                trainee = trainee.did(Load::kg(60), &[10, 10, 12 + shown], None);
            }
            let earned = shown >= over && i64::from(sessions) >= row.whole("sessions");
            assert_eq!(
                by_two_for_two(&trainee.suggest().reason),
                earned,
                "{shown} {sessions}"
            );
        }
    }
}

fn two_for_two_worked(table: &Table) {
    let row = table.only();
    let reps = |column| u16::try_from(row.whole(column)).expect("reps");
    assert_eq!(row.whole("sets"), 3);
    let mut trainee = Trainee::of("barbell-bench-press");
    trainee.kit = KitPreset::FullGym.kit(Unit::Lb);
    trainee.goal = (reps("reps"), reps("reps"));
    let load = Unit::Lb.load_from_hundredths(row.whole("pounds") * 100);
    let sets = [reps("reps"), reps("reps"), reps("last set")];
    let once = trainee.did(load, &sets, None);
    let is_raised = |suggestion: &Suggestion| matches!(suggestion.reason, Reason::Raised { .. });
    assert!(!is_raised(&once.suggest()));
    let twice = once.did(load, &sets, None).suggest();
    assert!(is_raised(&twice), "{twice:?}");
    // One increment: a pair of the smallest plates.
    let next = twice.load.expect("a load").hundredths(Unit::Lb);
    assert_eq!(next, row.whole("pounds") * 100 + 500);
}

/// Fine plates: steps of half a kilogram.
fn fine_plates() -> Vec<PlatePairs> {
    let plate = |grams, pairs| PlatePairs {
        plate: Load::clamped(grams),
        pairs,
    };
    vec![
        plate(20_000, 4),
        plate(10_000, 1),
        plate(5_000, 1),
        plate(2_500, 1),
        plate(1_250, 1),
        plate(500, 2),
        plate(250, 1),
    ]
}

/// Every load from the bare bar to 150 kg, in half kilograms, shown at the top
/// of the goal; the step in percent.
fn steps(kit: impl Fn(&mut Kit)) -> Vec<(f64, Suggestion)> {
    let mut found = Vec::new();
    for half_kg in 40..=300 {
        let mut trainee = Trainee::of("barbell-bench-press");
        kit(&mut trainee.kit);
        let load = Load::clamped(half_kg * 500);
        let trainee = trainee.did(load, &[12, 12, 12], Some(2));
        let suggestion = trainee.suggest();
        if matches!(suggestion.reason, Reason::Raised { .. }) {
            #[expect(clippy::cast_precision_loss, reason = "at most a million grams")]
            let percent = trainee.rise() as f64 / load.grams() as f64 * 100.0;
            found.push((percent, suggestion));
        }
    }
    assert!(found.len() > 50, "only {} steps", found.len());
    found
}

fn step_size(table: &Table) {
    let row = table.only();
    for (percent, suggestion) in steps(|kit| kit.plates = fine_plates()) {
        // The least is aimed at and reached where plates are fine.
        assert!(percent >= row.number("least") - 1e-9, "{suggestion:?}");
        assert!(percent <= row.number("most"), "{suggestion:?}");
    }
    for (percent, suggestion) in steps(|_| {}) {
        assert!(percent <= row.number("most"), "{suggestion:?}");
    }
    // One rep over is not yet two; two in all sets earn a step too large.
    let stretch = |over: i64| {
        let reps = 12 + u16::try_from(over).expect("reps");
        let trainee = Trainee::of("barbell-bench-press").did(Load::kg(20), &[reps; 3], Some(2));
        matches!(trainee.suggest().reason, Reason::Raised { .. })
    };
    assert!(!stretch(row.whole("reps over, least")));
    assert!(stretch(row.whole("reps over, most")));
}

/// The book's narrower range holds wherever the kit can make a step in it.
fn step_size_of_the_book(table: &Table) {
    let row = table.only();
    assert!(row.number("least") >= 2.0);
    for (percent, suggestion) in steps(|_| {}) {
        assert!(percent <= row.number("most"), "{suggestion:?}");
    }
}

fn step_by_status(table: &Table) {
    for row in table.rows() {
        let status = Status::from_slug(row.word("status")).expect("a status");
        assert!(row.number("least") < row.number("most"));
        for kilograms in [25, 30, 40, 50, 60, 100] {
            let mut trainee = Trainee::of("barbell-bench-press");
            trainee.status = status;
            let trainee = trainee.did(Load::kg(kilograms), &[12, 12, 12], Some(2));
            // The smallest step of this kit is 2.5 kg.
            let fits = 250.0 / f64::from(kilograms) <= row.number("most");
            let is_raised = matches!(trainee.suggest().reason, Reason::Raised { .. });
            assert_eq!(is_raised, fits, "{status} at {kilograms} kg");
        }
    }
}

fn beginners_step(table: &Table) {
    for row in table.rows() {
        let id = match row.word("body") {
            "upper" => "barbell-bench-press",
            _ => "back-squat",
        };
        let mut trainee = Trainee::of(id);
        trainee.status = Status::Novice;
        trainee.rule = Rule::FixedSteps;
        trainee.kit = KitPreset::FullGym.kit(Unit::Lb);
        // Plates of 1¼ lb: steps of 2.5 lb.
        trainee.kit.plates.push(PlatePairs {
            plate: Unit::Lb.load_from_hundredths(125),
            pairs: 1,
        });
        let load = Unit::Lb.load_from_hundredths(10_000);
        let trainee = trainee.did(load, &[8, 8, 8], Some(2));
        let next = trainee.suggest().load.expect("a load");
        #[expect(clippy::cast_precision_loss, reason = "small")]
        let pounds = (next.hundredths(Unit::Lb) - 10_000) as f64 / 100.0;
        assert!(
            (row.number("least")..=row.number("most")).contains(&pounds),
            "{pounds}"
        );
    }
}

fn light_loads(table: &Table) {
    for row in table.rows() {
        let kilograms = u16::try_from(row.whole("load")).expect("kilograms");
        let trainee =
            Trainee::of("barbell-bench-press").did(Load::kg(kilograms), &[12, 12, 12], Some(2));
        let range = row.number("least")..=row.number("most");
        match trainee.suggest().reason {
            Reason::Raised { permille, .. } => {
                assert!(row.flag("fits"), "{kilograms} kg");
                #[expect(clippy::cast_precision_loss, reason = "small")]
                let rise = trainee.rise() as f64 / 1000.0;
                assert!(range.contains(&rise), "{rise} at {kilograms} kg");
                // Below two percent the next step up is taken.
                let smallest = row.whole("step permille");
                assert!(permille.map(i64::from) >= Some(smallest));
            }
            Reason::StepTooBig { permille, .. } => {
                assert!(!row.flag("fits"), "{kilograms} kg");
                assert_eq!(permille.map(i64::from), Some(row.whole("step permille")));
            }
            other => panic!("{kilograms} kg: {other:?}"),
        }
    }
}

/// Never earlier, never later than one standard deviation from the mean, to the
/// nearest whole week within it or just past it.
fn deload_survey(table: &Table) {
    let row = table.only();
    let (mean, sd) = (row.number("weeks"), row.number("weeks sd"));
    assert!((f64::from(EARLIEST_WEEKS) - (mean - sd).ceil()).abs() < 1e-9);
    assert!((f64::from(LATEST_WEEKS) - (mean + sd).round()).abs() < 1e-9);
    let (mean, sd) = (row.number("days"), row.number("days sd"));
    assert!((mean - sd..=mean + sd).contains(&f64::from(DELOAD_DAYS)));
}

fn deload_direction(table: &Table) {
    let trainee = Trainee::of("barbell-bench-press").did(Load::kg(60), &[10, 10, 10], Some(2));
    let usual = trainee.suggest();
    let deload = Trainee {
        is_deload: true,
        ..trainee
    }
    .suggest();
    let sign = |a: i64, b: i64| (a - b).signum();
    let grams = |suggestion: &Suggestion| suggestion.load.expect("a load").grams();
    for row in table.rows() {
        let found = match row.word("what") {
            "load" => sign(grams(&deload), grams(&usual)),
            "reps" => sign(deload.count.into(), usual.count.into()),
            _ => sign(deload.rir.into(), usual.rir.into()),
        };
        assert_eq!(found, row.whole("direction"), "{}", row.word("what"));
    }
}

/// A week off is no layoff: what was lifted before it is lifted after it.
fn a_week_off(table: &Table) {
    let row = table.only();
    assert!(row.whole("off") < row.whole("of"));
    let days = i32::try_from(row.whole("off") * 7).expect("days");
    let mut trainee = Trainee::of("barbell-bench-press").did(Load::kg(60), &[9, 9, 9], Some(2));
    trainee.today = days;
    let suggestion = trainee.suggest();
    assert_eq!(suggestion.load, Some(Load::kg(60)), "{suggestion:?}");
}

/// Strength falls with time off: so does the load, never rising with the days.
fn time_off(table: &Table) {
    for row in table.rows() {
        assert!(row.number("effect") < 0.0 && row.number("high") < 0.0);
        assert!(row.number("low") < row.number("effect"));
    }
    for days in 1..800 {
        assert!(layoff_percent(days) <= layoff_percent(days - 1));
    }
    assert!(layoff_percent(800) < layoff_percent(0));
}

/// Steps of five percent a week bring the load back as soon as it came back.
fn ten_weeks_off(table: &Table) {
    let row = table.only();
    let days = u32::try_from(row.whole("off") * 7).expect("days");
    let start = f64::from(layoff_percent(days));
    let weeks = i32::try_from(row.whole("back")).expect("weeks");
    assert!(start * 1.05_f64.powi(weeks) >= 100.0, "from {start} %");
}
