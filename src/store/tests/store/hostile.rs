//! What comes from outside may be anything: every reader refuses it in bounded space or
//! takes what keeps the rules, and none panics.
//!
//! Real files are changed at random by seeds, so that a failure can be had again; the
//! targets in `tests/fuzz` hunt the same readers with a fuzzer.

use crate::invent::{self, Dice};
use crate::{empty, keep};
use weekloom_engine::calendar::Day;
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::plan::plan_week;
use weekloom_engine::units::Unit;
use weekloom_store::backup::{export, read_backup};
use weekloom_store::demo::Crew;
use weekloom_store::handover::{MOST_CHARS, Offer};
use weekloom_store::sheet::{
    Gatherer, MOST_COLUMNS, MOST_ROWS, Mapping, Meaning, Table, TableError, all_sets, names,
};
use weekloom_store::{JournalRecord, MemoryShelf, Space, Store};

/// Changed files of each kind.
const ROUNDS: u64 = 3_000;

/// Bytes put in, taken out, doubled or exchanged, at a few places.
fn mangled(text: &str, dice: &mut Dice) -> String {
    const STRANGE: [&str; 16] = [
        "\"",
        "[",
        "]",
        "{",
        "}",
        ",",
        ";",
        "\n",
        "\0",
        "\\u0000",
        "-",
        "999999999999999999999",
        "\u{202e}",
        "\u{1f3cb}",
        "null",
        "1e999",
    ];
    let mut chars: Vec<char> = text.chars().collect();
    for _ in 0..dice.between(1, 5) {
        if chars.is_empty() {
            break;
        }
        let at = dice.index(chars.len());
        let until = (at + dice.index(40)).min(chars.len());
        match dice.between(0, 4) {
            0 => drop(chars.drain(at..until)),
            1 => {
                let part: Vec<char> = chars[at..until].to_vec();
                chars.splice(at..at, part);
            }
            2 => chars.truncate(at),
            3 => {
                let with = dice.index(chars.len());
                chars.swap(at, with);
            }
            _ => {
                let strange = STRANGE[dice.index(STRANGE.len())].chars();
                chars.splice(at..at, strange);
            }
        }
    }
    chars.into_iter().collect()
}

fn filled(dice: &mut Dice) -> Store<MemoryShelf> {
    let mut store = empty();
    for _ in 0..3 {
        let changes = store.finish_session(&invent::finished(dice)).unwrap();
        keep(&mut store, changes);
    }
    store
}

#[test]
fn a_changed_backup_is_refused_or_whole() {
    let dice = &mut Dice::new(1);
    let text = export(&filled(dice), Day::from_epoch_days(20_500)).text;
    let whole = read_backup(&text).unwrap();
    let mut refused = 0;
    for _ in 0..ROUNDS {
        match read_backup(&mangled(&text, dice)) {
            // A change outside the values, or one that undoes another.
            Ok(found) => assert_eq!(found, whole),
            Err(_) => refused += 1,
        }
    }
    assert!(refused > ROUNDS * 8 / 10, "{refused}");
}

#[test]
fn a_changed_plan_is_refused_or_keeps_the_bounds() {
    let dice = &mut Dice::new(2);
    let catalogue = Catalogue::built_in();
    let person = Crew::Mechanic.person();
    let plan = plan_week(&catalogue, &person).unwrap();
    let text = Offer::of(&plan, &person.days, &catalogue).write().unwrap();
    let mut refused = 0;
    for _ in 0..ROUNDS {
        match Offer::read(&mangled(&text, dice), &catalogue) {
            Ok(offer) => assert!(offer.plan(&catalogue).days.len() <= 31),
            Err(_) => refused += 1,
        }
    }
    assert!(refused > ROUNDS * 8 / 10, "{refused}");
    // Longer than any plan; nothing but one letter; nothing.
    for text in [
        "A".repeat(MOST_CHARS + 1),
        "7".repeat(MOST_CHARS),
        "A".repeat(MOST_CHARS),
        "A".repeat(100_000_000),
        String::new(),
        "#/take/".to_owned(),
    ] {
        assert!(Offer::read(&text, &catalogue).is_err());
    }
}

#[test]
fn a_changed_spreadsheet_gives_sessions_that_can_be_kept() {
    let dice = &mut Dice::new(3);
    let catalogue = Catalogue::built_in();
    let store = filled(dice);
    let name_of = |id: &_| {
        catalogue
            .get(id)
            .map_or_else(String::new, |e| e.name.clone())
    };
    let text = all_sets(&store, &catalogue, &name_of, Unit::Kg).text;
    let target = empty();
    let today = Day::from_epoch_days(25_000);
    let mut brought = 0;
    for _ in 0..ROUNDS / 4 {
        let Ok(table) = Table::read(&mangled(&text, dice)) else {
            continue;
        };
        let mapping = Mapping::guess(&table, Unit::Kg);
        let like = catalogue.iter().next().unwrap().id.clone();
        let meanings = vec![Meaning::Known(like); names(&table, &mapping).len()];
        let harvest = Gatherer {
            catalogue: &catalogue,
            mapping: &mapping,
            meanings: &meanings,
            today,
        }
        .gather(&table, &target);
        brought += harvest.new.len();
        for session in &harvest.new {
            assert!(target.save_session(session).is_ok(), "{session:?}");
        }
    }
    assert!(brought > 100, "{brought}");
}

#[test]
fn bombs_are_refused_before_they_grow() {
    let columns = ",".repeat(1_000_000);
    match Table::read(&columns) {
        Ok(table) => {
            assert!(table.width() <= MOST_COLUMNS);
            assert!(!table.torn.is_empty());
        }
        Err(error) => assert_eq!(error, TableError::Empty),
    }
    let rows = "a,b\n".repeat(MOST_ROWS + 1);
    assert_eq!(Table::read(&rows), Err(TableError::TooLong));
    let large = "x".repeat(100_000_000);
    assert!(matches!(
        Table::read(&large),
        Err(TableError::TooLarge(100_000_000))
    ));
    let open = format!("a,b\n\"{}", "x".repeat(1_000_000));
    if let Ok(table) = Table::read(&open) {
        let kept: usize = table
            .rows
            .iter()
            .flat_map(|row| &row.cells)
            .map(String::len)
            .sum();
        assert!(kept < 10_000, "{kept} bytes of an endless cell");
    }
    // A thousand to one: nothing here is compressed, so nothing unpacks; the deepest
    // nesting is refused by its reader.
    for (open, close) in [("[", "]"), ("{\"a\":", "}")] {
        let deep = format!("{}{}", open.repeat(1_000_000), close.repeat(1_000_000));
        assert!(read_backup(&deep).is_err());
    }
    assert!(read_backup(&"9".repeat(100_000_000)).is_err());
}

/// A journal of nonsense loses nothing that stands on the shelf and can be read.
#[test]
fn a_journal_of_nonsense_leaves_what_can_be_read() {
    let dice = &mut Dice::new(4);
    let store = filled(dice);
    let shelf = store.into_shelf();
    let (whole, _) = Store::open(shelf.clone(), Space::Own, Vec::new());
    let sessions = whole.sessions();
    assert_eq!(sessions.len(), 3);
    for _ in 0..300 {
        let records = (0..dice.between(1, 6)).map(|_| {
            let writes = (0..dice.between(0, 3)).map(|_| {
                let value = dice
                    .coin()
                    .then(|| mangled("v1 12 abcdef01 {\"a\":[1,2,3]}", dice));
                (mangled("weekloom.person", dice), value)
            });
            let writes = writes.collect();
            Ok(JournalRecord {
                seq: dice.between(0, 50).unsigned_abs(),
                at_ms: dice.between(-5, 5),
                intent: weekloom_store::Intent::Write,
                writes,
            })
        });
        let records = records.collect();
        let (store, _) = Store::open(shelf.clone(), Space::Own, records);
        assert_eq!(store.sessions(), sessions);
        for id in &sessions {
            assert!(store.read_session(id).is_ok_and(|found| found.is_some()));
        }
    }
}
