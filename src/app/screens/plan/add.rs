//! One more exercise for a day: everything the kit allows, by pattern.

use crate::route::{self, Route};
use crate::screens::PageHead;
use crate::state::App;
use crate::text::{errors, reasons, terms, words};
use leptos::prelude::*;
use weekloom_engine::catalogue::{Exercise, Pattern};

/// Sets an added exercise starts with.
const SETS: u8 = 3;

/// Exercises to add to a day.
#[component]
pub fn Add(day: u8) -> impl IntoView {
    let app = App::here();
    let error = RwSignal::new(None::<String>);
    let choose = Callback::new(move |exercise: Exercise| {
        let (Some(accepted), Some(person)) = (app.plan.get_untracked(), app.person.get_untracked())
        else {
            return;
        };
        let added = accepted.plan.add(
            &app.catalogue(),
            &person,
            usize::from(day),
            &exercise.id,
            SETS,
        );
        match added {
            Ok(plan) => {
                app.edit_plan(plan);
                route::replace(&Route::Plan);
            }
            Err(refused) => error.set(Some(errors::other(&refused))),
        }
    });
    view! {
        <main class="page">
            <PageHead title=Signal::stored(words::ADD_EXERCISE.to_owned()) back=Route::Plan />
            {move || {
                error.get().map(|text| view! { <p class="field__error" role="alert">{text}</p> })
            }}
            <ExercisePicker on_choose=choose />
        </main>
    }
}

/// Every exercise the kit allows, folded by pattern.
#[component]
pub fn ExercisePicker(on_choose: Callback<Exercise>) -> impl IntoView {
    let app = App::here();
    let person = app.person.get_untracked();
    let catalogue = app.catalogue();
    let of = |pattern: Pattern| -> Vec<Exercise> {
        catalogue
            .iter()
            .filter(|e| e.pattern == pattern)
            .filter(|e| {
                person
                    .as_ref()
                    .is_none_or(|p| p.kit.allows(e) && !p.excluded.contains(&e.id))
            })
            .cloned()
            .collect()
    };
    view! {
        <div class="card">
            {Pattern::ALL
                .iter()
                .map(|&pattern| (pattern, of(pattern)))
                .filter(|(_, found)| !found.is_empty())
                .map(|(pattern, found)| {
                    view! {
                        <details class="more">
                            <summary>{terms::pattern(pattern)}</summary>
                            <ul class="lines">
                                {found
                                    .into_iter()
                                    .map(|exercise| {
                                        view! {
                                            <li>
                                                <button
                                                    type="button"
                                                    class="line"
                                                    on:click={
                                                        let exercise = exercise.clone();
                                                        move |_| on_choose.run(exercise.clone())
                                                    }
                                                >
                                                    <span class="line__name">{exercise.name.clone()}</span>
                                                    <span class="line__more">
                                                        {reasons::trains(&exercise)}
                                                    </span>
                                                </button>
                                            </li>
                                        }
                                    })
                                    .collect_view()}
                            </ul>
                        </details>
                    }
                })
                .collect_view()}
        </div>
    }
}
