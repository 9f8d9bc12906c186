//! A plan handed on: what is read is what was given, and nothing else passes.

use crate::invent::{self, Dice};
use weekloom_engine::catalogue::{Catalogue, ExerciseId};
use weekloom_engine::plan::{Plan, PlanDay, plan_week};
use weekloom_store::demo::Crew;
use weekloom_store::handover::{LINK, MOST_CHARS, Offer, OfferError, code};

/// An invented plan that holds only what can be handed on.
fn offer(dice: &mut Dice) -> (Offer, Catalogue, Plan) {
    let catalogue = invent::exercises(dice).beside(&Catalogue::built_in());
    let own: Vec<ExerciseId> = catalogue
        .iter()
        .filter(|e| e.id.as_str().starts_with("own-"))
        .map(|e| e.id.clone())
        .collect();
    let accepted = invent::plan(dice);
    let mut plan = accepted.plan;
    for item in plan.days.iter_mut().flat_map(|day| &mut day.items) {
        if dice.coin() {
            item.prescription.exercise = own[dice.index(own.len())].clone();
        }
    }
    plan.days.retain(|day| day.items.len() <= 12);
    if plan.days.is_empty() {
        plan.days = vec![PlanDay {
            focus: weekloom_engine::plan::Focus::Own,
            items: Vec::new(),
            seconds: 0,
        }];
    }
    (
        Offer::of(&plan, &accepted.weekdays, &catalogue),
        catalogue,
        plan,
    )
}

#[test]
fn what_is_read_is_what_was_given() {
    let built_in = Catalogue::built_in();
    let mut owns = 0;
    for seed in 0..300 {
        let (given, catalogue, plan) = offer(&mut Dice::new(seed));
        let Some(text) = given.write() else {
            panic!("seed {seed} does not fit");
        };
        assert!(
            text.bytes()
                .all(|b| b.is_ascii_uppercase() || b.is_ascii_digit())
        );
        // The receiver has none of the giver's own exercises.
        for told in [
            text.clone(),
            text.to_lowercase(),
            format!("https://example.org/w/{LINK}{text}"),
            format!("A plan from the station:\nhttps://example.org/{LINK}{text}\n"),
        ] {
            let mut read =
                Offer::read(&told, &built_in).unwrap_or_else(|e| panic!("seed {seed}: {e}"));
            // A split that is nobody's here gets a name of its own.
            let is_known = weekloom_engine::plan::split::built_in()
                .iter()
                .any(|s| s.id == given.split);
            if !is_known {
                assert_eq!(read.split.as_str(), "own-handed-over");
                read.split = given.split.clone();
            }
            // Muscles and things come back in the order of the trade's lists.
            for (read, given) in read.own.iter_mut().zip(&given.own) {
                for (back, gone) in [
                    (&mut read.prime, &given.prime),
                    (&mut read.assist, &given.assist),
                ] {
                    back.sort_by_key(|m| gone.iter().position(|g| g == m));
                }
                read.equipment
                    .sort_by_key(|m| given.equipment.iter().position(|g| g == m));
                read.joints
                    .sort_by_key(|m| given.joints.iter().position(|g| g == m));
            }
            assert_eq!(read, given, "seed {seed}");
            owns += read.own.len();
            let theirs = built_in.with_own(read.own.clone());
            let made = read.plan(&theirs);
            for (made, plan) in made.days.iter().zip(&plan.days) {
                assert_eq!(made.focus, plan.focus);
                let known = plan
                    .items
                    .iter()
                    .filter(|i| catalogue.get(&i.prescription.exercise).is_some());
                let known: Vec<_> = known.map(|i| (&i.prescription, i.superset)).collect();
                let items: Vec<_> = made
                    .items
                    .iter()
                    .map(|i| (&i.prescription, i.superset))
                    .collect();
                assert_eq!(items, known, "seed {seed}");
            }
        }
    }
    assert!(owns > 100, "own exercises were hardly tried: {owns}");
}

/// A text of version 1, kept as it was: phones hold links for years.
#[test]
fn a_link_of_version_1_is_read_as_ever() {
    let text = include_str!("saved/handover-1.txt").trim();
    let read = Offer::read(text, &Catalogue::built_in()).unwrap();
    let days: Vec<String> = read
        .days
        .iter()
        .map(|day| {
            let item = |(p, s): &(weekloom_engine::plan::Prescription, Option<u8>)| {
                let superset = s.map(|s| format!(" {s}")).unwrap_or_default();
                format!(
                    "{} {}x{}-{} {} {}{superset}",
                    p.exercise, p.sets, p.reps.0, p.reps.1, p.rir, p.rest_s
                )
            };
            let items: Vec<String> = day.items.iter().map(item).collect();
            format!("{}: {}", day.focus, items.join(", "))
        })
        .collect();
    assert_eq!(
        days.join("\n"),
        include_str!("saved/handover-1.expected.txt").trim()
    );
    assert_eq!(read.own.len(), 1);
    assert_eq!(read.own[0].name, "Station row");
}

/// One changed letter or a cut is found by the checksum, whatever else it hits.
#[test]
fn a_changed_or_cut_text_is_refused() {
    let catalogue = Catalogue::built_in();
    let (given, ..) = offer(&mut Dice::new(5));
    let text = given.write().unwrap();
    for at in 0..text.len() {
        let cut = Offer::read(&text[..at], &catalogue);
        assert!(cut.is_err(), "cut at {at}");
        let mut changed = text.clone().into_bytes();
        changed[at] = if changed[at] == b'A' { b'B' } else { b'A' };
        let changed = String::from_utf8(changed).unwrap();
        let read = Offer::read(&changed, &catalogue);
        assert!(
            matches!(read, Err(OfferError::Damaged | OfferError::NotAnOffer)),
            "changed at {at}: {read:?}"
        );
    }
    for text in ["", "#/take/", "hello", "#/take/ABC1", "\u{1f9f5}", "AAAA"] {
        assert!(Offer::read(text, &catalogue).is_err(), "{text}");
    }
    let bomb = "A".repeat(100_000_000);
    assert_eq!(Offer::read(&bomb, &catalogue), Err(OfferError::NotAnOffer));
    assert!(bomb.len() > MOST_CHARS);
}

/// Paints a code as a camera sees it: four bare modules around, so many dots
/// to a module.
fn painted(code: &weekloom_store::handover::Code, dots: usize) -> (usize, Vec<bool>) {
    let side = (code.side as usize + 8) * dots;
    let mut dark = vec![false; side * side];
    for (y, row) in code.rows.iter().enumerate() {
        for (x, _) in row.iter().enumerate().filter(|(_, dark)| **dark) {
            for dy in 0..dots {
                for dx in 0..dots {
                    dark[((y + 4) * dots + dy) * side + (x + 4) * dots + dx] = true;
                }
            }
        }
    }
    (side, dark)
}

const ADDRESS: &str = "https://weather-station.example.org/weekloom/#/take/";

/// The codes of real weeks are read by the crate `rqrr`, down to two dots a
/// module, and are small enough for a phone's screen.
#[test]
fn an_independent_reader_reads_the_code() {
    let catalogue = Catalogue::built_in();
    let mut largest = 0;
    for member in Crew::ALL {
        let person = member.person();
        let plan = plan_week(&catalogue, &person).unwrap();
        let text = Offer::of(&plan, &person.days, &catalogue).write().unwrap();
        let code = code(ADDRESS, &text).unwrap();
        assert_eq!(code.side, 17 + 4 * u32::from(code.version));
        println!(
            "{} days, {} items: {} letters, version {}, {} modules, {} hundredths of a mm each on 60 mm",
            plan.days.len(),
            plan.days.iter().map(|d| d.items.len()).sum::<usize>(),
            text.len(),
            code.version,
            code.side,
            code.module_hundredths(60),
        );
        largest = largest.max(code.version);
        for dots in [2, 4] {
            let (side, dark) = painted(&code, dots);
            let light = |x: usize, y: usize| if dark[y * side + x] { 20 } else { 235 };
            let mut seen = rqrr::PreparedImage::prepare_from_greyscale(side, side, light);
            let grids = seen.detect_grids();
            assert_eq!(grids.len(), 1);
            let (_, read) = grids[0].decode().unwrap();
            assert_eq!(read, format!("{ADDRESS}{text}"));
            assert_eq!(
                Offer::read(&read, &catalogue)
                    .unwrap()
                    .plan(&catalogue)
                    .days
                    .len(),
                plan.days.len()
            );
        }
    }
    assert!(largest <= 13, "a usual week needs version {largest}");
}

#[test]
fn what_is_too_long_to_be_scanned_gets_no_code() {
    assert_eq!(code(ADDRESS, &"A".repeat(2_000)), None);
    assert_eq!(code(ADDRESS, "small letters"), None);
}
