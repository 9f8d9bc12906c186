//! Figures over time as pictures: points with their trend and the strip in which
//! a change could be chance, and a bar for each week. What they show stands in a
//! table as well.

use crate::markup::{Tag, View, drawn};
use weekloom_engine::calendar::Day;

/// Size of the picture, in its own units.
const WIDTH: i64 = 320;
const HEIGHT: i64 = 176;
/// Where the points lie: right of the numbers, above the dates.
const LEFT: i64 = 56;
const RIGHT: i64 = WIDTH - 8;
const TOP: i64 = 12;
const BOTTOM: i64 = HEIGHT - 28;

/// Points over time.
pub struct Chart<'a> {
    /// What it shows, for a screen reader.
    pub name: String,
    /// Days and values, earlier first.
    pub points: &'a [(Day, i64)],
    /// The level through the points and the edges of its band: day, low, level,
    /// high. Where it is empty the points are joined.
    pub trend: &'a [(Day, [i64; 3])],
    /// Values between which a change could be chance.
    pub scatter: Option<(i64, i64)>,
    /// A value in words.
    pub show: &'a dyn Fn(i64) -> String,
    /// A day in words.
    pub date: &'a dyn Fn(Day) -> String,
}

impl From<Chart<'_>> for Tag {
    fn from(chart: Chart<'_>) -> Self {
        let Chart {
            name,
            points,
            trend,
            scatter,
            show,
            date,
        } = chart;
        let svg = drawn("svg", "chart")
            .attr("viewBox", format!("0 0 {WIDTH} {HEIGHT}"))
            .attr("role", "img")
            .attr("aria-label", name.clone())
            // The file of the picture says by itself what it shows.
            .with(drawn("title", "").with(name));
        let (Some(first), Some(last)) = (points.first(), points.last()) else {
            return svg;
        };
        let all = || {
            let ends = scatter.into_iter().flat_map(|(low, high)| [low, high]);
            let bands = trend.iter().flat_map(|(_, band)| *band);
            points.iter().map(|point| point.1).chain(ends).chain(bands)
        };
        let (least, most) = (all().min().unwrap_or(0), all().max().unwrap_or(1));
        let room = ((most - least) / 10).max(1);
        let (least, most) = ((least - room).max(0), most + room);
        let days = i64::from(last.0.days_since(first.0)).max(1);
        let x_of = |day: Day| LEFT + i64::from(day.days_since(first.0)) * (RIGHT - LEFT) / days;
        let y_of = |value: i64| BOTTOM - (value - least) * (BOTTOM - TOP) / (most - least);
        let mut shown: Vec<View> = Vec::new();
        if let Some((low, high)) = scatter {
            let strip = drawn("rect", "chart__scatter")
                .attr("x", LEFT.to_string())
                .attr("width", (RIGHT - LEFT).to_string())
                .attr("y", y_of(high).to_string())
                .attr("height", (y_of(low) - y_of(high)).to_string());
            shown.push(strip.into());
        }
        for value in [least + room, (least + most) / 2, most - room] {
            let y = y_of(value);
            shown.push(line("chart__grid", (LEFT, y), (RIGHT, y)).into());
            shown.push(text(show(value), LEFT - 6, y + 4, "end").into());
        }
        shown.push(text(date(first.0), LEFT, HEIGHT - 8, "start").into());
        if first.0 != last.0 {
            shown.push(text(date(last.0), RIGHT, HEIGHT - 8, "end").into());
        }
        let way = |class, values: &mut dyn Iterator<Item = (Day, i64)>| {
            let mut way = String::new();
            for (day, value) in values {
                let mark = if way.is_empty() { 'M' } else { 'L' };
                way += &format!("{mark}{} {}", x_of(day), y_of(value));
            }
            View::from(drawn("path", class).attr("d", way))
        };
        if trend.is_empty() {
            shown.push(way("chart__way", &mut points.iter().copied()));
        } else {
            let lines = ["chart__edge", "chart__way chart__way--level", "chart__edge"];
            for (at, class) in (0..).zip(lines) {
                let mut line = trend.iter().map(|&(day, band)| (day, band[at]));
                shown.push(way(class, &mut line));
            }
        }
        for (day, value) in points {
            // Beyond chance by its shape, not by its colour.
            let is_beyond = scatter.is_some_and(|(low, high)| *value < low || *value > high);
            let class = if is_beyond {
                "chart__dot chart__dot--beyond"
            } else {
                "chart__dot"
            };
            let dot = drawn("circle", class)
                .attr("cx", x_of(*day).to_string())
                .attr("cy", y_of(*value).to_string())
                .attr("r", "3.5");
            shown.push(dot.into());
        }
        svg.with(shown)
    }
}

/// A bar for each week, and over it a line at what was planned for it.
pub fn bars(name: String, weeks: &[(u32, u32)]) -> Tag {
    const TALL: i64 = 44;
    const BASE: i64 = TALL - 2;
    let most = weeks.iter().map(|&(done, planned)| done.max(planned)).max();
    let most = i64::from(most.unwrap_or(0).max(1));
    let count = i64::try_from(weeks.len()).unwrap_or(1).max(1);
    let y_of = |sets: u32| BASE - i64::from(sets) * (BASE - 2) / most;
    let mut shown: Vec<View> = Vec::new();
    let mut lines: Vec<View> = Vec::new();
    for (at, &(done, planned)) in (0..).zip(weeks) {
        let (from, to): (i64, i64) = (at * WIDTH / count, (at + 1) * WIDTH / count);
        let bar = drawn("rect", "chart__bar")
            .attr("x", (from + 1).to_string())
            .attr("width", (to - from - 2).max(1).to_string())
            .attr("y", y_of(done).to_string())
            .attr("height", (BASE - y_of(done)).to_string());
        shown.push(bar.into());
        if planned > 0 {
            let y = y_of(planned);
            lines.push(line("chart__planned", (from, y), (to, y)).into());
        }
    }
    shown.append(&mut lines);
    shown.push(line("chart__grid", (0, BASE), (WIDTH, BASE)).into());
    drawn("svg", "chart")
        .attr("viewBox", format!("0 0 {WIDTH} {TALL}"))
        .attr("role", "img")
        .attr("aria-label", name.clone())
        .with(drawn("title", "").with(name))
        .with(shown)
}

fn line(class: &'static str, from: (i64, i64), to: (i64, i64)) -> Tag {
    drawn("line", class)
        .attr("x1", from.0.to_string())
        .attr("y1", from.1.to_string())
        .attr("x2", to.0.to_string())
        .attr("y2", to.1.to_string())
}

fn text(words: String, x: i64, y: i64, anchor: &'static str) -> Tag {
    drawn("text", "")
        .attr("x", x.to_string())
        .attr("y", y.to_string())
        .attr("text-anchor", anchor)
        .with(words)
}
