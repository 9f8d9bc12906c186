//! What one sees: a module for each place of [`crate::route::Route`].

mod banners;
mod kit;
mod log;
mod plan;
mod questions;
mod today;
mod week;
mod welcome;

use crate::parts::Nav;
use crate::route::Route;
use crate::state::App;
use leptos::prelude::*;
use weekloom_engine::session::Phase;
use weekloom_store::{Space, Theme};

/// Everything: banners, the place one is at, and the bar of places.
#[component]
pub fn Root() -> impl IntoView {
    let app = App::here();
    Effect::new(move |_| {
        let theme = match app.settings.get().theme {
            Theme::Auto => "auto",
            Theme::Light => "light",
            Theme::Dark => "dark",
        };
        if let Some(root) = document().document_element() {
            let _ = root.set_attribute("data-theme", theme);
        }
    });
    let is_welcome = Memo::new(move |_| app.person.with(Option::is_none));
    // A running session has the whole screen: nothing to tap by mistake.
    let is_lifting = Memo::new(move |_| {
        app.session.with(|session| {
            session
                .as_ref()
                .is_some_and(|s| !matches!(s.phase, Phase::Finished { .. }))
        }) && app.route.with(|route| route.is_under(&Route::Today))
    });
    let has_nav = move || !is_welcome.get() && !is_lifting.get();
    view! {
        <div class:with-nav=has_nav>
            <banners::Banners />
            {move || {
                if is_welcome.get() && app.space == Space::Demo {
                    view! { <welcome::CrewChoice /> }.into_any()
                } else if is_welcome.get() {
                    view! { <welcome::Welcome /> }.into_any()
                } else {
                    view! { <Place /> }.into_any()
                }
            }}
            <Show when=has_nav>
                <Nav route=Signal::derive(move || app.route.get()) />
            </Show>
            <banners::Notice />
        </div>
    }
}

/// The screen of the present route. Sheets over Today do not rebuild it.
#[component]
fn Place() -> impl IntoView {
    let app = App::here();
    let place = Memo::new(move |_| match app.route.get() {
        Route::TodaySheet(_) => Route::Today,
        other => other,
    });
    move || match place.get() {
        Route::Today | Route::TodaySheet(_) => view! { <today::Today /> }.into_any(),
        Route::Week => view! { <week::Week /> }.into_any(),
        Route::Plan => view! { <plan::Week /> }.into_any(),
        Route::PlanItem(day, key) => view! { <plan::Item day key /> }.into_any(),
        Route::PlanSwap(day, key) => view! { <plan::Swap day key /> }.into_any(),
        Route::PlanAdd(day) => view! { <plan::Add day /> }.into_any(),
        Route::PlanShape => view! { <plan::Shape /> }.into_any(),
        Route::Log => view! { <log::Sessions /> }.into_any(),
        Route::LogSession(id) => view! { <log::OneSession id /> }.into_any(),
        Route::Kit(page) => view! { <kit::Page page /> }.into_any(),
    }
}

/// Heading of a page, with a way back where it lies under another.
#[component]
pub(crate) fn PageHead(
    /// Title.
    #[prop(into)]
    title: Signal<String>,
    /// Softer line below.
    #[prop(into, optional)]
    more: MaybeProp<String>,
    /// Where "back" leads; none on a top-level place.
    #[prop(optional)]
    back: Option<Route>,
) -> impl IntoView {
    view! {
        <header class="page__head">
            {back
                .map(|place| {
                    view! {
                        <a class="back" href=place.hash()>
                            "\u{2190} "
                            {crate::text::words::BACK}
                        </a>
                    }
                })}
            <h1>{title}</h1>
            {move || more.get().map(|more| view! { <p class="soft">{more}</p> })}
        </header>
    }
}
