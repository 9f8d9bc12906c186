//! Ten years of training fit in two million characters.

use crate::{empty, keep};
use weekloom_engine::calendar::{Day, Moment};
use weekloom_engine::catalogue::Catalogue;
use weekloom_engine::log::{SetEntry, SetKind};
use weekloom_engine::plan::Prescription;
use weekloom_engine::session::{ItemState, Phase, Session, SessionItem, Target};
use weekloom_engine::units::Load;
use weekloom_store::Shelf;

/// Two hundred sessions a year for ten years, 25 sets each: seven exercises, a
/// warm-up set for three of them, effort told for every set, a change of load
/// within every second exercise.
#[test]
fn ten_years_fit_in_two_million_characters() {
    let catalogue = Catalogue::built_in();
    let ids: Vec<_> = catalogue.iter().map(|e| e.id.clone()).collect();
    assert!(ids.len() > 100);
    let mut store = empty();
    let mut sets = 0;
    for number in 0..2000_i64 {
        let day = 20_000 + number * 9 / 5;
        let start = Moment(day * 86_400_000 + 61_234_567);
        let mut at = start;
        let items: Vec<SessionItem> = (0..7_usize)
            .map(|i| {
                let exercise = ids[(i * 17 + (number as usize % 4) * 5) % ids.len()].clone();
                let load = 40_000 + (number * 25) % 60_000;
                let work = if i == 0 { 4 } else { 3 };
                let warm_ups = if i < 3 { 1 } else { 0 };
                let sets = (0..work + warm_ups)
                    .map(|set| {
                        at = Moment(at.0 + 183_217);
                        let is_light = set < warm_ups || (set == warm_ups + 2 && i % 2 == 0);
                        SetEntry {
                            kind: if set < warm_ups {
                                SetKind::WarmUp
                            } else {
                                SetKind::Work
                            },
                            load: Load::clamped(if is_light { load / 2 } else { load }),
                            count: 8 + set as u16,
                            rir: Some(2),
                            at,
                        }
                    })
                    .collect();
                SessionItem {
                    key: i as u16,
                    prescription: Prescription {
                        exercise,
                        sets: 3,
                        reps: (8, 12),
                        rir: 2,
                        rest_s: 120,
                    },
                    superset: None,
                    target: Some(Target {
                        load: Some(Load::clamped(load)),
                        count: 10,
                        rir: 2,
                    }),
                    sets,
                    state: ItemState::Open,
                    discomfort: None,
                    note: String::new(),
                    swapped_from: None,
                }
            })
            .collect();
        sets += items.iter().map(|item| item.sets.len()).sum::<usize>();
        let session = Session {
            id: format!("{:011x}", start.0),
            day: Day::from_epoch_days(day as i32),
            plan_day: Some((number % 4) as u8),
            is_deload: false,
            started: Some(start),
            paused_s: 0,
            items,
            current: None,
            phase: Phase::Finished { at },
        };
        let changes = store.finish_session(&session).unwrap();
        keep(&mut store, changes);
    }
    assert_eq!(sets, 50_000);
    assert!(store.used() <= 2_000_000, "{} characters", store.used());
    // A start reads the index and the histories of one day, never the log.
    let index = store.shelf().get("weekloom.index").unwrap().len();
    assert!(index < 6_000, "{index} characters");
}
