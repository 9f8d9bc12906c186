//! The bar of top-level places at the bottom edge.

use super::{Icon, Shape};
use crate::route::{KitPage, Route};
use crate::text::words;
use leptos::prelude::*;

/// Today, Week, Plan, Log, Kit & data.
#[component]
pub fn Nav(route: Signal<Route>) -> impl IntoView {
    let places = [
        (Route::Today, words::TODAY, Shape::Knot),
        (Route::Week, words::WEEK, Shape::Threads),
        (Route::Plan, words::PLAN, Shape::Weave),
        (Route::Log, words::LOG, Shape::Roll),
        (Route::Kit(KitPage::Index), words::KIT, Shape::Shuttle),
    ];
    view! {
        <nav class="nav" aria-label=words::PLACES>
            <ul class="nav__list">
                {places
                    .into_iter()
                    .map(|(place, name, shape)| {
                        let href = place.hash();
                        view! {
                            <li>
                                <a
                                    class="nav__link"
                                    href=href
                                    aria-current=move || {
                                        route.get().is_under(&place).then_some("page")
                                    }
                                >
                                    <Icon shape />
                                    {name}
                                </a>
                            </li>
                        }
                    })
                    .collect_view()}
            </ul>
        </nav>
    }
}
