//! Other exercises for one place of the plan, those first that keep the
//! week's sets best.

use crate::held::Held;
use crate::markup::{View, tag};
use crate::parts::{line_button, refusal};
use crate::route::{self, Route};
use crate::screens::{page, page_head_under, soft};
use crate::state::App;
use crate::text::{reasons, words};
use weekloom_engine::catalogue::ExerciseId;
use weekloom_engine::plan::{Edit, alternatives};

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
        let swap = Edit::Swap {
            day: at,
            key,
            exercise: exercise.clone(),
        };
        match app.edit(&swap) {
            Ok(()) => route::replace(&Route::Plan),
            Err(refused) => error.set(Some(refused)),
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
