//! What one sees: a module for each place of [`crate::route::Route`].

mod amend;
mod answers;
mod away;
mod banners;
mod compare;
mod crew;
mod history;
mod kit;
mod log;
mod next_block;
mod past;
mod plan;
mod progress;
mod questions;
mod review;
mod settle;
mod theirs;
mod today;
mod weaving;
mod week;
mod weight;
mod welcome;

use crate::held::effect;
use crate::markup::{Tag, View, by_key, link, live, tag, when};
use crate::on_demand;
use crate::parts::nav;
use crate::route::Route;
use crate::state::App;
use crate::text::words;
use leptos::prelude::document;
use weekloom_engine::session::Phase;
use weekloom_store::{Space, Theme};

/// Everything: banners, the place one is at, and the bar of places.
#[must_use]
pub fn root() -> View {
    let app = App::here();
    effect(move || {
        let theme = match app.settings.with(|settings| settings.theme) {
            Theme::Auto => "auto",
            Theme::Light => "light",
            Theme::Dark => "dark",
        };
        if let Some(root) = document().document_element() {
            let _ = root.set_attribute("data-theme", theme);
        }
    });
    today::announce();
    let is_welcome = move || app.person.with(Option::is_none) && !app.is_reading();
    let has_nav = move || !is_welcome() && !is_lifting(app) && !app.is_reading();
    let screen = move || match (is_welcome(), app.space) {
        (true, Space::Demo) => on_demand::screen(Route::Crew),
        (true, Space::Own) => welcome::welcome(),
        (false, _) => place(),
    };
    tag("div", "")
        .class_if(has_nav, "with-nav", "")
        .with(banners::banners())
        .with(by_key(move || is_welcome().to_string(), screen))
        .with(when(has_nav, move || nav(app.route)))
        .with(banners::notice())
        .into()
}

/// A running session has the whole screen: nothing to tap by mistake.
fn is_lifting(app: App) -> bool {
    is_running(app) && app.route.with(|route| route.is_under(&Route::Today))
}

/// Whether a session is under way.
fn is_running(app: App) -> bool {
    app.session.with(|session| {
        session
            .as_ref()
            .is_some_and(|s| !matches!(s.phase, Phase::Finished { .. }))
    })
}

/// The screen of the present route. Sheets over Today do not rebuild it.
fn place() -> View {
    let app = App::here();
    let place = move || {
        let place = match app.route.get() {
            Route::TodaySheet(_) => Route::Today.hash(),
            other => other.hash(),
        };
        // The same place of another's log is another.
        if app.is_reading() { place + "*" } else { place }
    };
    let screen = move || match app.route.get_untracked() {
        other if app.reading.with_untracked(Option::is_some) => on_demand::screen(other),
        Route::Today | Route::TodaySheet(_) => today::today(),
        other => on_demand::screen(other),
    };
    by_key(place, screen)
}

/// The screen of a place whose code is fetched when it is first shown. Only the
/// entry point calls it: a call from elsewhere would put all of these into the
/// first load.
#[must_use]
pub fn desk(place: Route) -> View {
    if App::here().reading.with_untracked(Option::is_some) {
        theirs::within(place)
    } else {
        desk_of(place)
    }
}

/// The screen of a place, of whoever's log is before the app.
fn desk_of(place: Route) -> View {
    match place {
        // The rest of Today is in the first load.
        Route::Today => today::account(),
        Route::Week => week::week(),
        Route::TodaySheet(sheet) => today::sheet(sheet),
        Route::Settle(day) => settle::settle(day),
        Route::Away => away::away(),
        Route::Plan => plan::week(),
        Route::PlanItem(day, key) => plan::item(day, key),
        Route::PlanSwap(day, key) => plan::swap(day, key),
        Route::PlanAdd(day) => plan::add(day, None),
        Route::PlanFill(day, place) => plan::add(day, Some(place)),
        Route::PlanCycles => plan::cycles(),
        Route::PlanCycle(id) => plan::cycle(&id),
        Route::PlanCycleDay(id, day) => plan::cycle_day(&id, day),
        Route::PlanShape => plan::shape(),
        Route::PlanCards => plan::cards(),
        Route::PlanHand => plan::hand(),
        Route::PlanTake(text) => plan::taken(&text),
        Route::PlanCompare => compare::compare(),
        Route::Log => log::sessions(),
        Route::Review => review::last_weeks(),
        Route::Exercises => progress::exercises(),
        Route::Exercise(id) => progress::exercise(&id),
        Route::Muscles => progress::muscles(),
        Route::Weight => weight::weight(),
        Route::Year(year) => history::year(year),
        Route::NextBlock => next_block::next_block(),
        Route::LogSession(id) => past::one_session(&id),
        Route::OwnExercise(id) => kit::editor(&id),
        Route::Restore => kit::import(),
        Route::Answers => answers::questions(),
        Route::Crew => crew::crew(),
        Route::Kit(page) => kit::page(page),
    }
}

/// A page under its heading.
fn page(head: Tag) -> Tag {
    tag("main", "page").with(head)
}

/// Heading of a top-level place.
fn page_head(title: impl Into<View>) -> Tag {
    tag("header", "page__head").with(tag("h1", "").with(title))
}

/// Heading of a page under another, with the way back to it.
fn page_head_under(place: &Route, title: impl Into<View>) -> Tag {
    tag("header", "page__head")
        .with(back_to(place))
        .with(tag("h1", "").with(title))
}

fn back_to(place: &Route) -> Tag {
    link("back", place.hash(), way("\u{2190}")).with(words::BACK)
}

/// An arrow that points the other way where words run from right to left.
fn way(arrow: &'static str) -> Tag {
    tag("span", "way").attr("aria-hidden", "true").with(arrow)
}

/// To the page of published values, which is no part of the app: the session
/// stays where it is kept.
fn numbers_link() -> Tag {
    let to = link("", words::NUMBERS_AT.to_owned(), words::NUMBERS);
    tag("p", "small").with(to)
}

/// A softer line.
fn soft(text: impl Into<View>) -> Tag {
    tag("p", "soft").with(text)
}

/// A small softer line.
fn soft_small(text: impl Into<View>) -> Tag {
    tag("p", "soft small").with(text)
}

/// A softer line while there is something to say.
fn soft_live(text: impl Fn() -> Option<String> + 'static) -> View {
    live(move || text().map(soft))
}

/// A card with a heading.
fn card(title: impl Into<View>) -> Tag {
    tag("section", "card").with(tag("h2", "").with(title))
}

/// A list of lines of text.
fn list(lines: Vec<String>) -> Tag {
    let mut list = tag("ul", "stack");
    for line in lines {
        list = list.with(tag("li", "").with(line));
    }
    list
}
