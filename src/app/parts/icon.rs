//! Line drawings of the app: threads, weave and knots. Decorative only; the
//! words beside them carry the meaning.

use crate::markup::{Tag, drawn};

/// What is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// A knot on a thread: today.
    Knot,
    /// Threads side by side: the week.
    Threads,
    /// A plain weave: the plan.
    Weave,
    /// A rolled cloth: what has been woven.
    Roll,
    /// A shuttle: kit and data.
    Shuttle,
}

/// A drawing in the colour of the text around it.
pub fn icon(shape: Shape) -> Tag {
    let path = match shape {
        Shape::Knot => {
            "M12 2v6M12 16v6M7 12a5 4 0 0 1 10 0 5 4 0 0 1-10 0M7.6 10l8.8 4M16.4 10l-8.8 4"
        }
        Shape::Threads => {
            "M4 3v18M9.3 3v18M14.6 3v18M20 3v18M4 9h0M2.5 9h3M7.8 15h3M13.1 7h3M18.5 13h3"
        }
        Shape::Weave => "M3 8h4M10 8h11M3 16h11M17 16h4M8 3v11M8 17v4M16 3v4M16 10v11",
        Shape::Roll => {
            "M4 7a8 3 0 0 1 16 0 8 3 0 0 1-16 0M4 7v10a8 3 0 0 0 16 0V7M9 7a3 1.2 0 0 1 6 0M20 17v4M16 19.2v3"
        }
        Shape::Shuttle => {
            "M2 12c4-5 16-5 20 0-4 5-16 5-20 0M8 12h8M8 12a1.6 1.6 0 0 1 3 0M16 12a1.6 1.6 0 0 1-3 0"
        }
    };
    drawn("svg", "")
        .attr("viewBox", "0 0 24 24")
        .attr("fill", "none")
        .attr("stroke", "currentColor")
        .attr("stroke-width", "1.7")
        .attr("stroke-linecap", "round")
        .attr("stroke-linejoin", "round")
        .attr("aria-hidden", "true")
        .with(drawn("path", "").attr("d", path))
}
