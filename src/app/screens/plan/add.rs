//! One more exercise for a day: everything the kit allows, by pattern.

use crate::held::Held;
use crate::markup::{Tag, View, tag};
use crate::parts::{line_button, refusal};
use crate::route::{self, Route};
use crate::screens::{page, page_head_under};
use crate::state::App;
use crate::text::{reasons, terms, words};
use std::rc::Rc;
use weekloom_engine::catalogue::{Exercise, Pattern};
use weekloom_engine::plan::Edit;

/// Sets an added exercise starts with.
const SETS: u8 = 3;

/// Exercises to add to a day.
pub fn add(day: u8) -> View {
    let app = App::here();
    let error = Held::new(None);
    let choose = move |exercise: &Exercise| {
        let add = Edit::Add {
            day: usize::from(day),
            exercise: exercise.id.clone(),
            sets: SETS,
        };
        match app.edit(&add) {
            Ok(()) => route::replace(&Route::Plan),
            Err(refused) => error.set(Some(refused)),
        }
    };
    page(page_head_under(&Route::Plan, words::ADD_EXERCISE))
        .with(refusal(error))
        .with(exercise_picker(app, Rc::new(choose)))
        .into()
}

/// Every exercise the kit allows, folded by pattern.
pub fn exercise_picker(app: App, on_choose: Rc<dyn Fn(&'static Exercise)>) -> Tag {
    let person = app.person.get_untracked();
    let is_allowed = |e: &Exercise| {
        person
            .as_ref()
            .is_none_or(|p| p.kit.allows(e) && !p.excluded.contains(&e.id))
    };
    let mut card = tag("div", "card");
    for &pattern in Pattern::ALL {
        let mut lines = Vec::new();
        for exercise in app.catalogue().iter() {
            if exercise.pattern == pattern && is_allowed(exercise) {
                let on_choose = Rc::clone(&on_choose);
                let name = exercise.name.as_str();
                let line = line_button(name, reasons::trains(exercise), move || {
                    on_choose(exercise);
                });
                lines.push(line.into());
            }
        }
        if !lines.is_empty() {
            let folded = tag("details", "more")
                .with(tag("summary", "").with(terms::pattern(pattern)))
                .with(tag("ul", "lines").with(lines));
            card = card.with(folded);
        }
    }
    card
}
