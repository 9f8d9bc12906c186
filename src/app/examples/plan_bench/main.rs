//! A page that plans one person's week a few times and shows how long each took:
//! what `cargo xtask bench --wasm` opens. Nothing here is shipped.
//!
//! The address after `#` says who: the number of a drawn person, or the name of
//! one of [`named`]. The page's text becomes a JSON list of microseconds.

#[path = "../../../engine/examples/people_bench/people.rs"]
mod people;

use weekloom_engine::calendar::Weekday;
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::kit::Kit;
use weekloom_engine::person::{Person, Status};
use weekloom_engine::plan::plan_week;
use weekloom_engine::units::Unit;

/// Plans of the same person, the first with code that has never run.
const TIMES: usize = 4;

fn main() {
    console_error_panic_hook::set_once();
    let window = web_sys::window().expect("a page");
    let clock = window.performance().expect("a clock");
    let catalogue = Catalogue::built_in();
    let word = window.location().hash().expect("an address");
    let person = match word.trim_start_matches('#') {
        word if word.starts_with(|c: char| c.is_ascii_digit()) => {
            people::Draw::numbered(word.parse().expect("a number")).person(&catalogue)
        }
        word => named(word),
    };
    let mut micros = Vec::new();
    for _ in 0..TIMES {
        let before = clock.now();
        let plan = plan_week(&catalogue, &person).expect("plannable");
        assert!(!plan.days.is_empty());
        micros.push(((clock.now() - before) * 1000.0).round());
    }
    let body = window.document().and_then(|d| d.body()).expect("a body");
    body.set_text_content(Some(&format!("{micros:?}")));
}

/// The largest week, and usual ones: a full gym and nothing ruled out.
fn named(word: &str) -> Person {
    let (days, minutes, status): (&[usize], u16, Status) = match word {
        "largest" => (&[0, 1, 2, 3, 4, 5, 6], 180, Status::Advanced),
        "two-short" => (&[0, 3], 30, Status::Novice),
        "three" => (&[0, 2, 4], 60, Status::Novice),
        "four" => (&[0, 1, 3, 4], 60, Status::Intermediate),
        "six-short" => (&[0, 1, 2, 3, 4, 5], 45, Status::Advanced),
        other => panic!("nobody is called '{other}'"),
    };
    Person {
        days: days.iter().map(|&day| Weekday::from_index(day)).collect(),
        minutes,
        kit: Kit::full_gym(),
        status,
        is_older: false,
        priorities: Default::default(),
        excluded: Default::default(),
        disliked: Default::default(),
        joint_limits: Default::default(),
        split: None,
        own_splits: Default::default(),
        rules: Default::default(),
        unit: Unit::Kg,
    }
}
