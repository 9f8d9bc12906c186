//! Two weeks side by side.

use super::*;
use crate::calendar::Weekday;
use crate::catalogue::ExerciseId;
use crate::plan::tests::person;
use crate::plan::{Focus, PlanDay, PlanItem, SplitId, plan_week, prescribe, time};

/// A week of bare days.
fn week(days: &[&[(&str, u8)]]) -> Plan {
    let catalogue = Catalogue::built_in();
    let mut key = 0;
    let mut item = |&(slug, sets): &(&str, u8)| {
        key += 1;
        let exercise = catalogue.get(&ExerciseId::new(slug)).expect(slug);
        PlanItem {
            key,
            prescription: prescribe(exercise, &person(), sets),
            superset: None,
            reasons: Vec::new(),
        }
    };
    let mut day = |items: &[(&str, u8)]| {
        let items: Vec<PlanItem> = items.iter().map(&mut item).collect();
        PlanDay {
            focus: Focus::Own,
            seconds: time::session_seconds(&catalogue, &items),
            items,
        }
    };
    Plan {
        split: SplitId::new("own"),
        days: days.iter().map(|items| day(items)).collect(),
        notes: Vec::new(),
    }
}

/// Twelve weekly sets of a muscle are 4 + 4 + 4 in three full-body days and 12 +
/// 0 + 0 in a once-a-week split (common practice, no source).
#[test]
fn twelve_sets_spread_or_at_once() {
    let bench = ("barbell-bench-press", 4);
    let (curl, extension) = (("lying-leg-curl", 4), ("leg-extension", 4));
    let spread = week(&[&[bench, curl, extension][..]; 3]);
    let at_once = week(&[&[bench; 3], &[curl; 3], &[extension; 3]]);
    let found = compare(&Catalogue::built_in(), &person(), &spread, &at_once);
    assert_eq!(found.unequal, []);
    let chest = |figures: &Figures| {
        *figures
            .muscles
            .iter()
            .find(|m| m.muscle == Muscle::Chest)
            .expect("it counts")
    };
    let (a, b) = (chest(&found.first), chest(&found.second));
    assert_eq!((a.half_sets, a.frequency, a.largest_dose), (24, 3, 8));
    assert_eq!((b.half_sets, b.frequency, b.largest_dose), (24, 1, 24));
    assert_eq!((a.longest_gap, b.longest_gap), (3, 7));
    assert_eq!((a.window_h, b.window_h), (3 * 48, 48));
    assert!(found.first.reps.planned == found.second.reps.planned);
    assert!(found.first.reps.lost < found.second.reps.lost);
    // Equal sets: no word of more gcurlth for either.
    assert_eq!(
        found.verdict[..5],
        [
            Verdict::GrowAlike,
            Verdict::Fresher(Side::First),
            Verdict::SmallerDoses(Side::First),
            Verdict::ShorterGaps(Side::First),
            Verdict::MoreOften(Side::First),
        ]
    );
    let turned = compare(&Catalogue::built_in(), &person(), &at_once, &spread);
    assert_eq!(turned.verdict[1], Verdict::Fresher(Side::Second));
}

#[test]
fn a_week_against_itself_leaves_nothing_to_say() {
    let plan = plan_week(&Catalogue::built_in(), &person()).expect("a week");
    let found = compare(&Catalogue::built_in(), &person(), &plan, &plan);
    assert_eq!(found.first, found.second);
    assert_eq!(found.verdict, [Verdict::GrowAlike]);
}

#[test]
fn more_sets_are_said_before_all_else() {
    let few = week(&[&[("barbell-bench-press", 2)]]);
    let many = week(&[&[("barbell-bench-press", 5)]]);
    let found = compare(&Catalogue::built_in(), &person(), &few, &many);
    assert_eq!(found.verdict[0], Verdict::SetsDiffer);
    assert!(found.unequal.contains(&(Muscle::Chest, 4, 10)));
}

#[test]
fn windows_of_days_running_do_not_count_twice() {
    let mut person = person();
    person.days = vec![Weekday::Saturday, Weekday::Sunday, Weekday::Monday];
    let plan = week(&[&[("barbell-bench-press", 4)][..]; 3]);
    person.days.sort();
    let of = figures(&Catalogue::built_in(), &person, &plan);
    // Monday 48 h, Saturday 24 h until Sunday, Sunday 24 h until Monday.
    assert_eq!(of.muscles[0].muscle, Muscle::Chest);
    assert_eq!(of.muscles[0].window_h, 96);
}

/// The other split is brought to the same weekly sets within the limits.
#[test]
fn the_second_week_has_the_sets_of_the_first() {
    let catalogue = Catalogue::built_in();
    let cases = [
        (2, "full-body-twice", "upper-lower-once"),
        (5, "upper-lower-push-pull-legs", "full-body-five"),
        (
            7,
            "push-pull-legs-twice-and-small",
            "upper-lower-thrice-and-small",
        ),
        (3, "rotating-emphasis", "push-pull-legs"),
        (3, "push-pull-legs", "rotating-emphasis"),
        (4, "upper-lower-twice", "full-body-four"),
        (6, "push-pull-legs-twice", "upper-lower-thrice"),
    ];
    for (days, one, other) in cases {
        let person = Person {
            days: (0..days).map(Weekday::from_index).collect(),
            split: Some(SplitId::new(one)),
            ..person()
        };
        let first = plan_week(&catalogue, &person).expect("a week");
        let other = SplitId::new(other);
        let planned = plan_week(
            &catalogue,
            &Person {
                split: Some(other.clone()),
                ..person.clone()
            },
        )
        .expect("a week");
        let second = equal_week(&catalogue, &person, &first, &other).expect("a week");
        assert_eq!(second.split, other);
        let off = |plan: &Plan| -> u32 {
            let found = compare(&catalogue, &person, &first, plan);
            found.unequal.iter().map(|&(_, a, b)| a.abs_diff(b)).sum()
        };
        assert!(off(&second) <= off(&planned), "{other}");
        for (day, before) in second.days.iter().zip(&planned.days) {
            assert!(day.seconds <= 65 * 60 || day.seconds <= before.seconds);
            assert!(
                day.items
                    .iter()
                    .all(|i| (2..=5).contains(&i.prescription.sets))
            );
        }
        // The same twice.
        assert_eq!(equal_week(&catalogue, &person, &first, &other), Ok(second));
    }
}
