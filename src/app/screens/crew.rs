//! Whose invented logs the demonstration shows.

use super::page;
use crate::markup::{View, button, tag};
use crate::state::{App, Saving};
use crate::text::{errors, words};
use weekloom_store::demo::{self, Crew};

/// The crew to choose from.
pub fn crew() -> View {
    let app = App::here();
    let mut crew = tag("div", "stack");
    for &member in &Crew::ALL {
        let begin = move || begin(app, member);
        crew = crew.with(button("button button--wide", member.title(), begin));
    }
    page(tag("h1", "").with(words::DEMO_WHO))
        .with(tag("p", "").with(words::DEMO_MORE))
        .with(crew)
        .into()
}

/// Fills the demonstration with the logs of one of the crew.
fn begin(app: App, member: Crew) {
    let today = app.today.get_untracked();
    match app.ask(|store| demo::changes(store, app.catalogue(), member, today)) {
        Ok(changes) => app.replace_with(changes),
        Err(error) => app.saving.set(Saving::Refused(errors::store(&error))),
    }
}
