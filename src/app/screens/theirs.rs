//! Somebody else's log, plan and review, read in place of one's own.
//!
//! Start at [`begin`]. The screens are those of one's own log over another
//! store; [`within`] leaves only those that change nothing.

use super::{desk_of, page, page_head, plan};
use crate::effects::clock;
use crate::markup::{Tag, View, button, link, tag};
use crate::route::{self, KitPage, Route};
use crate::state::{App, Reading};
use crate::text::{dates, errors, others as told, words};
use weekloom_store::backup::{self, Backup};

/// Shows somebody's log from now on.
///
/// # Errors
/// In words, where the file holds what cannot be put into a store.
pub fn begin(app: App, name: &str, backup: &Backup) -> Result<(), String> {
    let theirs = backup::alone(backup).map_err(|error| errors::store(&error))?;
    app.read_theirs(Some(theirs));
    show(
        app,
        Some(Reading {
            name: name.to_owned(),
            made: backup.made,
        }),
    );
    route::go(&Route::Log);
    Ok(())
}

/// Back to one's own.
fn end(app: App) {
    app.read_theirs(None);
    show(app, None);
    route::go(&Route::Kit(KitPage::Others));
}

fn show(app: App, reading: Option<Reading>) {
    // How the app looks and behaves is the reader's own business.
    let settings = app.settings.get_untracked();
    let is_theirs = reading.is_some();
    app.reading.set(reading);
    app.read_all();
    app.settings.set(settings);
    if is_theirs {
        // A session under way when the file was made cannot go on here.
        app.session.set(None);
    }
}

/// A screen of theirs, under a word on whose it is and the way back.
pub fn within(place: Route) -> View {
    let app = App::here();
    let screen = match place {
        Route::Log
        | Route::Review
        | Route::Exercises
        | Route::Exercise(_)
        | Route::Muscles
        | Route::Weight
        | Route::Year(_)
        | Route::LogSession(_) => desk_of(place),
        Route::Plan => their_plan(app),
        _ => desk_of(Route::Log),
    };
    vec![head(app).into(), screen].into()
}

fn head(app: App) -> Tag {
    // Beside the reader's own calendar: a file of last year says its year.
    let today = clock::day_of(app.now.get_untracked());
    let said = app.reading.with_untracked(|reading| {
        let reading = reading.as_ref()?;
        let made = dates::full_short(reading.made, today);
        Some(told::reading(&reading.name, &made))
    });
    let to = |place: Route, name| link("button", place.hash(), name);
    tag("div", "banner banner--theirs")
        .attr("role", "status")
        .with(said.map(|said| tag("p", "").with(said)))
        .with(
            tag("div", "row")
                .with(to(Route::Log, words::LOG))
                .with(to(Route::Plan, words::PLAN))
                .with(button("button", told::BACK_TO_MINE, move || end(app))),
        )
}

/// The plan they train by, as it stands with their kit and wishes.
fn their_plan(app: App) -> View {
    let shown = page(page_head(words::PLAN));
    let both = (app.person.get_untracked(), app.plan.get_untracked());
    let (Some(person), Some(accepted)) = both else {
        return shown.with(tag("p", "").with(told::NO_PLAN)).into();
    };
    shown
        .with(plan::looked_at(app.catalogue(), &accepted.plan, &person))
        .into()
}
