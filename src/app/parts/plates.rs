//! One side of a loaded bar as a picture: the sleeve and its plates, larger the
//! heavier, each with its weight below. The same stands in words beside it.

use crate::markup::{Tag, View, drawn, tag};
use crate::text::language::number;
use weekloom_engine::units::{Load, Unit};

/// The picture's own units: the axis of the bar, the end of its collar, and the
/// room of one plate.
const AXIS: i64 = 60;
const COLLAR: i64 = 48;
const PLATE: i64 = 34;
/// Least width, so that one plate is not drawn across the page.
const LEAST: i64 = 220;

/// The plates of one side, in the order they go on.
pub fn plates_on_bar(list: &[(Load, u8)], unit: Unit) -> Tag {
    let count: i64 = list.iter().map(|&(_, count)| i64::from(count)).sum();
    let width = LEAST.max(COLLAR + 24 + count * PLATE);
    let mut parts: Vec<View> = vec![
        bar(0, 40, 4).into(),
        bar(40, COLLAR, 16).into(),
        bar(COLLAR, width, 7).into(),
    ];
    let mut at = COLLAR + 6;
    for &(plate, count) in list {
        // Its area grows with the weight, from a size that can still be seen.
        let half_height = 10 + plate.grams().isqrt() / 4;
        let half_width = 5 + plate.grams().min(25_000) / 3_000;
        for _ in 0..count {
            let middle = at + PLATE / 2;
            let disc = bar(
                middle - half_width,
                middle + half_width,
                half_height.min(56),
            );
            parts.push(disc.attr("class", "plates__disc").attr("rx", "3").into());
            let weight = drawn("text", "")
                .attr("x", middle.to_string())
                .attr("y", "132")
                .attr("text-anchor", "middle")
                .with(number(&plate.show(unit)));
            parts.push(weight.into());
            at += PLATE;
        }
    }
    let picture = drawn("svg", "")
        .attr("viewBox", format!("0 0 {width} 138"))
        .attr("aria-hidden", "true")
        .with(parts);
    tag("figure", "plates").with(picture)
}

/// A piece about the axis, from here to there.
fn bar(from: i64, to: i64, half_height: i64) -> Tag {
    drawn("rect", "")
        .attr("x", from.to_string())
        .attr("width", (to - from).to_string())
        .attr("y", (AXIS - half_height).to_string())
        .attr("height", (2 * half_height).to_string())
}
