//! Other exercises for one place of the plan, those first that keep the
//! week's sets best.

use crate::held::Held;
use crate::markup::{View, tag};
use crate::parts::{line_button, refusal};
use crate::route::{self, Route};
use crate::screens::{page, page_head_under, soft};
use crate::state::App;
use crate::text::{errors, reasons, words};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::plan::alternatives;

/// Exercises to put in the place of one.
pub fn swap(day: u8, key: u16) -> View {
    let app = App::here();
    let at = usize::from(day);
    let (name, options) = match (app.plan.get_untracked(), app.person.get_untracked()) {
        (Some(accepted), Some(person)) => {
            let name = app.name_in(&accepted.plan, key);
            let found = alternatives(app.catalogue(), &person, &accepted.plan, at, key);
            (name, found)
        }
        _ => ("".into(), Vec::new()),
    };
    let error = Held::new(None);
    let choose = move |exercise: &ExerciseId| {
        let (Some(accepted), Some(person)) = (app.plan.get_untracked(), app.person.get_untracked())
        else {
            return;
        };
        let swapped = accepted
            .plan
            .swap(app.catalogue(), &person, at, key, exercise);
        match swapped {
            Ok(plan) => {
                app.edit_plan(plan);
                route::replace(&Route::Plan);
            }
            Err(refused) => error.set(Some(errors::other(&refused))),
        }
    };
    let mut lines = tag("ul", "card lines");
    for option in options {
        let name = app.name_of(&option.exercise);
        let more = reasons::difference(&option.difference);
        lines = lines.with(line_button(name, more, move || choose(&option.exercise)));
    }
    let head = page_head_under(&Route::PlanItem(day, key), words::SWAP_FOR).with(soft(name));
    page(head).with(refusal(error)).with(lines).into()
}
