//! A spreadsheet somebody kept, into the log.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::own::own_id;
use weekloom_engine::catalogue::{Catalogue, ExerciseId};
use weekloom_engine::log::SetKind;
use weekloom_engine::units::{Load, Unit};
use weekloom_store::sheet::{
    Column, DayOrder, Gatherer, Harvest, MOST_BYTES, Mapping, Meaning, Names, PROPOSED, Table,
    TableError, Why, WhyTorn, all_sets, bring_in, names,
};
use weekloom_store::{MemoryShelf, Store};

fn today() -> Day {
    Day::parse("2026-11-26").unwrap()
}

fn id(slug: &str) -> ExerciseId {
    ExerciseId::new(slug)
}

/// Every name by the closest exercise, as a person does who only nods.
fn meanings(table: &Table, mapping: &Mapping, catalogue: &Catalogue) -> Vec<Meaning> {
    let of = |id: &ExerciseId| catalogue.get(id).unwrap().name.clone();
    let all = Names::new(catalogue, &of);
    let meaning = |(name, _): &(String, usize)| {
        let (id, score) = all.closest(name, 1)[0].clone();
        if score >= PROPOSED {
            Meaning::Known(id)
        } else {
            Meaning::Like(id)
        }
    };
    names(table, mapping).iter().map(meaning).collect()
}

fn gather(text: &str, store: &Store<MemoryShelf>) -> Harvest {
    let table = Table::read(text).unwrap();
    let mapping = Mapping::guess(&table, Unit::Kg);
    assert!(mapping.is_enough(), "{mapping:?}");
    let catalogue = store
        .load_exercises()
        .unwrap()
        .beside(&Catalogue::built_in());
    Gatherer {
        catalogue: &catalogue,
        mapping: &mapping,
        meanings: &meanings(&table, &mapping, &catalogue),
        today: today(),
    }
    .gather(&table, store)
}

fn take(store: &mut Store<MemoryShelf>, harvest: &Harvest, beside: bool) {
    let changes = bring_in(store, harvest, beside, Moment(5)).unwrap();
    keep(store, changes);
}

const GERMAN: &str = "\u{feff}Datum;\u{dc}bung;Gewicht (kg);Wdh;S\u{e4}tze;RPE;Notiz\r\n\
    03.02.2025;Barbell bench press;62,5;8;3;8;\"schwer; aber gut\"\r\n\
    03.02.2025;Pull-ups;;9/8/6;;;\r\n\
    28.02.2025;bench press (barbell);65;3x6;;8,5;\r\n\
    28.02.2025;Felsblock heben;40;10;;;\r\n\
    29.02.2025;Barbell bench press;65;6;;;kein Tag\r\n\
    ;;;;;;\r\n\
    01.03.2025;Barbell bench press;viel;6;;;\r\n";

#[test]
fn a_german_sheet_becomes_sessions_and_every_other_row_is_named() {
    let mut store = empty();
    let harvest = gather(GERMAN, &store);
    let days: Vec<String> = harvest.new.iter().map(|s| s.day.to_string()).collect();
    assert_eq!(days, ["2025-02-03", "2025-02-28"]);
    let first = &harvest.new[0];
    let bench = &first.items[0];
    assert_eq!(bench.prescription.exercise, id("barbell-bench-press"));
    assert_eq!(bench.sets.len(), 3);
    assert!(
        bench
            .sets
            .iter()
            .all(|s| s.load == Load::clamped(62_500) && s.count == 8)
    );
    assert!(bench.sets.iter().all(|s| s.rir == Some(2)));
    assert_eq!(bench.note, "schwer; aber gut");
    let pull = &first.items[1];
    assert_eq!(pull.prescription.exercise, id("pull-up"));
    let counts: Vec<u16> = pull.sets.iter().map(|set| set.count).collect();
    assert_eq!(counts, [9, 8, 6]);
    let second = &harvest.new[1];
    assert_eq!(
        second.items[0].prescription.exercise,
        id("barbell-bench-press")
    );
    assert_eq!(second.items[0].sets.len(), 3);
    assert_eq!(second.items[0].sets[0].rir, Some(1));
    assert_eq!(
        second.items[1].prescription.exercise,
        own_id("Felsblock heben")
    );
    assert_eq!(harvest.own.len(), 1);
    assert_eq!(harvest.own[0].name, "Felsblock heben");
    let lines: Vec<(usize, &Why)> = harvest.remarks.iter().map(|r| (r.line, &r.why)).collect();
    assert_eq!(
        lines,
        [
            (6, &Why::Day("29.02.2025".to_owned())),
            (8, &Why::Load("viel".to_owned()))
        ]
    );

    take(&mut store, &harvest, false);
    assert_eq!(store.sessions().len(), 2);
    assert!(store.rebuild_index().unwrap().is_empty());
    assert!(
        store
            .load_exercises()
            .unwrap()
            .0
            .contains_key(&own_id("Felsblock heben"))
    );
    let past = store.history(&id("barbell-bench-press"));
    assert_eq!(past.len(), 2);

    // The same file once more brings nothing, and its new name is known by now.
    let again = gather(GERMAN, &store);
    assert_eq!((again.new.len(), again.beside.len(), again.same), (0, 0, 2));
    assert_eq!(again.own, []);
    assert!(
        bring_in(&store, &again, true, Moment(9))
            .unwrap()
            .is_empty()
    );

    // A corrected row of a day is another session: it is never put beside unasked.
    let corrected = GERMAN.replace("62,5;8;3", "60;8;3");
    let other = gather(&corrected, &store);
    assert_eq!((other.new.len(), other.beside.len(), other.same), (0, 1, 1));
    assert!(
        bring_in(&store, &other, false, Moment(9))
            .unwrap()
            .is_empty()
    );
    take(&mut store, &other, true);
    assert_eq!(store.sessions().len(), 3);
}

/// Out and in again: the sets are the same, to the gram and the rep.
#[test]
fn our_own_sheet_comes_back_in() {
    let catalogue = Catalogue::built_in();
    for seed in 0..30 {
        let dice = &mut Dice::new(seed);
        let mut store = empty();
        for _ in 0..5 {
            let mut session = invent::finished(dice);
            session.day = today().plus(-(dice.between(1, 2_000) as i32));
            for item in &mut session.items {
                let known = catalogue.get(&item.prescription.exercise).is_some();
                item.sets.retain(|set| known && set.count <= 100);
                for set in &mut item.sets {
                    set.load = Load::clamped(set.load.grams() / 10 * 10);
                }
            }
            session.current = None;
            let changes = store.finish_session(&session).unwrap();
            keep(&mut store, changes);
        }
        let name = |id: &ExerciseId| catalogue.get(id).map_or(id.to_string(), |e| e.name.clone());
        let unit = if dice.coin() { Unit::Kg } else { Unit::Lb };
        let sheet = all_sets(&store, &catalogue, &name, unit);
        if sheet.sets == 0 {
            continue;
        }
        let harvest = gather(&sheet.text, &empty());
        let strange = harvest.remarks.iter().find(|r| !r.why.is_note());
        assert_eq!(strange, None, "seed {seed}");

        type Line = (Day, ExerciseId, SetKind, i64, u16, Option<u8>);
        let lines = |sessions: Vec<weekloom_engine::session::Session>| -> Vec<Line> {
            let mut lines = Vec::new();
            for session in sessions {
                for item in &session.items {
                    let id = &item.prescription.exercise;
                    let is_loaded = catalogue.get(id).is_some_and(|e| e.is_loaded());
                    for set in &item.sets {
                        let grams = if is_loaded { set.load.grams() } else { 0 };
                        let hundredths = Load::clamped(grams).hundredths(unit);
                        lines.push((
                            session.day,
                            id.clone(),
                            set.kind,
                            hundredths,
                            set.count,
                            set.rir,
                        ));
                    }
                }
            }
            lines.sort();
            lines
        };
        let ids = store.sessions();
        let kept = ids
            .iter()
            .map(|id| store.read_session(id).unwrap().unwrap());
        assert_eq!(lines(harvest.new), lines(kept.collect()), "seed {seed}");
    }
}

#[test]
fn delimiters_heads_and_orders_are_found_out() {
    let cases: [(&str, char, bool, &[Column]); 5] = [
        (
            "Date,Exercise,Weight (lbs),Reps\n2025-01-02,Row,100,8\n",
            ',',
            true,
            &[Column::Day, Column::Exercise, Column::Load, Column::Reps],
        ),
        (
            "day\tset\tlift\tload\trep\trir\n2/1/2025\t1\tRow\t50\t8\t2\n",
            '\t',
            true,
            &[
                Column::Day,
                Column::Other,
                Column::Exercise,
                Column::Load,
                Column::Reps,
                Column::Rir,
            ],
        ),
        // A comma in each number, and yet the semicolon cuts.
        (
            "Datum;Name;Last;Wdh\n1.2.2025;Row;50,5;8\n1.2.2025;Row;52,5;8\n",
            ';',
            true,
            &[Column::Day, Column::Exercise, Column::Load, Column::Reps],
        ),
        // No head: day and exercise by what stands there, the rest is asked for.
        (
            "2025-01-02|Goblet squat|24|8\n2025-01-04|Goblet squat|24|9\n",
            '|',
            false,
            &[Column::Day, Column::Exercise, Column::Other, Column::Other],
        ),
        (
            "date,exercise,exercise_id,sets,reps,notes\n2025-01-02,Plank,plank,3,40,\n",
            ',',
            true,
            &[
                Column::Day,
                Column::Exercise,
                Column::Other,
                Column::Sets,
                Column::Reps,
                Column::Note,
            ],
        ),
    ];
    for (text, delimiter, has_head, columns) in cases {
        let table = Table::read(text).unwrap();
        assert_eq!(table.delimiter, delimiter, "{text}");
        let mapping = Mapping::guess(&table, Unit::Kg);
        assert_eq!(mapping.has_head, has_head, "{text}");
        assert_eq!(mapping.columns, columns, "{text}");
        assert_eq!(mapping.unit == Unit::Lb, text.contains("lbs"), "{text}");
    }
    let order = |days: &[&str]| {
        let rows: Vec<String> = days.iter().map(|d| format!("{d},Row,50,8")).collect();
        let text = format!("date,exercise,load,reps\n{}\n", rows.join("\n"));
        let mapping = Mapping::guess(&Table::read(&text).unwrap(), Unit::Kg);
        (mapping.order, mapping.is_order_unsure)
    };
    assert_eq!(
        order(&["1/2/2025", "13/2/2025"]),
        (DayOrder::DayFirst, false)
    );
    assert_eq!(
        order(&["1/2/2025", "2/13/2025"]),
        (DayOrder::MonthFirst, false)
    );
    assert!(order(&["1/2/2025", "3/4/2025"]).1);
    assert!(!order(&["2025-02-01", "2025-02-13"]).1);
}

#[test]
fn names_are_matched_as_a_person_would() {
    let catalogue = Catalogue::built_in();
    let all = Names::new(&catalogue, &|id| catalogue.get(id).unwrap().name.clone());
    let cases = [
        ("Barbell bench press", "barbell-bench-press"),
        ("bench press (barbell)", "barbell-bench-press"),
        ("BB Bench Press", "barbell-bench-press"),
        ("barbel bench pres", "barbell-bench-press"),
        ("Goblet Squats", "goblet-squat"),
        ("pullup", "pull-up"),
        ("Push Ups", "push-up"),
        ("RDL", "straight-leg-deadlift"),
        ("Romanian Deadlifts", "straight-leg-deadlift"),
        ("Side plank", "side-plank"),
        ("plank", "plank"),
    ];
    for (name, expected) in cases {
        let found = all.closest(name, 3);
        assert_eq!(found[0].0, id(expected), "{name}: {found:?}");
        assert!(found[0].1 >= PROPOSED, "{name}: {found:?}");
    }
    for name in ["Felsblock heben", "morning walk", "xyz"] {
        let found = all.closest(name, 1);
        assert!(found[0].1 < PROPOSED, "{name}: {found:?}");
    }
    assert_eq!(all.closest("pull-up ", 1)[0].1, 100);
    assert!(all.closest("pull-up x", 1)[0].1 < 100);
}

#[test]
fn what_cannot_be_read_is_refused_or_named_by_its_line() {
    assert_eq!(Table::read(" \n\n"), Err(TableError::Empty));
    assert_eq!(Table::read("a\0b"), Err(TableError::NotText));
    assert_eq!(Table::read("\u{fffd}PNG"), Err(TableError::NotText));
    let large = "x".repeat(MOST_BYTES + 1);
    assert_eq!(
        Table::read(&large),
        Err(TableError::TooLarge(MOST_BYTES + 1))
    );
    assert_eq!(
        Table::read(&"a,b\n".repeat(100_001)),
        Err(TableError::TooLong)
    );

    // A quote that nobody closes tears one row, not the rest of the file.
    let text = "date,exercise,load,reps\n\
        2025-01-02,\"Row,50,8\n\
        2025-01-03,Barbell bench press,50,8\n\
        2025-01-04,Barbell bench press,50,x\n\
        2027-01-01,Barbell bench press,50,8\n\
        2025-01-06,,50,8\n\
        2025-01-07,Barbell bench press,,8\n\
        2025-01-08,Push-up,20,8\n\
        2025-01-09,Barbell bench press,50,101\n";
    let harvest = gather(text, &empty());
    let found: Vec<(usize, Why)> = harvest
        .remarks
        .iter()
        .map(|r| (r.line, r.why.clone()))
        .collect();
    let expected = [
        (2, Why::Torn(WhyTorn::Unclosed)),
        (4, Why::Count("x".to_owned())),
        (5, Why::FarDay("2027-01-01".to_owned())),
        (6, Why::NoExercise),
        (7, Why::Load(String::new())),
        (8, Why::LoadUnused("20".to_owned())),
        (9, Why::Count("101".to_owned())),
    ];
    assert_eq!(found, expected);
    assert_eq!(Harvest::sets(&harvest.new), 2);
}

/// Whatever stands in the file: every row gives sets or is named, and nothing
/// is taken in that the store would refuse.
#[test]
fn no_row_is_lost() {
    let pieces = [
        "2025-01-02",
        "31/12/24",
        "Row",
        "Barbell bench press",
        "50",
        "62,5 kg",
        "8",
        "3x8",
        "\"",
        "\"a\"\"b\"",
        ",",
        ",",
        ",",
        ";",
        "\t",
        "\n",
        "\n",
        "\r\n",
        "=1+1",
        "\u{202e}x",
        "🧵",
        "-5",
        "99999",
        "NaN",
        "",
        " ",
    ];
    let catalogue = Catalogue::built_in();
    for seed in 0..3_000 {
        let dice = &mut Dice::new(seed);
        let mut text = "date,exercise,load,reps,note\n".to_owned();
        for _ in 0..dice.between(0, 60) {
            text.push_str(pieces[dice.index(pieces.len())]);
        }
        let Ok(table) = Table::read(&text) else {
            continue;
        };
        let mapping = Mapping {
            columns: vec![
                Column::Day,
                Column::Exercise,
                Column::Load,
                Column::Reps,
                Column::Note,
            ],
            ..Mapping::guess(&table, Unit::Kg)
        };
        let meanings: Vec<Meaning> = names(&table, &mapping)
            .iter()
            .map(|_| match dice.between(0, 9) {
                0 => Meaning::LeftOut,
                1 => Meaning::Like(id("goblet-squat")),
                _ => Meaning::Known(id("barbell-bench-press")),
            })
            .collect();
        let store = empty();
        let gatherer = Gatherer {
            catalogue: &catalogue,
            mapping: &mapping,
            meanings: &meanings,
            today: today(),
        };
        let harvest = gatherer.gather(&table, &store);
        let rows = table.rows.len() - usize::from(mapping.has_head) + table.torn.len();
        let named: std::collections::BTreeSet<usize> = harvest
            .remarks
            .iter()
            .filter(|r| !r.why.is_note())
            .map(|r| r.line)
            .collect();
        let is_taken = Harvest::sets(&harvest.new) > 0;
        assert!(named.len() <= rows, "seed {seed}");
        assert_eq!(
            is_taken,
            named.len() < rows,
            "seed {seed}: {text:?}\n{harvest:?}"
        );
        assert!(
            bring_in(&store, &harvest, true, Moment(0)).is_ok(),
            "seed {seed}"
        );
    }
}
