//! A year as cloth: a row of weave for each week, seven threads across.
//!
//! Start at [`cloth`]. Numbers only; the picture is drawn elsewhere.

use super::weeks::Planned;
use crate::calendar::Day;

/// One day of a week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Cell {
    /// Work sets done.
    pub sets: u32,
    /// Sessions done.
    pub sessions: u32,
    /// Whether they were part of a deload.
    pub is_deload: bool,
    /// Whether a session was planned, is over and was not done.
    pub is_missed: bool,
}

/// One week, from Monday on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Its first day.
    pub monday: Day,
    /// Its days.
    pub days: [Cell; 7],
    /// Work sets of all of them.
    pub sets: u32,
    /// Sessions of all of them.
    pub sessions: u32,
}

/// The weeks from the one of `from` to that of `today`, earlier first, of
/// sessions given as day, work sets and whether it was a deload.
#[must_use]
pub fn cloth(
    sessions: &[(Day, u32, bool)],
    planned: Option<&Planned<'_>>,
    from: Day,
    today: Day,
) -> Vec<Row> {
    let first = from.monday();
    let weeks = today.days_since(first).max(0) / 7 + 1;
    let row = |week: i32| Row {
        monday: first.plus(7 * week),
        days: [Cell::default(); 7],
        sets: 0,
        sessions: 0,
    };
    let mut rows: Vec<Row> = (0..weeks).map(row).collect();
    for &(day, sets, is_deload) in sessions {
        let place = usize::try_from(day.days_since(first)).map(|days| days / 7);
        let Some(row) = place.ok().and_then(|place| rows.get_mut(place)) else {
            continue;
        };
        row.sets += sets;
        row.sessions += 1;
        let cell = &mut row.days[day.weekday().index()];
        cell.sets += sets;
        cell.sessions += 1;
        cell.is_deload |= is_deload;
    }
    let Some(planned) = planned else {
        return rows;
    };
    for row in &mut rows {
        for (cell, n) in row.days.iter_mut().zip(0..) {
            let day = row.monday.plus(n);
            cell.is_missed = cell.sessions == 0
                && day >= planned.accepted
                && day < today
                && planned.weekdays.contains(&day.weekday())
                && planned.repairs.pause_on(day).is_none();
        }
    }
    rows
}
