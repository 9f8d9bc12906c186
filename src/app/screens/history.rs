//! Past sessions found by a word, and a year of them as cloth: a row for each
//! week, a thread for each day, wefts where one trained.

use super::{page, page_head_under, soft, soft_small, way};
use crate::markup::{Tag, View, drawn, tag};
use crate::parts::line_link;
use crate::route::Route;
use crate::state::App;
use crate::text::language::tr;
use crate::text::{dates, reasons, words};
use weekloom_engine::calendar::{Day, Weekday};
use weekloom_engine::review::{Cell, Planned, Row, cloth};
use weekloom_engine::session::Session;

/// Sessions listed for a word.
const MOST_FOUND: usize = 30;
/// Sets that one weft stands for.
const SETS_A_WEFT: u32 = 5;
/// Wefts that find room in a cell.
const MOST_WEFTS: u32 = 6;
/// Width and height of a day, in the picture's own units.
const CELL: u32 = 32;
const HEIGHT: u32 = 48;

/// Sessions in which an exercise or a note holds the word, latest first.
pub fn found(app: App, word: &str) -> Vec<View> {
    let wanted = word.to_lowercase();
    let today = app.today.get_untracked();
    let unit = app.unit_now();
    let mut list = tag("ul", "card lines");
    let mut count = 0;
    let mut is_more = false;
    for id in app.ask(|store| store.sessions()).iter().rev() {
        let Ok(Some(session)) = app.ask(|store| store.read_session(id)) else {
            continue;
        };
        let mut lines = Vec::new();
        for item in session.items.iter().filter(|item| !item.sets.is_empty()) {
            let name = app.name_of(&item.prescription.exercise);
            let holds = |text: &str| text.to_lowercase().contains(&wanted);
            if holds(&name) || holds(&item.note) {
                let exercise = app.exercise(&item.prescription.exercise);
                let sets = reasons::sets_in_words(&item.sets, exercise, unit);
                let mark = if item.note.is_empty() { "" } else { " \u{b7} " };
                lines.push(format!("{name}: {sets}{mark}{}", item.note));
            }
        }
        if lines.is_empty() {
            continue;
        }
        if count == MOST_FOUND {
            is_more = true;
            break;
        }
        count += 1;
        let to = Route::LogSession(session.id.clone()).hash();
        let name = dates::full_short(session.day, today);
        list = list.with(line_link(to, name, lines.join(" \u{2014} ")));
    }
    if count == 0 {
        return vec![tag("p", "").with(words::nothing_found(word)).into()];
    }
    let more = is_more.then(|| soft_small(words::FOUND_MORE));
    vec![list.into(), more.into()]
}

/// The Monday of a year's first week: the week of 4 January (ISO 8601-1:2019,
/// 3.1.1.23), so that no week stands in two years.
fn first_week(year: i32) -> Option<Day> {
    Day::from_ymd(year, 1, 4).map(Day::monday)
}

/// A year as cloth.
pub fn year(year: i32) -> View {
    let app = App::here();
    let today = app.today.get_untracked();
    let shown = page(page_head_under(&Route::Log, year.to_string()).with(soft(words::YEAR_MORE)));
    let (Some(first), Some(next)) = (first_week(year), first_week(year + 1)) else {
        return shown.into();
    };
    let last = next.plus(-1);
    let (mut sessions, is_whole) = app.ask(|store| store.sessions_since(first));
    sessions.retain(|session| session.day <= last);
    let mut years = tag("div", "row row--apart");
    let to_year = |year: i32| tag("a", "back").attr("href", Route::Year(year).hash());
    if !is_whole {
        years = years.with(
            to_year(year - 1)
                .with(way("\u{2190}"))
                .with((year - 1).to_string()),
        );
    }
    if last < today {
        years = years.with(
            to_year(year + 1)
                .with((year + 1).to_string())
                .with(way("\u{2192}")),
        );
    }
    let until = today.min(last);
    let work = |s: &Session| s.items.iter().map(|i| i.work_sets_done()).sum::<usize>();
    let done: Vec<(Day, u32, bool)> = sessions
        .iter()
        .map(|s| (s.day, u32::try_from(work(s)).unwrap_or(0), s.is_deload))
        .collect();
    let rows = app.plan.with_untracked(|accepted| {
        let planned = accepted.as_ref().map(|accepted| Planned {
            plan: &accepted.plan,
            accepted: accepted.accepted,
            weekdays: &accepted.weekdays,
            repairs: &accepted.repairs,
        });
        let from = done.first().map_or(until, |first| first.0);
        cloth(&done, planned.as_ref(), from, until)
    });
    let mut weave = tag("ol", "cloth");
    for row in rows.iter().rev() {
        weave = weave.with(week(app, row, &sessions));
    }
    shown
        .with(years)
        .with(days())
        .with(weave)
        .with(soft_small(words::YEAR_KEY))
        .into()
}

/// The days over their threads; cloth begins on Monday, as its weeks do.
fn days() -> Tag {
    let mut svg = drawn("svg", "cloth__week").attr("viewBox", format!("0 0 {} 16", 7 * CELL));
    for (at, day) in (0..).zip(Weekday::ALL) {
        svg = svg.with(
            drawn("text", "")
                .attr("x", (at * CELL + CELL / 2).to_string())
                .attr("y", "12")
                .attr("text-anchor", "middle")
                .with(dates::weekday_short(day)),
        );
    }
    tag("div", "cloth__days")
        .attr("aria-hidden", "true")
        .with(tag("span", ""))
        .with(svg)
}

/// A week: its row of the cloth, and its sessions folded away below.
fn week(app: App, row: &Row, sessions: &[Session]) -> Tag {
    let today = app.today.get_untracked();
    let said = tag("span", "cloth__said")
        // The heading names the year.
        .with(tag("strong", "").with(dates::date(row.monday, row.monday)))
        .with(tag("span", "soft small").with(words::sets(row.sets as usize)));
    let mut svg = drawn("svg", "cloth__week")
        .attr("viewBox", format!("0 0 {} {HEIGHT}", 7 * CELL))
        .attr("aria-hidden", "true");
    for (at, cell) in (0..).zip(&row.days) {
        svg = svg.with(threads(at * CELL, cell));
    }
    let mut list = tag("ul", "");
    let of_week = |s: &&Session| s.day.monday() == row.monday;
    for session in sessions.iter().filter(of_week) {
        let to = Route::LogSession(session.id.clone()).hash();
        let sets = session.items.iter().map(|i| i.work_sets_done()).sum();
        let name = dates::full_short(session.day, today);
        list = list.with(line_link(to, name, words::sets(sets)));
    }
    let shown = tag("li", "");
    if row.sessions == 0 {
        let line = tag("div", "cloth__row").with(said).with(svg);
        return shown.with(line);
    }
    let summary = tag("summary", "cloth__row").with(said).with(svg);
    shown.with(tag("details", "").with(summary).with(list))
}

/// A day: its thread, the wefts over it, or a ring where a session is missing.
fn threads(x: u32, cell: &Cell) -> Vec<View> {
    let middle = (x + CELL / 2).to_string();
    let warp = drawn("line", "cloth__warp")
        .attr("x1", middle.clone())
        .attr("x2", middle.clone())
        .attr("y1", "0")
        .attr("y2", HEIGHT.to_string());
    let mut drawn_threads: Vec<View> = vec![warp.into()];
    if cell.is_missed {
        let ring = drawn("circle", "cloth__missed")
            .attr("cx", middle)
            .attr("cy", (HEIGHT / 2).to_string())
            .attr("r", "5");
        drawn_threads.push(ring.into());
        return drawn_threads;
    }
    let wefts = cell.sets.div_ceil(SETS_A_WEFT).min(MOST_WEFTS);
    let class = if cell.is_deload {
        "cloth__weft cloth__weft--light"
    } else {
        "cloth__weft"
    };
    for weft in 0..wefts {
        // Around the middle of the row, six units apart.
        let y = HEIGHT / 2 + 3 * (2 * weft + 1) - 3 * wefts;
        let line = drawn("line", class)
            .attr("x1", (x + 3).to_string())
            .attr("x2", (x + CELL - 3).to_string())
            .attr("y1", y.to_string())
            .attr("y2", y.to_string());
        drawn_threads.push(line.into());
    }
    drawn_threads
}

/// The way to this year's cloth.
pub fn year_link(app: App) -> Tag {
    let year = app.today.get_untracked().monday().plus(3).ymd().0;
    line_link(Route::Year(year).hash(), tr(words::YEAR), words::YEAR_LINK)
}
