//! Lines of a list: a name, a softer line below, and what a tap does.

use crate::markup::{Tag, View, button, link, tag};

fn name_of(name: impl Into<View>) -> Tag {
    tag("span", "line__name").with(name)
}

/// A softer line below the name.
pub fn line_more(more: impl Into<View>) -> Tag {
    tag("span", "line__more").with(more)
}

/// A line that is only read.
pub fn line(name: impl Into<View>, more: impl Into<View>) -> Tag {
    tag("li", "line").with(name_of(name)).with(line_more(more))
}

/// A line that leads to another place.
pub fn line_link(href: String, name: impl Into<View>, more: impl Into<View>) -> Tag {
    let end = tag("span", "line__end")
        .attr("aria-hidden", "true")
        .with("\u{203a}");
    let line = link("line", href, name_of(name))
        .with(line_more(more))
        .with(end);
    tag("li", "").with(line)
}

/// A line that does something when tapped.
pub fn line_button(name: impl Into<View>, more: impl Into<View>, act: impl Fn() + 'static) -> Tag {
    let line = button("line", name_of(name), act).with(line_more(more));
    tag("li", "").with(line)
}
