//! Other exercises for one place of the plan, those first that keep the
//! week's sets best.

use crate::route::{self, Route};
use crate::screens::PageHead;
use crate::state::App;
use crate::text::{errors, reasons, words};
use leptos::prelude::*;
use weekloom_engine::plan::{Alternative, alternatives};

/// Exercises to put in the place of one.
#[component]
pub fn Swap(day: u8, key: u16) -> impl IntoView {
    let app = App::here();
    let at = usize::from(day);
    let (name, options) = match (app.plan.get_untracked(), app.person.get_untracked()) {
        (Some(accepted), Some(person)) => {
            let name = app.name_in(&accepted.plan, key);
            let found = alternatives(&app.catalogue(), &person, &accepted.plan, at, key);
            (name, found)
        }
        _ => (String::new(), Vec::new()),
    };
    let error = RwSignal::new(None::<String>);
    let choose = move |alternative: &Alternative| {
        let (Some(accepted), Some(person)) = (app.plan.get_untracked(), app.person.get_untracked())
        else {
            return;
        };
        let swapped = accepted
            .plan
            .swap(&app.catalogue(), &person, at, key, &alternative.exercise);
        match swapped {
            Ok(plan) => {
                app.edit_plan(plan);
                route::replace(&Route::Plan);
            }
            Err(refused) => error.set(Some(errors::other(&refused))),
        }
    };
    view! {
        <main class="page">
            <PageHead
                title=Signal::stored(words::SWAP_FOR.to_owned())
                more=Some(name)
                back=Route::PlanItem(day, key)
            />
            {move || {
                error.get().map(|text| view! { <p class="field__error" role="alert">{text}</p> })
            }}
            <ul class="card lines">
                {options
                    .into_iter()
                    .map(|option| {
                        let more = reasons::difference(&option.difference);
                        view! {
                            <li>
                                <button
                                    type="button"
                                    class="line"
                                    on:click={
                                        let option = option.clone();
                                        move |_| choose(&option)
                                    }
                                >
                                    <span class="line__name">{app.name_of(&option.exercise)}</span>
                                    <span class="line__more">{more}</span>
                                </button>
                            </li>
                        }
                    })
                    .collect_view()}
            </ul>
        </main>
    }
}
