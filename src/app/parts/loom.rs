//! The loom: the week as cloth. A thread for each muscle, a column for each
//! day, a knot where a session trains it, the growth window drawn out behind.
//! The same numbers stand in a table behind the picture.

use crate::markup::{Tag, View, drawn, live, tag};
use crate::text::{dates, reasons, terms, words};
use weekloom_engine::calendar::Weekday;
use weekloom_engine::loom::{Crossing, Thread};

/// Width of the names, height of a thread, in hundredths of the picture's own
/// units.
const NAMES: u32 = 9_200;
const WIDTH: u32 = 34_000;
const THREAD: u32 = 2_200;
const HEAD: u32 = 2_000;
const WEEK_H: u32 = 7 * 24;

/// The threads as a picture, and as a table.
pub fn loom_of(threads: impl Fn() -> Vec<Thread> + 'static) -> View {
    live(move || {
        let threads = threads();
        let summary = tag("summary", "").with(words::LOOM_TABLE);
        let more = tag("details", "more").with(summary).with(table(&threads));
        tag("figure", "loom").with(picture(&threads)).with(more)
    })
}

fn picture(threads: &[Thread]) -> Tag {
    let mut height = HEAD;
    let mut rows = Vec::new();
    for thread in threads {
        draw(thread, height + THREAD / 2, &mut rows);
        height += THREAD;
    }
    height += 400;
    let mut svg = drawn("svg", "")
        .attr("viewBox", format!("0 0 {} {}", WIDTH / 100, height / 100))
        .attr("aria-hidden", "true");
    for day in dates::weekdays() {
        let name = drawn("text", "loom__day")
            .attr("x", units(x_of(day, 12)))
            .attr("y", "13")
            .attr("text-anchor", "middle")
            .with(dates::weekday_short(day));
        svg = svg.with(name);
    }
    svg.with(rows)
}

fn draw(thread: &Thread, y: u32, rows: &mut Vec<View>) {
    let across = |class: &'static str, from: u32, to: u32| {
        drawn("line", class)
            .attr("x1", units(from))
            .attr("x2", units(to))
            .attr("y1", units(y))
            .attr("y2", units(y))
    };
    let name = drawn("text", "loom__name")
        .attr("x", "0")
        .attr("y", units(y + 400))
        .with(terms::muscle(thread.muscle));
    rows.push(name.into());
    rows.push(across("loom__thread", NAMES, WIDTH).into());
    for crossing in &thread.crossings {
        let from = x_of(crossing.weekday, 12);
        let to = (from + hours(u32::from(crossing.window_h))).min(WIDTH);
        rows.push(across("loom__window", from, to).into());
    }
    for crossing in &thread.crossings {
        let knot = drawn("circle", "loom__knot")
            .attr("cx", units(x_of(crossing.weekday, 12)))
            .attr("cy", units(y))
            .attr("r", units(radius(crossing)));
        rows.push(knot.into());
    }
}

fn table(threads: &[Thread]) -> Tag {
    let mut heads = tag("tr", "");
    for head in [words::MUSCLE, words::WEEKLY_SETS, words::ON_DAYS] {
        heads = heads.with(tag("th", "").attr("scope", "col").with(head));
    }
    let mut body = tag("tbody", "");
    for thread in threads {
        let days: Vec<String> = thread.crossings.iter().map(on_day).collect();
        let row = tag("tr", "")
            .with(
                tag("th", "")
                    .attr("scope", "row")
                    .with(terms::muscle(thread.muscle)),
            )
            .with(tag("td", "").with(reasons::half_sets(thread.half_sets)))
            .with(tag("td", "").with(days.join(", ")));
        body = body.with(row);
    }
    tag("table", "")
        .with(tag("thead", "").with(heads))
        .with(body)
}

fn on_day(crossing: &Crossing) -> String {
    format!(
        "{} {}",
        dates::weekday_short(crossing.weekday),
        reasons::half_sets(crossing.half_sets)
    )
}

/// Hundredths of a unit as a number of units.
fn units(hundredths: u32) -> String {
    format!("{}.{:02}", hundredths / 100, hundredths % 100)
}

/// Where a weekday's hour lies across the picture.
fn x_of(day: Weekday, hour: u32) -> u32 {
    let days = u32::try_from(dates::place_in_week(day)).unwrap_or(0);
    NAMES + hours(24 * days + hour)
}

/// Length of so many hours across the picture.
const fn hours(hours: u32) -> u32 {
    (WIDTH - NAMES) * hours / WEEK_H
}

/// A knot's area grows with its sets.
fn radius(crossing: &Crossing) -> u32 {
    let root = (crossing.half_sets * 10_000).isqrt();
    200 + root * 170 / 100
}
