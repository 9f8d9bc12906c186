//! The bar of top-level places at the bottom edge.

use super::{Shape, icon};
use crate::held::Held;
use crate::markup::{View, link, tag};
use crate::route::{KitPage, Route};
use crate::text::words;

/// Today, Week, Plan, Log, Kit & data.
pub fn nav(route: Held<Route>) -> View {
    let places = [
        (Route::Today, words::TODAY, Shape::Knot),
        (Route::Week, words::WEEK, Shape::Threads),
        (Route::Plan, words::PLAN, Shape::Weave),
        (Route::Log, words::LOG, Shape::Roll),
        (Route::Kit(KitPage::Index), words::KIT, Shape::Shuttle),
    ];
    let mut list = tag("ul", "nav__list");
    for (place, name, shape) in places {
        let place_link = link("nav__link", place.hash(), icon(shape))
            .live("aria-current", move || {
                route
                    .with(|route| route.is_under(&place))
                    .then_some("page".into())
            })
            .with(name);
        list = list.with(tag("li", "").with(place_link));
    }
    tag("nav", "nav")
        .attr("aria-label", words::PLACES)
        .with(list)
        .into()
}
